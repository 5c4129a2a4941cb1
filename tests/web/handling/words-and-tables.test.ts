import { describe, expect, test } from "vitest";
import { CROPS } from "../../../model/drying/keys.ts";
import { ROUTES } from "../../../model/harvest/index.ts";
import { COMMON_PRACTICE, HEAT_TABLE } from "../../../model/harvest/route-details/index.ts";
import {
  chopSentence,
  chopTable,
  packingRows,
  packingSentence,
  waterWords,
} from "../../../web/handling/chopping.ts";
import { dryDownPicture, dryDownSentence, dryDownTable } from "../../../web/handling/dry-down.ts";
import { firstLimit, limitHint } from "../../../web/handling/first-limit.ts";
import { grazingSentence, grazingTable, planGrazing, stripsOf } from "../../../web/handling/grazing.ts";
import {
  degreeDaysSentence,
  fireServiceText,
  heatRow,
  heatSentence,
  heatTable,
  logOf,
  needsFireService,
  readProbe,
} from "../../../web/handling/heat.ts";
import { heatPicture } from "../../../web/handling/heat-chart.ts";
import {
  type HeightsQuestion,
  heightRows,
  heightSentence,
  heightTable,
  settableHeight,
  soilSentence,
} from "../../../web/handling/height.ts";
import { keptAt, moistureSentence, moistureTable } from "../../../web/handling/moisture.ts";
import { moistureAt } from "../../../web/handling/moments.ts";
import { cutLines } from "../../../web/handling/plant.ts";
import { practiceTable } from "../../../web/handling/practice.ts";
import {
  preservativeRow,
  preservativeSentence,
  preservativeTable,
} from "../../../web/handling/preservative.ts";
import { placeStrip, roomFor, toldTicks } from "../../../web/handling/strip.ts";
import { waitSentence, waitStrip, waitTable } from "../../../web/handling/waits.ts";
import {
  butyricPct,
  delaySentence,
  filmRowOf,
  filmRows,
  filmSentence,
} from "../../../web/handling/wrapping.ts";

const metric = { units: "metric", locale: "en-GB", hour12: false, zone: "America/Chicago" } as const;
const us = { units: "us", locale: "en-US", hour12: true, zone: "America/Chicago" } as const;
const german = { ...metric, locale: "de-DE" } as const;
const usual = { package: "round", store: "bunker" } as const;
const picked = { on: true, package: null, store: null } as const;

describe("moisture", () => {
  const hay = keptAt("dry-hay", "alfalfa", picked, usual);

  test("the package of the field comes first, with where the crop stands to its band", () => {
    expect(hay[0]?.name).toBe("round bales");
    const at = (wb: number) => moistureSentence(hay, [{ key: "window", wb, text: "" }], metric);
    expect(at(0.16)).toBe(
      "Round bales: 12–16 % moisture. As its window opens the swath is at 16 %: in the band.",
    );
    expect(at(0.17)).toContain("a point too wet");
    expect(at(0.1)).toContain("2 points too dry");
    expect(moistureSentence(keptAt("grazing", "alfalfa", picked, usual), [], metric)).toContain(
      "Taken fresh",
    );
  });

  test("every package has its band, how it is founded and its source", () => {
    const table = moistureTable(hay, metric);
    expect(table).toHaveLength(4);
    expect(table[0]?.slice(0, 3)).toEqual(["Round bales", "12–16 %", "driest assumed, wettest published"]);
  });

  test("between the ends of two hours the moisture is on the straight line", () => {
    const hours = { startUtc: ["2026-07-01T15:00:00Z", "2026-07-01T16:00:00Z"], moistureWb: [0.7, 0.6] };
    const course = { hours } as unknown as Parameters<typeof moistureAt>[0];
    expect(moistureAt(course, 0.8, Date.parse("2026-07-01T15:00:00Z"))).toBe(0.8);
    expect(moistureAt(course, 0.8, Date.parse("2026-07-01T16:30:00Z"))).toBeCloseTo(0.65, 9);
    expect(moistureAt(course, 0.8, Date.parse("2026-07-01T17:00:00Z"))).toBeCloseTo(0.6, 9);
    expect(moistureAt(course, 0.8, Date.parse("2026-07-01T14:00:00Z"))).toBeNull();
    expect(moistureAt(course, 0.8, Date.parse("2026-07-01T20:00:00Z"))).toBeNull();
  });
});

