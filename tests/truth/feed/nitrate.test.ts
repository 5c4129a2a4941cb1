import { describe, expect, test } from "vitest";
import {
  asFedKg,
  defaultTarget,
  type FeedCheckRequest,
  feedCheck,
  MOLAR_MASS,
  maxShare,
  NITROGEN_SHARE,
  no3nPpmDm,
} from "../../../model/feed/index.ts";

/** Figures of print and of chemistry, each with where it stands. */

describe("conversions: molar masses N 14.007, O 15.999, K 39.098 (IUPAC)", () => {
  const nitrate = MOLAR_MASS.N + 3 * MOLAR_MASS.O;

  test.each([
    ["NO3-N in NO3", NITROGEN_SHARE.NO3, 0.2259],
    ["NO3 of NO3-N", 1 / NITROGEN_SHARE.NO3, 4.427],
    ["NO3-N in KNO3", NITROGEN_SHARE.KNO3, 0.1385],
    ["KNO3 of NO3-N", 1 / NITROGEN_SHARE.KNO3, 7.218],
    ["KNO3 of NO3", NITROGEN_SHARE.NO3 / NITROGEN_SHARE.KNO3, 1.631],
    ["NO3 of KNO3", NITROGEN_SHARE.KNO3 / NITROGEN_SHARE.NO3, 0.6133],
    ["nitrate, g/mol", nitrate, 62.004],
    ["potassium nitrate, g/mol", nitrate + MOLAR_MASS.K, 101.102],
  ])("%s", (_what, ours, printed) => {
    // Within half of the last printed digit.
    const digits = String(printed).split(".")[1]?.length ?? 0;
    expect(Math.abs(ours - printed)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-9);
  });

  test("printed roundings 4.43, 0.226 (University of Nebraska) and 0.23, 0.14 (Michigan State) move an edge by up to 2 %", () => {
    expect(1 / NITROGEN_SHARE.NO3 / 4.43).toBeCloseTo(1, 2);
    expect(NITROGEN_SHARE.NO3 / 0.226).toBeCloseTo(1, 2);
    expect(Math.abs(NITROGEN_SHARE.NO3 / 0.23 - 1)).toBeLessThan(0.02);
    expect(Math.abs(NITROGEN_SHARE.KNO3 / 0.14 - 1)).toBeLessThan(0.02);
  });

  test.each([
    // Oklahoma State: 3000 NO3 and 5000 KNO3 stand beside 700 NO3-N (rounded in print).
    [3000, "NO3", "ppm", 678],
    [5000, "KNO3", "ppm", 693],
    // Cornell, Manitoba, Wyoming and others, per cent NO3 to ppm NO3-N as derived beside them.
    [0.44, "NO3", "pct", 994],
    [0.66, "NO3", "pct", 1491],
    [0.88, "NO3", "pct", 1988],
    [0.9, "NO3", "pct", 2033],
    [1.5, "NO3", "pct", 3389],
    [0.3, "NO3", "pct", 678],
    [0.6, "NO3", "pct", 1355],
    [0.5, "NO3", "pct", 1130],
    [6000, "NO3", "ppm", 1355],
    [4400, "NO3", "ppm", 994],
    [17_600, "NO3", "ppm", 3976],
    [0.35, "NO3", "pct", 791],
    [0.45, "NO3", "pct", 1017],
    [1.76, "NO3", "pct", 3976],
    [10_000, "NO3", "ppm", 2259],
    [9000, "NO3", "ppm", 2033],
  ] as const)("%d %s %s is %d ppm NO3-N", (value, ion, unit, ppm) => {
    expect(Math.abs(no3nPpmDm({ value, ion, unit, basis: "dm" }, 1) - ppm)).toBeLessThanOrEqual(0.6);
  });

  test("the trap of print: 30 g KNO3 a hundredweight is 300 mg KNO3 a pound, 4.2 g NO3-N a hundredweight, not 300 mg NO3-N", () => {
    // J. Dairy Science (University of Missouri, 1958): least lethal first dose above 30 g KNO3 per 100 lb.
    expect(30 * NITROGEN_SHARE.KNO3).toBeCloseTo(4.2, 1);
    expect(1 / NITROGEN_SHARE.KNO3).toBeCloseTo(7.2, 1);
  });
});

