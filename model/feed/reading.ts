import type { FeedAnswer } from "./answer.ts";
import { classify, standing } from "./classify.ts";
import { creditedPpm, PRUSSIC_WAIT_WEEKS, WAIT_WEEKS } from "./ensiling.ts";
import { no3nPpmDm, waterNo3nMgL } from "./nitrate-units.ts";
import { readPrussicAcid } from "./prussic-acid.ts";
import { type FeedCheckRequest, type FeedQuestion, STRICTEST } from "./request.ts";

/** One feed's results, and the water's, on one base; what lacks a label is not read. */

export interface ReadFeed {
  readonly question: FeedQuestion;
  readonly answer: FeedAnswer;
  /** What computes, ppm NO3-N of dry matter. */
  readonly computes: number | null;
  readonly missing: readonly string[];
}

function missingOf({ nitrate, quickTest, prussicAcid }: FeedQuestion): string[] {
  const missing: string[] = [];
  if (nitrate === undefined) missing.push(quickTest === undefined ? "nitrate" : "laboratory result");
  else for (const label of ["ion", "unit", "basis"] as const) if (!nitrate[label]) missing.push(label);
  if (prussicAcid)
    for (const label of ["unit", "basis"] as const)
      if (!prussicAcid[label]) missing.push(`prussicAcid.${label}`);
  return missing;
}

function waitOf({ route, prussicAcid }: FeedQuestion): number | null {
  if (route !== "wrapped-bales" && route !== "wilted-chop" && route !== "direct-chop") return null;
  const weeks = WAIT_WEEKS[route].value;
  return prussicAcid ? Math.max(weeks, PRUSSIC_WAIT_WEEKS.value) : weeks;
}

export function readFeed(question: FeedQuestion, { animal, table = STRICTEST }: FeedCheckRequest): ReadFeed {
  const { id, dmFrac, nitrate, route, sampled = "fed-out", prussicAcid } = question;
  const missing = missingOf(question);
  const { ion, unit, basis } = nitrate ?? {};
  const ppm =
    nitrate && ion && unit && basis ? no3nPpmDm({ value: nitrate.value, ion, unit, basis }, dmFrac) : null;
  const credited = ppm === null ? null : creditedPpm(ppm, route ?? null, sampled);
  const computes = credited ?? ppm;
  const classes = computes === null ? [] : classify(computes, animal);
  const prussic =
    prussicAcid?.unit && prussicAcid.basis
      ? readPrussicAcid(
          { value: prussicAcid.value, unit: prussicAcid.unit, basis: prussicAcid.basis },
          dmFrac,
        )
      : null;
  return {
    question,
    computes,
    missing,
    answer: {
      id,
      ppm,
      creditedPpm: credited,
      classes,
      strictest: standing(classes, animal, table),
      prussicAcid: prussic,
      waitWeeks: waitOf(question),
    },
  };
}

export interface WaterRead {
  readonly mgL: number | null;
  readonly litres: number;
  readonly missing: readonly string[];
}

export function readWater({ water }: FeedCheckRequest): WaterRead {
  if (!water) return { mgL: 0, litres: 0, missing: [] };
  const missing = [...(water.ion ? [] : ["ion"]), ...(water.unit ? [] : ["unit"])];
  const mgL = water.ion && missing.length === 0 ? waterNo3nMgL(water.value, water.ion) : null;
  return { mgL, litres: water.litres, missing };
}
