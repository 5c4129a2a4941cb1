import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CONDITIONINGS, CROPS } from "../../../../model/drying/keys.ts";
import { PACKAGES, ROUTES, STORES } from "../../../../model/harvest/keys.ts";
import {
  BALING_LOSS,
  balingLoss,
  type CutHistory,
  chainPct,
  HAY_STORES,
  hayStorageLoss,
  LOSS_STEPS,
  lossQuantiles,
  lossSteps,
  lossTotal,
  lyingHours,
  mowingLoss,
  rainLoss,
  respirationLoss,
  routeLosses,
  siloStorageLoss,
} from "../../../../model/harvest/losses/index.ts";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import type { HourlyWeather } from "../../../../model/weather/hourly.ts";

const pct = fc.double({ min: 0, max: 100, noNaN: true });
const wb = fc.double({ min: 0.05, max: 0.9, noNaN: true });
const rainHour = fc.record({ rainMm: fc.double({ min: 0, max: 30, noNaN: true }), moistureWb: wb });
const breath = fc.record({ swathTempC: fc.double({ min: -5, max: 45, noNaN: true }), moistureWb: wb });
const crop = fc.constantFrom(...CROPS);
const conditioning = fc.constantFrom(...CONDITIONINGS);

describe("the chain", () => {
  test("never past all, never under the largest step, and its order does not matter", () => {
    fc.assert(
      fc.property(fc.array(pct, { maxLength: 8 }), (pcts) => {
        const total = chainPct(pcts);
        expect(total).toBeLessThanOrEqual(100);
        expect(total).toBeGreaterThanOrEqual(Math.max(0, ...pcts) - 1e-9);
        expect(chainPct(pcts.toReversed())).toBeCloseTo(total, 9);
      }),
    );
  });

  test("a step outside 0-100 is a caller's mistake", () => {
    expect(() => chainPct([2, 101])).toThrow(/chainPct: pct must be in \[0, 100\], got 101/);
    expect(() => chainPct([Number.NaN])).toThrow(RangeError);
  });

  test("steps of a kind are multiplied into one and told in the order in which they happen", () => {
    const one = (step: (typeof LOSS_STEPS)[number], value: number) => ({
      step,
      pct: value,
      lowPct: value,
      highPct: value,
      source: "",
    });
    const steps = [one("storage", 5), one("ted", 10), one("mowing", 2), one("ted", 10)];
    expect(lossSteps(steps).map(({ step }) => step)).toEqual(["mowing", "ted", "storage"]);
    expect(lossSteps(steps)[1]?.pct).toBeCloseTo(19, 9);
    expect(chainPct(lossSteps(steps).map((step) => step.pct))).toBeCloseTo(lossTotal(steps).pct, 9);
  });

  test("quantiles are linear between members, and null without any", () => {
    expect(lossQuantiles([30, 10, 20])).toEqual({ p10: 12, p25: 15, p50: 20, p75: 25, p90: 28 });
    expect(lossQuantiles([7])).toEqual({ p10: 7, p25: 7, p50: 7, p75: 7, p90: 7 });
    expect(lossQuantiles([])).toEqual({ p10: null, p25: null, p50: null, p75: null, p90: null });
  });
});

