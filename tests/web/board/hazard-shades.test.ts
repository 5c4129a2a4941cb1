import { expect, test } from "vitest";
import type { CutOptionAnswer, RouteHazard, WindowsAnswer } from "../../../model/harvest/answer.ts";
import { scaleOf } from "../../../web/board/calendar.ts";
import { hazardSentence, hazardShades, hazardTexts } from "../../../web/board/hazard-shades.ts";
import { metric24 } from "../../support/manners.ts";

const at = (day: number) => `2026-07-0${day}T12:00:00Z`;
const wait: RouteHazard = {
  code: "nitrate-after-rain",
  level: "wait",
  sinceUtc: at(1),
  untilUtc: at(6),
};
const why = [{ code: wait.code, atUtc: at(1), moistureWb: null, text: "Rain has restarted growth." }];
const option = {
  id: "cut",
  kind: "swath",
  cutUtc: at(3),
  routes: [
    { route: "dry-hay", hazards: [wait], why },
    { route: "wrapped-bales", hazards: [wait], why },
  ],
} as unknown as CutOptionAnswer;
const answer = { options: [option], hazards: [] } as unknown as WindowsAnswer;

test("a cut inside a wait is shaded once, inside the days in view, and says until when", () => {
  const scale = scaleOf(Date.parse(at(2)), Date.parse(at(9)), 100, 800);
  expect(hazardShades(answer, option, scale)).toEqual([{ level: "wait", x0: 100, x1: 500 }]);
  expect(hazardSentence(answer, option, metric24("UTC"))).toBe(
    "Wait: nitrate after rain on a dry crop, counted until Mon 6 Jul 12:00.",
  );
  expect(hazardTexts(option)).toEqual(["Rain has restarted growth."]);
});

test("a standing row with many spans of one kind tells the first two and counts the others", () => {
  const soft = [1, 2, 3, 4, 5].map((day) => ({
    route: "direct-chop" as const,
    code: "soil-too-wet" as const,
    level: "wait" as const,
    startUtc: at(day),
    endUtc: `2026-07-0${day}T18:00:00Z`,
    sinceUtc: at(day),
    text: "",
    source: "",
  }));
  const standing = {
    id: "s",
    kind: "standing",
    cutUtc: null,
    routes: [{ route: "direct-chop", hazards: [], why: [] }],
  };
  const all = { options: [standing], hazards: soft } as unknown as WindowsAnswer;
  expect(hazardSentence(all, standing as unknown as CutOptionAnswer, metric24("UTC"))).toBe(
    "Wait: soft soil, counted until Wed 1 Jul 18:00, Thu 2 Jul 18:00 and 3 more.",
  );
});
