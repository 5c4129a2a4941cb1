import { describe, expect, test } from "vitest";
import {
  CALF_TRIAL,
  CLASS_WORDS,
  classify,
  defaultTarget,
  ENSILING_CREDIT,
  type FeedCheckRequest,
  feedCheck,
  MOLAR_MASS,
  NITRATE_TABLES,
  NITROGEN_SHARE,
  PRUSSIC_WAIT_WEEKS,
  readPrussicAcid,
  SAMPLING,
  samplingPlan,
  WAIT_WEEKS,
} from "../../../model/feed/index.ts";
import { waterClasses } from "../../../model/feed/water.ts";

/** Every printed class edge of the fourteen tables, of water and of prussic acid, and the printed waits and counts. */

type Animal = FeedCheckRequest["animal"];
const OPEN: Animal = { class: "beef-cow", kg: 600 };
const PREGNANT: Animal = { ...OPEN, pregnant: true };
const N = NITROGEN_SHARE.NO3;

const FREE = "no-restriction";
/** The source prints no class there. */
const SILENT = "nothing-said";
const LIMIT = "limited";
const NOT_SOLE = "not-sole-feed";
const NEVER = "do-not-feed";

type Edge = readonly [ppm: number, at: string, above: string];

/** As printed, in the unit of the print: NO3-N ppm as it is, NO3 through the molar masses. At the edge, and just above it. */
const PRINTED: readonly (readonly [table: string, animal: Animal, edges: readonly Edge[]])[] = [
  [
    // Clemson University Agricultural Service Laboratory: 1000, 1500, 2000, 3500, 4000 ppm NO3-N.
    "clemson",
    OPEN,
    [
      [1000, FREE, LIMIT],
      [1500, LIMIT, LIMIT],
      [2000, LIMIT, LIMIT],
      [3500, LIMIT, LIMIT],
      [4000, LIMIT, NEVER],
    ],
  ],
  [
    "clemson",
    PREGNANT,
    [
      [1000, FREE, LIMIT],
      [2000, LIMIT, NEVER],
    ],
  ],
  [
    // A commercial laboratory's table, source not kept: 700, 1400, 2100, 3500 ppm NO3-N.
    "laboratory",
    OPEN,
    [
      [700, FREE, LIMIT],
      [1400, LIMIT, LIMIT],
      [2100, LIMIT, LIMIT],
      [3500, LIMIT, NEVER],
    ],
  ],
  [
    // Oklahoma State University: 700 ppm NO3-N; the middle class to 1400 ppm NO3-N, printed beside 5000 NO3 (1130: the
    // stricter computes); over 5000 NO3 not as the only feed of open cows (reported by Hay & Forage Grower); 10 000 NO3.
    "oklahoma",
    OPEN,
    [
      [700, FREE, LIMIT],
      [5000 * N, LIMIT, NOT_SOLE],
      [10_000 * N, NOT_SOLE, NEVER],
    ],
  ],
  [
    // South Dakota State University: 0.15 and 0.45 % NO3-N.
    "south-dakota",
    OPEN,
    [
      [1500, FREE, LIMIT],
      [4500, LIMIT, NEVER],
    ],
  ],
  [
    // North Dakota State University: 1500, pregnant 1000, 3500 ppm NO3-N.
    "north-dakota",
    OPEN,
    [
      [1500, FREE, LIMIT],
      [3500, LIMIT, NEVER],
    ],
  ],
  [
    "north-dakota",
    PREGNANT,
    [
      [1000, FREE, LIMIT],
      [3500, LIMIT, NEVER],
    ],
  ],
  [
    // Cornell, reported: 0.44 % NO3 as the only forage, open cows to 0.88.
    "cornell",
    OPEN,
    [
      [4400 * N, FREE, LIMIT],
      [8800 * N, LIMIT, NEVER],
    ],
  ],
  ["cornell", PREGNANT, [[4400 * N, FREE, NEVER]]],
  // University of Nebraska, reported: concern begins at 9000 NO3.
  ["nebraska", OPEN, [[9000 * N, SILENT, NOT_SOLE]]],
  [
    // Manitoba Agriculture: 0.3, 0.6, 0.9 % NO3.
    "manitoba",
    OPEN,
    [
      [3000 * N, FREE, LIMIT],
      [6000 * N, LIMIT, NOT_SOLE],
      [9000 * N, NOT_SOLE, NEVER],
    ],
  ],
  [
    // Wyoming column: 6000 and 9000 NO3.
    "wyoming",
    OPEN,
    [
      [6000 * N, FREE, LIMIT],
      [9000 * N, LIMIT, NEVER],
    ],
  ],
  // Kansas, reported: over 6000 NO3 potentially toxic.
  ["kansas", OPEN, [[6000 * N, SILENT, NOT_SOLE]]],
  [
    // Illinois dairy, reported: 4400, and 17 600 NO3 in the whole ration.
    "illinois-dairy",
    OPEN,
    [
      [4400 * N, FREE, LIMIT],
      [17_600 * N, LIMIT, NEVER],
    ],
  ],
  // Penn State University: 1000 ppm NO3-N.
  ["penn-state", OPEN, [[1000, FREE, LIMIT]]],
  // Oregon State University: 0.35 % NO3, the lower of 0.35-0.45.
  ["oregon", OPEN, [[3500 * N, SILENT, NOT_SOLE]]],
  [
    // National Research Council 1972, from memory: 0.44, 0.66, 0.88, 1.54, 1.76 % NO3.
    "nrc-1972",
    OPEN,
    [
      [4400 * N, FREE, LIMIT],
      [6600 * N, LIMIT, LIMIT],
      [8800 * N, LIMIT, LIMIT],
      [15_400 * N, LIMIT, LIMIT],
      [17_600 * N, LIMIT, NEVER],
    ],
  ],
];

