import { expect, test } from "vitest";
import { drydownWithOdds } from "../../../model/odds/index.ts";
import { prepareWeather } from "../../../model/weather/index.ts";
import { withPast } from "../../../model/weather/with-past.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";
import { ROLLED_ALFALFA } from "../harvest/requests.ts";

/** Where the weather is uncertain a reading tells which of it came: the course that is shown goes with the bands. */

const START_UTC = "2026-07-01T05:00:00Z";
const CUT_UTC = "2026-07-01T15:00:00Z";
const HOUR_MS = 3_600_000;
/** A shower in the first night, 13 h after the cut, that the main forecast lacks. */
const SHOWER = { 23: 3, 24: 3 };
const dry = inventedSpell(PLACES.southDakota, START_UTC, 120);
const wet = inventedSpell(PLACES.southDakota, START_UTC, 120, { rainMm: SHOWER });
const members = Array.from({ length: 51 }, (_, i) => ({
  rainMm: (i % 3 === 0 ? wet : dry).hours.rainMm,
  airTempC: dry.hours.airTempC.map((c) => (c === null ? null : c + ((i % 5) - 2) / 2)),
}));

function courseWith(moistureWb: number | null, atH: number) {
  const atUtc = new Date(Date.parse(CUT_UTC) + atH * HOUR_MS).toISOString();
  const outcome = drydownWithOdds({
    weather: { ...dry, members },
    swath: ROLLED_ALFALFA,
    cutUtc: CUT_UTC,
    targetsWb: [0.2],
    readings: moistureWb === null ? [] : [{ atUtc, method: "oven", moistureWb }],
    draws: 204,
    seed: 3,
  });
  if (!outcome.ok || !outcome.value.odds) throw new Error("a course with odds");
  const { hours, odds, assumptions } = outcome.value;
  const at = hours.startUtc.findIndex((utc) => Date.parse(utc) + HOUR_MS >= Date.parse(atUtc));
  return { hours, odds, assumptions, at };
}

test.each([
  ["after a shower that the main forecast lacks", 24, 0.55],
  ["in a night without it", 24, 0.38],
])("the course passes where what was read lies, between the bands: %s", (_what, atH, wb) => {
  const { hours, odds, at } = courseWith(wb, atH);
  expect(odds.readings?.readings[0]?.used).toBe(true);
  const shown = hours.moistureWb[at] as number;
  expect(Math.abs(shown - (odds.moistureWb.p50[at] as number))).toBeLessThan(0.015);
  expect(shown).toBeGreaterThan(odds.moistureWb.p10[at] as number);
  expect(shown).toBeLessThan(odds.moistureWb.p90[at] as number);
});

test("a wetter reading tells no sooner hour than a drier one", () => {
  const reached = [0.36, 0.42, 0.5, 0.56].map((wb) => {
    const { hours, at } = courseWith(wb, 24);
    return hours.moistureWb.findIndex((own, i) => i > at && own <= 0.2);
  });
  // To the hour: each is the course of another draw.
  for (const [i, hour] of reached.entries()) expect(hour).toBeGreaterThanOrEqual((reached[i - 1] ?? 0) - 1);
  expect(reached[0]).toBeGreaterThan(0);
});

test("the course says whose weather it takes, and until when; without a reading it is the main forecast's", () => {
  const bent = courseWith(0.55, 24);
  expect(bent.assumptions.join(" ")).toContain("Until the last reading that counts");
  expect(courseWith(null, 24).assumptions.join(" ")).not.toContain("Until the last reading");
});

test("a weather with another's past has its hours that begin before the moment, and is itself where they are alike", () => {
  const [main, past] = [dry, wet].map((series) => {
    const made = prepareWeather(series);
    if (!made.ok) throw new Error("weather");
    return made.value.weather;
  });
  if (!main || !past) throw new Error("two weathers");
  const at = (hour: number) => main.startUtcMs + hour * HOUR_MS;
  expect(withPast(main, past, at(23))).toBe(main);
  const half = withPast(main, past, at(23) + 1);
  expect([...half.rainMm.slice(22, 26)]).toEqual([0, 3, 0, 0]);
  expect([...withPast(main, past, at(25)).rainMm.slice(22, 26)]).toEqual([0, 3, 3, 0]);
  expect(half.count).toBe(main.count);
});
