import type { LearnedRateAnswer } from "../drying/answer.ts";
import type { OperationKind } from "../drying/keys.ts";
import type { RainDay } from "../odds/rain-days.ts";
import type { BoardWarningCode } from "./board-warnings.ts";
import type { HazardCode } from "./hazards/index.ts";
import type { RouteKey } from "./keys.ts";
import type { Lead } from "./lead.ts";
import type { LossStepKey } from "./losses/index.ts";

/** What /api/windows, the command line and the page's worker answer. Times are ISO 8601 UTC. */

export type WindowLimit =
  | "standing-too-wet"
  | "rain"
  | "air-too-humid"
  | "over-dry"
  | "dew"
  | "soil-too-wet"
  | "working-hours"
  | "too-few-hours"
  | "slow-drying"
  | "forecast-too-short";

export interface Quantiles {
  readonly p10: number | null;
  readonly p25: number | null;
  readonly p50: number | null;
  readonly p75: number | null;
  readonly p90: number | null;
}

/** A span in which the route's machine can work on this cut. */
export interface WindowAnswer {
  readonly startUtc: string;
  readonly endUtc: string;
  readonly workHours: number;
  readonly chance: number | null;
  /** True where rain fell on the swath between its cut and the window's start. */
  readonly rainedOn: boolean;
}

export interface OperationAnswer {
  readonly kind: OperationKind;
  readonly atUtc: string;
  readonly coveredFraction: number;
}

/** Where a step of so many hours before the window can lie. */
export interface BeforeWindowAnswer {
  /** Start of the window that is found without the step: its hours count from here. */
  readonly windowUtc: string;
  /** Start of that window's working day, or the cut where that is later: more hours than reach back to it count no further. */
  readonly earliestUtc: string;
}

/** A reason in plain words, with what a program needs to place it on a chart. */
export interface WhyAnswer {
  readonly code: string;
  readonly atUtc: string | null;
  readonly moistureWb: number | null;
  readonly text: string;
}

/**
 * A wait or a caution that the mowing of a cut, or the first turn of a standing route, lies in. Its words stand in `why`
 * under the same code.
 */
export interface RouteHazard {
  readonly code: HazardCode;
  readonly level: "wait" | "caution";
  /** The end of the rain or frost that it counts from, and the moment that it is counted to. */
  readonly sinceUtc: string;
  readonly untilUtc: string;
}

/** One span of the hazard calendar of a route. */
export interface HazardAnswer extends Omit<RouteHazard, "untilUtc"> {
  readonly route: RouteKey;
  readonly startUtc: string;
  readonly endUtc: string;
  readonly text: string;
  readonly source: string;
}

/** Odds of one pair that have no older place in the answer. */
export interface RouteOddsAnswer {
  /** Share of the draws with a window that is long enough: 1 - `neverShare`. */
  readonly chance: number;
  /** What is to be said where the main forecast has no window and draws have one; null otherwise. */
  readonly text: string | null;
  /** Chance of more than so much rain on the swath between the cut and its first window (or the weather's end). */
  readonly rainChances: readonly { readonly aboveMm: number; readonly chance: number }[];
  /** Value of a hectare over the draws; those without a window count what is then left. Null where no weather has one. */
  readonly valuePerHa: Quantiles | null;
  /** Mean value where it is brought in, and what is left where it is not. */
  readonly broughtPerHa: number | null;
  readonly leftPerHa: number;
  /**
   * Brought in before more than 1 mm of rain lay on the swath (a standing route: at all): the chance, and the mean value
   * of a hectare where it is and where it is not; null where that never comes.
   */
  readonly beforeRain: {
    readonly chance: number;
    readonly valuePerHa: number | null;
    readonly elsePerHa: number | null;
  };
}

/** When to cut at all, from the cost of waiting a day and of a cut that is rained on: `chance` is `beforeRain`'s. */
export interface CutRuleAnswer {
  readonly route: RouteKey;
  readonly optionId: string;
  readonly waitingPerHa: number;
  readonly rainedOnPerHa: number;
  readonly cutAbove: number;
  readonly chance: number;
  readonly cut: boolean;
  readonly text: string;
}

export interface PlaceAnswer {
  readonly optionId: string;
  readonly route: RouteKey;
  readonly valuePerHa: number;
  readonly chance: number;
}

/** Where the odds of a board come from, and what they say of the choice. */
export interface BoardOddsAnswer {
  readonly draws: number;
  readonly seed: number;
  /** `members` of the forecast, one forecast `widened` by a table of error growth, or weather taken as `known`. */
  readonly weather: "members" | "widened" | "known";
  readonly members: number;
  readonly leftOut: number;
  readonly text: string;
  /** Chance of more than 1 mm of rain on each of the farm's days, over the same weathers that the odds are drawn from. */
  readonly rainDays: readonly RainDay[];
  /** First place, which is rank 1 by expected value alone, and the best pair of another day or route. */
  readonly first: PlaceAnswer | null;
  readonly runnerUp: PlaceAnswer | null;
  /** Of the first place over the runner-up, draw by draw; null without one. */
  readonly lead: Lead | null;
  /** Every pair that the draws cannot tell from the first (`lead.withinPerHa`), in the order of rank. */
  readonly asGood: readonly { readonly optionId: string; readonly route: RouteKey }[];
  /** The chance of the first place at which the runner-up is worth as much; null where none between 0 and 1 is. */
  readonly turnsAtChance: number | null;
  readonly choiceText: string | null;
  /**
   * The pair without a window in the main forecast that is worth most on average, where that is more than the first place
   * is, as far as the draws can tell. It has no rank: its passes wait for a window that is not there, and no hour can be
   * planned. Absent where there is none.
   */
  readonly unranked?: PlaceAnswer & { readonly text: string };
  /** For the best pair of each route on which nothing was measured; empty where no cost of waiting is named. */
  readonly cutRules: readonly CutRuleAnswer[];
}

