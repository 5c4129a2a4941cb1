import { describe, expect, test } from "vitest";
import type { WeatherSeries } from "../../../model/weather/index.ts";
import { AGE_LIMITS_H, spanInWords, weatherAge } from "../../../web/states/age.ts";
import { missingHours } from "../../../web/states/missing-hours.ts";
import { ageChip, offlineChip, stateChips } from "../../../web/states/state-chips.ts";
import { troublesOf } from "../../../web/states/trouble.ts";
import { metric24 } from "../../support/manners.ts";
import { sampleSeries } from "../../support/samples.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const HOUR_MS = 3_600_000;
const made = "2026-07-01T06:00:00Z";
const madeMs = Date.parse(made);
const manner = metric24("America/Chicago");
const spell = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 72);
const forecast: WeatherSeries = { ...spell, origin: "forecast", issuedUtc: made };
const at = (hours: number) => madeMs + hours * HOUR_MS;

describe("age of a forecast", () => {
  test.each([
    [0, "fresh"],
    [11.99, "fresh"],
    [12, "old"],
    [23.99, "old"],
    [24, "stale"],
    [71.99, "stale"],
    [72, "expired"],
    [500, "expired"],
  ])("after %f h it is %s", (hours, level) => {
    expect(weatherAge(forecast, at(hours)).level).toBe(level);
  });

  test("a clock that is behind makes it new, never younger than that", () => {
    expect(weatherAge(forecast, at(-5))).toEqual({ level: "fresh", hours: 0 });
  });

  test("when it was fetched counts where nobody says when it was issued", () => {
    expect(weatherAge({ origin: "forecast", fetchedUtc: made }, at(30)).level).toBe("stale");
  });

  test("samples have none, and a file has one only where it says when it was made", () => {
    expect(weatherAge({ ...sampleSeries("settled-dry"), issuedUtc: made }, at(400)).level).toBe("none");
    expect(weatherAge(spell, at(400))).toEqual({ level: "none", hours: null });
    expect(weatherAge({ ...spell, issuedUtc: made }, at(400)).level).toBe("expired");
    expect(weatherAge({ origin: "forecast", issuedUtc: "soon" }, at(1)).level).toBe("none");
  });

  test("the limits are those of the page's description", () => {
    expect(AGE_LIMITS_H).toEqual({ old: 12, stale: 24, expired: 72 });
  });

  test.each([
    [0.4, "under 1 h"],
    [10.9, "10 h"],
    [47.9, "47 h"],
    [48, "2 days"],
    [100, "4 days"],
  ])("%f h are %s", (hours, words) => {
    expect(spanInWords(hours, manner)).toBe(words);
  });

  test("the chip warns from 12 h on", () => {
    expect(ageChip(forecast, at(4), manner)).toEqual({ text: "Forecast 4 h old", caution: false });
    expect(ageChip(forecast, at(14), manner)).toEqual({ text: "Forecast 14 h old", caution: true });
    expect(ageChip(forecast, at(30), manner)?.text).toMatch(/^Forecast 30 h old: look for a newer one/);
    expect(ageChip(forecast, at(80), manner)?.text).toMatch(/^Forecast 3 days old: too old to decide by/);
    expect(ageChip(spell, at(80), manner)).toBeNull();
  });
});

describe("offline", () => {
  const state = { online: false, nowMs: at(10.5), keptMs: null };
  test.each([
    [forecast, state, "Offline. Weather 10 h old"],
    [spell, { ...state, keptMs: at(0) }, "Offline. Weather kept 10 h ago"],
    [spell, state, "Offline. Weather from this visit"],
    [sampleSeries("settled-dry"), state, "Offline. Invented weather"],
    [null, state, "Offline, and no weather is kept on this device"],
  ])("case %#", (series, given, text) => {
    expect(offlineChip(given, series, manner)).toEqual({ text, caution: true });
  });

  test("nothing is said while there is a network", () => {
    expect(offlineChip({ ...state, online: true }, forecast, manner)).toBeNull();
  });

  test("the age is said once, but what follows from it is said too", () => {
    const picture = {
      source: { kind: "upload" as const, name: "f", series: forecast, missing: 0 },
      answer: { usableUntilUtc: "2026-07-04T05:00:00Z" },
    } as Parameters<typeof stateChips>[0];
    const texts = (nowMs: number, online: boolean) =>
      stateChips(picture, { online, nowMs, keptMs: null }, manner).map(({ text }) => text);
    expect(texts(at(14), false)).toEqual(["Offline. Weather 14 h old"]);
    expect(texts(at(30), false)).toEqual([
      "Offline. Weather 30 h old",
      "Forecast 30 h old: look for a newer one before cutting",
    ]);
    expect(texts(at(14), true)).toEqual(["Forecast 14 h old"]);
  });
});

describe("missing hours", () => {
  const without = (column: "windSpeedMps" | "airTempC" | "rainMm", ...indexes: number[]): WeatherSeries => ({
    ...spell,
    hours: {
      ...spell.hours,
      [column]: spell.hours[column].map((value, i) => (indexes.includes(i) ? null : value)),
    },
  });
  const whole = { usableUntilUtc: "2026-07-04T05:00:00Z" };

  test("nothing is said of weather that lacks nothing", () => {
    expect(missingHours(spell, whole, manner)).toEqual([]);
  });

  // The series begins Wednesday 1 July 2026, 00:00 of the farm (05:00 UTC, America/Chicago is UTC-5 in summer).
  test("quantity, hours of the farm's clock, and what was done", () => {
    expect(missingHours(without("windSpeedMps", 14, 15, 16), whole, manner)).toEqual([
      "Wind missing Wednesday 14:00 to 17:00: filled between its neighbours",
    ]);
    expect(missingHours(without("airTempC", 5, 9, 10), whole, manner)).toEqual([
      "Temperature missing 3 h in 2 gaps, the first Wednesday 05:00 to 06:00: filled between its neighbours",
    ]);
    expect(missingHours(without("airTempC", 0, 1), whole, manner)).toEqual([
      "Temperature missing Wednesday 00:00 to 02:00: used from there on",
    ]);
  });

  test("rain is never filled: the weather ends there", () => {
    const until = { usableUntilUtc: "2026-07-02T05:00:00Z" };
    expect(missingHours(without("rainMm", 24), until, manner)).toEqual([
      "Rain missing Thursday 00:00 to 01:00: the weather is used only until there",
    ]);
    expect(missingHours(without("windSpeedMps", 30), until, manner)).toEqual([
      "Wind missing Thursday 06:00 to 07:00: after the part that is used",
    ]);
  });

  test("a quantity that is nowhere has its own warning", () => {
    const nowhere = spell.hours.startUtc.map((_, i) => i);
    expect(missingHours(without("rainMm", ...nowhere), whole, manner)).toEqual([]);
  });
});

describe("what failed", () => {
  const calm = { refused: [], samplesError: null, picture: null, online: true };
  test("the worker, with what stays", () => {
    const refused = [{ path: "", code: "worker", message: "out of memory" }];
    expect(troublesOf({ ...calm, refused })).toEqual([
      { kind: "model", text: "The model stopped: out of memory." },
    ]);
    expect(troublesOf({ ...calm, refused: [{ path: "swath", code: "out-of-range", message: "x" }] })).toEqual(
      [],
    );
  });

  test("the samples, by the network", () => {
    expect(troublesOf({ ...calm, samplesError: "status 500" })[0]?.text).toContain("loaded: status 500.");
    expect(troublesOf({ ...calm, samplesError: "x", online: false })[0]?.text).toContain("without a network");
  });
});