describe("rain", () => {
  test("more rain in any hour never lowers the loss", () => {
    fc.assert(
      fc.property(
        crop,
        conditioning,
        fc.array(rainHour, { minLength: 1, maxLength: 12 }),
        fc.nat(),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (of, by, hours, pick, more) => {
          const at = pick % hours.length;
          const wetter = hours.map((h, i) => (i === at ? { ...h, rainMm: h.rainMm + more } : h));
          expect(rainLoss(of, by, wetter).pct).toBeGreaterThanOrEqual(rainLoss(of, by, hours).pct - 1e-9);
        },
      ),
    );
  });

  test("a drier crop never loses less of the same rain", () => {
    fc.assert(
      fc.property(
        fc.array(rainHour, { minLength: 1, maxLength: 8 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (hours, f) => {
          const drier = hours.map((h) => ({ ...h, moistureWb: h.moistureWb * f }));
          expect(rainLoss("alfalfa", "roll", drier).pct).toBeGreaterThanOrEqual(
            rainLoss("alfalfa", "roll", hours).pct - 1e-9,
          );
        },
      ),
    );
  });

  test("an hour told as two parts, and a shower among dry hours, count the same", () => {
    const whole = rainLoss("alfalfa", "none", [{ rainMm: 6, moistureWb: 0.3 }]).pct;
    const parts = rainLoss("alfalfa", "none", [
      { rainMm: 2, moistureWb: 0.3 },
      { rainMm: 0, moistureWb: 0.3 },
      { rainMm: 4, moistureWb: 0.3 },
    ]).pct;
    // Two rainy hours instead of one: longer by an hour, not more matter by amount.
    expect(parts / whole).toBeCloseTo((5.5 + 1.1) / 5.5, 9);
  });

  test("alfalfa over red clover over grass; crushed to shreds most of all; none without rain; within its ends", () => {
    const hours = [{ rainMm: 10, moistureWb: 0.3 }];
    const of = (key: (typeof CROPS)[number]) => rainLoss(key, "roll", hours).pct;
    expect(of("alfalfa")).toBeGreaterThan(of("red-clover"));
    expect(of("red-clover")).toBeGreaterThan(of("cool-season-grass"));
    expect(rainLoss("alfalfa", "intensive", hours).pct).toBeGreaterThan(of("alfalfa"));
    expect(rainLoss("alfalfa", "roll", []).pct).toBe(0);
    const long = Array.from({ length: 40 }, () => ({ rainMm: 5, moistureWb: 0.15 }));
    expect(rainLoss("alfalfa", "intensive", long).pct).toBe(54);
  });
});

describe("respiration", () => {
  test("a longer, warmer or wetter time never loses less, and never more than the worst seen", () => {
    fc.assert(
      fc.property(fc.array(breath, { maxLength: 200 }), breath, (hours, one) => {
        const base = respirationLoss(hours).pct;
        expect(respirationLoss([...hours, one]).pct).toBeGreaterThanOrEqual(base);
        const warmer = hours.map((h) => ({ ...h, swathTempC: h.swathTempC + 3 }));
        expect(respirationLoss(warmer).pct).toBeGreaterThanOrEqual(base - 1e-9);
        expect(base).toBeLessThanOrEqual(30);
      }),
      { numRuns: 50 },
    );
  });
});

describe("machines and stores", () => {
  test("baled drier, never less lost; rolls never over an impeller on legumes; grass alike", () => {
    fc.assert(
      fc.property(fc.constantFrom(...PACKAGES), crop, wb, wb, (pack, of, a, b) => {
        const [dry, wet] = a < b ? [a, b] : [b, a];
        expect(balingLoss(pack, of, dry).pct).toBeGreaterThanOrEqual(balingLoss(pack, of, wet).pct - 1e-9);
      }),
    );
    expect(mowingLoss("alfalfa", "impeller").pct).toBeGreaterThan(mowingLoss("alfalfa", "roll").pct);
    expect(mowingLoss("ryegrass", "impeller").pct).toBe(mowingLoss("ryegrass", "roll").pct);
    expect(BALING_LOSS["round-fixed-chamber"].value).toBeGreaterThan(BALING_LOSS.round.value);
  });

  test("a wetter bale or a wetter silo never keeps better", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PACKAGES),
        fc.constantFrom(...HAY_STORES),
        fc.constantFrom(...STORES),
        fc.boolean(),
        wb,
        wb,
        (pack, hay, silo, covered, a, b) => {
          const [dry, wet] = a < b ? [a, b] : [b, a];
          expect(hayStorageLoss(pack, hay, wet).pct).toBeGreaterThanOrEqual(
            hayStorageLoss(pack, hay, dry).pct,
          );
          const of = (moistureWb: number) => siloStorageLoss({ store: silo, moistureWb, covered }).pct;
          expect(of(wet)).toBeGreaterThanOrEqual(of(dry));
        },
      ),
    );
  });

  test("better cover and closer packing never lose more", () => {
    const rows = HAY_STORES.map((store) => hayStorageLoss("round", store, 0.18).pct);
    expect(rows).toEqual(rows.toSorted((a, b) => a - b));
    const bunker = { store: "bunker", moistureWb: 0.65 } as const;
    expect(siloStorageLoss({ ...bunker, covered: false }).pct).toBeGreaterThan(siloStorageLoss(bunker).pct);
    expect(siloStorageLoss({ ...bunker, densityKgM3: 240 }).pct).toBeLessThan(
      siloStorageLoss({ ...bunker, densityKgM3: 200 }).pct,
    );
    expect(siloStorageLoss({ store: "bag", moistureWb: 0.65, covered: false })).toEqual(
      siloStorageLoss({ store: "bag", moistureWb: 0.65 }),
    );
  });
});

