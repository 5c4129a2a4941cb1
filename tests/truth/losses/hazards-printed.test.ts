import { describe, expect, test } from "vitest";
import { moistureTest } from "../../../model/feed/index.ts";
import {
  FROST_WAIT_DAYS,
  LEAST_HEIGHT_CM,
  NITRATE_ACCUMULATORS,
  NITRATE_CLOCK,
  PRUSSIC_CROPS,
  REGROWTH_DAYS,
} from "../../../model/harvest/hazards/index.ts";
import {
  CHOPPING,
  COMMON_PRACTICE,
  celsiusOf,
  filmLayers,
  GRAZING,
  HEATING,
  heatStep,
  preservativeFor,
  recommendedHeight,
  SILO_GAS_WEEKS,
  WAGON_HOURS,
  WRAPPING,
  wrapDelay,
} from "../../../model/harvest/route-details/index.ts";
import { READING_METHODS, readingSdWb, SQUEEZE_RANGES } from "../../../model/odds/reading-methods.ts";

/** Printed waits, heights, heat and moisture tests, each with its source. */

const IN = 2.54;

describe("hazards", () => {
  test("after rain 3-5 days (Penn State), 5 (Illinois): 5 computes; 7-10 (Oklahoma State), 7-14 (Kansas State)", () => {
    expect(NITRATE_CLOCK.firstDays).toMatchObject({ value: 5, validRange: [3, 5] });
    expect(NITRATE_CLOCK.middleDays.value).toBe(7);
    expect(NITRATE_CLOCK.longDays.value).toBe(14);
  });
  test("after injury highest about day 4, normal 12-14 days later (Alberta, Saskatchewan, reported); two days of 66 % shade", () => {
    expect(NITRATE_CLOCK.injuryPeakDays.value).toBe(4);
    expect(NITRATE_CLOCK.injuryDays).toMatchObject({ value: 14, validRange: [12, 14] });
    expect(NITRATE_CLOCK.dullHours.value).toBe(48);
  });
  test("frost: 7 days grazed (5-6, 7), 5 stored (3-5, Ontario); drought break two weeks; heights 24 and 30 in", () => {
    expect([FROST_WAIT_DAYS.grazing.value, FROST_WAIT_DAYS["green-chop"].value]).toEqual([7, 7]);
    for (const route of ["wrapped-bales", "wilted-chop", "direct-chop"] as const)
      expect(FROST_WAIT_DAYS[route]).toMatchObject({ value: 5, validRange: [3, 5] });
    expect(REGROWTH_DAYS.value).toBe(14);
    expect(LEAST_HEIGHT_CM.sudangrass).toMatchObject({ value: 24 * IN, validRange: [18 * IN, 24 * IN] });
    expect(LEAST_HEIGHT_CM["forage-sorghum"]?.value).toBe(30 * IN);
  });
  test("sorghums, sudan, millets, corn and oats accumulate; legumes are low (Purdue); corn and millets hold no prussic acid", () => {
    expect(NITRATE_ACCUMULATORS).not.toContain("alfalfa");
    expect(NITRATE_ACCUMULATORS).toContain("pearl-millet");
    expect(PRUSSIC_CROPS).not.toContain("corn");
    expect(PRUSSIC_CROPS).not.toContain("pearl-millet");
  });
});

