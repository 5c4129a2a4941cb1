import { describe, expect, test } from "vitest";
import { runCourse } from "../../../model/drying/course.ts";
import { CONDITIONINGS, CROPS } from "../../../model/drying/keys.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import { SUNNY_DRY } from "../../truth/drying/checks.ts";
import { repeatedDays, STANDARD_SWATH, START_MS } from "../../truth/drying/conditions.ts";

const HOUR_MS = 3_600_000;
const CUT_HOUR = 8;
const HOURS_BEFORE_DUSK = 11;
/** Moisture, wet basis, that counts as no difference: a tenth of a point. */
const NOTHING = 0.001;

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