const HISTORY: CutHistory = {
  crop: "alfalfa",
  conditioning: "roll",
  passes: [{ kind: "rake", moistureWb: 0.4 }],
  breathed: [{ swathTempC: 25, moistureWb: 0.7 }],
  rained: [{ rainMm: 5, moistureWb: 0.4 }],
  takenAtWb: 0.16,
};

describe("the steps of a route", () => {
  test.each(ROUTES)("%s: in order, within 0-100, low and high around, each with a source", (route) => {
    const steps = routeLosses(route, "round", HISTORY);
    const order = steps.map(({ step }) => LOSS_STEPS.indexOf(step));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    for (const step of steps) {
      expect(step.lowPct).toBeLessThanOrEqual(step.pct);
      expect(step.highPct).toBeGreaterThanOrEqual(step.pct);
      expect(step.highPct).toBeLessThanOrEqual(100);
      expect(step.source.length).toBeGreaterThan(3);
    }
  });

  test("standing routes lie on no swath; an absent key keeps its default; a fixed chamber costs more", () => {
    expect(routeLosses("direct-chop", "round", HISTORY).map(({ step }) => step)).toEqual([
      "chopping",
      "storage",
      "feeding-out",
    ]);
    expect(routeLosses("grazing", "round", HISTORY).map(({ step }) => step)).toEqual(["grazing"]);
    expect(routeLosses("dry-hay", "round", HISTORY, { hayStore: undefined })).toEqual(
      routeLosses("dry-hay", "round", HISTORY),
    );
    const fixed = lossTotal(routeLosses("dry-hay", "round", HISTORY, { fixedChamber: true })).pct;
    expect(fixed).toBeGreaterThan(lossTotal(routeLosses("dry-hay", "round", HISTORY)).pct);
  });

  test("hours between the cut and the machine, each with the moisture that it finds, partly where it is partly", () => {
    const startUtcMs = Date.UTC(2026, 6, 1, 12);
    const weather = {
      startUtcMs: startUtcMs - HOUR_MS,
      count: 5,
      airTempC: Float64Array.of(18, 20, 22, 24, 26),
      rainMm: Float64Array.of(9, 0, 2, 0, 9),
    } as unknown as HourlyWeather;
    const course = {
      startUtcMs,
      cutUtcMs: startUtcMs + HOUR_MS / 2,
      count: 4,
      moistureWb: [0.7, 0.6, 0.65, 0.5],
    };
    const { breathed, rained } = lyingHours(course, weather, 0.8, startUtcMs + 3.5 * HOUR_MS);
    expect(breathed.map(({ swathTempC }) => swathTempC)).toEqual([20, 22, 24, 26]);
    expect(breathed.map(({ hours }) => hours)).toEqual([0.5, 1, 1, 0.5]);
    expect(breathed[0]?.moistureWb).toBeCloseTo(0.75, 9);
    // The last rain finds the crop re-wetted to 0.65: it counts as the driest that it has been.
    expect(rained).toEqual([
      { rainMm: 2, moistureWb: 0.7 },
      { rainMm: 4.5, moistureWb: 0.6 },
    ]);
  });
});