const readBy = (table: string, ppm: number, animal: Animal) =>
  classify(ppm, animal).find((verdict) => verdict.table === table);

describe("class edges as printed, ppm NO3-N of dry matter", () => {
  test.each(PRINTED)("%s, %j", (table, animal, edges) => {
    for (const [ppm, at, above] of edges) {
      expect([ppm, readBy(table, ppm, animal)?.class]).toEqual([ppm, at]);
      expect([ppm, readBy(table, ppm + 0.01, animal)?.class]).toEqual([ppm, above]);
      // Every edge is one: at least the advice changes there.
      expect(readBy(table, ppm, animal)?.advice).not.toBe(readBy(table, ppm + 0.01, animal)?.advice);
    }
  });

  test("all fourteen tables are among them, and no table has an edge that is not printed", () => {
    expect(NITRATE_TABLES.length).toBe(14);
    for (const { key, bands } of NITRATE_TABLES) {
      const printed = PRINTED.filter(([table]) => table === key).flatMap(([, , edges]) =>
        edges.map(([ppm]) => ppm),
      );
      const ours = bands.map(({ upTo }) => upTo).filter(Number.isFinite);
      for (const edge of ours)
        expect(
          printed.some((ppm) => Math.abs(ppm - edge) < 1e-9),
          `${key} ${edge}`,
        ).toBe(true);
    }
  });

  test("how they differ: never fed from 2033 (less in one table) to 4500; free for all from 678", () => {
    const least = (kind: string) =>
      NITRATE_TABLES.flatMap(({ key }) => {
        const edge = PRINTED.find(([table, animal]) => table === key && animal === OPEN)?.[2].find(
          ([, , above]) => above === kind,
        );
        return edge ? [edge[0]] : [];
      });
    expect(Math.max(...least(NEVER))).toBe(4500);
    expect(classify(2034, OPEN)[0]?.class).toBe(NEVER);
    expect(defaultTarget(OPEN, "strictest").ppm).toBeCloseTo(678, 0);
    expect(Object.keys(CLASS_WORDS).some((key) => /safe/.test(key))).toBe(false);
  });

  test("5100 ppm NO3 is not for open cows as the only feed (Oklahoma State, reported by Hay & Forage Grower)", () => {
    expect(readBy("oklahoma", 5100 * N, OPEN)?.class).toBe(NOT_SOLE);
  });

  test("Kansas, Nebraska and Oregon print no free class: below their edge they say nothing", () => {
    for (const key of ["kansas", "nebraska", "oregon"])
      expect(readBy(key, 500, OPEN)?.advice).toBe("says nothing here");
    expect(readBy("kansas", 500, PREGNANT)?.class).toBe(SILENT);
    // A silent table is never what leads.
    expect(classify(100, OPEN)[0]?.class).toBe(FREE);
  });

  test("the National Research Council's second band frees the open and halves the pregnant", () => {
    expect(readBy("nrc-1972", 1200, OPEN)?.advice).toMatch(/open stock without limit/);
    expect(readBy("nrc-1972", 1200, PREGNANT)?.advice).toMatch(/pregnant stock at most half/);
  });

  test("horses, by advisers beside N.C. Cooperative Extension 2018: 0.5 % NO3 adult, 0.2 % mares and growing", () => {
    const adult: Animal = { class: "horse", kg: 500 };
    for (const animal of [
      { ...adult, young: true },
      { ...adult, class: "mare" },
    ] as const) {
      expect(readBy("horse-advice", 2000 * N, animal)?.class).toBe(FREE);
      expect(readBy("horse-advice", 2001 * N, animal)?.class).toBe(LIMIT);
    }
    expect(readBy("horse-advice", 5000 * N, adult)?.class).toBe(FREE);
    expect(readBy("horse-advice", 5001 * N, adult)?.class).toBe(LIMIT);
  });

  test("mares and growing horses to 0.2 % NO3 (advisers, N.C. Cooperative Extension 2018 group): 452 ppm NO3-N", () => {
    expect(defaultTarget({ class: "mare", kg: 500 }, "strictest").ppm).toBeCloseTo(452, 0);
  });

  test("nitrogen in sodium nitrate 0.1648 (Na 22.990), per cent times 10 000 is ppm", () => {
    expect(MOLAR_MASS.N / (MOLAR_MASS.N + 3 * MOLAR_MASS.O + 22.99)).toBeCloseTo(0.1648, 4);
  });
});