describe("wrapping", () => {
  test("what a delay costs is the trial's next point, and past its last one at least that", () => {
    expect([0, 5, 10, 24, 30].map((h) => butyricPct(h))).toEqual([
      { pct: 0, least: false },
      { pct: 0.2, least: false },
      { pct: 0.55, least: false },
      { pct: 0.55, least: false },
      { pct: 0.55, least: true },
    ]);
    expect(delaySentence(18, german)).toContain("Over 12 hours after baling");
    expect(delaySentence(18, german)).toContain("0,55 % butyric acid");
    expect(delaySentence(30, metric)).toContain("do not wrap and count on it");
  });

  test("coarse stems get more layers; over a year no count holds", () => {
    expect(filmRows("alfalfa").map(({ layers }) => layers)).toEqual(["6", "6", "no count holds"]);
    expect(filmRows("drought-corn")[0]?.layers).toBe("8");
    expect([10, 26, 40, 52, 53].map(filmRowOf)).toEqual([0, 0, 1, 1, 2]);
    expect(filmSentence("alfalfa", 60, metric)).toContain("60 weeks is more than film lasts");
  });
});

describe("chopping and packing", () => {
  test("the user's rate stands among the usual ones, in its own units", () => {
    expect(packingRows(50, metric).map(({ tPerH, own }) => [tPerH, own])).toEqual([
      [20, false],
      [40, false],
      [50, true],
      [60, false],
      [100, false],
    ]);
    expect(packingRows(60, metric).filter(({ tPerH }) => tPerH === 60)).toEqual([
      { tPerH: 60, own: true, weightT: 24 },
    ]);
    // 800 lb for each short ton an hour: 50 ton/h need 40 000 lb, 20 short tons.
    expect(packingSentence(50 * 0.90718474, us)).toMatch(/^50 ton\/h arriving needs 20 ton of tractors/);
  });

  test("lengths as they are printed in inches, and in mm", () => {
    expect(chopSentence(us)).toContain("0.375 to 0.5 in; 0.75 with a processor");
    expect(chopSentence(metric)).toContain("10 to 13 mm; 19 with a processor");
    expect(waterWords(us)).toContain("57 lb of water a ton");
    expect(chopTable(us).map(([, much]) => much)).toContain("6 in");
  });
});

describe("preservative", () => {
  test("dose by moisture, in the reader's units and decimal mark", () => {
    expect(preservativeSentence("round", 22, us)).toContain("10 lb a ton");
    expect(preservativeSentence("round", 22, german)).toContain("0,5 % of the wet weight");
    expect(preservativeSentence("round", 15, metric)).toContain("without a preservative");
    expect(preservativeSentence("round", 35, metric)).toContain("Too wet for any dose");
    expect([15, 16, 22, 28, 31].map((pct) => preservativeRow("round", pct))).toEqual([0, 0, 1, 2, 3]);
    expect(preservativeTable("round", metric).map(([, , dose]) => dose)).toEqual([
      "none",
      "5 kg a tonne",
      "10 kg a tonne",
      "let it dry, or wrap it",
    ]);
  });
});

