import { describe, expect, test } from "vitest";
import type { Limit } from "../../../model/limits.ts";
import { hour12Of, numberText, quantityText } from "../../../web/format/manner.ts";
import {
  fromPage,
  PAGE_UNITS,
  QUANTITIES,
  type Quantity,
  toPage,
  UNIT_SYSTEMS,
} from "../../../web/format/units.ts";
import { FIELD_LIMITS, type LimitedField, limitOnPage } from "../../../web/state/field-limits.ts";
import { DEMO_INPUTS, TEXT_FIELDS, type TextField } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { shownText, typedValue } from "../../../web/state/typed.ts";

/** Exact by definition, or rounded to the digits shown: NIST Special Publication 811 (2008), appendix B.8. */
describe("published conversion factors", () => {
  test.each<[Quantity, number, number]>([
    ["area", 0.4046856, 1], // 1 acre = 4.046 856 E+03 m2 (international foot)
    ["width", 0.3048, 1],
    ["stubble", 2.54, 1],
    ["rain", 25.4, 1],
    ["mass", 0.45359237, 1],
    ["wind", 0.44704, 1],
    ["temperature", 100, 212],
    ["temperature", -40, -40],
    ["dryMatterYield", 2.241702, 1], // 1 short ton per acre = 907.1847 kg / 4046.856 m2
  ])("%s: %d in the model is %d in US customary units", (quantity, model, page) => {
    expect(toPage(model, quantity, "us") / page).toBeCloseTo(1, 6);
  });
});

test("every unit goes there and back", () => {
  for (const quantity of QUANTITIES)
    for (const units of UNIT_SYSTEMS)
      for (const value of [0, 0.1, 7.25, 1e4])
        expect(fromPage(toPage(value, quantity, units), quantity, units)).toBeCloseTo(value, 9);
  for (const quantity of QUANTITIES)
    expect(PAGE_UNITS[quantity].metric).toMatchObject({ factor: 1, offset: 0 });
});

test("numbers are written by locale, without a tail and without minus nothing", () => {
  expect(numberText(3.8000000000000003, 2, { locale: "en-US" })).toBe("3.8");
  expect(numberText(1234.5, 1, { locale: "de-DE" })).toBe("1.234,5");
  expect(numberText(-0.0001, 1, { locale: "en-US" })).toBe("0");
  expect(quantityText(6.4, "area", { units: "us", locale: "en-US" })).toBe("15.8 ac");
  expect(hour12Of("en-US")).toBe(true);
  expect(hour12Of("de-DE")).toBe(false);
});

test("a field typed in one system is shown in the other and keeps its value", () => {
  const typed = { text: "3,8", units: "metric", marks: ",." } as const;
  expect(shownText("yieldTHa", typed, "metric", "de-DE")).toBe("3,8");
  expect(shownText("yieldTHa", typed, "metric")).toBe("3.8");
  expect(shownText("yieldTHa", typed, "us")).toBe("1.7");
  expect(typedValue("yieldTHa", typed)).toBe(3.8);
  expect(shownText("yieldTHa", { text: "wet", units: "metric" }, "us")).toBe("wet");
  expect(shownText("cutHours", { text: "9 13", units: "metric" }, "us")).toBe("9 13");
});

test.each<[TextField, string, string]>([
  ["mowerCutM", "3", "10"],
  ["swathWidthM", "2.1", "7"],
  ["areaHa", "6.4", "15.8"],
  ["baleKg", "400", "880"],
  ["plantHeightCm", "150", "5"],
  ["dailyNeedKgDm", "900", "1980"],
])("%s of %s is shown to a practical step, and counts as it was typed", (field, text, shown) => {
  const typed = { text, units: "metric" } as const;
  expect(shownText(field, typed, "us")).toBe(shown);
  expect(typedValue(field, typed)).toBe(Number(text));
});

test("where a step would show another value than the one computed with, that value is shown", () => {
  expect(shownText("stubbleCm", { text: "8", units: "metric" }, "us")).toBe("3.1");
  expect(shownText("plantHeightCm", { text: "172", units: "metric" }, "us")).toBe("5.6");
});

test("limits are printed to practical steps, inward", () => {
  const us = (field: LimitedField) => {
    const { min, max } = limitOnPage(FIELD_LIMITS[field], TEXT_FIELDS[field], "us");
    return [min, max];
  };
  expect(us("stripWidthM")).toEqual([1, 98]);
  expect(us("mowerCutM")).toEqual([2, 98]);
  expect(us("areaHa")[1]).toBe(12_300);
  expect(us("mowHaPerH")).toEqual([0.2, 148]);
  for (const field of Object.keys(FIELD_LIMITS) as LimitedField[]) {
    const quantity = TEXT_FIELDS[field];
    const limit: Limit = FIELD_LIMITS[field];
    if (quantity === null) continue;
    for (const edge of us(field))
      expect(fromPage(edge, quantity, "us")).toSatisfy((v) => v >= limit.min && v <= limit.max);
  }
});

test("a swath as wide as its cut is shown covers all of it", () => {
  const texts = { ...DEMO_INPUTS.texts, swathWidthM: { text: "10", units: "us" } as const };
  expect(readInputs({ ...DEMO_INPUTS, texts }).coveredFraction).toBe(1);
});

test.each<[TextField, string, RegExp]>([
  ["yieldTHa", "20", /Got 20, must be above 0 and at most 13\.3\d* ton\/ac/],
  ["stubbleCm", "60", /Got 60, must be at least 0 and at most 39 in/],
  ["swathWidthM", "12", /Got 12 ft, must be 0\.5 to 10 ft at a cut of 10 ft/],
])("%s typed as %s in US customary units is refused in those units", (field, text, message) => {
  const texts = { ...DEMO_INPUTS.texts, [field]: { text, units: "us" } as const };
  expect(readInputs({ ...DEMO_INPUTS, texts }).errors[field]).toMatch(message);
});
