import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { shownPlan } from "../../../web/crew/shown-plan.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

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

test("one more chopper is told with carts of its own, where carts follow it", async () => {
  const machines = [
    ...request.machines.filter(({ kind }) => kind !== "baler"),
    { id: "chopper-1", kind: "chopper" as const, haPerH: 1.5 },
    { id: "cart-1", kind: "cart" as const, haPerH: 1.5 },
  ];
  const fields = request.fields.map((field) => ({
    ...field,
    route: "wilted-chop" as const,
    ops: ["mow", "chop"] as const,
    bandWb: [0.2, 0.7] as const,
  }));
  const { help } = await answered({ timeLimitS: 0, machines, fields });
  expect(help?.text).toMatch(/^One more chopper with carts of its own brings \d+ more in value\b/);
});

const utc = (hours: number) =>
  new Date(Date.parse(FROM_UTC) + hours * 3_600_000).toISOString().replace(".000Z", "Z");
/** Wrapped bales, mown and baled at held hours. */
const wrapped = (baled: number): Partial<CrewPlanRequest> => ({
  fields: [crewField("creek", { name: "Creek field", route: "wrapped-bales", ops: ["mow", "bale"] })],
  fixed: [
    { fieldId: "creek", op: "mow", machineId: "mower-1", startUtc: utc(9), endUtc: utc(11) },
    { fieldId: "creek", op: "bale", machineId: "baler-1", startUtc: utc(baled), endUtc: utc(baled + 4) },
  ],
  timeLimitS: 0,
});

test("wrapped bales held at an hour that is too wet: the hour that would do is what helps", async () => {
  const { help, replay } = await answered(wrapped(12));
  expect(replay[0]?.atRisk).toBe(true);
  expect(help).toMatchObject({ kind: "other-hour", fieldId: "creek" });
  expect(help?.text).toMatch(
    /^Creek field with baling \w{3} \d Jul \d\d:\d\d instead of Wed 1 Jul 12:00: worth \d+ more\.$/,
  );
});

test("where no hour would do, the route that takes it wetter helps, if there is a machine for it", async () => {
  const machines = request.machines.map((one) => ({ ...one }));
  const chopper = { id: "chopper-1", kind: "chopper" as const };
  // Nobody is at work when it would be dry enough, and nothing is known of the day after.
  const sites = { s1: { series: spellWithMembers(1, 0, 9) } };
  const people = request.people.map((one) => ({ ...one, to: "16:00" }));
  const short = { ...wrapped(12), sites, people };
  const { help } = await answered({ ...short, machines: [...machines, chopper] });
  expect(help).toMatchObject({ kind: "wilted-chop", fieldId: "creek" });
  expect(help?.text).toMatch(/^Creek field as wilted chop instead of wrapped bales: worth \d+ more\.$/);
  const without = await answered({ ...short, machines });
  expect(without.help).toBeNull();
  expect(without.noHelp).toBe(
    "Nothing was found that would help: neither an hour more each evening, a machine nor a person more, nor another hour or route for Creek field.",
  );
});

test("where every field is in and nothing brings more, that is said, and not of a plan that was moved", async () => {
  const few = request.fields.slice(0, 1);
  const answer = await answered({ fields: few, timeLimitS: 0 });
  expect([answer.left, answer.help]).toEqual([[], null]);
  expect(answer.noHelp).toMatch(/^Every field finds its place and none is told to be at risk: /);
  expect(shownPlan(answer, null, null, undefined).noHelp).toBe(answer.noHelp);
  expect(shownPlan(answer, answer.jobs, null, undefined).noHelp).toBeUndefined();
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
