import type { RouteKey } from "../harvest/keys.ts";
import { ROUTES } from "../harvest/keys.ts";
import { type Issue, type Limit, limitInWords, within } from "../limits.ts";
import { ANIMAL_CLASSES, ANIMAL_KG_LIMIT, type Animal } from "./animals.ts";
import { SAMPLED_AS, type SampledAs } from "./ensiling.ts";
import { FEED_LIMITS } from "./limits.ts";
import { IONS, type Ion, NITROGEN_SHARE } from "./molar-masses.ts";
import { TABLE_KEYS } from "./nitrate-tables.ts";
import { BASES, type Basis, CONTENT_UNITS, type ContentUnit, ppmOfDryMatter } from "./nitrate-units.ts";

/** The question of a feed check, and what can be malformed about it. A label that is missing is no mistake of form. */

export const QUICK_TESTS = ["positive", "negative", "unclear"] as const;
export type QuickTest = (typeof QUICK_TESTS)[number];

/** A result as it was typed. Each label may be missing, and then it is refused by name. */
export interface LabelledContent {
  readonly value: number;
  readonly ion?: Ion | null | undefined;
  readonly unit?: ContentUnit | null | undefined;
  readonly basis?: Basis | null | undefined;
}

export interface FeedQuestion {
  readonly id: string;
  /** Dry matter as fed, 0-1. */
  readonly dmFrac: number;
  /** Dry matter a day of this feed, kg. */
  readonly dmKg: number;
  readonly nitrate?: LabelledContent | undefined;
  /** A field test gives no number. */
  readonly quickTest?: QuickTest | undefined;
  readonly prussicAcid?: Omit<LabelledContent, "ion"> | undefined;
  readonly route?: RouteKey | undefined;
  /** Default: as it is fed out. */
  readonly sampled?: SampledAs | undefined;
  /** The feed whose largest share is wanted; one at most. */
  readonly maxShare?: boolean | undefined;
}

export interface WaterQuestion {
  readonly litres: number;
  readonly value: number;
  readonly ion?: Ion | null | undefined;
  /** mg/L. */
  readonly unit?: "ppm" | null | undefined;
}

export interface FeedCheckRequest {
  readonly animal: Animal;
  /** A table's key, or "strictest", the default. */
  readonly table?: string | undefined;
  readonly targetPpmNo3N?: number | null | undefined;
  readonly water?: WaterQuestion | null | undefined;
  readonly feeds: readonly FeedQuestion[];
}

export const STRICTEST = "strictest";

function outside(issues: Issue[], path: string, value: number, limit: Limit): void {
  if (within(value, limit)) return;
  issues.push({ path, code: "out-of-range", message: `${path}: got ${value}, ${limitInWords(limit)}` });
}

function unknown(issues: Issue[], path: string, value: string, known: readonly string[]): void {
  if (known.includes(value)) return;
  const message = `${path}: got "${value}", must be one of ${known.join(", ")}`;
  issues.push({ path, code: "unknown-value", message });
}

function checkContent(
  issues: Issue[],
  path: string,
  content: LabelledContent | Omit<LabelledContent, "ion">,
): void {
  // Without a unit the wider limit holds; the missing label is refused elsewhere.
  const limit = content.unit === "pct" ? FEED_LIMITS.contentPct : FEED_LIMITS.contentPpm;
  outside(issues, `${path}.value`, content.value, limit);
  if (content.unit) unknown(issues, `${path}.unit`, content.unit, CONTENT_UNITS);
  if (content.basis) unknown(issues, `${path}.basis`, content.basis, BASES);
  if ("ion" in content && content.ion) unknown(issues, `${path}.ion`, content.ion, IONS);
}

/** The whole of the dry matter, ppm. */
const ALL_PPM = 1_000_000;
const BASIS_WORDS = { dm: "of dry matter", "as-fed": "as fed" } as const;

/**
 * Why a labelled content is more than there can be of it: the dry matter cannot be more than all nitrate (as nitrogen
 * 22.6 %), or more than all prussic acid. Null where it can be, or where a missing label leaves it open.
 */
