import { describe, expect, test } from "vitest";
import { findWindows, ROUTES, type RouteKey, yieldOfBarrenCorn } from "../../../model/harvest/index.ts";
import { changeWords } from "../../../web/panel/change-words.ts";
import { cutHoursOfDay } from "../../../web/panel/cut-hours.ts";
import { typicalRates, typicalWords } from "../../../web/panel/typical-rates.ts";
import { presetOf, WIDTH_PRESETS, withCover } from "../../../web/panel/widths.ts";
import { yieldShown } from "../../../web/panel/yield-words.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { swathRange } from "../../../web/state/swath-range.ts";
import { sampleSeries } from "../../support/samples.ts";

const metric = { units: "metric", locale: "en" } as const;
const us = { units: "us", locale: "en-US" } as const;

describe("swath widths", () => {
  test.each([metric, us, { units: "metric", locale: "de-DE" } as const])(
    "a preset covers its share (%j)",
    (manner) => {
      for (const { key, share } of WIDTH_PRESETS) {
        const next = withCover(DEMO_INPUTS, share, manner);
        const covered = next && readInputs(next).coveredFraction;
        expect(covered).toBeCloseTo(share, 2);
        expect(presetOf(covered)).toBe(key);
      }
    },
  );

  test("without a cut there is nothing to take a share of", () => {
    const texts = { ...DEMO_INPUTS.texts, mowerCutM: { text: "", units: "metric" } as const };
    expect(withCover({ ...DEMO_INPUTS, texts }, 0.9, metric)).toBeNull();
    expect(swathRange({ ...DEMO_INPUTS, texts }, metric)).toBeNull();
  });

  test("the edges of the range are accepted", () => {
    for (const manner of [metric, us]) {
      const range = swathRange(DEMO_INPUTS, manner);
      for (const edge of range?.match(/[\d.]+/g) ?? []) {
        const texts = { ...DEMO_INPUTS.texts, swathWidthM: { text: edge, units: manner.units } };
        expect(readInputs({ ...DEMO_INPUTS, texts }).errors).toEqual({});
      }
    }
    expect(swathRange(DEMO_INPUTS, metric)).toBe("0.15 to 3 m");
  });
});

describe("the yield in words", () => {
  test("metric, and US customary with pounds", () => {
    const estimate = { dryMatterTHa: 3.8, rangeTHa: null, tooHigh: false };
    expect(yieldShown(estimate, metric)).toEqual({ result: "3.8 t/ha of dry matter", range: null });
    expect(yieldShown(estimate, us).result).toBe("1.7 ton/ac (3,390 lb/ac) of dry matter");
    expect(yieldShown(null, us).result).toMatch(/not known/);
  });

  test("height has its range, and short plants are told to be less", () => {
    expect(yieldShown(yieldOfBarrenCorn(152.4), us)).toEqual({
      result: "1.5 ton/ac (3,000 lb/ac) of dry matter",
      range:
        "Counted with the lowest of the published rules (1.5 to 2.63 ton/ac). If more stands, it lies thicker and dries slower.",
    });
    expect(yieldShown(yieldOfBarrenCorn(60), us).range).toMatch(/Too high for plants of 3 ft or less/);
  });
});

test("typical rates are the ones the model computes with", () => {
  const routes = Object.fromEntries(
    ROUTES.map((route) => [route, { ...DEMO_INPUTS.routes[route], on: true }]),
  ) as Inputs["routes"];
  for (const crop of ["alfalfa", "drought-corn"] as const) {
    const { question } = readInputs({ ...DEMO_INPUTS, crop, routes });
    if (question === null) throw new Error("no question");
    const outcome = findWindows({ ...question, weather: sampleSeries("settled-dry") });
    if (!outcome.ok) throw new Error("no answer");
    const said = outcome.value.assumptions.join("\n");
    const all: readonly RouteKey[] = ROUTES;
    const rates = typicalRates(question, all);
    expect(rates).toHaveLength(5);
    for (const { label, haPerH } of rates) expect(said).toContain(`${label}: ${haPerH.toFixed(1)} ha/h`);
  }
});

test("typical rates in words: one where all are alike, each by name where not", () => {
  const rates = [
    { label: "Dry hay", haPerH: 3.14 },
    { label: "Wrapped bales", haPerH: 2.5 },
  ];
  expect(typicalWords(rates, metric)).toBe("empty = typical: dry hay 3.1, wrapped bales 2.5 ha/h");
  expect(typicalWords(rates.slice(1), us)).toBe("empty = typical, 6.2 ac/h");
  expect(typicalWords([], metric)).toBe("empty = a typical machine");
});

test("undo names the change", () => {
  expect(changeWords("swathWidthM")).toBe("swath width");
  expect(changeWords("choice conditioning")).toBe("conditioning");
  expect(changeWords("choice crop yieldBy")).toBe("crop");
  expect(changeWords("route dry-hay")).toBe("dry hay");
  expect(changeWords("rake moved")).toBe("rake moved");
});

test("the cut hours of the chosen day are the farm's", () => {
  const weather = sampleSeries("settled-dry");
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const outcome = findWindows({ ...question, weather });
  if (!outcome.ok) throw new Error("no answer");
  const { options } = outcome.value;
  const standing = options.find(({ cutUtc }) => cutUtc === null);
  const manner = { ...metric, hour12: false, zone: weather.site.timeZone };
  const first = options.find(({ cutUtc }) => cutUtc !== null);
  if (!first) throw new Error("no cut");
  const lever = cutHoursOfDay(outcome.value, first, manner);
  expect(lever?.value).toBe(first.id);
  expect(lever?.choices.map(([, text]) => text)).toEqual(expect.arrayContaining(["13:00"]));
  expect(lever?.choices.length).toBeLessThanOrEqual(3);
  if (standing) expect(cutHoursOfDay(outcome.value, standing, manner)).toBeNull();
});