describe("water, mg/L", () => {
  const council = (no3: number) => waterClasses(no3 * N)[0]?.class;
  const state = (no3n: number) => waterClasses(no3n)[1]?.class;

  test.each([
    // National Research Council 2001, from memory, NO3: 44, 132, 220, 660.
    [44, "low by this table", "only beside low-nitrate feed"],
    [132, "only beside low-nitrate feed", "harmful over a long time"],
    [220, "harmful over a long time", "risk of death"],
    [660, "risk of death", "not to be given"],
  ])("National Research Council, %d NO3", (edge, at, above) => {
    expect([council(edge), council(edge + 0.01)]).toEqual([at, above]);
  });

  test.each([
    // South Dakota State University, NO3-N: 100 (440 NO3) and 300 (1300 NO3, rounded in print).
    [100, "low by this table", "caution: add it to the feed's nitrate"],
    [300, "caution: add it to the feed's nitrate", "potentially toxic"],
  ])("South Dakota State, %d NO3-N", (edge, at, above) => {
    expect([state(edge), state(edge + 0.01)]).toEqual([at, above]);
    expect(edge / N / (edge === 100 ? 440 : 1300)).toBeCloseTo(1, 1);
  });
});

describe("intake and the traps of mixed bases, constructed", () => {
  test("15 US gal at 200 ppm NO3 add 963 ppm to the diet of 26 lb at 3000 ppm: feed 35.38 g", () => {
    const kg = 26 * 0.453_592_37;
    const answer = feedCheck({
      animal: OPEN,
      water: { litres: 15 * 3.785_411_784, value: 200, ion: "NO3", unit: "ppm" },
      feeds: [
        { id: "hay", dmFrac: 1, dmKg: kg, nitrate: { value: 3000, ion: "NO3", unit: "ppm", basis: "dm" } },
      ],
    });
    if (!answer.ok) throw new Error("refused");
    const { gNo3N, waterGNo3N, dietPpm } = answer.value.intake;
    expect(((gNo3N ?? 0) - (waterGNo3N ?? 0)) / N).toBeCloseTo(35.38, 2);
    expect((dietPpm ?? 0) / N - 3000).toBeCloseTo(963, 0);
  });

  test("the share of dry matter put to weights as fed gives a diet of 0.286 %, not 0.500", () => {
    // Silage 30 % dry at 0.90 % NO3, hay 88 % dry at 0.05 %; 0.5294 of the weight as fed.
    const silageDm = 0.5294 * 0.3;
    const hayDm = (1 - 0.5294) * 0.88;
    expect((silageDm * 0.9 + hayDm * 0.05) / (silageDm + hayDm)).toBeCloseTo(0.286, 3);
    // Read as dry matter, 0.27 % as fed would seem to need no limit.
    expect(0.27).toBeLessThan(0.5);
  });

  test("calf trial, J. Dairy Science: above 30 g KNO3 per 100 lb, 4.2 g NO3-N per 100 lb", () => {
    expect(CALF_TRIAL.value * 0.45359237).toBeCloseTo(4.2, 1);
  });

  test("6.353 kg and 5.647 kg of dry matter of a ration of 12 kg", () => {
    const answer = feedCheck({
      animal: OPEN,
      targetPpmNo3N: 5000 * N,
      feeds: [
        {
          id: "silage",
          dmFrac: 0.3,
          dmKg: 6,
          nitrate: { value: 0.27, ion: "NO3", unit: "pct", basis: "as-fed" },
          maxShare: true,
        },
        { id: "hay", dmFrac: 0.88, dmKg: 6, nitrate: { value: 0.05, ion: "NO3", unit: "pct", basis: "dm" } },
      ],
    });
    if (!answer.ok) throw new Error("refused");
    const share = answer.value.dilution?.maxShareDm.silage ?? 0;
    expect(share).toBeCloseTo(0.5294, 4);
    expect(12 * share).toBeCloseTo(6.353, 3);
    expect(12 * (1 - share)).toBeCloseTo(5.647, 3);
    // Weighed out by the target that was set, with what the strictest table says of it beside it.
    expect(answer.value.dilution?.asFedKg?.silage).toBeCloseTo(21.18, 2);
    expect(answer.value.dilution?.asFedKg?.hay).toBeCloseTo(6.417, 3);
    expect(answer.value.dilution?.tableShareCap).toEqual({ silage: 0 });
    expect(answer.value.cautions[0]).toMatch(
      /follow the target that you set: the strictest table lets silage make up none/,
    );
  });
});