export function overWhole({ value, ion, unit, basis }: LabelledContent, dmFrac: number): string | null {
  if (!unit || !basis || !(dmFrac > 0)) return null;
  const most = ion === "NO3-N" ? ALL_PPM * NITROGEN_SHARE.NO3 : ALL_PPM;
  const ppmDm = ppmOfDryMatter(value, unit, basis, dmFrac);
  if (ppmDm <= most * (1 + 1e-12)) return null;
  const what = ion ?? "prussic acid";
  const pct = (ppm: number) => `${Number((ppm / 10_000).toPrecision(4))} % ${what}`;
  const printed = `${value} ${unit === "pct" ? "%" : "ppm"} ${what} ${BASIS_WORDS[basis]}`;
  return `${printed} is ${pct(ppmDm)} of the dry matter, must be at most ${pct(most)} of it`;
}

/** Everything malformed about a question, each with its field, value and limit. */
export function checkFeedRequest({ animal, table, targetPpmNo3N, water, feeds }: FeedCheckRequest): Issue[] {
  const issues: Issue[] = [];
  unknown(issues, "animal.class", animal.class, ANIMAL_CLASSES);
  outside(issues, "animal.kg", animal.kg, ANIMAL_KG_LIMIT);
  if (table !== undefined) unknown(issues, "table", table, [STRICTEST, ...TABLE_KEYS]);
  if (targetPpmNo3N !== undefined && targetPpmNo3N !== null)
    outside(issues, "targetPpmNo3N", targetPpmNo3N, FEED_LIMITS.targetPpmNo3N);
  if (water) {
    outside(issues, "water.litres", water.litres, FEED_LIMITS.litres);
    outside(issues, "water.value", water.value, FEED_LIMITS.waterPpm);
  }
  outside(issues, "feeds", feeds.length, FEED_LIMITS.feeds);
  const seen = new Set<string>();
  let wanted = 0;
  feeds.forEach((feed, i) => {
    const path = `feeds[${i}]`;
    if (feed.id.trim() === "")
      issues.push({ path: `${path}.id`, code: "empty", message: `${path}.id: empty, must name the feed` });
    if (feed.id.trim() === "water") {
      const message = `${path}.id: got "${feed.id}", which names the drinking water in the answer; take another name`;
      issues.push({ path: `${path}.id`, code: "reserved", message });
    }
    if (seen.has(feed.id)) {
      const message = `${path}.id: got "${feed.id}" twice, each feed must have a name of its own`;
      issues.push({ path: `${path}.id`, code: "duplicate", message });
    }
    seen.add(feed.id);
    outside(issues, `${path}.dmFrac`, feed.dmFrac, FEED_LIMITS.dmFrac);
    outside(issues, `${path}.dmKg`, feed.dmKg, FEED_LIMITS.dmKg);
    for (const key of ["nitrate", "prussicAcid"] as const) {
      const content = feed[key];
      if (!content) continue;
      const before = issues.length;
      checkContent(issues, `${path}.${key}`, content);
      // Nitrate without its ion may be any of them, and is refused.
      const whole = key === "nitrate" && !feed.nitrate?.ion ? null : overWhole(content, feed.dmFrac);
      if (whole === null || issues.length > before) continue;
      issues.push({
        path: `${path}.${key}.value`,
        code: "out-of-range",
        message: `${path}.${key}.value: got ${whole}`,
      });
    }
    if (feed.nitrate && feed.quickTest) {
      const message = `${path}.quickTest: stands beside nitrate; a feed has a laboratory's number or a field test, not both`;
      issues.push({ path: `${path}.quickTest`, code: "two-results", message });
    }
    if (feed.quickTest !== undefined) unknown(issues, `${path}.quickTest`, feed.quickTest, QUICK_TESTS);
    if (feed.route !== undefined) unknown(issues, `${path}.route`, feed.route, ROUTES);
    if (feed.sampled !== undefined) unknown(issues, `${path}.sampled`, feed.sampled, SAMPLED_AS);
    if (feed.maxShare !== true) return;
    wanted += 1;
    if (wanted > 1) {
      const message = `${path}.maxShare: got true a second time, at most one feed may ask for its largest share`;
      issues.push({ path: `${path}.maxShare`, code: "two-max-share", message });
    }
  });
  return issues;
}