describe("heating log", () => {
  const probes = [
    { day: "2026-07-17", tempC: 48 },
    { day: "2026-07-16", tempC: 41 },
    { day: "2026-07-19", tempC: 60 },
    { day: "2026-07-19", tempC: 66 },
  ];

  test("the last day's hottest, its rise and what the table says of it", () => {
    expect(heatSentence(probes, metric)).toBe(
      "Sunday 19 Jul: 66 °C at the hottest, rising 9 °C a day. Probe every 2 hours and open the stack to cool it.",
    );
    expect(heatSentence(probes, us)).toContain("151 °F at the hottest, rising 16.2 °F a day");
    const log = logOf(probes);
    expect(heatRow(log)).toBe(2);
    expect(needsFireService(log)).toBe(false);
    // 11 + 18 + 36 over 30 °C.
    expect(log && degreeDaysSentence(log, metric)).toContain("add up to 65 °C days; under 111 °C days");
    expect(log && degreeDaysSentence(log, us)).toContain("under 200 °F days");
    expect(heatSentence([], metric)).toContain("daily until it is steady");
  });

  test("from the row that names it the fire service comes first", () => {
    for (const { fromF, level } of HEAT_TABLE.slice(1)) {
      const log = logOf([{ day: "2026-07-16", tempC: ((fromF - 32) * 5) / 9 }]);
      expect(needsFireService(log)).toBe(level === "fire-service" || level === "fire");
    }
    expect(fireServiceText(us)).toBe("160 °F");
  });

  test("the first row has no lower end: it is told from above", () => {
    expect(heatTable(us)[0]?.[0]).toBe("under 125 °F");
    expect(heatTable(metric)[0]?.[0]).toBe("under 52 °C");
    expect(JSON.stringify(heatTable(metric))).not.toContain("459");
  });

  test.each([
    ["", "Empty; the temperature inside the stack is needed."],
    ["hot", 'Got "hot", must be a number in digits.'],
    ["500", "Got 500, must be at least -60 and at most 400 °C."],
  ])("a temperature of %j is refused by its field", (text, error) => {
    const read = readProbe("2026-07-16", { text, units: "metric" }, [], metric);
    expect(read.probe).toBeNull();
    expect(read.errors.temp).toBe(error);
  });

  test("°F is kept as °C, and a day that is none is refused", () => {
    expect(readProbe("2026-07-16", { text: "150", units: "us" }, [], us).probe?.tempC).toBeCloseTo(65.556, 3);
    expect(readProbe("2026-02-30", { text: "50", units: "metric" }, [], metric).errors.day).toBeDefined();
  });

  test("the chart goes through the hottest of each day", () => {
    const picture = heatPicture(probes, 700);
    expect(picture.line.match(/[ML]/g)).toHaveLength(3);
    expect(picture.points).toHaveLength(4);
    expect(heatPicture([], 390).line).toBe("");
  });
});

describe("standing crop", () => {
  test("0.734 to 0.68 at 0.6 points a day: in band in about 9 days unless it rains", () => {
    const question = { moistureWb: 0.734, bandWb: [0.65, 0.68], ownRate: null } as const;
    expect(dryDownSentence(question, metric)).toContain("in band in about 9 days unless it rains");
    expect(dryDownTable(question, metric)[0]?.slice(1, 3)).toEqual(["9", "14"]);
    const { rows, scale } = dryDownPicture(question, metric);
    expect(rows).toHaveLength(3);
    for (const { zones } of rows) {
      expect(zones[0]?.from).toBe(0);
      expect(zones.at(-1)?.to).toBe(scale.right);
    }
  });

  test("in band, too dry, and a crop that does not dry", () => {
    const bandWb = [0.65, 0.68] as const;
    expect(dryDownSentence({ moistureWb: 0.66, bandWb, ownRate: null }, metric)).toContain("in the band");
    expect(dryDownSentence({ moistureWb: 0.5, bandWb, ownRate: null }, metric)).toContain("drier than");
    const still = { moistureWb: 0.8, bandWb, ownRate: 0 };
    expect(dryDownSentence(still, metric)).toContain("stays too wet");
    expect(dryDownTable(still, metric)[0]?.slice(1, 3)).toEqual(["never", "never"]);
    expect(dryDownPicture(still, metric).rows[0]?.zones).toHaveLength(1);
  });
});

