import { expect, test } from "vitest";
import { rainDays } from "../../../model/odds/rain-days.ts";

const START_MS = Date.parse("2026-07-01T05:00:00Z"); // midnight in Chicago
const HOURS = 60;

/** Weather with rain at these hours. */
function rainAt(hours: Readonly<Record<number, number>>) {
  const rainMm = new Float64Array(HOURS);
  for (const [hour, mm] of Object.entries(hours)) rainMm[Number(hour)] = mm;
  return { startUtcMs: START_MS, count: HOURS, rainMm };
}

const end = (hours: number) => START_MS + hours * 3_600_000;

test("a day's chance is the share of the weathers with more than 1 mm between its midnights, worked by hand", () => {
  const weathers = [
    rainAt({ 23: 1.2 }), // the last hour of the first day
    rainAt({ 24: 0.6, 47: 0.6 }), // both on the second
    rainAt({ 10: 1, 50: 4 }), // 1 mm is not more than 1 mm; the third day is cut short
    rainAt({}),
  ];
  expect(rainDays(weathers, START_MS, end(HOURS), "America/Chicago")).toEqual([
    // Type 7: 0.9 of the way along 0, 0, 1, 1.2; 0, 0, 0, 1.2; 0, 0, 0, 4.
    { dateLocal: "2026-07-01", chance: 0.25, p90Mm: expect.closeTo(1.14, 9) },
    { dateLocal: "2026-07-02", chance: 0.25, p90Mm: expect.closeTo(0.84, 9) },
    { dateLocal: "2026-07-03", chance: 0.25, p90Mm: expect.closeTo(2.8, 9) },
  ]);
});

test("days are the farm's, and what has fallen already on the first counts", () => {
  const weathers = [rainAt({ 2: 3 }), rainAt({})];
  const days = rainDays(weathers, end(20), end(30), "America/Chicago");
  expect(days).toEqual([
    { dateLocal: "2026-07-01", chance: 0.5, p90Mm: expect.closeTo(2.7, 9) },
    { dateLocal: "2026-07-02", chance: 0, p90Mm: 0 },
  ]);
  // In Kolkata the same hours are 10:30 to 16:30 of the next day.
  expect(rainDays(weathers, end(0), end(30), "Asia/Kolkata").map(({ dateLocal }) => dateLocal)).toEqual([
    "2026-07-01",
    "2026-07-02",
  ]);
  expect(rainDays([rainAt({ 13: 3 }), rainAt({ 14: 3 })], end(0), end(30), "Asia/Kolkata")[0]?.chance).toBe(
    0.5,
  );
});

test("a day of 23 or 25 hours holds all of its own", () => {
  const startUtcMs = Date.parse("2026-10-25T00:00:00Z");
  const rainMm = new Float64Array(48);
  rainMm[22] = 2; // 23:00 in Berlin, an hour later than on other days
  const days = rainDays(
    [{ startUtcMs, count: 48, rainMm }],
    startUtcMs,
    startUtcMs + 48 * 3_600_000,
    "Europe/Berlin",
  );
  expect(days.slice(0, 2)).toEqual([
    { dateLocal: "2026-10-25", chance: 1, p90Mm: 2 },
    { dateLocal: "2026-10-26", chance: 0, p90Mm: 0 },
  ]);
});

test("without any weather there is nothing to tell", () => {
  expect(() => rainDays([], START_MS, end(24), "UTC")).toThrow("needs at least one weather");
});
