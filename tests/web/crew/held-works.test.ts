import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewOp } from "../../../model/crew/index.ts";
import { asIn, movedBy, movedLoose, withHeld, without } from "../../../web/crew/held-works.ts";
import { crewRequest } from "../../support/crew/requests.ts";

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
  expect(movedLoose(planned, [movedBy(creek, HOUR_MS), movedBy(hill, -HOUR_MS)], () => false)).toBe(2);
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
  expect(withHeld(asked, planned).fixed).toEqual(asked.fixed);
  const later = movedBy(hill, HOUR_MS);
  // As long as the file said it takes.
  expect(withHeld(asked, [later]).fixed).toEqual([
    ofFile,
    { ...ofFile, fieldId: "hill", personId: "a", startUtc: later.startUtc, endUtc: later.endUtc },
  ]);
  const free = { ...asked, fixed: without(asked.fixed ?? [], hill) };
  expect(withHeld(free, []).fixed).toEqual([ofFile]);
});
