import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewPlanAnswer } from "../../../model/crew/index.ts";
import { movedWords } from "../../../web/crew/Exports.tsx";
import { shownPlan } from "../../../web/crew/shown-plan.ts";
import type { Checked } from "../../../web/crew/use-crew.ts";

const jobAt = (hour: number): CrewJobAnswer => ({
  fieldId: "creek",
  op: "mow",
  machineId: "mower",
  personId: "one",
  startUtc: `2026-07-01T${hour}:00:00Z`,
  endUtc: `2026-07-01T${hour + 2}:00:00Z`,
});
const answer = {
  jobs: [jobAt(12)],
  revision: 2,
  replay: [],
  changes: [],
  messages: [],
  windows: [],
  cautions: [{ fieldId: "creek", op: "bale", code: "wet", path: "", text: "Creek field: too wet." }],
  warnings: ["Creek field: too wet."],
  names: { fields: { creek: "Creek field" } },
} as unknown as CrewPlanAnswer;

test("the revision rises with every change of what was given out, and only then", () => {
  const revision = (moved: readonly CrewJobAnswer[] | null, given?: readonly CrewJobAnswer[], of = 2) =>
    shownPlan(answer, moved, null, given && { jobs: given, revision: of }).revision;
  expect(revision(null)).toBe(2);
  expect(revision([jobAt(14)])).toBe(2);
  expect(revision(null, [jobAt(12)], 5)).toBe(5);
  expect(revision([jobAt(14)], [jobAt(12)])).toBe(3);
  expect(revision(null, [jobAt(14)], 3)).toBe(4);
});

test("a plan moved by hand shows its own works, chances and messages", () => {
  const checked = {
    replay: [{}],
    changes: [],
    messages: [{}],
    windows: [],
    faults: [],
    feed: [{ fieldId: "creek", op: "mow", code: "hazard", path: "", text: "Creek field: test it." }],
  } as unknown as Checked;
  const shown = shownPlan(answer, [jobAt(14)], checked, undefined);
  expect(shown.jobs).toEqual([jobAt(14)]);
  expect([shown.replay.length, shown.messages.length]).toEqual([1, 1]);
  expect(shown.cautions.map(({ code }) => code)).toEqual(["wet", "hazard"]);
  expect(shown.warnings).toEqual(["Creek field: too wet.", "Creek field: test it."]);
  expect(shownPlan(shown, [jobAt(15)], { ...checked, feed: [] }, undefined).warnings).toEqual(
    answer.warnings,
  );
  expect(shownPlan(answer, null, checked, undefined)).toEqual(answer);
});

test("what leaves the page moved says so, and says where it cannot be done", () => {
  expect(movedWords(false, 0)).toBeNull();
  expect(movedWords(true, 0)).toMatch(/as you moved them\.$/);
  expect(movedWords(true, 1)).toMatch(/1 of them cannot be carried out/);
  expect(movedWords(false, 2)).toMatch(/hold works against weather/);
});