describe("cutting height", () => {
  const { ppm } = firstLimit();
  const question: HeightsQuestion = {
    routes: ["wrapped-bales", "green-chop"],
    crop: "drought-corn",
    dryMatterTHa: 6,
    stubbleCm: 15,
    plantHeightCm: 180,
    nitratePpm: null,
    firstLimitPpm: ppm,
  };

  test("untested corn: a foot for bales, the bottom third for what is taken fresh, with what that gives up", () => {
    const rows = heightRows(question);
    expect(rows.map(({ cm }) => Math.round(cm))).toEqual([30, 60]);
    expect(rows[0] && heightSentence(rows[0], question, us)).toBe(
      "Wrapped bales: cut at 12 in, nitrate not being tested. Against 6 in now that gives up 0.1 ton/ac and leaves 1.1 points of moisture in the field.",
    );
    // Never under what is recommended: 30.48 cm is 31.
    expect(rows[0] && settableHeight(rows[0], metric)).toBe(31);
    expect(heightTable(rows, question, metric)[0]?.[4]).toBe("not tested");
  });

  test("a test plans with its own value; the published profile is a promise of nothing", () => {
    const tested = { ...question, nitratePpm: 2000 };
    const row = heightTable(heightRows(tested), tested, metric)[1];
    expect(row?.[4]).toMatch(/^2,000 ppm to plan with; .* a promise of nothing$/);
    expect(row?.[6]).toBe("30–38 cm (common practice, no source)");
  });

  test("alfalfa is no accumulator: nothing is said of nitrate; a low cut takes soil", () => {
    const low = { ...question, crop: "alfalfa", stubbleCm: 5, routes: ["dry-hay"] } as const;
    const [row] = heightRows(low);
    expect(row && heightSentence(row, low, metric)).not.toContain("nitrate");
    expect(soilSentence(5, metric)).toContain("takes soil");
    expect(soilSentence(8, metric)).toBeNull();
  });

  test("the usual stubble of now reads the same in either system, and its words fit a phone", () => {
    const now = { ...question, crop: "alfalfa", stubbleCm: 8, routes: ["wilted-chop"] } as const;
    // 3 in typed is 7.62 cm: no other height to who reads both.
    for (const [stubbleCm, manner, text] of [
      [8, metric, "8 cm"],
      [8, us, "3 in"],
      [7.62, us, "3 in"],
    ] as const) {
      const asked = { ...now, stubbleCm };
      const [row] = heightRows(asked);
      if (row === undefined) throw new Error("no row");
      expect(heightSentence(row, asked, manner)).toBe(
        `Wilted chop: cut at ${text}. The stubble is at ${text} now, so nothing is given up.`,
      );
      expect(heightTable([row], asked, manner)[0]?.slice(1, 4)).toEqual([text, "nothing", "none"]);
      expect(cutLines(stubbleCm, row, manner)).toEqual([
        { key: "recommended", cm: stubbleCm, text: `${text}: now, and advised` },
      ]);
    }
    const [high] = heightRows(question);
    const lines = high ? cutLines(15, high, us) : [];
    expect(lines.map(({ text }) => text)).toEqual(["now 6 in", "advised 12 in"]);
    // Words begin 156 px into a picture that is 320 px wide on a phone of 390.
    for (const { text } of lines) expect(156 + roomFor(text)).toBeLessThan(320);
    expect(156 + roomFor("3.5 in: now, and advised")).toBeLessThan(340);
  });

  test("a stubble that is higher already gives up nothing", () => {
    const high = { ...question, stubbleCm: 40, routes: ["wrapped-bales"] } as const;
    const [row] = heightRows(high);
    expect(row?.against).toBeNull();
    expect(row && heightSentence(row, high, metric)).toContain("nothing is given up");
  });
});

describe("grazing", () => {
  const { ppm } = firstLimit();
  const inputs = {
    crop: "drought-corn",
    dryMatterTHa: 6,
    stubbleCm: 15,
    areaHa: 6,
    dailyNeedKgDm: 900,
    plantHeightCm: 180,
    prussicPpm: null,
    firstLimitPpm: ppm,
  } as const;

  test.each([null, ppm + 1])("nitrate %s: no strips, light stocking", (nitratePpm) => {
    const { plan } = planGrazing({ ...inputs, nitratePpm });
    if (plan === null) throw new Error("no plan");
    expect(plan.manner).toBe("light-stocking");
    expect(stripsOf(plan, inputs.areaHa)).toBe(0);
    expect(grazingSentence(plan, metric)).toContain("do not strip-graze");
    expect(grazingTable(plan, metric)[2]?.[1]).toBe("none forced");
  });

  test("under the first limit: strips by the need, of what stands above the residual height", () => {
    const { plan } = planGrazing({ ...inputs, nitratePpm: 500 });
    if (plan === null) throw new Error("no plan");
    expect(plan.manner).toBe("strips");
    expect(stripsOf(plan, inputs.areaHa)).toBeGreaterThan(1);
    expect(grazingSentence(plan, us)).toContain("Leave 24 in standing.");
  });

  test("a sorghum type keeps the animals out until its prussic acid is tested and under the line", () => {
    const sudan = { ...inputs, crop: "sudangrass", nitratePpm: 300 } as const;
    for (const [prussicPpm, words] of [
      [null, "Prussic acid is not tested: keep the animals out until it is"],
      [700, "Prussic acid is at 700 ppm, over a published line: keep the animals out"],
    ] as const) {
      const { plan } = planGrazing({ ...sudan, prussicPpm });
      if (plan === null) throw new Error("no plan");
      expect(plan.manner).toBe("light-stocking");
      expect(grazingSentence(plan, metric)).toContain(words);
    }
    expect(planGrazing({ ...sudan, prussicPpm: 100 }).plan?.manner).toBe("strips");
  });

  test("nothing above the residual height, or a need of nothing, is said and not thrown", () => {
    expect(planGrazing({ ...inputs, nitratePpm: null, dryMatterTHa: 0.001 })).toMatchObject({ plan: null });
    expect(planGrazing({ ...inputs, nitratePpm: null, dailyNeedKgDm: 0.001 })).toMatchObject({ plan: null });
  });

  test("the strictest table counts, the spread is shown", () => {
    // Manitoba 0.3 % NO3 = 678 ppm NO3-N.
    expect(Math.round(ppm)).toBe(678);
    expect(limitHint(firstLimit(), metric)).toContain("678 (Manitoba Agriculture");
  });
});

