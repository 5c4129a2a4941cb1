import { describe, expect, test } from "vitest";
import { type UnitKind, unitOfKey, unitOfWords } from "../../../model/weather/station/units.ts";
import { windTo2mFactor } from "../../../model/weather/wind.ts";
import { expectWithin } from "../worked-examples/check.ts";

/** What a station wrote, in the model's unit. */
function ours(kind: UnitKind, key: string, value: number, stepH = 1): number {
  const unit = unitOfKey(kind, key);
  if (unit === null) throw new Error(`no unit ${key}`);
  return unit.toOurs(value, stepH);
}

describe("a station's units", () => {
  // RefET project validation set (Apache-2.0), Fallon NV AgriMet 2015-07-01, REF-ET output: printed to 1 W/m².
  test("61.16 langley an hour are 711 W/m²", () => {
    expectWithin(ours("solar", "langleyH", 61.16), 711, 0.6);
    expectWithin(ours("solar", "langleyH", 61.16) * 0.0036, 2.56064688, 1e-6);
  });

  // RefET project validation set (Apache-2.0), Fallon NV AgriMet 2015-07-01: 4.8 mph at 3 m.
  test("4.8 mph at 3 m are 1.9761 m/s at 2 m", () => {
    expectWithin(ours("wind", "mph", 4.8) * windTo2mFactor(3), 1.9761117577, 1e-6);
  });

  // Definitions, exact or standard; the tolerance is that of the table they are printed in.
  test.each([
    ["pressure", "inHg", 29.92, 1013.21],
    ["wind", "knot", 10, 5.14444],
    ["rain", "inch", 1, 25.4],
    ["solar", "Jcm2", 100, 277.778],
    ["solar", "kWhm2", 0.563, 563],
    ["solar", "MJm2", 1, 277.78],
    ["solar", "langley", 1, 11.63],
    ["solar", "langleyDay", 1, 0.4846],
    ["solar", "lux", 120, 1],
    ["wind", "kmh", 3.6, 1],
    ["temperature", "degF", 212, 100],
    ["temperature", "K", 273.15, 0],
    ["cloud", "oktas", 4, 50],
    ["cloud", "tenths", 3, 30],
    ["humidity", "fraction", 0.5, 50],
    // The Dutch hourly files count in tenths.
    ["temperature", "tenthDegC", 185, 18.5],
    ["rain", "tenthMm", 24, 2.4],
  ] as const)("%s in %s: %f are %f", (kind, key, value, printed) => {
    expectWithin(ours(kind, key, value), printed, 0.01);
  });

  test("an energy of a quarter of an hour is four times the flux; a rate is not", () => {
    expect(ours("solar", "MJm2", 0.25, 0.25)).toBeCloseTo(ours("solar", "MJm2", 1, 1), 9);
    expect(ours("solar", "MJm2h", 1, 0.25)).toBeCloseTo(ours("solar", "MJm2h", 1, 1), 9);
    expect(ours("solar", "Wm2", 500, 0.25)).toBe(500);
  });

  // The spellings of the headers of the families of files that the weather sheet lists.
  test.each([
    ["temperature", "°F", "degF"],
    ["temperature", "℉", "degF"],
    ["temperature", "℃", "degC"],
    ["wind", "km/h", "kmh"],
    ["wind", "mp/h", "mph"],
    ["wind", "kn", "knot"],
    ["solar", "W/sq.m", "Wm2"],
    ["solar", "W/m^2", "Wm2"],
    ["solar", "Ly/day", "langleyDay"],
    ["rainRate", "in/hr", "inchH"],
    ["rainRate", "mm/hr", "mmH"],
    ["pressure", "mbar", "hPa"],
    ["pressure", "inHg", "inHg"],
    ["cloud", "tenths", "tenths"],
  ] as const)("%s written as %s is %s", (kind, words, key) => {
    expect(unitOfWords(kind, words)?.key).toBe(key);
  });
});
