import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { saturationKPa } from "../../../model/drying/air-terms.ts";
import { runCourse } from "../../../model/drying/course.ts";
import { CROP_CATALOGUE } from "../../../model/drying/crops.ts";
import { CONDITIONINGS, CROPS } from "../../../model/drying/keys.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import { SUNNY_DRY } from "../../truth/drying/checks.ts";
import { repeatedDays, STANDARD_SWATH, START_MS, weatherOf } from "../../truth/drying/conditions.ts";

const HOUR_MS = 3_600_000;
const CUT_HOUR = 8;
const HOURS_BEFORE_DUSK = 11;
/** Moisture, wet basis, that counts as no difference: a twentieth of a point. */
const NOTHING = 0.0005;

// Hours before the first dusk, no rain, dry soil: a wider, lighter, sunnier or drier swath is never the wetter one.
describe.each(CROPS)("%s", (crop) => {
  test.each(CONDITIONINGS)("%s: wider, lighter, sunnier, drier is never wetter", (conditioning) => {
    const course = (swath: Partial<SwathRequest>, day: Partial<typeof SUNNY_DRY> = {}) =>
      runCourse(
        repeatedDays(2, { ...SUNNY_DRY, ...day }),
        { ...STANDARD_SWATH, crop, conditioning, dryMatterTHa: 4, coveredFraction: 0.6, ...swath },
        START_MS + CUT_HOUR * HOUR_MS,
        [],
      ).moistureWb;
    const never = (better: Float64Array, worse: Float64Array, what: string) => {
      for (let i = 0; i < HOURS_BEFORE_DUSK; i++) {
        expect((better[i] as number) - (worse[i] as number), `${what}, hour ${i}`).toBeLessThan(NOTHING);
      }
    };
    const covers = [0.25, 0.45, 0.7, 1].map((coveredFraction) => course({ coveredFraction }));
    const yields = [9, 6, 4, 2, 1].map((dryMatterTHa) => course({ dryMatterTHa }));
    const suns = [150, 400, 650, 900].map((noonSunWm2) => course({}, { noonSunWm2 }));
    const airs = [11.5, 9, 4, -2].map((dewPointC) => course({}, { dewPointC }));
    for (const [what, rows] of Object.entries({
      wider: covers,
      lighter: yields,
      sunnier: suns,
      drier: airs,
    })) {
      for (let k = 1; k < rows.length; k++) never(rows[k] as Float64Array, rows[k - 1] as Float64Array, what);
    }
  });
});

const HOURS = 12;
const SUN_WM2 = [200, 950] as const;
const RH = [0.2, 0.85] as const;
const COVERED_GM2 = [100, 1200] as const;
/** Air that is made drier in the comparison is not made drier than this. */
const DRIEST_RH = 0.15;

