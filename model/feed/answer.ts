import type { Verdict } from "./classify.ts";
import type { PrussicReading } from "./prussic-acid.ts";
import type { WaterClass } from "./water.ts";

/** What a feed check says. Nothing in it says that a feed is fit to be fed: it screens, and names who decides. */

export interface FeedAnswer {
  readonly id: string;
  /** NO3-N, ppm of dry matter, as sampled, not rounded; null where the result cannot be read. */
  readonly ppm: number | null;
  /** After the credit of fermentation; it then computes. Null where no credit is due. */
  readonly creditedPpm: number | null;
  /** Every table's verdict on what computes, the strictest first. */
  readonly classes: readonly Verdict[];
  readonly strictest: Verdict | null;
  /** Every published line, the gravest first, and the share that they leave; null where there is no result or it cannot be read. */
  readonly prussicAcid: PrussicReading | null;
  /** Weeks before opening and feeding; null where the feed does not ferment. */
  readonly waitWeeks: number | null;
}

export interface Refusal {
  readonly feedId: string;
  /** Labels, or what else is needed before it can be read. */
  readonly missing: readonly string[];
}

export interface Dilution {
  /** Largest share of the dry matter, by the feed that asked for it: the plain formula. */
  readonly maxShareDm: Readonly<Record<string, number>>;
  /** What the table itself, and prussic acid, allow, whatever it is mixed with; null where no share is given. */
  readonly tableShareCap: Readonly<Record<string, number | null>>;
  /**
   * kg as fed by feed, of a ration of the dry matter asked about: at the smaller of the two shares, or at the plain
   * formula's where the target was set by the user (a caution then says what the table allows). Null where there is no
   * such ration.
   */
  readonly asFedKg: Readonly<Record<string, number>> | null;
  /** Why there is no ration; null where there is one. */
  readonly noRation: string | null;
  readonly targetPpm: number;
  readonly targetFrom: string;
}

export interface FeedCheckAnswer {
  readonly base: "NO3-N ppm DM";
  readonly feeds: readonly FeedAnswer[];
  readonly dilution: Dilution | null;
  /** Why there is no dilution; null where there is one. */
  readonly noDilution: string | null;
  readonly intake: {
    readonly gNo3N: number | null;
    readonly gPer100Kg: number | null;
    readonly dietPpm: number | null;
    /** Share of it that comes with the water. */
    readonly waterGNo3N: number | null;
    /** What `gPer100Kg` can be set against: the least first dose that killed in a trial, no line to feed up to. */
    readonly trial: { readonly gPer100Kg: number; readonly source: string };
  };
  /** The whole diet by every table, the strictest first; null where its content is not known. */
  readonly diet: readonly Verdict[] | null;
  readonly water: readonly WaterClass[] | null;
  readonly refusals: readonly Refusal[];
  readonly defer: readonly string[];
  readonly cautions: readonly string[];
}
