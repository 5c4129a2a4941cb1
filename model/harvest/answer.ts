import type { OperationKind } from "../drying/keys.ts";
import type { HazardCode } from "./hazards/index.ts";
import type { RouteKey } from "./keys.ts";
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

export interface RouteAnswer {
  readonly route: RouteKey;
  readonly operations: readonly OperationAnswer[];
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
   * Dry matter lost from the standing crop until it is fed out, per cent; tenths need members. Null without a window.
   */
  readonly lossPct: { readonly p10: number | null; readonly p50: number; readonly p90: number | null } | null;
  /** The steps of it in their order, each per cent of what the one before left. */
  readonly lossSteps: readonly { readonly step: LossStepKey; readonly pct: number }[] | null;
  /** Expected value of a hectare of the field, in the currency of the prices: fed out, less what it costs. */
  readonly valuePerHa: number | null;
  /** Moisture as the machine takes the crop, wet basis. */
  readonly takenAtWb: number | null;
  /** Share of the field that is taken within the weather: below 1 where it goes by a day's need, null where none was given. */
  readonly takenShare: number | null;
  /** Own hours that daily turns cost a hectare; null where the machine's hours are all, and without a window. */
  readonly turnHPerHa: number | null;
  readonly rank: number | null;
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
  readonly routes: readonly RouteAnswer[];
}

export interface WindowsAnswer {
  readonly options: readonly CutOptionAnswer[];
  readonly best: {
    readonly overall: { readonly optionId: string; readonly route: RouteKey } | null;
    /** Option id of the best of each route asked for, null where none has a window. */
    readonly byRoute: Readonly<Partial<Record<RouteKey, string | null>>>;
  };
  readonly counts: { readonly options: number; readonly members: number };
  /** Waits and cautions that the weather drives, for each route asked for, over all of the weather. */
  readonly hazards: readonly HazardAnswer[];
  readonly usableUntilUtc: string;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}
