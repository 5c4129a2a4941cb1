import { describe, expect, test } from "vitest";
import { yieldOfBales, yieldOfBarrenCorn, yieldOfStrip } from "../../../model/harvest/index.ts";
import type { Units } from "../../../web/format/units.ts";
import { DEMO_INPUTS, type Inputs, type TextField } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";

function typed(
  more: Partial<Inputs>,
  texts: Partial<Record<TextField, string>>,
  units: Units = "metric",
): Inputs {
  const own = Object.entries(texts).map(([field, text]) => [field, { text, units }] as const);
  return { ...DEMO_INPUTS, ...more, texts: { ...DEMO_INPUTS.texts, ...Object.fromEntries(own) } };
}

describe("the yield four ways", () => {
  test("bales", () => {
    const { question } = readInputs(
      typed({ yieldBy: "bales" }, { balesPerHa: "10", baleKg: "400", baleMoisturePct: "15" }),
    );
    expect(question?.swath.dryMatterTHa).toBeCloseTo(yieldOfBales(10, 400, 0.15).dryMatterTHa, 12);
  });

  test("bales an acre and pounds come to the same", () => {
    const texts = { balesPerHa: "4", baleKg: "1000" };
    const { question } = readInputs(typed({ yieldBy: "bales" }, texts, "us"));
    // 4 bales of 1000 lb at 16 % are 3360 lb of dry matter an acre; 1 lb/ac = 1.120851 kg/ha (NIST SP 811).
    expect(question?.swath.dryMatterTHa).toBeCloseTo((3360 * 1.120851) / 1000, 4);
  });

  test("a strip takes the moisture of the standing crop", () => {
    const texts = { stripLengthM: "10", stripWidthM: "2", stripFreshKg: "40", moisturePct: "75" };
    const { question, yieldEstimate } = readInputs(typed({ yieldBy: "strip" }, texts));
    expect(question?.swath.dryMatterTHa).toBeCloseTo(yieldOfStrip(10, 2, 40, 0.75).dryMatterTHa, 12);
    expect(yieldEstimate?.rangeTHa).toBeNull();
    const wrong = readInputs(typed({ yieldBy: "strip" }, { ...texts, moisturePct: "wet" }));
    expect(Object.keys(wrong.errors)).toEqual(["moisturePct"]);
    expect(wrong.yieldEstimate).toBeNull();
  });

  test("height, of corn alone", () => {
    const corn = typed({ yieldBy: "height", crop: "drought-corn" }, { plantHeightCm: "180" });
    const { question, yieldEstimate } = readInputs(corn);
    expect(question?.swath.dryMatterTHa).toBeCloseTo(yieldOfBarrenCorn(180).dryMatterTHa, 12);
    expect(yieldEstimate?.rangeTHa?.[1]).toBeGreaterThan(yieldEstimate?.dryMatterTHa ?? Infinity);
    expect(readInputs({ ...corn, crop: "alfalfa" }).errors.plantHeightCm).toMatch(/corn/);
  });

  test("the fields of the other ways may hold anything", () => {
    const texts = { balesPerHa: "many", baleKg: "", plantHeightCm: "-3" };
    expect(readInputs(typed({ yieldBy: "tonnes" }, texts)).errors).toEqual({});
  });
});

describe("wrong ways to the yield stand beside their field", () => {
  test.each<[Partial<Inputs>, Partial<Record<TextField, string>>, TextField, RegExp]>([
    [{ yieldBy: "bales" }, { balesPerHa: "", baleKg: "400" }, "balesPerHa", /Empty/],
    [{ yieldBy: "bales" }, { balesPerHa: "10", baleKg: "1,2" }, "baleKg", /Got 1.2, .*at least 5/],
    [
      { yieldBy: "bales" },
      { balesPerHa: "10", baleKg: "400", baleMoisturePct: "0.16" },
      "baleMoisturePct",
      /Did you mean 16\?/,
    ],
    [
      { yieldBy: "bales" },
      { balesPerHa: "100", baleKg: "400" },
      "balesPerHa",
      /Comes to 33\.6 t\/ha of dry matter, must be above 0 and at most 30 t\/ha/,
    ],
    [
      { yieldBy: "strip" },
      { stripLengthM: "1", stripWidthM: "1", stripFreshKg: "40" },
      "stripFreshKg",
      /Comes to 88 t\/ha/,
    ],
    [{ yieldBy: "height", crop: "corn" }, { plantHeightCm: "5" }, "plantHeightCm", /Got 5, .*at least 30/],
  ])("%j %j", (more, texts, field, message) => {
    const { errors, question } = readInputs(typed(more, texts));
    expect(question).toBeNull();
    expect(Object.keys(errors)).toEqual([field]);
    expect(errors[field]).toMatch(message);
  });
});

describe("errors speak as the page does", () => {
  test("in the units that are shown, whatever they were typed in", () => {
    const inputs = typed({}, { yieldTHa: "100" });
    expect(readInputs(inputs, { units: "us" }).errors.yieldTHa).toMatch(
      /^Got 44\.6, must be above 0 and at most 13\.35 ton\/ac\.$/,
    );
  });

  test("with the numbers of the locale", () => {
    const inputs = typed({}, { mowHaPerH: "0,01" });
    expect(readInputs(inputs, { locale: "de-DE" }).errors.mowHaPerH).toBe(
      "Got 0,01, must be at least 0,05 and at most 60 ha/h.",
    );
  });
});

describe("crops that stand", () => {
  const routes = (on: readonly (keyof Inputs["routes"])[]) =>
    Object.fromEntries(
      Object.entries(DEMO_INPUTS.routes).map(([key, choice]) => [
        key,
        { ...choice, on: on.some((one) => one === key) },
      ]),
    ) as Inputs["routes"];

  test("dry-down and daily need go to the routes that ask for them", () => {
    const texts = { dryDownPointsPerDay: "0,8", dailyNeedKgDm: "300" };
    const all = readInputs(typed({ routes: routes(["direct-chop", "green-chop"]) }, texts));
    expect(all.question?.standing).toEqual({
      moistureWb: 0.78,
      dryDownPointsPerDay: 0.8,
      dailyNeedKgDm: 300,
    });
    expect(readInputs(typed({ routes: routes(["dry-hay"]) }, texts)).question?.standing).toBeUndefined();
    expect(readInputs(typed({ routes: routes(["grazing"]) }, {})).question?.standing).toEqual({
      moistureWb: 0.78,
    });
  });

  test("each is held to its limit where it is asked", () => {
    const texts = { dryDownPointsPerDay: "9", dailyNeedKgDm: "0" };
    const { errors } = readInputs(typed({ routes: routes(["direct-chop", "grazing"]) }, texts));
    expect(errors.dryDownPointsPerDay).toMatch(/Got 9, .*at most 5/);
    expect(errors.dailyNeedKgDm).toMatch(/above 0/);
    expect(readInputs(typed({ routes: routes(["dry-hay"]) }, texts)).errors).toEqual({});
  });
});
