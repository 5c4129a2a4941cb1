import { describe, expect, test } from "vitest";
import { yieldOfBarrenCorn, yieldOfStrip } from "../../../model/harvest/index.ts";
import { expectWithin } from "./check.ts";

// Exact by definition: 2000 lb of 0.45359237 kg, an acre of 43 560 square feet of 0.3048 m.
const T_HA_OF_TON_AC = (2000 * 0.45359237) / 1000 / ((43_560 * 0.3048 ** 2) / 10_000);

describe("barren corn by height", () => {
  // Pennsylvania State University extension, Managing drought-stressed corn (Progressive Forage): about one ton of
  // silage at 70 % moisture an acre for each foot of height, too much for plants of 1 to 3 ft.
  test.each([4, 5, 6, 8])("%i ft: as many tons an acre at 70 %%", (heightFt) => {
    const { dryMatterTHa, tooHigh } = yieldOfBarrenCorn(heightFt * 30.48);
    expectWithin(dryMatterTHa / T_HA_OF_TON_AC / 0.3, heightFt, 1e-9);
    expect(tooHigh).toBe(false);
  });
  test.each([1, 2, 3])("%i ft: the rule gives too much, and that is said", (heightFt) => {
    expect(yieldOfBarrenCorn(heightFt * 30.48).tooHigh).toBe(true);
  });

  // University of Missouri, reported in Turning drought-damaged crop into silage (Ag Proud): 1 to 1.5 tons a foot at
  // 30 to 35 % dry matter.
  test("the range is that of 1 ton at 30 % to 1.5 tons at 35 % a foot", () => {
    const [low, high] = yieldOfBarrenCorn(6 * 30.48).rangeTHa ?? [0, 0];
    expectWithin(low / T_HA_OF_TON_AC, 6 * 1 * 0.3, 1e-9);
    expectWithin(high / T_HA_OF_TON_AC, 6 * 1.5 * 0.35, 1e-9);
  });

  // University of Illinois, reported in Drought-stressed corn concerns (Ag Proud), has one ton of dry matter a foot:
  // about three times the others, and never used.
  test("one ton of dry matter a foot is far outside the range", () => {
    const [, high] = yieldOfBarrenCorn(6 * 30.48).rangeTHa ?? [0, 0];
    expect(high / T_HA_OF_TON_AC).toBeLessThan(0.6 * 6);
  });
});

describe("a weighed strip", () => {
  // Identity: grams of dry matter on a square metre / 100 = t/ha.
  test("400 g of dry matter on a square metre are 4 t/ha", () => {
    expectWithin(yieldOfStrip(1, 1, 2, 0.8).dryMatterTHa, 4, 1e-12);
  });
  // Identity: 43.56 square feet are a thousandth of an acre, so pounds of dry matter on them are thousands of lb/ac.
  test("2 lb of dry matter on 43.56 square feet are 1 ton an acre", () => {
    const { dryMatterTHa } = yieldOfStrip(43.56 * 0.3048, 0.3048, 10 * 0.45359237, 0.8);
    expectWithin(dryMatterTHa / T_HA_OF_TON_AC, 1, 1e-9);
  });
});
