import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

/** Three dry days, and more to bale than one slow baler can take in its windows. */
const request = crewRequest({
  sites: { s1: { series: spellWithMembers(4, 0, 3) } },
  fields: ["creek", "hill", "mill", "oak", "ford"].map((id) =>
    crewField(id, { areaHa: 10, ops: ["mow", "rake", "bale"] }),
  ),
  machines: [
    { id: "mower-1", kind: "mower", haPerH: 10 },
    { id: "mower-2", kind: "mower", haPerH: 10 },
    { id: "mower-3", kind: "mower", haPerH: 10 },
    { id: "rake-1", kind: "rake", haPerH: 10 },
    { id: "baler-1", kind: "baler", haPerH: 2.5 },
  ],
  people: ["a", "b", "c"].map((id) => ({ id, from: "07:00", to: "20:00" })),
});

async function answered(over: Partial<CrewPlanRequest>) {
  const outcome = buildGrid({ ...request, ...over });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0 });
}

test("the one change that helps most is the machine that is short, with what it brings", async () => {
  const { help, left, value } = await answered({ timeLimitS: 0 });
  expect(left.length).toBeGreaterThan(0);
  expect(help).toMatchObject({ kind: "machine", machineKind: "baler" });
  expect(help?.text).toMatch(/^One more baler brings \d+ more in value\.$/);
  // With that baler the plan is worth what was told, or more: the search for it was a short one.
  const machines = [...request.machines, { id: "baler-2", kind: "baler" as const, haPerH: 2.5 }];
  const more = await answered({ machines, timeLimitS: 0 });
  expect(more.value).toBeGreaterThanOrEqual(value + (help?.gain ?? Number.NaN) - 1e-6);
});

test("plans compared: as promised, best and robust, each replayed", async () => {
  const first = await answered({ timeLimitS: 0 });
  const baler = request.machines.map((one) => (one.kind === "baler" ? { ...one, haPerH: 5 } : one));
  const { compared } = await answered({ machines: baler, previous: first, compare: true, timeLimitS: 0 });
  expect(compared?.map(({ plan }) => plan)).toEqual(["promised", "best", "robust"]);
  const [promised, best] = compared ?? [];
  expect(promised?.value).toBeNull();
  expect(best?.faults).toBe(0);
  expect(best?.served).toBeGreaterThanOrEqual(promised?.served ?? Number.NaN);
  expect(best?.expected).toBeGreaterThanOrEqual(promised?.expected ?? Number.NaN);
});