describe("dilution and intake, constructed from the formulas", () => {
  test("target 0.5 % NO3, hay 1.2 %, diluent 0.1 %: 0.3636 of the dry matter", () => {
    expect(maxShare(0.5, 1.2, 0.1)).toBeCloseTo(0.3636, 4);
  });

  test("silage of 30 % dry matter at 0.90 % NO3, hay 0.05 %: 0.5294; 21.18 kg and 6.417 kg as fed", () => {
    const share = maxShare(0.5, 0.9, 0.05);
    expect(share).toBeCloseTo(0.5294, 4);
    const kg = asFedKg(share, 12, { id: "silage", dmFrac: 0.3, dmKg: 6 }, [
      { id: "hay", dmFrac: 0.88, dmKg: 6 },
    ]);
    expect(kg.silage).toBeCloseTo(21.18, 2);
    expect(kg.hay).toBeCloseTo(6.417, 3);
    // As fed the silage reads 0.27 %, which would seem to be under the target of dry matter.
    expect(no3nPpmDm({ value: 0.27, ion: "NO3", unit: "pct", basis: "as-fed" }, 0.3)).toBeCloseTo(
      no3nPpmDm({ value: 0.9, ion: "NO3", unit: "pct", basis: "dm" }, 0.3),
      6,
    );
  });

  test("26 lb at 3000 ppm NO3 and 15 US gal of water at 200 ppm NO3: 35.38 + 11.36 g, the diet reads 3963 ppm", () => {
    const answer = feedCheck({
      animal: { class: "beef-cow", kg: 500 },
      water: { litres: 15 * 3.785_411_784, value: 200, ion: "NO3", unit: "ppm" },
      feeds: [
        {
          id: "hay",
          dmFrac: 1,
          dmKg: 26 * 0.453_592_37,
          nitrate: { value: 3000, ion: "NO3", unit: "ppm", basis: "dm" },
        },
      ],
    });
    if (!answer.ok) throw new Error("refused");
    const { gNo3N, dietPpm, waterGNo3N } = answer.value.intake;
    expect((gNo3N ?? 0) / NITROGEN_SHARE.NO3).toBeCloseTo(46.74, 2);
    expect((waterGNo3N ?? 0) / NITROGEN_SHARE.NO3).toBeCloseTo(11.36, 2);
    expect((dietPpm ?? 0) / NITROGEN_SHARE.NO3).toBeCloseTo(3963, 0);
  });
});

describe("tables as printed, for a result between their edges", () => {
  const classOf = (ppm: number, table: string, animal: FeedCheckRequest["animal"]) => {
    const answer = feedCheck({
      animal,
      table,
      feeds: [
        {
          id: "hay",
          dmFrac: 0.88,
          dmKg: 5,
          nitrate: { value: ppm, ion: "NO3-N", unit: "ppm", basis: "dm" },
          maxShare: true,
        },
        { id: "straw", dmFrac: 0.9, dmKg: 5, nitrate: { value: 10, ion: "NO3-N", unit: "ppm", basis: "dm" } },
      ],
    });
    if (!answer.ok) throw new Error("refused");
    return [answer.value.feeds[0]?.strictest?.class, answer.value.dilution?.tableShareCap.hay];
  };
  const open = { class: "beef-cow", kg: 600 } as const;
  const pregnant = { ...open, pregnant: true } as const;

  test.each([
    // Clemson University Agricultural Service Laboratory, ppm NO3-N.
    [900, "clemson", open, "no-restriction", 1],
    [1200, "clemson", open, "limited", 1],
    [1200, "clemson", pregnant, "limited", 0.5],
    [1800, "clemson", open, "limited", 0.5],
    [3000, "clemson", open, "limited", 0.35],
    [3000, "clemson", pregnant, "do-not-feed", 0],
    [3800, "clemson", open, "limited", 0.25],
    [4100, "clemson", open, "do-not-feed", 0],
    // North Dakota State: under 1500, pregnant under 1000.
    [1200, "north-dakota", open, "no-restriction", 1],
    [1200, "north-dakota", pregnant, "limited", null],
    // South Dakota State: 0.15 and 0.45 % NO3-N.
    [1500, "south-dakota", open, "no-restriction", 1],
    [1501, "south-dakota", open, "limited", null],
    [4501, "south-dakota", open, "do-not-feed", 0],
    // Manitoba: 0.6 to 0.9 % NO3 not as the only feed.
    [1500, "manitoba", open, "not-sole-feed", null],
    [2100, "manitoba", open, "do-not-feed", 0],
  ] as const)("%d ppm by %s", (ppm, table, animal, kind, share) => {
    expect(classOf(ppm, table, animal)).toEqual([kind, share]);
  });

  test("the strictest edges: 678 ppm is unrestricted nowhere above, 2033 is refused somewhere", () => {
    expect(defaultTarget(open, "strictest")).toMatchObject({ table: "manitoba" });
    expect(defaultTarget(open, "strictest").ppm).toBeCloseTo(678, 0);
    expect(classOf(2040, "strictest", open)[0]).toBe("do-not-feed");
  });
});
