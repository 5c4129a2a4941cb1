import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CROPS } from "../../../../model/drying/keys.ts";
import { defaultBand } from "../../../../model/harvest/bands.ts";
import { PACKAGES, ROUTES } from "../../../../model/harvest/keys.ts";
import {
  CHOPPING,
  COMMON_PRACTICE,
  celsiusOf,
  fahrenheitOf,
  filmLayers,
  GRAZING,
  grazingPlan,
  HEAT_TABLE,
  heatLog,
  heatStep,
  heightTradeOff,
  moistureRows,
  packingWeightT,
  preservativeFor,
  recommendedHeight,
  routeWaits,
  stalkLeft,
  waterToAddKgPerT,
  wrapDelay,
} from "../../../../model/harvest/route-details/index.ts";
import { DAY_MS } from "../../../../model/weather/clock.ts";

const cm = (max: number) => fc.double({ min: 0, max, noNaN: true });

describe("cutting height", () => {
  const question = {
    crop: "drought-corn",
    dryMatterTHa: 6,
    fromCm: 10,
    plantHeightCm: 180,
    nitratePpm: 2000,
  } as const;

  test("a higher stubble never raises the nitrate taken, and never gives up less", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CROPS),
        cm(100),
        cm(50),
        cm(50),
        fc.integer({ min: 60, max: 350 }),
        (crop, fromCm, a, b, tall) => {
          const [low, high] = a < b ? [a, b] : [b, a];
          const at = (more: number) =>
            heightTradeOff({ ...question, crop, fromCm, toCm: fromCm + more, plantHeightCm: tall });
          expect(at(high).planPpm ?? 0).toBeLessThanOrEqual(at(low).planPpm ?? 0);
          expect(at(high).profilePpm ?? 0).toBeLessThanOrEqual((at(low).profilePpm ?? 0) + 1e-6);
          expect(at(high).givenUpTHa).toBeGreaterThanOrEqual(at(low).givenUpTHa);
          expect(at(high).givenUpTHa).toBeLessThanOrEqual(6);
        },
      ),
    );
  });

  test("the profile never computes: the plan keeps the tested value; no test or no height, no profile", () => {
    const higher = heightTradeOff({ ...question, toCm: 60 });
    expect(higher.planPpm).toBe(2000);
    expect(higher.profilePpm ?? 0).toBeLessThan(1000);
    expect(higher.drierPoints).toBeGreaterThan(2);
    expect(heightTradeOff({ ...question, toCm: 60, nitratePpm: null })).toMatchObject({
      planPpm: null,
      profilePpm: null,
    });
    expect(heightTradeOff({ ...question, toCm: 60, plantHeightCm: null }).profilePpm).toBeNull();
    expect(heightTradeOff({ ...question, crop: "alfalfa", fromCm: 5, toCm: 6 })).toMatchObject({
      soilContact: true,
      drierPoints: 0,
    });
    expect(() => heightTradeOff({ ...question, toCm: 5 })).toThrow(/toCm must be in \[10, 150\], got 5/);
  });

  test("suspect crops are cut at a foot, fresh ones above the bottom third; practice stands beside it, unused", () => {
    expect(recommendedHeight("dry-hay", "drought-corn", true, 150).cm).toBeCloseTo(30.48, 9);
    expect(recommendedHeight("green-chop", "drought-corn", true, 150).cm).toBeCloseTo(50, 9);
    expect(recommendedHeight("grazing", "sorghum-sudan", true, null).cm).toBeCloseTo(30.48, 9);
    expect(recommendedHeight("dry-hay", "sorghum-sudan", false, 150)).toMatchObject({
      cm: 20,
      practiceCm: [20, 30],
    });
    expect(recommendedHeight("dry-hay", "alfalfa", true, null)).toMatchObject({ cm: 8, practiceCm: null });
    expect(recommendedHeight("wrapped-bales", "drought-corn", true, null).practiceCm).toEqual([15, 20]);
  });

  test("more of the stalk left behind never leaves a higher content", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1.2, noNaN: true }),
        fc.double({ min: 0, max: 1.2, noNaN: true }),
        (a, b) => {
          const [low, high] = a < b ? [a, b] : [b, a];
          expect(stalkLeft(high).ppmShare).toBeLessThanOrEqual(stalkLeft(low).ppmShare + 1e-9);
          expect(stalkLeft(high).dryShare).toBeGreaterThan(0);
        },
      ),
    );
  });
});