describe("route details", () => {
  test("12 in where nitrate is suspect (the highest of 6-12), the bottom third fresh (Florida AG279)", () => {
    expect(recommendedHeight("dry-hay", "drought-corn", true, 180).cm).toBeCloseTo(12 * IN, 9);
    expect(recommendedHeight("grazing", "drought-corn", true, 180).cm).toBeCloseTo(60, 9);
  });
  test("film 6 layers, 8 on coarse stems (from memory); 12 h, 24 h; a year", () => {
    expect([filmLayers("small-grain-boot"), filmLayers("drought-corn")]).toEqual([6, 8]);
    expect([12, 12.01, 24, 24.01].map((hours) => wrapDelay(hours).level)).toEqual([
      "in-time",
      "late",
      "late",
      "too-late",
    ]);
    expect(WRAPPING.keepsMonths.value).toBe(12);
  });
  test("chop 3/8-1/2 in, 3/4 with a processor; layers of 6 in; 15 lb/ft³", () => {
    expect(CHOPPING.lengthMm.validRange).toEqual([0.375 * 25.4, 0.5 * 25.4]);
    expect(CHOPPING.processedLengthMm.value).toBe(0.75 * 25.4);
    expect(CHOPPING.layerCm.value).toBe(6 * IN);
    expect(CHOPPING.leastDensityKgM3.value).toBeCloseTo(15 * 16.018, 1);
  });
  test("preservative at 20-25 and 26-30 % (Kentucky); none is printed beyond", () => {
    expect([0.25, 0.251, 0.3].map((wb) => preservativeFor("small-square", wb).share)).toEqual([
      0.005, 0.01, 0.01,
    ]);
    expect(preservativeFor("small-square", 0.31).share).toBeNull();
  });
  test("silo gas 3 weeks (Penn State); the wagon 4 h (from memory); strips 2 days, 100 cows an acre (Nebraska)", () => {
    expect([
      SILO_GAS_WEEKS.value,
      WAGON_HOURS.value,
      GRAZING.stripDays.value,
      GRAZING.cowDaysPerAcre.value,
    ]).toEqual([3, 4, 2, 100]);
  });
  test.each([
    // Purdue, Penn State, Kentucky, Mississippi, in both scales.
    [130, 54],
    [134, 57],
    [180, 82],
    [212, 100],
    [86, 30],
  ])("%d °F is %d °C", (f, c) => expect(Math.round(celsiusOf(f))).toBe(c));
  test.each([
    [124, "steady"],
    [125, "watch"],
    [150, "open"],
    [160, "fire-service"],
    [175, "fire-service"],
    [190, "fire"],
    [212, "fire"],
  ] as const)("hay at %d °F: %s", (f, level) =>
    expect(heatStep(celsiusOf(f) - (f === 124 ? 0.5 : 0)).level).toBe(level),
  );
  test("at 175 °F and above the fire service is called; under 200 °F days hay at 20 % keeps, past 300 quality goes", () => {
    for (const f of [175, 180, 190, 200, 212]) expect(heatStep(celsiusOf(f)).action).toMatch(/fire service/i);
    expect(HEATING.keptFDays).toMatchObject({ value: 200, validRange: [200, 300] });
    expect(HEATING.watchDays).toMatchObject({ value: 42, validRange: [14, 42] });
  });
  test("common practice stands with its label beside what computes, in the five rows of its table", () => {
    expect(COMMON_PRACTICE.map(({ range }) => range)).toEqual([
      "30-38 / 20-30 / 15-20 / 15-20",
      "up to 50-60 %",
      "3-4 weeks",
      "none",
      "direction only",
    ]);
    expect(COMMON_PRACTICE.map(({ label }) => label)).toEqual([
      "common practice, no source",
      "common practice, no source",
      "common practice, no source",
      "common practice and published",
      "common practice, no source",
    ]);
    expect(COMMON_PRACTICE[1]?.computes).toMatch(/^20 %/);
    expect(COMMON_PRACTICE[2]?.computes).toMatch(/wrapped bales 6 weeks/);
  });
});

describe("moisture by hand", () => {
  test("(W1 - W2) / W1: 100 g to 30 g is 70 %; a scale of 1 g on 100 g adds 1 point; settled under 1 g (Saskatchewan)", () => {
    const answer = moistureTest({ tareG: 50, freshG: 150, driedG: [90, 80.4, 80] });
    expect(answer.moisturePct).toBeCloseTo(70, 9);
    expect(answer.scalePoints).toBeCloseTo(1, 9);
    expect(answer.settled).toBe(true);
    expect(moistureTest({ tareG: 50, freshG: 150, driedG: [90, 88] }).settled).toBe(false);
  });
  test("one standard deviation of each method (from memory), with the places: sd² = method² + place²/n", () => {
    expect(READING_METHODS.oven.sdWb.value).toBe(0.005);
    expect(READING_METHODS["hand-squeeze"].sdWb.value).toBe(0.05);
    expect(readingSdWb("oven", 4) ** 2).toBeCloseTo(0.005 ** 2 + 0.03 ** 2 / 4, 12);
  });
  test("hand squeeze of chopped forage: 80 and more, 75-80, 70-75, 60-70, 60 and less (Saskatchewan)", () => {
    expect(SQUEEZE_RANGES.map(({ range }) => range[0])).toEqual([0.8, 0.75, 0.7, 0.6, 0.05]);
  });
});
