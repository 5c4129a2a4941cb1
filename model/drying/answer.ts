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

export interface DrydownAnswer {
  readonly modelVersion: string;
  readonly areaBasis: "covered-m2";
  readonly usableUntilUtc: string;
  readonly hours: CourseHours;
  readonly targets: readonly TargetAnswer[];
  readonly secondOpinions: readonly SecondOpinionAnswer[];
  readonly missingHours: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}
