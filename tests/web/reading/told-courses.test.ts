import { expect, test } from "vitest";
import { readMet } from "../../../web/reading/met.ts";
import { learnedKey, type Reading, weatherKey } from "../../../web/reading/readings.ts";
import { keepToldCourse, metToldCourses, readTold } from "../../../web/reading/told-courses.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import type { Picture } from "../../../web/state/state.ts";
import { deviceStorage } from "../../support/device-storage.ts";

const CUT = "2026-07-01T14:00:00Z/all";
const SWATH = { coveredFraction: 0.7 };

deviceStorage();

/** A forecast had at this hour, whose bands begin here and fall a tenth an hour. */
function told(
  fetchedUtc: string,
  p50: number,
  change: { swath?: object; route?: string; kind?: string } = {},
) {
  const column = (from: number) => [from, from - 0.1, from - 0.2];
  const course = {
    hours: { startUtc: ["2026-07-01T15:00:00Z", "2026-07-01T16:00:00Z", "2026-07-01T17:00:00Z"] },
    odds: {
      readings: null,
      moistureWb: {
        p10: column(p50 - 0.1),
        p25: column(p50 - 0.05),
        p50: column(p50),
        p75: column(p50 + 0.05),
        p90: column(p50 + 0.1),
      },
    },
  };
  const series = { issuedUtc: null, fetchedUtc, hours: { startUtc: [] } };
  return {
    inputs: DEMO_INPUTS,
    source: { kind: change.kind ?? "forecast", id: "s", place: { latitude: 44, longitude: -98 }, series },
    request: { swath: change.swath ?? SWATH },
    course: { optionId: CUT, route: change.route ?? "dry-hay", course },
  } as unknown as Picture;
}

const NOW = told("2026-07-01T16:00:00Z", 0.7);
const reading: Reading = {
  optionId: CUT,
  weather: weatherKey(NOW.source),
  field: learnedKey(DEMO_INPUTS.fieldName, DEMO_INPUTS.crop),
  request: { atUtc: "2026-07-01T16:30:00Z", method: "oven", moistureWb: 0.66 },
  place: "",
  keptMs: 0,
};

test("a reading scores the earlier forecasts of its cut, each from when it was had, and once", () => {
  for (const one of [
    told("2026-06-30T06:00:00Z", 0.8),
    told("2026-07-01T06:00:00Z", 0.75),
    // Had after the reading, in another swath, by another route, and invented.
    told("2026-07-01T17:00:00Z", 0.71),
    told("2026-06-29T06:00:00Z", 0.72, { swath: { coveredFraction: 0.4 } }),
    told("2026-06-28T06:00:00Z", 0.73, { route: "wilted-chop" }),
    told("2026-06-27T06:00:00Z", 0.74, { kind: "sample" }),
    NOW,
  ])
    keepToldCourse(one);
  expect(readTold()).toHaveLength(6);
  metToldCourses(NOW, reading);
  metToldCourses(NOW, reading);
  // Half way between the hour ends at 16:00 and 17:00; the forecast shown now is scored by its draws, not here.
  expect(readMet().map(({ issuedUtc, bandsWb, had }) => [issuedUtc, bandsWb?.p50, had])).toEqual([
    ["2026-06-30T06:00:00Z", expect.closeTo(0.75, 9), true],
    ["2026-07-01T06:00:00Z", expect.closeTo(0.7, 9), true],
  ]);
  // An interval is no number to score by, and what lies outside the hours has none.
  metToldCourses(NOW, {
    ...reading,
    request: { atUtc: reading.request.atUtc, method: "hand-squeeze", range: [0.6, 0.7] },
  });
  metToldCourses(NOW, { ...reading, request: { ...reading.request, atUtc: "2026-07-04T16:30:00Z" } });
  expect(readMet()).toHaveLength(2);
});

test("of one forecast the last levers stand; a course that was measured is not kept, and old ones go", () => {
  keepToldCourse(told("2026-06-30T06:00:00Z", 0.8, { swath: { coveredFraction: 0.4 } }));
  keepToldCourse(told("2026-06-30T06:00:00Z", 0.7));
  expect(readTold().map(({ bandsWb }) => bandsWb.p50[0])).toEqual([0.7]);
  const measured = structuredClone(told("2026-07-01T06:00:00Z", 0.6)) as unknown as {
    course: { course: { odds: { readings: object | null } } };
  };
  measured.course.course.odds.readings = {};
  keepToldCourse(measured as unknown as Picture);
  expect(readTold()).toHaveLength(1);
  for (let hour = 0; hour < 30; hour += 1)
    keepToldCourse(told(new Date(Date.UTC(2026, 6, 1, hour)).toISOString(), 0.6));
  expect(readTold()).toHaveLength(24);
  expect(readTold().at(-1)?.issuedUtc).toBe("2026-07-02T05:00:00.000Z");
});