describe("heat in the stack", () => {
  test.each([
    [40, "steady"],
    [52, "watch"],
    [66, "open"],
    [71, "fire-service"],
    [79, "fire-service"],
    [88, "fire"],
    [93, "fire"],
    [150, "fire"],
  ])("%d °C: %s", (tempC, level) => expect(heatStep(tempC).level).toBe(level));

  test("hotter never calls for less; rows rise; °C and °F turn into each other", () => {
    const place = (tempC: number) => HEAT_TABLE.indexOf(heatStep(tempC));
    for (let tempC = -20; tempC < 120; tempC++) expect(place(tempC + 1)).toBeGreaterThanOrEqual(place(tempC));
    for (const { fromF } of HEAT_TABLE) expect(fahrenheitOf(celsiusOf(fromF))).toBeCloseTo(fromF, 9);
    expect(heatStep(celsiusOf(175)).action).toMatch(/call the fire service/);
  });

  test("a log: the day's hottest counts, days not probed do not, the last day decides", () => {
    const at = (day: number, tempC: number) => ({ atUtcMs: day * DAY_MS + 1000, tempC });
    const log = heatLog([at(5, 58), at(2, 40), at(2, 45), at(3, 25)]);
    expect(log).toMatchObject({ hottestC: 58, daysProbed: 3, heatingDegreeDaysC: 15 + 28 });
    expect(log?.risePerDayC).toBeCloseTo(33 / 2, 9);
    expect(log?.now.level).toBe("watch");
    expect(heatLog([at(1, 20)])?.risePerDayC).toBeNull();
    expect(heatLog([])).toBeNull();
  });
});

describe("film, chop, preservative", () => {
  test.each([
    [0, "in-time"],
    [12, "in-time"],
    [12.1, "late"],
    [24, "late"],
    [24.1, "too-late"],
  ])("%f h to the film: %s", (hours, level) => expect(wrapDelay(hours).level).toBe(level));

  test("six layers, eight on coarse stems", () => {
    expect([filmLayers("alfalfa"), filmLayers("small-grain-dough"), filmLayers("drought-corn")]).toEqual([
      6, 6, 8,
    ]);
  });

  test("no preservative where it is dry, none that helps where it is wet; a wetter bale never gets less", () => {
    for (const pack of PACKAGES) {
      const shares = [0.14, 0.16, 0.18, 0.2, 0.22, 0.25, 0.26, 0.3].map(
        (wb) => preservativeFor(pack, wb).share,
      );
      expect(shares).toEqual(shares.toSorted((a, b) => (a ?? 0) - (b ?? 0)));
      expect(shares[0]).toBe(0);
      expect(preservativeFor(pack, 0.31).share).toBeNull();
      expect(preservativeFor(pack, 0.22).text).toMatch(/nothing for nitrate/);
    }
    expect(preservativeFor("round", 0.22).text).toMatch(/no help/);
    expect(preservativeFor("small-square", 0.18).share).toBe(0);
  });

  test("packing", () => {
    expect(packingWeightT(60)).toBeCloseTo(24, 9);
    expect(waterToAddKgPerT(0.6, 0.6)).toBe(0);
    expect(CHOPPING.leastDensityKgM3.value).toBeCloseTo(240.3, 1);
  });
});

