import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewOp } from "../../../model/crew/index.ts";
import { asIn, doneBy, movedBy, movedLoose, withHeld, without } from "../../../web/crew/held-works.ts";
import { crewField, crewRequest } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const job = (fieldId: string, op: CrewOp, hour: number): CrewJobAnswer => ({
  ...{ fieldId, op, machineId: "mower-1", personId: "a" },
  startUtc: `2026-07-02T${hour}:00:00Z`,
  endUtc: `2026-07-02T${hour + 2}:00:00Z`,
});
const planned = [job("creek", "mow", 14), job("hill", "mow", 16)];
const [creek, hill] = planned as [CrewJobAnswer, CrewJobAnswer];

test("works that were moved and are not held are counted: planning again keeps them nowhere", () => {
  const moved = [movedBy(creek, HOUR_MS), hill];
  expect(movedLoose(planned, moved, () => false)).toBe(1);
  expect(movedLoose(planned, moved, ({ fieldId }) => fieldId === "creek")).toBe(0);
  expect(movedLoose(planned, planned, () => false)).toBe(0);
  expect(movedLoose(planned, [{ ...creek, personId: "b" }, hill], () => false)).toBe(1);
  expect(movedLoose(planned, [creek, { ...hill, machineId: "mower-2" }], () => false)).toBe(1);
  expect(movedLoose(planned, [movedBy(creek, HOUR_MS), movedBy(hill, -HOUR_MS)], () => false)).toBe(2);
});

test("a work given to another machine takes as long as that one takes, carts that follow it counted", () => {
  const machines = [
    { id: "mower-1", kind: "mower", haPerH: 4 },
    { id: "mower-2", kind: "mower", haPerH: 2 },
    { id: "rake-1", kind: "rake", haPerH: 5 },
    { id: "chopper-1", kind: "chopper", haPerH: 4 },
    { id: "chopper-2", kind: "chopper", haPerH: 4 },
    { id: "cart-1", kind: "cart", haPerH: 4 },
    { id: "cart-2", kind: "cart", haPerH: 1 },
  ] as const;
  const asked = crewRequest({ machines, fields: [crewField("creek", { areaHa: 7 })] });
  const plan = { slotMin: 60, carts: { "chopper-1": ["cart-1"], "chopper-2": ["cart-2"] } };
  // 7 ha at 2 ha/h, in whole hours.
  expect(doneBy(creek, { machineId: "mower-2" }, asked, plan)).toEqual({
    ...{ ...creek, machineId: "mower-2" },
    endUtc: "2026-07-02T18:00:00Z",
  });
  expect(doneBy(creek, { personId: "b" }, asked, plan)).toEqual({ ...creek, personId: "b" });
  const chopped = { ...creek, op: "chop" as const, machineId: "chopper-1" };
  expect(doneBy(chopped, { machineId: "chopper-2" }, asked, plan)?.endUtc).toBe("2026-07-02T21:00:00Z");
  // Theirs already, of another kind, of nobody.
  for (const hands of [{ machineId: "mower-1" }, { machineId: "rake-1" }, { machineId: "gone" }])
    expect(doneBy(creek, hands, asked, plan)).toBeNull();
});

test("what is held goes back with the plan to where the plan has it", () => {
  expect(asIn(planned, [movedBy(hill, HOUR_MS)])).toEqual([hill]);
  expect(asIn([], [hill])).toEqual([hill]);
});

test("a work that the question holds is held as it says, until somebody moves it or lets it go", () => {
  const ofFile = { fieldId: "creek", op: "mow" as const, machineId: "mower-1", startUtc: creek.startUtc };
  const asked = crewRequest({
    fixed: [ofFile, { ...ofFile, fieldId: "hill", endUtc: hill.endUtc, startUtc: hill.startUtc }],
  });
  // Whoever does it in the plan is held with it.
  expect(withHeld(asked, planned).fixed).toEqual(asked.fixed?.map((one) => ({ ...one, personId: "a" })));
  const other = { ...creek, machineId: "mower-2", personId: "b" };
  expect(withHeld(asked, [other]).fixed?.find(({ fieldId }) => fieldId === "creek")).toEqual({
    ...ofFile,
    ...{ machineId: "mower-2", personId: "b" },
  });
  const later = movedBy(hill, HOUR_MS);
  // As long as the file said it takes.
  expect(withHeld(asked, [later]).fixed).toEqual([
    ofFile,
    { ...ofFile, fieldId: "hill", personId: "a", startUtc: later.startUtc, endUtc: later.endUtc },
  ]);
  const free = { ...asked, fixed: without(asked.fixed ?? [], hill) };
  expect(withHeld(free, []).fixed).toEqual([ofFile]);
});
