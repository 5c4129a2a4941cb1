import type { CropKey } from "../../model/drying/keys.ts";
import {
  GRAZED_NEED_KG_DM,
  GRAZED_T_HA,
  GRAZING,
  type GrazingPlan,
  grazingPlan,
  heightTradeOff,
  recommendedHeight,
} from "../../model/harvest/route-details/index.ts";
import { within } from "../../model/limits.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { heightText, isSuspect, type ToldHeight } from "./height.ts";

/** How the crop is grazed: strips by the daily need where a laboratory allows them, else light stocking. */

type Speech = Pick<Manner, "units" | "locale">;

export interface GrazingInputs {
  readonly crop: CropKey;
  /** Of the crop down to the stubble of the field. */
  readonly dryMatterTHa: number;
  readonly stubbleCm: number;
  readonly areaHa: number;
  readonly dailyNeedKgDm: number;
  readonly plantHeightCm: number | null;
  readonly nitratePpm: number | null;
  readonly prussicPpm: number | null;
  readonly firstLimitPpm: number;
}

/** The plan, or in words why there is none. What stands under the residual height is not counted as feed. */
export function planGrazing(
  inputs: GrazingInputs,
): { readonly plan: GrazingPlan } | { readonly plan: null; readonly why: string } {
  const { crop, dryMatterTHa, stubbleCm, plantHeightCm, nitratePpm, firstLimitPpm, dailyNeedKgDm } = inputs;
  const residual = recommendedHeight("grazing", crop, isSuspect(nitratePpm, firstLimitPpm), plantHeightCm);
  const left =
    residual.cm > stubbleCm
      ? heightTradeOff({
          crop,
          dryMatterTHa,
          fromCm: stubbleCm,
          toCm: residual.cm,
          plantHeightCm,
          nitratePpm,
        }).givenUpTHa
      : 0;
  const grazedTHa = dryMatterTHa - left;
  if (!within(grazedTHa, GRAZED_T_HA))
    return { plan: null, why: "Nothing is left to graze above the residual height." };
  if (!within(dailyNeedKgDm, GRAZED_NEED_KG_DM))
    return { plan: null, why: "The daily need is too small to plan by." };
  return { plan: grazingPlan({ ...inputs, dryMatterTHa: grazedTHa }) };
}

export function residualOf({ residualCm, residualLeast }: GrazingPlan): ToldHeight {
  return { cm: residualCm, least: residualLeast };
}

function daysText(days: number, numbers: Pick<Manner, "locale">): string {
  if (days < 1) return "less than a day";
  const whole = Math.floor(days);
  return whole === 1 ? "about a day" : `about ${numberText(whole, 0, numbers)} days`;
}

export function grazingSentence(plan: GrazingPlan, manner: Speech): string {
  const residual = `Leave ${heightText(residualOf(plan), manner)} standing.`;
  const lasts = `The field lasts ${daysText(plan.days, manner)}`;
  if (plan.manner === "light-stocking")
    return `${plan.text} ${residual} ${lasts} where it gives ${numberText(GRAZING.lightShare.value * 100, 0, manner)} % of the need, the rest being tested feed.`;
  const strip = plan.stripHa === null ? "" : ` Each strip ${quantityText(plan.stripHa, "area", manner)}.`;
  return `${plan.text}${strip} ${residual} ${lasts}.`;
}

/** Strips across the field for the picture; more than can be drawn are drawn as that many. */
export const MOST_STRIPS = 24;
export function stripsOf(plan: GrazingPlan, areaHa: number): number {
  if (plan.stripHa === null || plan.stripHa <= 0) return 0;
  return Math.min(MOST_STRIPS, Math.max(1, Math.ceil(areaHa / plan.stripHa - 1e-9)));
}

export function grazingTable(plan: GrazingPlan, manner: Speech): readonly (readonly string[])[] {
  const area = (ha: number | null) => (ha === null ? "none forced" : quantityText(ha, "area", manner));
  return [
    [
      "Manner",
      plan.manner === "strips" ? "strips" : "light stocking",
      "strips only with a laboratory result under the first limit; sources differ, the stricter counts",
    ],
    [
      "Area of a day's feed",
      area(plan.dayHa),
      "daily need, yield above the residual height, what is trodden",
    ],
    ["Strip", area(plan.stripHa), GRAZING.stripDays.source],
    ["Residual height", heightText(residualOf(plan), manner), "see cutting height"],
    [
      "The field lasts",
      daysText(plan.days, manner),
      plan.manner === "strips" ? "by the need" : GRAZING.lightShare.source,
    ],
  ];
}
