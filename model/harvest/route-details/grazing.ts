import { coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_EDGES } from "../../feed/prussic-acid.ts";
import { requireRange } from "../../limits.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
import { GRAZING_LOSS } from "../losses/feeding-out.ts";
import { recommendedHeight } from "./cutting-height.ts";
import { GRAZED_NEED_KG_DM, GRAZED_T_HA } from "./limits.ts";

export const GRAZING = {
  stripDays: coefficient(
    2,
    "d at most",
    "published",
    "strips of 2 days or less (Nebraska, drought-stressed standing corn)",
    [1, 2],
  ),
  /** 6-ft tasselled corn: about 100 cows an acre and day. */
  cowDaysPerAcre: coefficient(100, "cow-days an acre", "published", "6-ft tasselled corn (Nebraska)", null),
  lightShare: coefficient(
    0.5,
    "of the herd's need from this field",
    "assumed",
    "light stocking while nitrate is suspect: the rest from tested feed; no source gives a number",
    [0.3, 0.6],
  ),
} as const;

const M2_PER_ACRE = 4046.8564224;

export interface GrazingQuestion {
  readonly crop: CropKey;
  /** Dry matter above the residual height, t/ha. */
  readonly dryMatterTHa: number;
  readonly dailyNeedKgDm: number;
  readonly areaHa: number;
  readonly plantHeightCm: number | null;
  /** Laboratory result, ppm NO3-N of dry matter; null = not tested. */
  readonly nitratePpm: number | null;
  /** Laboratory result of a sorghum type, ppm of dry matter; null = not tested. Other crops are not asked. */
  readonly prussicPpm?: number | null | undefined;
  /** The first limit of the table that the user goes by, ppm NO3-N. */
  readonly firstLimitPpm: number;
}

export interface GrazingPlan {
  readonly manner: "strips" | "light-stocking";
  /** Area of a day's feed, ha; null under light stocking: no strips are forced. */
  readonly dayHa: number | null;
  readonly stripHa: number | null;
  readonly days: number;
  readonly residualCm: number;
  /** True where the residual is a published least: it is then never rounded down. */
  readonly residualLeast: boolean;
  readonly text: string;
}

/** Why a sorghum type is not to be grazed yet for its prussic acid, in words; null where a result lies under the lines. */
export function prussicDoubt({
  crop,
  prussicPpm = null,
}: Pick<GrazingQuestion, "crop" | "prussicPpm">): string | null {
  if (!PRUSSIC_CROPS.includes(crop)) return null;
  if (prussicPpm === null) return "Prussic acid is not tested: keep the animals out until it is";
  // From 500 ppm of dry matter: caution by three bands from memory; above it not the only feed by Kansas State.
  return prussicPpm >= PRUSSIC_EDGES.dmPpm
    ? `Prussic acid is at ${Math.round(prussicPpm)} ppm, over a published line: keep the animals out, test again, ask a veterinarian`
    : null;
}

/**
 * How to graze: strips by the daily need where a laboratory result is under the first limit; else light stocking with a
 * high residual, since strips force animals to eat stems. (One source advises daily strips for all corn, another none for
 * suspect feed: the stricter computes.) A sorghum type waits for its prussic acid as well.
 */
export function grazingPlan(question: GrazingQuestion): GrazingPlan {
  const { crop, dryMatterTHa, dailyNeedKgDm, areaHa, nitratePpm, firstLimitPpm, plantHeightCm } = question;
  requireRange("grazingPlan", "dryMatterTHa", dryMatterTHa, GRAZED_T_HA.min, GRAZED_T_HA.max);
  requireRange("grazingPlan", "dailyNeedKgDm", dailyNeedKgDm, GRAZED_NEED_KG_DM.min, GRAZED_NEED_KG_DM.max);
  const nitrateSuspect = nitratePpm === null || nitratePpm > firstLimitPpm;
  const doubt = prussicDoubt(question);
  const suspect = nitrateSuspect || doubt !== null;
  const residual = recommendedHeight("grazing", crop, nitrateSuspect, plantHeightCm);
  const [residualCm, residualLeast] = [residual.cm, residual.least];
  const loss = GRAZING_LOSS[suspect ? "set-stocked" : "strips-of-days"].value;
  const eatenKgHa = dryMatterTHa * 1000 * (1 - loss / 100);
  const fromField = suspect ? dailyNeedKgDm * GRAZING.lightShare.value : dailyNeedKgDm;
  const days = (areaHa * eatenKgHa) / fromField;
  if (suspect) {
    const nitrate = nitratePpm === null ? "Nitrate is not tested" : "Nitrate is over the first limit";
    const why = [doubt, nitrateSuspect ? nitrate : "After that"].filter((one) => one !== null).join(". ");
    const text = `${why}: fill the animals first, stock lightly, do not strip-graze and do not make them clean up stems. By day only in the first week.`;
    return { manner: "light-stocking", dayHa: null, stripHa: null, days, residualCm, residualLeast, text };
  }
  const dayHa = fromField / eatenKgHa;
  const stripHa = Math.min(areaHa, dayHa * GRAZING.stripDays.value);
  const text = `Strips for ${GRAZING.stripDays.value} days at most; move the fence before they eat down to the stems.`;
  return { manner: "strips", dayHa, stripHa, days, residualCm, residualLeast, text };
}

/** Area of a cow's day in tall corn, m². @example cowDayM2() // 40.5, 435.6 square feet */
export function cowDayM2(): number {
  return M2_PER_ACRE / GRAZING.cowDaysPerAcre.value;
}