describe("prussic acid, ppm (Kansas State; Pennsylvania column 2020; bands from memory)", () => {
  const classesAt = (ppmDm: number, dmFrac: number) =>
    readPrussicAcid({ value: ppmDm, unit: "ppm", basis: "dm" }, dmFrac).classes;
  const by = (ppmDm: number, dmFrac: number, source: RegExp) =>
    classesAt(ppmDm, dmFrac).find((verdict) => source.test(verdict.source))?.class;

  test("over 500 of dry matter, or over 200 as it is, not as the only feed", () => {
    expect(by(500, 0.3, /Kansas/)).toBe("below");
    expect(by(500.1, 0.3, /Kansas/)).toBe("danger");
    expect(by(400, 0.5, /Kansas/)).toBe("below");
    expect(by(400.1, 0.5, /Kansas/)).toBe("danger");
  });
  test("1000 of dry tissue may kill; 500-1000 is caution", () => {
    expect(by(999, 0.2, /Pennsylvania/)).toBe("below");
    expect(by(1000, 0.2, /Pennsylvania/)).toBe("danger");
    expect([499, 500, 999, 1000].map((ppm) => by(ppm, 0.2, /memory/))).toEqual([
      "below",
      "caution",
      "caution",
      "danger",
    ]);
  });
});

test("1500 ppm of prussic acid by three sources, the gravest first (from memory; Pennsylvania column 2020; Kansas State)", () => {
  const { classes, shareCap } = readPrussicAcid({ value: 1500, unit: "ppm", basis: "dm" }, 0.88);
  expect(classes.map(({ advice }) => advice)).toEqual(["do not feed", "may kill", "not as the only feed"]);
  expect(shareCap).toBe(0);
});

describe("fermenting and sampling as printed", () => {
  test("20 % of 20-66 computes; 4 weeks chopped, 6 wrapped, 8 for prussic acid (Ontario: 6-8)", () => {
    expect([ENSILING_CREDIT.value, ENSILING_CREDIT.validRange]).toEqual([0.2, [0.2, 0.66]]);
    expect(WAIT_WEEKS["wilted-chop"].value).toBe(4);
    expect(WAIT_WEEKS["direct-chop"].value).toBe(4);
    expect(WAIT_WEEKS["wrapped-bales"].value).toBe(6);
    expect(PRUSSIC_WAIT_WEEKS.value).toBe(8);
  });

  test("lots of 100 t, 20 cores, a dozen bales or 40 % (the stricter of 20 and 40), 15 places (of 10 and 15)", () => {
    expect(samplingPlan({ kind: "bales", tonnes: 250, bales: 300, parts: 1 })).toMatchObject({
      lots: 3,
      bales: 40,
      cores: 40,
    });
    expect(samplingPlan({ kind: "bales", tonnes: 10, bales: 20, parts: 1 })).toMatchObject({
      lots: 1,
      bales: 12,
      cores: 20,
    });
    expect(samplingPlan({ kind: "standing", parts: 2 })).toMatchObject({ lots: 2, places: 15 });
    expect(SAMPLING.baleShare.validRange).toEqual([0.2, 0.4]);
  });

  test("23 bales of one field, mean 2764 ppm, highest 6250 (Kansas State): 2.3 times the mean", () => {
    expect(6250 / 2764).toBeCloseTo(2.3, 1);
    expect(samplingPlan({ kind: "bales", bales: 23, parts: 1 }).steps.join(" ")).toContain(
      "2.3 times the mean",
    );
  });
});
