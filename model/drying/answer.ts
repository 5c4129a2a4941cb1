import { WEATHER_WARNING_CODES } from "../weather/warnings.ts";
import type { ReadingMethod } from "./request.ts";

/** What a course is warned of. */
export const DRYDOWN_WARNING_CODES = [...WEATHER_WARNING_CODES, "readings-unused"] as const;
export type DrydownWarningCode = (typeof DRYDOWN_WARNING_CODES)[number];

/** What /api/drydown, the command line and the page's worker answer. Times are ISO 8601 UTC. */

/** Hour by hour from the hour that contains the cut. Water columns are mm per covered m². */
export interface CourseHours {
  readonly startUtc: readonly string[];
  /** Tissue moisture at the END of the hour, wet basis, free water apart. */
  readonly moistureWb: readonly number[];
  readonly leafMoistureWb: readonly number[];
  readonly stemMoistureWb: readonly number[];
  /** Moisture toward which the tissue dries in this hour's air (drying branch). */
  readonly equilibriumWb: readonly number[];
  readonly dryMatterGM2: readonly number[];
  readonly coveredFraction: readonly number[];
  readonly freeWaterMm: readonly number[];
  readonly rainMm: readonly number[];
  readonly interceptedMm: readonly number[];
  readonly drainedMm: readonly number[];
  readonly dewMm: readonly number[];
  readonly vapourUptakeMm: readonly number[];
  readonly absorbedMm: readonly number[];
  readonly evaporationMm: readonly number[];
  readonly operationMm: readonly number[];
}

export type DryingLimit = "rain" | "air-too-humid" | "slow-drying" | "forecast-too-short";

export type TargetAnswer =
  | {
      readonly targetWb: number;
      readonly reached: true;
      readonly reachedUtc: string;
      readonly elapsedHours: number;
      readonly dryingHours: number;
      readonly alreadyBelow?: true;
    }
  | {
      readonly targetWb: number;
      readonly reached: false;
      readonly limitedBy: DryingLimit;
      readonly lowestWb: number;
    };

export interface SecondOpinionAnswer {
  readonly name: string;
  readonly source: string;
  readonly hours: { readonly startUtc: readonly string[]; readonly moistureWb: readonly number[] };
  readonly targets: readonly TargetAnswer[];
}

/** Quantiles hour by hour, on the hours of the course. */
export interface BandsAnswer {
  readonly p10: readonly number[];
  readonly p25: readonly number[];
  readonly p50: readonly number[];
  readonly p75: readonly number[];
  readonly p90: readonly number[];
}

export interface TargetOddsAnswer {
  readonly targetWb: number;
  /** Share of the draws that reach it within the weather. */
  readonly chance: number;
  readonly neverShare: number;
  /**
   * From the cut; null where the quantile lies among the draws that never reach it. Of a draw that is wetter at the last
   * reading that counts, when it reaches it after that.
   */
  readonly elapsedHours: {
    readonly p10: number | null;
    readonly p25: number | null;
    readonly p50: number | null;
    readonly p75: number | null;
    readonly p90: number | null;
  };
}

/** Mean and spread of ln(rate factor), and when: to be handed back as `learned`. */
export interface LearnedRateAnswer {
  readonly rateLnMean: number;
  readonly rateLnSd: number;
  readonly atUtc: string;
}

/** What came of one reading. */
export interface ReadingAnswer {
  readonly atUtc: string;
  readonly method: ReadingMethod;
  /** What was read, as wide as its standard deviation either way; of an interval its ends. Wet-basis fraction. */
  readonly observedWb: { readonly low: number; readonly high: number };
  /** False where it is questioned: then it changed nothing. */
  readonly used: boolean;
  /**
   * `questioned`: hardly any draw bears it out; `same-again`: nor does it bear out an odd one before it, being taken the same
   * way with hardly any drying between. An odd one that is `confirmed` or `borne-out` counts.
   */
  readonly verdict: "fits" | "confirmed" | "borne-out" | "questioned" | "same-again";
  /** Its standard deviation, method and places together, wet-basis fraction. */
  readonly sdWb: number;
  /** What was expected at that time before it. */
  readonly expectedWb: { readonly p10: number; readonly p50: number; readonly p90: number };
  /** Standard deviations between it and the nearest draw that held weight before it. */
  readonly nearestSigmas: number;
  /** Share of readings that the courses before it would put as far off on either side; under 0.02 it is odd. */
  readonly asFarChance: number;
  /** How many equal draws the weights are worth after it. */
  readonly effectiveSize: number;
  readonly text: string;
}

export interface ReadingsAnswer {
  readonly readings: readonly ReadingAnswer[];
  /** Effective number of the `of` draws after all readings; `collapsed` below half. */
  readonly effectiveSize: number;
  readonly of: number;
  readonly collapsed: boolean;
  /** How far the readings count: below 1 where hardly any draw agrees with them, and what is then to be said. */
  readonly countedShare: number;
  readonly fewAgree: string | null;
  /** Hours from the cut at which the course itself comes to each target, without and with the readings; null = not within the weather. Empty where none counts. */
  readonly changes: readonly {
    readonly targetWb: number;
    readonly beforeHours: number | null;
    readonly afterHours: number | null;
    readonly text: string;
  }[];
  /** Null where no reading was used, or one that hardly any draw agrees with stands alone: other cuts do not go by it. */
  readonly learned: LearnedRateAnswer | null;
  /** The course itself before any reading, on its hours. */
  readonly beforeWb: readonly number[];
  /** What was forecast for the hour of each reading before there was any: what a record scores. */
  readonly asIssued: readonly AsIssuedAnswer[];
}

/** A forecast of the moisture at one moment. */
export interface AsIssuedAnswer {
  readonly atUtc: string;
  readonly bandsWb: {
    readonly p10: number;
    readonly p25: number;
    readonly p50: number;
    readonly p75: number;
    readonly p90: number;
  };
  /** Chance that the swath lies at or below each target then. */
  readonly targets: readonly { readonly targetWb: number; readonly chance: number }[];
}

/** What the forecast's spread and the model's own uncertainty make of the course. */
export interface CourseOddsAnswer {
  readonly draws: number;
  readonly seed: number;
  /** `members` of the forecast, one forecast `widened` by a table of error growth, or weather taken as `known`. */
  readonly weather: "members" | "widened" | "known";
  /** Members used, and those given that end early. */
  readonly members: number;
  readonly leftOut: number;
  /** Where the odds come from, in words. */
  readonly text: string;
  readonly moistureWb: BandsAnswer;
  readonly targets: readonly TargetOddsAnswer[];
  /** The rate's spread before the readings: ln mean and standard deviation. */
  readonly rate: { readonly lnMean: number; readonly lnSd: number };
  /** Null where no reading was given. */
  readonly readings: ReadingsAnswer | null;
}

export interface DrydownAnswer {
  readonly modelVersion: string;
  readonly areaBasis: "covered-m2";
  readonly usableUntilUtc: string;
  readonly hours: CourseHours;
  readonly targets: readonly TargetAnswer[];
  readonly secondOpinions: readonly SecondOpinionAnswer[];
  /** Absent where no draws were asked for. */
  readonly odds?: CourseOddsAnswer;
  readonly missingHours: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  /** What each warning is of, in the same order. */
  readonly warningCodes: readonly DrydownWarningCode[];
}
