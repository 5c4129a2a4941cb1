import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CROPS } from "../../../../model/drying/keys.ts";
import { ROUTES } from "../../../../model/harvest/keys.ts";
import { type CutHistory, routeLosses } from "../../../../model/harvest/losses/index.ts";
import {
  balesPerHa,
  beforeCutting,
  DEFAULT_PRICES,
  DEFAULT_RATES,
  expectedPerHa,
  gradeOf,
  harvestOrLeave,
  type Lever,
  leaderOf,
  priceAtDryMatter,
  type RouteValueQuestion,
  ratesWith,
  routeValue,
  turningPoints,
  valueLostPerT,
} from "../../../../model/harvest/value/index.ts";

const HISTORY: CutHistory = {
  crop: "alfalfa",
  conditioning: "roll",
  passes: [{ kind: "rake", moistureWb: 0.4 }],
  breathed: [],
  rained: [],
  takenAtWb: 0.16,
};

function asked(route: (typeof ROUTES)[number], more: Partial<RouteValueQuestion> = {}): RouteValueQuestion {
  return {
    route,
    package: "round",
    dryMatterTHa: 4,
    steps: routeLosses(route, "round", HISTORY),
    passes: ["rake"],
    mowHaPerH: 4,
    haPerH: 2,
    takenAtWb: 0.16,
    ...more,
  };
}

describe("a route's value", () => {
  test.each(ROUTES)("%s: value = what is fed × price - costs; hectare and tonne agree", (route) => {
    const value = routeValue(asked(route));
    expect(value.fedTHa).toBeCloseTo(4 * value.keptFraction, 12);
    expect(value.grossPerHa).toBeCloseTo(value.fedTHa * DEFAULT_PRICES[route].value, 9);
    expect(value.costPerHa).toBeCloseTo(
      value.costs.reduce((sum, { perHa }) => sum + perHa, 0),
      9,
    );
    expect(value.valuePerHa).toBeCloseTo(value.grossPerHa - value.costPerHa, 9);
    expect((value.valuePerT ?? 0) * value.fedTHa).toBeCloseTo(value.valuePerHa, 9);
  });

  test("which costs a route has", () => {
    const items = (route: (typeof ROUTES)[number]) => routeValue(asked(route)).costs.map(({ item }) => item);
    expect(items("dry-hay")).toEqual(["mow", "rake", "bale", "haul", "labour"]);
    expect(items("wrapped-bales")).toEqual(["mow", "rake", "bale", "haul", "wrap", "film", "labour"]);
    expect(items("wilted-chop")).toEqual(["mow", "rake", "chop", "fill", "labour"]);
    expect(items("direct-chop")).toEqual(["chop", "fill", "labour"]);
    expect(items("grazing")).toEqual(["graze", "labour"]);
    expect(routeValue(asked("grazing", { haPerH: null })).costs.map(({ item }) => item)).toEqual(["graze"]);
  });

  test("bales come of what reaches the baler, preservative of its wet weight, film of its layers", () => {
    const hay = routeValue(asked("dry-hay", { preservativeShare: 0.01, baleDmKg: 250 }));
    // 4 t × mowing 2.5 %, raking 3.5 %, baling: what enters the store, before storage and feeding out.
    const steps = routeLosses("dry-hay", "round", HISTORY).filter(
      ({ step }) => step !== "storage" && step !== "feeding-out",
    );
    const brought = 4 * steps.reduce((kept, { pct }) => kept * (1 - pct / 100), 1);
    expect(hay.bales).toBeCloseTo(brought * 4, 9);
    expect(hay.preservativeKg).toBeCloseTo((0.01 * brought * 1000) / 0.84, 9);
    const film = (layers: number) =>
      routeValue(asked("wrapped-bales", { layers })).costs.find(({ item }) => item === "film");
    expect((film(8)?.perHa ?? 0) / (film(6)?.perHa ?? 1)).toBeCloseTo(8 / 6, 9);
    expect(routeValue(asked("wilted-chop", { preservativeShare: 0.01 })).preservativeKg).toBe(0);
  });

  test("a higher price, or less lost, never lowers the value; the currency only scales it", () => {
    const price = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...ROUTES), price, price, (route, a, more) => {
        const at = (value: number) => routeValue(asked(route, { prices: { [route]: value } })).valuePerHa;
        expect(at(a + more)).toBeGreaterThanOrEqual(at(a));
        const lossless = routeValue(asked(route, { prices: { [route]: a }, steps: [] }));
        expect(lossless.fedTHa).toBeGreaterThanOrEqual(routeValue(asked(route)).fedTHa);
      }),
    );
  });

  test("own rates over the defaults, each default a record", () => {
    expect(ratesWith().mowPerHa).toBe(DEFAULT_RATES.mowPerHa.value);
    expect(ratesWith({ mowPerHa: 0 }).mowPerHa).toBe(0);
    expect(ratesWith().balePerBale.round).toBe(12.7);
    expect(
      routeValue(asked("dry-hay", { rates: { mowPerHa: 0 } })).costs.map(({ item }) => item),
    ).not.toContain("mow");
  });

  test("nothing left to feed has no price by the tonne; a bale of no weight is a caller's mistake", () => {
    const lost = { step: "storage", pct: 100, lowPct: 100, highPct: 100, source: "" } as const;
    expect(routeValue(asked("dry-hay", { steps: [lost] }))).toMatchObject({
      fedTHa: 0,
      costPerT: null,
      valuePerT: null,
    });
    expect(() => balesPerHa(3, 0)).toThrow(/baleDmKg must be in \[1, 2000\], got 0/);
  });
});