describe("waits and common practice", () => {
  test("every route has its waits; those with a length have a picture", () => {
    for (const route of ROUTES) {
      expect(waitSentence(route, "corn")).not.toBe("");
      expect(waitTable(route, "corn").length).toBeGreaterThan(0);
    }
    expect(waitStrip("grazing", "alfalfa")).toBeNull();
    expect(waitStrip("grazing", "sudangrass")?.rows.map(({ zones }) => zones[0]?.to)).toEqual([14, 7]);
    expect(waitSentence("grazing", "sudangrass")).toMatch(/prussic acid .* wait 14 days .* wait 7 days/);
    expect(waitStrip("wilted-chop", "sorghum-sudan")?.rows.map(({ zones }) => zones[0]?.to)).toEqual([3, 8]);
    expect(waitTable("wrapped-bales", "corn").at(-1)?.[3]).toBe("common practice, no source");
  });

  test("common practice keeps its label, heights in the reader's units", () => {
    const table = practiceTable("corn", metric);
    expect(table.map(([, , label]) => label)).toEqual(COMMON_PRACTICE.map(({ label }) => label));
    expect(table[0]?.[1]).toBe("30-38 / 20-30 / 15-20 / 15-20");
    expect(practiceTable("corn", us)[0]?.slice(0, 2)).toEqual([
      "stubble: green chop / hay / wrapped bales / grazing residual, in",
      "12-15 / 8-12 / 6-8 / 6-8",
    ]);
    expect(practiceTable("corn", us)[0]?.[3]).toContain("12 in while nitrate is suspect");
  });

  test("what counts beside common practice is what the fold counts: sorghum types ferment 8 weeks", () => {
    const counts = (crop: "corn" | "sorghum-sudan") => practiceTable(crop, metric)[2]?.[3];
    expect(counts("corn")).toBe("wrapped bales 6 weeks, chopped 4: published");
    expect(counts("sorghum-sudan")).toBe("8 weeks for prussic acid, wrapped or chopped: published");
    expect(waitSentence("wrapped-bales", "sorghum-sudan")).toContain("ferment for 8 weeks");
  });

  test("no sentence says of anything that it is safe", () => {
    const said = ROUTES.flatMap((route) => [
      waitSentence(route, "drought-corn"),
      JSON.stringify(waitTable(route, "sudangrass")),
    ]);
    const rest = [
      practiceTable("corn", metric),
      heatTable(metric),
      chopTable(metric),
      CROPS.map((c) => filmRows(c)),
    ];
    expect(`${said.join(" ")} ${JSON.stringify(rest)}`).not.toMatch(/\bsafe/i);
  });
});

test.each([358, 860])(
  "a strip of %i px holds its zones side by side, whichever way its scale runs",
  (widthPx) => {
    const rows = [
      {
        name: "Round bales",
        zones: [
          { from: 90, to: 16, kind: "bare" as const },
          { from: 16, to: 12, kind: "fits" as const },
          { from: 12, to: 0, kind: "bare" as const },
        ],
      },
    ];
    const placed = placeStrip(
      rows,
      [{ at: 200, text: "beyond" }],
      { left: 90, right: 0, ticks: [90, 0] },
      widthPx,
    );
    const zones = placed.rows[0]?.zones ?? [];
    zones.slice(1).forEach(({ x }, i) => {
      expect(x).toBeCloseTo((zones[i]?.x ?? 0) + (zones[i]?.width ?? 0), 6);
    });
    expect(placed.marks[0]?.x).toBe(placed.x0);
    const told = toldTicks([0, 10, 20, 300].map((x) => ({ x, text: `${x} words` })));
    expect(told.map(({ x }) => x)).toEqual([0, 300]);
  },
);