describe("moisture and waits of every route", () => {
  test.each(ROUTES)("%s", (route) => {
    for (const crop of CROPS) {
      const rows = moistureRows(route, crop);
      if (route === "green-chop" || route === "grazing") expect(rows).toEqual([]);
      for (const row of rows)
        expect(row.band).toEqual(defaultBand(route, crop, row.package ?? "round", row.store ?? "bunker"));
      const waits = routeWaits(route, crop);
      expect(waits.some(({ what }) => what === "test")).toBe(true);
      for (const wait of waits) expect(wait.text).not.toMatch(/\bsafe\b/i);
    }
  });

  test("weeks by route, more for the sorghum family; silo gas for chopped feed alone", () => {
    const weeks = (route: (typeof ROUTES)[number], crop: (typeof CROPS)[number]) =>
      routeWaits(route, crop).find(({ what }) => what === "ferment")?.amount;
    expect([
      weeks("wrapped-bales", "alfalfa"),
      weeks("wilted-chop", "corn"),
      weeks("direct-chop", "forage-sorghum"),
    ]).toEqual([6, 4, 8]);
    const gas = ROUTES.filter((route) => routeWaits(route, "corn").some(({ what }) => what === "silo-gas"));
    expect(gas).toEqual(["wilted-chop", "direct-chop"]);
  });
});

describe("grazing", () => {
  const question = {
    crop: "sorghum-sudan",
    dryMatterTHa: 4,
    dailyNeedKgDm: 900,
    areaHa: 10,
    plantHeightCm: 150,
    nitratePpm: 300,
    prussicPpm: 100,
    firstLimitPpm: 678,
  } as const;

  test("strips by need and yield where nitrate is under the first limit", () => {
    const plan = grazingPlan(question);
    expect(plan.manner).toBe("strips");
    // 4000 kg less 30 % trampled = 2800 kg a hectare.
    expect(plan.dayHa).toBeCloseTo(900 / 2800, 9);
    expect(plan.stripHa).toBeCloseTo((2 * 900) / 2800, 9);
    expect(plan.days).toBeCloseTo((10 * 2800) / 900, 9);
  });

  test.each([
    ["untested", null],
    ["over the first limit", 700],
  ])("%s: no strips, light stocking, more left standing", (_what, nitratePpm) => {
    const plan = grazingPlan({ ...question, nitratePpm });
    expect(plan).toMatchObject({ manner: "light-stocking", dayHa: null, stripHa: null });
    const unmeasured = { ...question, plantHeightCm: null };
    expect(grazingPlan({ ...unmeasured, nitratePpm }).residualCm).toBeGreaterThan(
      grazingPlan(unmeasured).residualCm,
    );
    expect(plan.text).toMatch(/do not strip-graze/);
  });

  test("sorghum types: 14 d after rain, 7 d after frost, 24 or 30 in high (Texas A&M, Kansas State, reported)", () => {
    const waits = (crop: "sudangrass" | "forage-sorghum" | "corn" | "alfalfa") =>
      routeWaits("grazing", crop).map(({ what, amount }) => [what, amount]);
    expect(waits("sudangrass")).toEqual([
      ["test", null],
      ["rain", 14],
      ["frost", 7],
      ["height", null],
    ]);
    expect(waits("corn").slice(1)).toEqual([
      ["rain", 14],
      ["frost", 7],
    ]);
    expect(waits("alfalfa")).toHaveLength(1);
    expect(routeWaits("grazing", "forage-sorghum").at(-1)?.text).toContain("77 cm");
    for (const prussicPpm of [null, 500])
      expect(grazingPlan({ ...question, crop: "sudangrass", prussicPpm })).toMatchObject({
        manner: "light-stocking",
        stripHa: null,
      });
    expect(grazingPlan({ ...question, crop: "sudangrass" }).manner).toBe("strips");
  });

  test("the bottom third is left whatever the laboratory found: it is stricter than the usual stubble", () => {
    expect(grazingPlan(question)).toMatchObject({ manner: "strips", residualCm: 50, residualLeast: true });
    expect(recommendedHeight("green-chop", "drought-corn", false, 180)).toMatchObject({
      cm: 60,
      least: true,
    });
    expect(recommendedHeight("grazing", "alfalfa", false, 90)).toMatchObject({ cm: 8, least: false });
    const [stubble] = COMMON_PRACTICE;
    expect(stubble?.computes).toMatch(/^31 cm while nitrate is suspect/);
  });

  test("light stocking takes only a part of the need from the field", () => {
    expect(GRAZING.lightShare.value).toBeLessThan(1);
  });
});