test("expected over members, those without a harvest at what is left; null without any", () => {
  expect(expectedPerHa([100, null, 50])).toBeCloseTo(50, 9);
  expect(expectedPerHa([100, null], 20)).toBe(60);
  expect(expectedPerHa([])).toBeNull();
});

// University of California: 40 at 30 % dry matter is 36.00 at 27 % and 44.00 at 33 %.
test.each([
  [0.27, 36],
  [0.33, 44],
])("a wet feed is paid for its dry matter, %f", (dry, price) => {
  expect(priceAtDryMatter(40, 0.3, dry)).toBeCloseTo(price, 9);
});

// Undersander: 4 % at 220 a tonne; the grades are from memory.
test("value lost, and grades", () => {
  expect(valueLostPerT(4, 220)).toBeCloseTo(8.8, 9);
  expect(valueLostPerT(0, 200, 150)).toBe(50);
  expect([190, 170, 160, 135, 100].map(gradeOf)).toEqual(["supreme", "premium", "good", "fair", "utility"]);
});

describe("what would change the first place", () => {
  const levers: Lever[] = [
    { key: "price", at: 100, lo: 50, hi: 200 },
    { key: "rain", at: 5, lo: 0, hi: 40 },
    { key: "idle", at: 1, lo: 0, hi: 2 },
  ];
  // Hay leads at 100 a tonne and 5 mm: 4 × 100 - 5 × 5 = 375 against 360.
  const worth = ({ price = 0, rain = 0 }: Readonly<Record<string, number>>) => ({
    hay: 4 * price - 5 * rain,
    silage: 360,
  });

  test("the smallest move of each input, least share of its span first", () => {
    const turns = turningPoints(levers, worth);
    expect(turns.map(({ key }) => key)).toEqual(["price", "rain"]);
    expect(turns[0]?.to).toBeCloseTo(96.25, 6);
    expect(turns[0]?.share).toBeCloseTo(3.75 / 150, 6);
    expect(turns[1]?.to).toBeCloseTo(8, 6);
    expect(turns.every(({ leader }) => leader === "silage")).toBe(true);
  });

  test("at the place it names, the lead has changed; just before it, it has not", () => {
    const lead = (inputs: Readonly<Record<string, number>>) => leaderOf(worth(inputs));
    for (const { key, from, to, leader } of turningPoints(levers, worth)) {
      const at = { price: 100, rain: 5, idle: 1 };
      expect(lead({ ...at, [key]: to })).toBe(leader);
      expect(lead({ ...at, [key]: from + (to - from) * (1 - 1e-6) })).toBe("hay");
    }
  });

  test("an input outside its span is a caller's mistake", () => {
    expect(() => turningPoints([{ key: "price", at: 1, lo: 2, hi: 3 }], worth)).toThrow(
      /price must be in \[2, 3\], got 1/,
    );
    expect(leaderOf({})).toBeNull();
    expect(leaderOf({ b: 1, a: 1 })).toBe("a");
  });
});

describe("before cutting", () => {
  test("every crop is asked for insurer, label, nitrate and what waiting would bring; for prussic acid where it occurs", () => {
    for (const crop of CROPS) {
      const keys = beforeCutting(crop).map(({ key }) => key);
      expect(keys).toEqual(expect.arrayContaining(["insurer", "label", "nitrate", "worth-waiting"]));
    }
    const sampled = (crop: (typeof CROPS)[number]) =>
      beforeCutting(crop).find(({ key }) => key === "nitrate");
    expect(sampled("alfalfa")?.ask).toMatch(/nitrate, if drought/);
    expect(sampled("drought-corn")?.ask).not.toMatch(/ if /);
    expect(beforeCutting("forage-sorghum").map(({ key }) => key)).toEqual([
      "insurer",
      "label",
      "nitrate",
      "prussic-acid",
      "worth-waiting",
    ]);
    expect(beforeCutting("drought-corn").map(({ key }) => key)).not.toContain("prussic-acid");
  });

  test("standing against harvested, at the user's prices", () => {
    const standing = {
      grainTHa: 3,
      grainPricePerT: 200,
      grainCostPerHa: 100,
      grainChance: 0.5,
      laterForageTHa: 0,
      laterForagePricePerT: 0,
      laterForageCostPerHa: 0,
    };
    expect(harvestOrLeave(300, standing)).toEqual({
      better: "harvest",
      differencePerHa: 50,
      standingPerHa: 250,
    });
    expect(harvestOrLeave(200, standing).better).toBe("leave");
    // Grain that is not worth its harvest is left, at no cost.
    expect(harvestOrLeave(10, { ...standing, grainTHa: 0.1 }).standingPerHa).toBe(0);
  });
});
