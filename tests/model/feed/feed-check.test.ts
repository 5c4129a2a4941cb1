import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ANIMAL_CLASSES,
  BASES,
  CONTENT_UNITS,
  classify,
  defaultTarget,
  type FeedCheckRequest,
  type FeedQuestion,
  feedCheck,
  IONS,
  maxShare,
  moistureTest,
  NITRATE_CLASSES,
  no3nPpmDm,
  readPrussicAcid,
  resultOf,
  SAMPLE_KINDS,
  samplingPlan,
  shareCap,
  TABLE_KEYS,
} from "../../../model/feed/index.ts";

const COW = { class: "beef-cow", kg: 600, pregnant: true } as const;
const HAY: FeedQuestion = {
  id: "oat hay",
  dmFrac: 0.88,
  dmKg: 8,
  nitrate: { value: 1.2, ion: "NO3", unit: "pct", basis: "dm" },
  route: "dry-hay",
  maxShare: true,
};
const STRAW: FeedQuestion = {
  id: "straw",
  dmFrac: 0.9,
  dmKg: 4,
  nitrate: { value: 100, ion: "NO3-N", unit: "ppm", basis: "dm" },
};

function checked(request: Partial<FeedCheckRequest> = {}) {
  const answer = feedCheck({ animal: COW, feeds: [HAY, STRAW], ...request });
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

function refused(request: Partial<FeedCheckRequest>) {
  const answer = feedCheck({ animal: COW, feeds: [HAY, STRAW], ...request });
  if (answer.ok) throw new Error("taken");
  return answer.issues;
}

describe("a result without its labels is refused, and nothing is computed from it", () => {
  test.each(["ion", "unit", "basis"] as const)("%s", (label) => {
    const { [label]: _gone, ...rest } = { value: 1.2, ion: "NO3", unit: "pct", basis: "dm" } as const;
    const answer = checked({ feeds: [{ ...HAY, nitrate: rest }, STRAW] });
    expect(answer.refusals).toEqual([{ feedId: "oat hay", missing: [label] }]);
    expect(answer.feeds[0]).toMatchObject({ ppm: null, classes: [], strictest: null });
    expect(answer.feeds[1]?.ppm).toBe(100);
    expect(answer.intake).toMatchObject({ gNo3N: null, gPer100Kg: null, dietPpm: null });
    expect(answer.dilution).toBeNull();
    expect(answer.noDilution).toMatch(/oat hay is not known/);
    expect(answer.defer).toContain("laboratory");
  });

  test("no result at all, and a field test, which gives no number", () => {
    const { nitrate: _gone, ...bare } = HAY;
    expect(checked({ feeds: [bare, STRAW] }).refusals).toEqual([{ feedId: "oat hay", missing: ["nitrate"] }]);
    const field = checked({ feeds: [{ ...bare, quickTest: "negative" }, STRAW] });
    expect(field.feeds[0]?.ppm).toBeNull();
    expect(field.refusals[0]?.missing).toEqual(["laboratory result"]);
    expect(field.cautions.join(" ")).toMatch(/one high sample in twenty/);
  });

  test("water without its ion leaves the totals open", () => {
    const answer = checked({ water: { litres: 60, value: 20, unit: "ppm" } });
    expect(answer.refusals).toEqual([{ feedId: "water", missing: ["ion"] }]);
    expect(answer.intake.gNo3N).toBeNull();
  });
});

describe("credit of fermentation", () => {
  test.each([
    ["wilted-chop", "standing", 0.8],
    ["wrapped-bales", "standing", 0.8],
    ["wilted-chop", "stored", null],
    ["wilted-chop", "fed-out", null],
    ["dry-hay", "standing", null],
    ["green-chop", "standing", null],
  ] as const)("%s sampled %s", (route, sampled, factor) => {
    const [feed] = checked({ feeds: [{ ...HAY, route, sampled }, STRAW] }).feeds;
    const ppm = feed?.ppm ?? 0;
    expect(feed?.creditedPpm).toBe(factor === null ? null : ppm * factor);
    expect(ppm).toBe(no3nPpmDm({ value: 1.2, ion: "NO3", unit: "pct", basis: "dm" }, 0.88));
  });

  test("the credited value computes, and the waiting weeks are told", () => {
    const plain = checked({ feeds: [{ ...HAY, route: "wilted-chop" }, STRAW] });
    const credited = checked({ feeds: [{ ...HAY, route: "wilted-chop", sampled: "standing" }, STRAW] });
    expect((credited.intake.gNo3N ?? 0) < (plain.intake.gNo3N ?? 0)).toBe(true);
    expect(credited.feeds[0]?.waitWeeks).toBe(4);
    const sorghum = checked({
      feeds: [{ ...HAY, route: "wilted-chop", prussicAcid: { value: 300, unit: "ppm", basis: "dm" } }, STRAW],
    });
    expect(sorghum.feeds[0]?.waitWeeks).toBe(8);
    expect(checked({ feeds: [{ ...HAY, route: "wrapped-bales" }, STRAW] }).feeds[0]?.waitWeeks).toBe(6);
  });
});

describe("malformed questions are named by field, value and limit", () => {
  test.each([
    [{ feeds: [{ ...HAY, dmFrac: 88 }, STRAW] }, "feeds[0].dmFrac", /got 88, must be above 0 and at most 1/],
    [{ feeds: [{ ...HAY, dmKg: -1 }, STRAW] }, "feeds[0].dmKg", /got -1/],
    [
      { feeds: [{ ...HAY, nitrate: { value: 101, ion: "NO3", unit: "pct", basis: "dm" } }] },
      "feeds[0].nitrate.value",
      /at most 100 %/,
    ],
    [
      { feeds: [{ ...HAY, nitrate: { value: -2, ion: "NO3", unit: "ppm", basis: "dm" } }] },
      "feeds[0].nitrate.value",
      /got -2/,
    ],
    [
      // 90 % as fed of 30 % dry matter would be three times all of the dry matter.
      { feeds: [{ ...HAY, dmFrac: 0.3, nitrate: { value: 90, ion: "NO3", unit: "pct", basis: "as-fed" } }] },
      "feeds[0].nitrate.value",
      /got 90 % NO3 as fed is 300 % NO3 of the dry matter, must be at most 100 % NO3/,
    ],
    [
      // Pure nitrate holds 22.59 % nitrogen.
      { feeds: [{ ...HAY, nitrate: { value: 226_000, ion: "NO3-N", unit: "ppm", basis: "dm" } }] },
      "feeds[0].nitrate.value",
      /must be at most 22.59 % NO3-N/,
    ],
    [
      { feeds: [{ ...HAY, dmFrac: 0.3, prussicAcid: { value: 40, unit: "pct", basis: "as-fed" } }] },
      "feeds[0].prussicAcid.value",
      /133.3 % prussic acid of the dry matter/,
    ],
    [{ feeds: [HAY, { ...STRAW, maxShare: true }] }, "feeds[1].maxShare", /at most one/],
    [{ feeds: [HAY, HAY] }, "feeds[1].id", /twice/],
    [{ feeds: [] }, "feeds", /got 0/],
    [{ animal: { class: "beef-cow", kg: 5 } }, "animal.kg", /got 5, must be at least 10/],
    [{ table: "oracle" }, "table", /strictest, clemson/],
    [{ targetPpmNo3N: 0 }, "targetPpmNo3N", /got 0/],
    [{ feeds: [{ ...HAY, quickTest: "positive" }] }, "feeds[0].quickTest", /not both/],
  ] as const)("%#", (request, path, message) => {
    const [issue] = refused(request as Partial<FeedCheckRequest>);
    expect(issue?.path).toBe(path);
    expect(issue?.message).toMatch(message);
  });
});

describe("what cannot be is no ration", () => {
  test("a feed that a table forbids is not weighed out", () => {
    const answer = checked();
    expect(answer.dilution).toMatchObject({ tableShareCap: { "oat hay": 0 }, asFedKg: null });
    expect(answer.dilution?.noRation).toMatch(/oat hay is not to be fed to this animal in any share/);
  });

  test("other feeds above the target leave no share, and say so", () => {
    const dirty = { ...STRAW, nitrate: { value: 900, ion: "NO3-N", unit: "ppm", basis: "dm" } } as const;
    const low = { ...HAY, nitrate: { value: 950, ion: "NO3-N", unit: "ppm", basis: "dm" } } as const;
    const answer = checked({ feeds: [low, dirty] });
    expect(answer.dilution?.maxShareDm["oat hay"]).toBe(0);
    expect(answer.dilution?.noRation).toMatch(/above the target by themselves/);
  });

  test("where a table limits without a number the cap is not all of it", () => {
    // 1380 ppm: Manitoba, Kansas and Oregon say "not as the only feed" and give no share.
    expect(shareCap(1380, { class: "beef-cow", kg: 600 }, "strictest")).toBeNull();
    expect(shareCap(600, { class: "beef-cow", kg: 600 }, "strictest")).toBe(1);
    expect(defaultTarget({ class: "mare", kg: 550 }, "strictest").ppm).toBeCloseTo(452, 0);
  });

  test("a label that is null is missing, and a feed called water is refused", () => {
    const answer = checked({
      feeds: [{ ...HAY, nitrate: { value: 1.2, ion: "NO3", unit: null, basis: "dm" } }, STRAW],
    });
    expect(answer.refusals).toEqual([{ feedId: "oat hay", missing: ["unit"] }]);
    expect(refused({ feeds: [{ ...HAY, id: "water" }] })[0]?.code).toBe("reserved");
  });
});

test("water counts: in the intake, and against what the feed may bring", () => {
  const dry = checked();
  const wet = checked({ water: { litres: 60, value: 100, ion: "NO3", unit: "ppm" } });
  expect((wet.intake.gNo3N ?? 0) - (dry.intake.gNo3N ?? 0)).toBeCloseTo(60 * 0.1 * 0.2259, 3);
  expect(wet.dilution?.maxShareDm["oat hay"] ?? 1).toBeLessThan(dry.dilution?.maxShareDm["oat hay"] ?? 0);
  expect(wet.water?.length).toBe(2);
  expect(checked({ targetPpmNo3N: 1130 }).dilution?.targetFrom).toBe("as you set it");
});

test("no verdict ever says that a feed is safe, and every answer defers to a laboratory", () => {
  const animals = ANIMAL_CLASSES.map((kind) => ({ class: kind, kg: 300 }));
  for (const animal of animals)
    for (const value of [1, 700, 1500, 2500, 9000]) {
      const answer = checked({
        animal,
        feeds: [{ ...HAY, nitrate: { value, ion: "NO3-N", unit: "ppm", basis: "dm" } }, STRAW],
        water: { litres: 40, value, ion: "NO3", unit: "ppm" },
      });
      expect(JSON.stringify(answer)).not.toMatch(/\bsafe/i);
      expect(answer.defer[0]).toBe("laboratory");
      if (["horse", "mare", "ewe", "lamb", "doe"].includes(animal.class))
        expect(answer.defer).toContain("veterinarian");
    }
});

const animal = fc.record({
  class: fc.constantFrom(...ANIMAL_CLASSES),
  kg: fc.integer({ min: 50, max: 900 }),
  pregnant: fc.boolean(),
});
const ppm = fc.double({ min: 0, max: 20_000, noNaN: true });

describe("whatever the numbers", () => {
  test("there and back through any ion, unit and basis is the same", () => {
    fc.assert(
      fc.property(
        ppm,
        fc.constantFrom(...IONS),
        fc.constantFrom(...CONTENT_UNITS),
        fc.constantFrom(...BASES),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (value, ion, unit, basis, dmFrac) => {
          const printed = resultOf(value, { ion, unit, basis }, dmFrac);
          expect(no3nPpmDm(printed, dmFrac)).toBeCloseTo(value, 6);
        },
      ),
    );
  });

  test("a higher result never gets a milder class or a larger share", () => {
    fc.assert(
      fc.property(ppm, ppm, animal, fc.constantFrom("strictest", ...TABLE_KEYS), (a, b, who, table) => {
        const [low, high] = a <= b ? [a, b] : [b, a];
        const rank = (value: number) => {
          const verdicts = classify(value, who);
          const verdict = table === "strictest" ? verdicts[0] : verdicts.find((one) => one.table === table);
          return NITRATE_CLASSES.indexOf(verdict?.class ?? "do-not-feed");
        };
        expect(rank(high)).toBeGreaterThanOrEqual(rank(low));
        const [lowCap, highCap] = [shareCap(low, who, table), shareCap(high, who, table)];
        if (lowCap !== null && highCap !== null) expect(highCap).toBeLessThanOrEqual(lowCap);
      }),
    );
  });

  test("the strictest never allows more than any table, and the pregnant never more than the open", () => {
    fc.assert(
      fc.property(ppm, animal, fc.constantFrom(...TABLE_KEYS), (value, who, table) => {
        expect(defaultTarget(who, "strictest").ppm).toBeLessThanOrEqual(defaultTarget(who, table).ppm);
        const [strict, one] = [shareCap(value, who, "strictest"), shareCap(value, who, table)];
        if (strict !== null && one !== null) expect(strict).toBeLessThanOrEqual(one);
        const open = { ...who, pregnant: false };
        expect(defaultTarget({ ...who, pregnant: true }, table).ppm).toBeLessThanOrEqual(
          defaultTarget(open, table).ppm,
        );
      }),
    );
  });

  test("diluting with a lower feed never raises the diet, and a worse diluent never allows a larger share", () => {
    fc.assert(
      fc.property(ppm, ppm, ppm, ppm, (target, high, c1, c2) => {
        const [low, worse] = c1 <= c2 ? [c1, c2] : [c2, c1];
        const share = maxShare(target, high, low);
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
        expect(maxShare(target, high, worse)).toBeLessThanOrEqual(share + 1e-12);
        if (share > 0 && share < 1) expect(share * high + (1 - share) * low).toBeCloseTo(target, 4);
      }),
    );
  });

  test("every ration closes: the weights as fed hold the dry matter asked about", () => {
    fc.assert(
      fc.property(
        ppm,
        ppm,
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (a, b, kgA, kgB) => {
          const answer = checked({
            feeds: [
              { ...HAY, dmKg: kgA, nitrate: { value: a, ion: "NO3-N", unit: "ppm", basis: "dm" } },
              { ...STRAW, dmKg: kgB, nitrate: { value: b, ion: "NO3-N", unit: "ppm", basis: "dm" } },
            ],
          });
          const kg = answer.dilution?.asFedKg ?? null;
          if (kg === null) expect(answer.dilution?.noRation).not.toBeNull();
          else expect((kg["oat hay"] ?? 0) * 0.88 + (kg.straw ?? 0) * 0.9).toBeCloseTo(kgA + kgB, 6);
        },
      ),
    );
  });
});

describe("horses are held to their own advice whatever cattle table is chosen", () => {
  // 0.28 % NO3: under every cattle table's first edge, over the 0.2 % for mares and growing horses.
  const hay = { ...HAY, nitrate: { value: 0.28, ion: "NO3", unit: "pct", basis: "dm" } } as const;
  const MARE = { class: "mare", kg: 550 } as const;

  test.each(["strictest", "clemson"])("a mare by %s: verdict, diet and target", (table) => {
    const answer = checked({ animal: MARE, table, feeds: [hay, STRAW] });
    expect(answer.feeds[0]?.strictest).toMatchObject({ table: "horse-advice", class: "limited" });
    expect(answer.feeds[0]?.classes).toHaveLength(15);
    expect(answer.diet?.[0]?.table).toBe("horse-advice");
    expect(answer.dilution?.targetPpm).toBeCloseTo(452, 0);
    expect(answer.dilution?.targetFrom).toBe("not restricted by horse-advice");
  });

  test("a growing horse as a mare; an adult one by the strictest cattle table", () => {
    expect(defaultTarget({ class: "horse", kg: 300, young: true }, "strictest").ppm).toBeCloseTo(452, 0);
    expect(defaultTarget({ class: "horse", kg: 500 }, "strictest").table).toBe("manitoba");
    expect(defaultTarget({ class: "horse", kg: 500 }, "nebraska").ppm).toBeCloseTo(1130, 0);
  });

  test("no weights of wrapped bales, and it is said first; cattle have them", () => {
    const feeds = [{ ...hay, route: "wrapped-bales" }, STRAW] as const;
    const horse = checked({ animal: { class: "horse", kg: 500 }, feeds });
    expect(horse.dilution?.asFedKg).toBeNull();
    expect(horse.dilution?.noRation).toMatch(/wrapped bales, which are not for horses.*ask a veterinarian/);
    expect(horse.cautions[0]).toMatch(/not for horses/);
    expect(checked({ animal: { class: "steer", kg: 500 }, feeds }).dilution?.asFedKg).not.toBeNull();
  });
});

describe("a target of one's own", () => {
  const open = { class: "beef-cow", kg: 600 } as const;

  test("a table that is named lets a pregnant cow have nothing that another forbids her", () => {
    const answer = checked({ table: "kansas" });
    expect(answer.dilution).toMatchObject({
      asFedKg: null,
      noRation: expect.stringMatching(/oat hay is not to be fed to this animal in any share/),
    });
  });

  test("never weighs out for pregnant or tender stock what a table forbids them", () => {
    for (const animal of [COW, { ...open, young: true }, { class: "calf", kg: 200 }] as const)
      for (const targetPpmNo3N of [1500, 5000])
        expect(checked({ animal, targetPpmNo3N }).dilution).toMatchObject({ asFedKg: null });
    expect(checked({ targetPpmNo3N: 5000, table: "south-dakota" }).dilution?.noRation).toMatch(
      /oat hay is not to be fed to this animal in any share by the strictest table/,
    );
  });

  test("nor, to anything, a diet that a table forbids", () => {
    const answer = checked({ animal: open, targetPpmNo3N: 5000 });
    expect(answer.dilution).toMatchObject({ maxShareDm: { "oat hay": 1 }, asFedKg: null });
    expect(answer.dilution?.noRation).toMatch(/makes a diet of 2711 ppm, which is not to be fed/);
    expect(checked({ animal: open, targetPpmNo3N: 1130 }).dilution?.asFedKg).not.toBeNull();
  });

  test("a diluent that is forbidden is no part of a ration either", () => {
    const spiced = { ...STRAW, id: "weeds", dmKg: 0.2, nitrate: { ...STRAW.nitrate, value: 4600 } } as const;
    const low = { ...HAY, nitrate: { value: 0.32, ion: "NO3", unit: "pct", basis: "dm" } } as const;
    const answer = checked({ animal: open, feeds: [low, STRAW, spiced] });
    expect(answer.dilution?.noRation).toMatch(/^weeds is not to be fed/);
  });
});

test("a pregnant bull is remarked on", () => {
  const answer = checked({ animal: { class: "bull", kg: 900, pregnant: true } });
  expect(answer.cautions.join(" ")).toMatch(/A bull cannot be pregnant: one of the two is wrong/);
});

test("a day's grams are set against the trial, and passing it is said", () => {
  const low = checked();
  expect(low.intake.trial.gPer100Kg).toBeCloseTo(9.16, 2);
  expect(low.cautions.join(" ")).not.toMatch(/killed calves/);
  const high = checked({ animal: { class: "calf", kg: 200, pregnant: false } });
  expect((high.intake.gPer100Kg ?? 0) > high.intake.trial.gPer100Kg).toBe(true);
  expect(high.cautions.join(" ")).toMatch(/least first dose that killed calves/);
});

describe("prussic acid", () => {
  test.each([
    // Kansas State: above 200 ppm as it is, or 500 ppm dry, not as the only feed.
    [{ value: 210, unit: "ppm", basis: "as-fed" }, 0.5, "danger"],
    [{ value: 490, unit: "ppm", basis: "dm" }, 0.3, "below"],
    [{ value: 520, unit: "ppm", basis: "dm" }, 0.9, "danger"],
    [{ value: 0.12, unit: "pct", basis: "dm" }, 0.3, "danger"],
  ] as const)("%j of %d dry matter is %s", (result, dmFrac, kind) => {
    expect(readPrussicAcid(result, dmFrac).classes[0]?.class).toBe(kind);
  });

  const OPEN = { class: "beef-cow", kg: 600 } as const;
  const LOW = { ...HAY, nitrate: { value: 0.2, ion: "NO3", unit: "pct", basis: "dm" } } as const;
  const holding = (value: number) => ({ value, unit: "ppm", basis: "dm" }) as const;

  test.each([
    // Low in nitrate, and still nothing is weighed out.
    [1500, 0, /1500 ppm of prussic acid .* may kill/],
    [700, null, /not as the only feed, and no source says how much/],
  ] as const)("%d ppm: no weights, the reason, and it is said first", (ppm, cap, why) => {
    const feeds = [{ ...LOW, prussicAcid: holding(ppm) }, STRAW];
    const answer = checked({ animal: OPEN, feeds });
    expect(answer.dilution).toMatchObject({ tableShareCap: { "oat hay": cap }, asFedKg: null });
    expect(answer.dilution?.noRation).toMatch(why);
    expect(answer.cautions[0]).toMatch(
      /^oat hay: prussic acid .*Pennsylvania.*Ask a veterinarian before any/,
    );
    expect(answer.defer).toContain("veterinarian");
    // Nor by a nitrate target of one's own, nor as the feed that thins another.
    expect(checked({ animal: OPEN, feeds, targetPpmNo3N: 5000 }).dilution?.asFedKg).toBeNull();
    const thinning = [LOW, { ...STRAW, prussicAcid: holding(ppm) }];
    expect(checked({ animal: OPEN, feeds: thinning }).dilution?.noRation).toMatch(/^straw holds/);
  });

  test("under every line there is a ration; unread there is none", () => {
    const under = checked({ animal: OPEN, feeds: [{ ...LOW, prussicAcid: holding(100) }, STRAW] });
    expect(under.dilution).toMatchObject({ tableShareCap: { "oat hay": 1 }, noRation: null });
    expect(under.cautions.join(" ")).not.toMatch(/before any of it is fed/);
    const unread = checked({
      animal: OPEN,
      feeds: [{ ...LOW, prussicAcid: { value: 100, unit: "ppm" } }, STRAW],
    });
    expect(unread.dilution?.asFedKg).toBeNull();
    expect(unread.dilution?.noRation).toMatch(/prussic acid of oat hay cannot be read/);
    expect(unread.refusals).toEqual([{ feedId: "oat hay", missing: ["prussicAcid.basis"] }]);
  });
});

describe("sampling plans", () => {
  test.each([
    // 60 bales of 36 t: one lot, 40 % of its bales (Kansas State), 24 bales and as many cores.
    [
      { kind: "bales", tonnes: 36, bales: 60, parts: 1 },
      { lots: 1, bales: 24, cores: 24 },
    ],
    // 300 t: three lots of 100 t at most; each of 200 bales.
    [
      { kind: "bales", tonnes: 300, bales: 600, parts: 1 },
      { lots: 3, bales: 80, cores: 80 },
    ],
    [
      { kind: "bales", tonnes: 5, bales: 10, parts: 2 },
      { lots: 2, bales: 5, cores: 20 },
    ],
    [
      { kind: "standing", parts: 2 },
      { lots: 2, places: 15, bales: null },
    ],
    [
      { kind: "silage", parts: 1 },
      { lots: 1, places: 10 },
    ],
  ] as const)("%j", (question, plan) => {
    expect(samplingPlan(question)).toMatchObject(plan);
  });

  test("each kind tells to ask for the labels", () => {
    for (const kind of SAMPLE_KINDS)
      expect(samplingPlan({ kind, parts: 1 }).steps.join(" ")).toMatch(/print the ion/);
  });
});

describe("the microwave test", () => {
  test("moisture from the weighings, and when it has settled", () => {
    // 100 g of sample in a dish of 250 g: 60 g of water.
    const dried = [320, 298, 291.5, 290.4, 290];
    const steps = dried.map((_, i) =>
      moistureTest({ tareG: 250, freshG: 350, driedG: dried.slice(0, i + 1) }),
    );
    expect(steps.map(({ settled }) => settled)).toEqual([false, false, false, false, true]);
    expect(steps.at(-1)?.moisturePct).toBeCloseTo(60, 6);
    expect(steps[0]?.next).toMatch(/30 s more/);
    expect(moistureTest({ tareG: 250, freshG: 350, driedG: [] }).next).toMatch(
      /3 minutes on high, a glass of water/,
    );
    expect(steps.at(-1)?.scalePoints).toBe(1);
  });

  // 20 g: a loss of 0.9 g in a turn is 4.5 points, and no settled weight.
  test("a small sample settles by its own share, and its scale is worth more points", () => {
    const of = (driedG: readonly number[]) => moistureTest({ tareG: 250, freshG: 270, driedG });
    expect(of([262, 261.1])).toMatchObject({ settled: false, scalePoints: 5 });
    expect(of([262, 261.1, 261])).toMatchObject({ settled: true, scalePoints: 5 });
    // A larger one no sooner than at 1 g.
    expect(moistureTest({ tareG: 250, freshG: 450, driedG: [350, 348.5] }).settled).toBe(false);
  });

  test("charring: seen, or a loss that grows again; the weight before counts", () => {
    const of = (driedG: readonly number[], charred = false) =>
      moistureTest({ tareG: 250, freshG: 350, driedG, charred });
    const burnt = of([300, 291, 290.5, 290, 284]);
    expect(burnt.moisturePct).toBeCloseTo(60, 6);
    expect(burnt).toMatchObject({ settled: true, newSample: false });
    expect(burnt.warnings.join()).toMatch(/chars/);
    // Whatever is weighed after it burnt, the weight at which it had settled stays.
    expect(of([300, 291, 290.5, 290, 284, 283.8]).moisturePct).toBeCloseTo(60, 6);
    const seen = of([300, 291, 290.5, 290, 288.5], true);
    expect([seen.settled, seen.moisturePct]).toEqual([true, expect.closeTo(60, 6)]);
    // Seen in the second of the two: the weight before it.
    expect(of([300, 290, 289.5, 289.2], true).moisturePct).toBeCloseTo(60.5, 6);
  });

  test("one turn that took nothing before it chars may be one that did not heat: no reading, a new sample", () => {
    for (const driedG of [
      [255, 255, 248],
      [255, 255],
      [255, 254.6, 252.8],
    ]) {
      const test = moistureTest({ tareG: 200, freshG: 300, driedG, charred: true });
      expect(test).toMatchObject({ moisturePct: null, settled: false, newSample: true });
    }
    // Nothing is brown: it goes on drying.
    const unseen = moistureTest({ tareG: 200, freshG: 300, driedG: [255, 255, 248] });
    expect(unseen).toMatchObject({ settled: false, newSample: false });
    expect(unseen.warnings.join()).toMatch(/did the oven heat in that turn/);
    const done = moistureTest({ tareG: 200, freshG: 300, driedG: [255, 255, 248, 247.6] });
    expect([done.settled, done.moisturePct]).toEqual([true, expect.closeTo(52.4, 6)]);
  });

  test("charred while water still came off: no reading, a new sample", () => {
    for (const driedG of [[255, 248], [290], [300, 289]]) {
      const test = moistureTest({ tareG: 200, freshG: 300, driedG, charred: true });
      expect(test).toMatchObject({ moisturePct: null, settled: false, newSample: true });
      expect(test.next).toMatch(/charred before it settled: take a new sample/);
    }
  });

  test("a weight that rose is no settled one: what comes off after it is water", () => {
    const slip = moistureTest({ tareG: 200, freshG: 300, driedG: [270, 272, 260] });
    expect(slip).toMatchObject({ settled: false, newSample: false });
    expect(slip.warnings.join()).toMatch(/rose/);
    expect(slip.warnings.join()).not.toMatch(/chars/);
  });

  test("a sample that next to nothing came off has not settled: the oven did not heat", () => {
    const cold = moistureTest({ tareG: 200, freshG: 300, driedG: [299.5, 299.2] });
    expect(cold).toMatchObject({ moisturePct: null, settled: false });
    expect(cold.warnings.join()).toMatch(/Only 0\.8 g of 100 g came off: did the oven heat\?/);
  });

  test("impossible weighings are told and give no number", () => {
    expect(moistureTest({ tareG: 250, freshG: 350, driedG: [290], charred: true })).toMatchObject({
      moisturePct: null,
      settled: false,
    });
    expect(moistureTest({ tareG: 250, freshG: 350, driedG: [Number.NaN] }).moisturePct).toBeNull();
    expect(samplingPlan({ kind: "bales", bales: Number.NaN, tonnes: -4, parts: 0 }).lots).toBe(1);
    expect(moistureTest({ tareG: 350, freshG: 250, driedG: [200] })).toMatchObject({ moisturePct: null });
    expect(moistureTest({ tareG: 250, freshG: 350, driedG: [240] }).warnings.join()).toMatch(
      /240 g lies outside/,
    );
    expect(moistureTest({ tareG: 250, freshG: 350, driedG: [300, 310] }).warnings.join()).toMatch(/rose/);
    expect(moistureTest({ tareG: 250, freshG: 280, driedG: [265] }).warnings.join()).toMatch(/small/);
  });
});
