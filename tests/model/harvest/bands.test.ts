import { describe, expect, test } from "vitest";
import { CROPS } from "../../../model/drying/keys.ts";
import { DRY_HAY_FOOT, DRY_HAY_TOP, defaultBand } from "../../../model/harvest/bands.ts";
import { PACKAGES, ROUTES, STORES } from "../../../model/harvest/keys.ts";
import { compareRanked, type Ranked } from "../../../model/harvest/rank.ts";

describe("default bands", () => {
  // Caps of dry hay without preservative: the stricter of the published ones (Purdue, North Dakota, Wisconsin extension).
  test.each([
    ["small-square", 0.18],
    ["round", 0.16],
    ["large-square", 0.15],
    ["stalk-bale", 0.15],
  ] as const)("dry hay, %s: at most %f", (pack, top) => {
    expect(defaultBand("dry-hay", "alfalfa", pack, "bunker")?.bandWb).toEqual([0.12, top]);
  });

  test("the foot of dry hay is assumed, its top published: neither lends the other its origin", () => {
    for (const { origin } of Object.values(DRY_HAY_TOP)) expect(origin).toBe("published");
    for (const { origin } of Object.values(DRY_HAY_FOOT)) expect(origin).toBe("assumed");
    const hay = defaultBand("dry-hay", "alfalfa", "round", "bunker");
    expect(hay?.origin).toBe("assumed");
    expect(hay?.source).toMatch(/^wettest: published: .*; driest: assumed: /);
  });

  // Corn by structure: Minnesota, Pennsylvania and Missouri extension; what the three share computes.
  test.each([
    ["bunker", 0.65, 0.68],
    ["pile", 0.65, 0.68],
    ["bag", 0.63, 0.68],
    ["stave", 0.63, 0.65],
    ["oxygen-limiting", 0.55, 0.6],
  ] as const)("direct-chopped corn, %s: %f to %f", (store, lo, hi) => {
    const band = defaultBand("direct-chop", "corn", "round", store);
    expect(band?.bandWb).toEqual([lo, hi]);
    expect(band?.origin).toBe("published");
  });

  test("wilted chop by store, from memory", () => {
    const of = (store: (typeof STORES)[number]) =>
      defaultBand("wilted-chop", "alfalfa", "round", store)?.bandWb;
    expect(STORES.map(of)).toEqual([
      [0.6, 0.7],
      [0.6, 0.7],
      [0.6, 0.7],
      [0.6, 0.65],
      [0.45, 0.55],
    ]);
  });

  test("drought corn ferments at 65-70 %: common practice, no source", () => {
    const band = defaultBand("wilted-chop", "drought-corn", "round", "bunker");
    expect(band?.bandWb).toEqual([0.65, 0.7]);
    expect(band?.origin).toBe("common-practice-no-source");
    expect(band?.source).toContain("common practice, no source");
  });

  test("every crop, route, package and store has an ordered band with an origin, or takes the crop fresh", () => {
    for (const crop of CROPS)
      for (const route of ROUTES)
        for (const pack of PACKAGES)
          for (const store of STORES) {
            const band = defaultBand(route, crop, pack, store);
            if (route === "green-chop" || route === "grazing") {
              expect(band).toBeNull();
              continue;
            }
            expect(band?.bandWb[0]).toBeLessThan(band?.bandWb[1] ?? 0);
            expect(band?.source.length).toBeGreaterThan(10);
          }
  });
});

describe("which pair is better", () => {
  const base: Ranked = {
    optionId: "a",
    route: "dry-hay",
    valuePerHa: 300,
    shareKnown: true,
    wholeArea: true,
    rainedOn: false,
    daysLying: 2,
    firstWindowMs: 1000,
    cutMs: 100,
    treatmentId: "m",
  };

  test.each([
    ["a known share of the field before an unknown one", { shareKnown: false, valuePerHa: 900 }],
    ["the higher expected value", { valuePerHa: 299.9, daysLying: 0, firstWindowMs: 0 }],
    ["the whole area before a day's need", { wholeArea: false, daysLying: 0, firstWindowMs: 0 }],
    ["unrained before rained on", { rainedOn: true, daysLying: 0, firstWindowMs: 0 }],
    ["fewer days lying", { daysLying: 3, firstWindowMs: 0 }],
    ["the earlier first window", { firstWindowMs: 1001, cutMs: 0 }],
    ["the earlier cut", { cutMs: 101, route: "dry-hay", treatmentId: "a" }],
    ["the order of routes", { route: "wilted-chop", treatmentId: "a" }],
    ["the treatment's name", { treatmentId: "n" }],
  ] as const)("%s", (_, worse) => {
    const other: Ranked = { ...base, ...worse };
    expect(compareRanked(base, other)).toBeLessThan(0);
    expect(compareRanked(other, base)).toBeGreaterThan(0);
  });
});
