import { expect, test } from "vitest";
import { findWindowsWithOdds } from "../../../model/harvest/board-odds.ts";
import { askedWeather } from "../../../web/app/question.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { exampleWindows } from "../../support/requests.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const series = inventedSpell(PLACES.southDakota, "2015-07-19T05:00:00Z", 96);
const endMs = Date.parse("2015-07-23T05:00:00Z");
const HOUR_MS = 3_600_000;
const file = (own = {}): WeatherSource => ({
  kind: "upload",
  name: "station.csv",
  missing: 0,
  series: { ...series, ...own },
});

const weatherOfOdds = (source: WeatherSource, nowMs: number) => {
  const weather = askedWeather(source, nowMs);
  const outcome = findWindowsWithOdds({ ...exampleWindows(), weather, draws: 2 });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value.odds?.weather;
};

test("weather of a file that is over is known: no chance of rain is told of it", () => {
  expect(weatherOfOdds(file(), endMs + HOUR_MS)).toBe("known");
  expect(weatherOfOdds(file(), endMs + 11 * 365 * 24 * HOUR_MS)).toBe("known");
});

test("of a file that ends today what is to come is uncertain, and what has come is not", () => {
  expect(askedWeather(file(), endMs - 5 * HOUR_MS).issuedUtc).toBe("2015-07-23T00:00:00Z");
  expect(weatherOfOdds(file(), endMs - 5 * HOUR_MS)).toBe("widened");
});

test("a file that lies ahead or says when it was forecast, and all other weather, is asked about as it is", () => {
  const told = file({ issuedUtc: "2015-07-19T04:00:00Z" });
  const sample: WeatherSource = { kind: "sample", id: "s", title: "S", series };
  const ahead = file();
  expect(askedWeather(ahead, endMs - 30 * HOUR_MS)).toBe(ahead.series);
  expect(askedWeather(told, endMs + HOUR_MS)).toBe(told.series);
  expect(askedWeather(sample, endMs + HOUR_MS)).toBe(series);
});
