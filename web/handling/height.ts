import type { CropKey } from "../../model/drying/keys.ts";
import { NITRATE_ACCUMULATORS } from "../../model/harvest/hazards/records.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import {
  CUTTING_HEIGHT,
  type HeightTradeOff,
  heightTradeOff,
  recommendedHeight,
} from "../../model/harvest/route-details/index.ts";
import { type Manner, numberText, quantityText, steppedText } from "../format/manner.ts";
import { toPage, toStep, unitName } from "../format/units.ts";
import { listText, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import { pointsText } from "./own.ts";

/** Cutting height by route: what a higher cut leaves in the field, and what it gives up. */

type Speech = Pick<Manner, "units" | "locale">;

export interface HeightsQuestion {
  readonly routes: readonly RouteKey[];
  readonly crop: CropKey;
  readonly dryMatterTHa: number;
  readonly stubbleCm: number;
  readonly plantHeightCm: number | null;
  readonly nitratePpm: number | null;
  /** The first limit of the strictest table, ppm NO3-N. */
  readonly firstLimitPpm: number;
}

export interface HeightRow {
  readonly route: RouteKey;
  /** Recommended, cm, as the model has it. */
  readonly cm: number;
  /** A published least, never told lower than it is; false for what is usual. */
  readonly least: boolean;
  readonly source: string;
  readonly practiceCm: readonly [number, number] | null;
  /** Against the stubble of now; null where that is as high or higher. */
  readonly against: HeightTradeOff | null;
}

/** Whether the crop is one of those that can hold much nitrate, by the sources. */
export function canHoldNitrate(crop: CropKey): boolean {
  return NITRATE_ACCUMULATORS.includes(crop);
}

/** Untested, or over the first limit: a crop that can is then treated as holding nitrate. */
export function isSuspect(nitratePpm: number | null, firstLimitPpm: number): boolean {
  return nitratePpm === null || nitratePpm > firstLimitPpm;
}

export function heightRows(question: HeightsQuestion): readonly HeightRow[] {
  const { routes, crop, dryMatterTHa, stubbleCm, plantHeightCm, nitratePpm, firstLimitPpm } = question;
  const suspect = isSuspect(nitratePpm, firstLimitPpm);
  return routes.map((route) => {
    const { cm, least, source, practiceCm } = recommendedHeight(route, crop, suspect, plantHeightCm);
    const against =
      cm > stubbleCm + 1e-6
        ? heightTradeOff({ crop, dryMatterTHa, fromCm: stubbleCm, toCm: cm, plantHeightCm, nitratePpm })
        : null;
    return { route, cm, least, source, practiceCm, against };
  });
}

/** A height to be told: of what is recommended, with whether that is a least. */
export type ToldHeight = Pick<HeightRow, "cm" | "least">;

/**
 * A height as a person sets it, in the unit of the page: a least is never told lower than it is, what is usual is rounded
 * as the stubble of now is, so that the same height reads the same. Never over what the stubble's field takes.
 */
export function settableHeight({ cm, least }: ToldHeight, { units }: Speech): number {
  const most = toStep(toPage(FIELD_LIMITS.stubbleCm.max, "stubble", units), "stubble", units, Math.floor);
  const page = toPage(cm, "stubble", units);
  return Math.min(most, least ? toStep(page, "stubble", units, Math.ceil) : toStep(page, "stubble", units));
}

/** "31 cm", "12 in". */
export function heightText(height: ToldHeight, manner: Speech): string {
  return `${numberText(settableHeight(height, manner), 1, manner)} ${unitName("stubble", manner.units)}`;
}

/** "0.4 t/ha", to the page's digits; under the least that is shown it says so. */
function givenUpText(givenUpTHa: number, manner: Speech): string {
  return quantityText(givenUpTHa, "dryMatterYield", manner);
}

/** Whether the recommended height and the stubble of now are one and the same to who reads them. */
function readsAlike(row: ToldHeight, stubbleCm: number, manner: Speech): boolean {
  return heightText(row, manner) === steppedText(stubbleCm, "stubble", manner);
}

/** What the recommended height of a route comes to against the stubble of now. */
export function heightSentence(row: HeightRow, question: HeightsQuestion, manner: Speech): string {
  const { crop, stubbleCm, nitratePpm, firstLimitPpm } = question;
  const name = sentenceCase(ROUTE_LABELS[row.route]);
  const now = steppedText(stubbleCm, "stubble", manner);
  const suspect = canHoldNitrate(crop) && isSuspect(nitratePpm, firstLimitPpm);
  const leave = row.route === "grazing" ? "leave" : "cut at";
  const why = !suspect
    ? ""
    : nitratePpm === null
      ? ", nitrate not being tested"
      : ", nitrate being over the first limit";
  const advice = `${name}: ${leave} ${heightText(row, manner)}${why}.`;
  const against = readsAlike(row, stubbleCm, manner) ? null : row.against;
  if (against === null) return `${advice} The stubble is at ${now} now, so nothing is given up.`;
  const drier =
    against.drierPoints >= 0.05
      ? ` and leaves ${pointsText(against.drierPoints, 1, manner)} of moisture in the field`
      : "";
  return `${advice} Against ${now} now that gives up ${givenUpText(against.givenUpTHa, manner)}${drier}.`;
}

/** Nitrate that a height leaves in the field: the test's own value plans, the profile is a picture of one plant. */
export function nitrateLeftWords(row: HeightRow, question: HeightsQuestion, manner: Speech): string {
  const { nitratePpm, plantHeightCm } = question;
  if (nitratePpm === null) return "not tested";
  const profile = row.against?.profilePpm ?? null;
  const tested = `${numberText(nitratePpm, 0, manner)} ppm to plan with`;
  if (row.against === null) return tested;
  if (profile === null)
    return plantHeightCm === null ? `${tested}; plant height would tell where it sits` : tested;
  return `${tested}; ${numberText(profile, 0, manner)} if it sat as in published corn, a promise of nothing`;
}

export function heightTable(
  rows: readonly HeightRow[],
  question: HeightsQuestion,
  manner: Speech,
): readonly (readonly string[])[] {
  const { units } = manner;
  return rows.map((row) => {
    const { route, cm, source, practiceCm } = row;
    const against = readsAlike(row, question.stubbleCm, manner) ? null : row.against;
    const practice =
      practiceCm === null
        ? "none known"
        : `${practiceCm.map((one) => numberText(toStep(toPage(one, "stubble", units), "stubble", units), 1, manner)).join("–")} ${unitName("stubble", units)} (common practice, no source)`;
    return [
      sentenceCase(ROUTE_LABELS[route]),
      heightText(row, manner),
      against === null ? "nothing" : givenUpText(against.givenUpTHa, manner),
      against === null ? "none" : pointsText(against.drierPoints, 1, manner),
      nitrateLeftWords(row, question, manner),
      soilWords(cm, manner),
      practice,
      source,
    ];
  });
}

function soilWords(cm: number, manner: Speech): string {
  const under = CUTTING_HEIGHT.soilUnderCm.value;
  return cm < under ? `takes soil: under ${steppedText(under, "stubble", manner)}` : "clear of soil";
}

/** Said where the machine would take soil at the stubble of now. */
export function soilSentence(stubbleCm: number, manner: Speech): string | null {
  const under = CUTTING_HEIGHT.soilUnderCm.value;
  return stubbleCm < under
    ? `At ${steppedText(stubbleCm, "stubble", manner)} the machine takes soil with the crop: stay over ${steppedText(under, "stubble", manner)} (from memory). Soil brings in what spoils silage and wrapped bales.`
    : null;
}

/** Where each number of the trade-off comes from. */
export function heightSources(rows: readonly HeightRow[]): readonly string[] {
  return [...new Set(rows.flatMap(({ against }) => (against ? [against.source] : [])))];
}

/** Which routes want the same height: for the words of a button. */
export function sameHeight(rows: readonly HeightRow[], cm: number): string {
  return listText(
    rows
      .filter((row) => Math.abs(row.cm - cm) < 1e-6 && row.route !== "grazing")
      .map(({ route }) => ROUTE_LABELS[route]),
  );
}
