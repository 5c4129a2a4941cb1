import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { checkCrewRequest } from "../../../model/crew/request-checks.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const series = spellWithMembers(4, 0);
const request = crewRequest({
  sites: { s1: { series }, s2: { series } },
  fields: [crewField("creek"), crewField("hill", { siteId: "s2" })],
  travelMin: { "s1|s2": 40 },
  machines: [
    ...["mower", "tedder", "rake", "baler"].map((kind) => ({ id: `${kind}-1`, kind: kind as "mower" })),
    { id: "mower-2", kind: "mower" },
  ],
  people: ["p0", "p1"].map((id) => ({ id, from: "07:00", to: "20:00" })),
  horizonDays: 3,
});
const fixed = (fieldId: string, machineId: string, hour: number, over = {}) => ({
  fieldId,
  op: "mow" as const,
  machineId,
  startUtc: `2026-07-01T${String(hour).padStart(2, "0")}:00:00Z`,
  ...over,
});
const messages = (over: Partial<CrewPlanRequest>) => {
  const outcome = buildGrid({ ...request, ...over });
  return outcome.ok ? [] : outcome.issues.map(({ message }) => message);
};

test("fixed work without a name goes to somebody who is free of other fixed work", () => {
  const outcome = buildGrid({
    ...request,
    fixed: [fixed("creek", "mower-1", 15), fixed("hill", "mower-2", 15, { personId: "p0" })],
  });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  expect(outcome.value.grid.fields.map(({ tasks }) => tasks[0]?.fixed?.person)).toEqual([1, 0]);
});

test("one person or machine in two places is refused, the drive included", () => {
  const p0 = { personId: "p0" };
  expect(
    messages({ fixed: [fixed("creek", "mower-1", 15, p0), fixed("hill", "mower-2", 15, p0)] }).join(),
  ).toBe('fixed[1].startUtc: got 2026-07-01T15:00:00Z; p0 must be free then, and is fixed at "creek"');
  const people = request.people.slice(0, 1);
  expect(
    messages({ people, fixed: [fixed("creek", "mower-1", 15), fixed("hill", "mower-2", 15)] }).join(),
  ).toContain("fixed[1].startUtc: got 2026-07-01T15:00:00Z; somebody must be free then");
  const built = buildGrid({ ...request, fixed: [fixed("creek", "mower-1", 15)] });
  if (!built.ok) throw new Error("built");
  const held = built.value.grid.fields[0]?.tasks[0]?.fixed;
  const slots = (held?.end ?? 0) - (held?.start ?? 0);
  const at = (hour: number) =>
    messages({ fixed: [fixed("creek", "mower-1", 15), fixed("hill", "mower-1", hour)] });
  expect(at(15 + slots).join()).toContain(
    'mower-1 must be free then, and is fixed at "creek" or on the drive between the two',
  );
  expect(at(16 + slots)).toEqual([]);
});

test("fixed work of a field out of order is refused and both are named", () => {
  const said = messages({
    fixed: [
      fixed("creek", "baler-1", 15, { op: "bale" }),
      fixed("creek", "mower-1", 15, { startUtc: "2026-07-02T15:00:00Z" }),
    ],
  });
  expect(said).toEqual([
    'fixed[1].startUtc: got 2026-07-02T15:00:00Z; mow of "creek" (fixed at 2026-07-02T15:00:00Z) must end before its bale (fixed at 2026-07-01T15:00:00Z) starts',
  ]);
});

test("work done stays done when its machine and its person have left", async () => {
  const job = { fieldId: "creek", op: "mow" as const, machineId: "sold", personId: "gone" };
  const done = { ...job, startUtc: "2026-07-01T13:00:00Z", endUtc: "2026-07-01T16:00:00Z" };
  const asked: CrewPlanRequest = {
    ...request,
    fields: request.fields.slice(0, 1),
    machines: request.machines.filter(({ kind }) => kind !== "mower"),
    nowUtc: "2026-07-01T18:00:00Z",
    previous: { jobs: [done] },
  };
  expect(checkCrewRequest(asked)).toEqual([]);
  const outcome = buildGrid(asked);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const answer = await planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
  const mowings = answer.jobs.filter(({ op }) => op === "mow");
  expect(mowings).toHaveLength(1);
  expect(mowings[0]).toMatchObject({ ...job, startUtc: done.startUtc });
  expect(answer.jobs.filter(({ personId }) => personId === "gone")).toHaveLength(1);
});

test("sites that share no hours are told so", () => {
  const startUtc = series.hours.startUtc.map((utc) => utc.replace("2026-07", "2026-08"));
  const later = { ...series, hours: { ...series.hours, startUtc } };
  expect(messages({ sites: { s1: { series }, s2: { series: later } } }).join()).toContain(
    "the sites share no hours, and must share at least 24 h",
  );
});

test("work held outside the window of its mowing keeps its caution", async () => {
  const outcome = buildGrid({
    ...request,
    fixed: [fixed("creek", "mower-1", 15), fixed("creek", "baler-1", 22, { op: "bale" })],
  });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const answer = await planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
  expect(answer.warnings).toContain(
    "creek: baling is outside the window that its mowing opens: it is held there all the same.",
  );
});