export interface RouteAnswer {
  readonly route: RouteKey;
  readonly operations: readonly OperationAnswer[];
  /** What the steps that wait for a window were placed by; absent where the plan has none, or no window is found. */
  readonly beforeWindow?: BeforeWindowAnswer;
  readonly windows: readonly WindowAnswer[];
  readonly limitedBy: WindowLimit | null;
  /** From `courseCutUtc` to the start of the first window, h. */
  readonly elapsedHours: Quantiles;
  /**
   * Earliest and latest start of the band among the model and the published second opinions, h from `courseCutUtc`.
   * `latest` is null where any of them does not get there within the weather, both where none does: one hour that only
   * some estimates name is never a range.
   */
  readonly opinionHours: { readonly earliest: number | null; readonly latest: number | null };
  readonly neverShare: number | null;
  /** Rain on the swath from the cut to the end of the first window (or of the weather). */
  readonly rainMm: { readonly mean: number; readonly p90: number | null };
  /**
   * Dry matter lost from the standing crop until it is fed out, per cent: quantiles over the draws that bring it in, of
   * one forecast its own and no others. Null where no weather has a window.
   */
  readonly lossPct: {
    readonly p10: number | null;
    readonly p25?: number | null;
    readonly p50: number;
    readonly p75?: number | null;
    readonly p90: number | null;
  } | null;
  /** The main forecast's steps in their order, each per cent of what the one before left. */
  readonly lossSteps: readonly { readonly step: LossStepKey; readonly pct: number }[] | null;
  /**
   * Expected value of a hectare of the field, in the currency of the prices: fed out, less what it costs. With odds also
   * where only draws have a window.
   */
  readonly valuePerHa: number | null;
  /** Moisture as the machine takes the crop, wet basis. */
  readonly takenAtWb: number | null;
  /** Share of the field that is taken within the weather: below 1 where it goes by a day's need, null where none was given. */
  readonly takenShare: number | null;
  /** Own hours that daily turns cost a hectare; null where the machine's hours are all, and without a window. */
  readonly turnHPerHa: number | null;
  /** Null without a window in the main forecast, whatever the chance: there is no hour to plan the work for. */
  readonly rank: number | null;
  /** Absent where no draws were asked for. */
  readonly odds?: RouteOddsAnswer;
  readonly hazards: readonly RouteHazard[];
  readonly why: readonly WhyAnswer[];
}

export interface CutOptionAnswer {
  readonly id: string;
  readonly kind: "swath" | "standing";
  /** Start of mowing; null for a standing route. */
  readonly cutUtc: string | null;
  /** The cut whose course is shown: the middle of the mowing, rounded to the hour. */
  readonly courseCutUtc: string | null;
  readonly treatment: string | null;
  /**
   * The cut was made, as the question or a reading that counts says: it lies, is not ranked among what can be cut, and has
   * no window before now or the last such reading. Absent otherwise.
   */
  readonly made?: true;
  readonly routes: readonly RouteAnswer[];
}

/** A cut that was made and cannot be followed in this weather. */
export interface MadeLeftOutAnswer {
  readonly cutUtc: string;
  /** Why, and the way out. */
  readonly text: string;
}

/** What readings changed of their own cut. */
export interface ReadCutAnswer {
  readonly optionId: string;
  readonly route: RouteKey;
  /** Readings that were used; the others contradict every draw. */
  readonly used: number;
  /**
   * Start of the route's first window without the readings, which may be past by the last of them, and with them, from then
   * on; null = none.
   */
  readonly beforeUtc: string | null;
  readonly windowUtc: string | null;
  readonly text: string;
}

/** What readings changed on the board. */
export interface BoardReadingsAnswer {
  /** The last reading that counts, where the question names no later `nowUtc`: the board begins then. */
  readonly fromUtc?: string;
  readonly cuts: readonly ReadCutAnswer[];
  /** The rate that they taught, for every other cut; null where none was used. */
  readonly learned: LearnedRateAnswer | null;
  /** How much faster (above 0) or slower other cuts are taken to dry than without the readings, per cent of the rate. */
  readonly otherRatePct: number | null;
  readonly text: string;
}

export interface WindowsAnswer {
  readonly options: readonly CutOptionAnswer[];
  readonly best: {
    readonly overall: { readonly optionId: string; readonly route: RouteKey } | null;
    /** Option id of the best of each route asked for, null where none has a window. */
    readonly byRoute: Readonly<Partial<Record<RouteKey, string | null>>>;
  };
  readonly counts: { readonly options: number; readonly members: number };
  /** Absent where no draws were asked for. */
  readonly odds?: BoardOddsAnswer;
  /** Absent where no readings were given, or no draws asked for. */
  readonly readings?: BoardReadingsAnswer;
  /** Absent where every cut that was made is on the board. */
  readonly madeLeftOut?: readonly MadeLeftOutAnswer[];
  /** Waits and cautions that the weather drives, for each route asked for, over all of the weather. */
  readonly hazards: readonly HazardAnswer[];
  readonly usableUntilUtc: string;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  /** What each warning is of, in the same order. */
  readonly warningCodes: readonly BoardWarningCode[];
}