interface Base {
  readonly meanTempC: number;
  readonly swingK: number;
  /** In the morning, when it is highest. */
  readonly rhFrac: number;
  readonly wind2mMps: number;
  readonly noonSunWm2: number;
  /** How much of the sun that is missing is told as cloud. */
  readonly cloudiness: number;
  readonly coveredGM2: number;
  readonly coveredFraction: number;
  readonly crop: (typeof CROPS)[number];
  readonly conditioning: (typeof CONDITIONINGS)[number];
  readonly fromUsualWb: number;
  readonly change: number;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const bases: fc.Arbitrary<Base> = fc
  .record({
    meanTempC: between(10, 38),
    swingK: between(0, 6),
    rhFrac: between(...RH),
    wind2mMps: between(0.5, 6),
    noonSunWm2: between(...SUN_WM2),
    cloudiness: between(0.6, 1.3),
    coveredGM2: between(...COVERED_GM2),
    coveredFraction: between(0.3, 1),
    crop: fc.constantFrom(...CROPS),
    conditioning: fc.constantFrom(...CONDITIONINGS),
    fromUsualWb: between(-0.25, 0.05),
    change: between(0, 1),
  })
  .filter(({ coveredGM2, coveredFraction }) => {
    const dryMatterTHa = (coveredGM2 * coveredFraction) / 100;
    return dryMatterTHa >= 1 && dryMatterTHa <= 9;
  });

/** A day of sun, cut in its first hour; the cloud is that of the base, so that sun is the only thing that differs. */
function dayOf(base: Base, noonSunWm2: number, vapourPressureKPa: number) {
  const [, most] = SUN_WM2;
  const missing = (most - base.noonSunWm2) / (most - SUN_WM2[0]);
  return weatherOf(HOURS, (hour) => {
    const airTempC = base.meanTempC - base.swingK * Math.cos((Math.PI * (hour - 0.5)) / 9);
    return {
      airTempC,
      rhFrac: Math.min(1, vapourPressureKPa / saturationKPa(airTempC)),
      wind2mMps: base.wind2mMps,
      solarWm2: noonSunWm2 * Math.max(0, Math.sin((Math.PI * (hour + 1.5)) / 14)),
      cloudFrac: Math.min(1, missing * base.cloudiness),
    };
  });
}

/** The greatest gain of the better over the worse in the hours in which the worse still loses water. */
function wetterBy(better: Float64Array, worse: Float64Array, startWb: number): number {
  const LOSING_WB = 0.0002;
  let before = startWb;
  let most = -1;
  for (let i = 0; i < HOURS; i++) {
    const now = worse[i] as number;
    if (now > before - LOSING_WB) break;
    most = Math.max(most, (better[i] as number) - now);
    before = now;
  }
  return most;
}

// 0.02 point is the most that 30 000 such days showed: drier air has a colder sky, which a swath in light wind feels, and the
// step is cut by thresholds.
// In the evening, when the heavy swath no longer dries, a light one takes up more water, as it should: not compared.
describe("on any dry day, 100-1200 g/m² of any crop and conditioning, as long as the swath dries", () => {
  test("wider, lighter, sunnier, drier is never wetter by more than 0.05 point", () => {
    fc.assert(
      fc.property(bases, (base) => {
        const { crop, conditioning, coveredFraction, change, coveredGM2, noonSunWm2 } = base;
        const morningKPa = saturationKPa(base.meanTempC - base.swingK);
        const vapourKPa = base.rhFrac * morningKPa;
        const initialMoistureWb = Math.min(
          0.88,
          Math.max(0.3, CROP_CATALOGUE[crop].usualMoistureWb + base.fromUsualWb),
        );
        const dryMatterTHa = (coveredGM2 * coveredFraction) / 100;
        const course = (swath: Partial<SwathRequest>, sun = noonSunWm2, kPa = vapourKPa) =>
          runCourse(
            dayOf(base, sun, kPa),
            {
              ...STANDARD_SWATH,
              crop,
              conditioning,
              initialMoistureWb,
              dryMatterTHa,
              coveredFraction,
              ...swath,
            },
            START_MS,
            [],
          ).moistureWb;
        const worse = course({});
        const lightest = COVERED_GM2[0] / coveredGM2;
        const to = (from: number, limit: number) => from + change * (limit - from);
        const better = {
          wider: course({ coveredFraction: to(coveredFraction, Math.min(1, coveredFraction / lightest)) }),
          lighter: course({ dryMatterTHa: dryMatterTHa * to(1, lightest) }),
          sunnier: course({}, to(noonSunWm2, SUN_WM2[1])),
          drier: course({}, noonSunWm2, to(vapourKPa, DRIEST_RH * morningKPa)),
        };
        for (const [what, moistureWb] of Object.entries(better)) {
          expect(wetterBy(moistureWb, worse, initialMoistureWb), what).toBeLessThan(NOTHING);
        }
      }),
      { seed: 13, numRuns: 3000 },
    );
  });
});
