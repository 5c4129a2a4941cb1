import type { WeatherSeries } from "../weather/series.ts";
import type { Conditioning, CropKey, OperationKind, SoilClass } from "./keys.ts";

/** What lies on the ground after the mower, as asked at every edge. */
export interface SwathRequest {
  readonly crop: CropKey;
  /** Dry matter on the ground at this stubble, t per hectare of field. */
  readonly dryMatterTHa: number;
  /** Moisture of the tissue at cutting, wet basis, 0-1; free water on the crop apart. */
  readonly initialMoistureWb: number;
  readonly conditioning: Conditioning;
  /** Share of the cut width that the swath covers, 0-1. */
  readonly coveredFraction: number;
  readonly stubbleCm: number;
  readonly soil: SoilClass;
  readonly dryingAgent?: boolean | undefined;
  /** Free water on the crop at cutting, mm per covered m²; null = derived from dew and rain before the cut. */
  readonly freeWaterMm?: number | null | undefined;
}

export interface OperationRequest {
  readonly kind: OperationKind;
  readonly atUtc: string;
  /** New share of the cut width that the swath covers; absent = the default of the operation. */
  readonly coveredFraction?: number | undefined;
}

export type ReadingMethod =
  | "oven"
  | "microwave"
  | "heated-tester"
  | "air-fryer"
  | "bale-probe"
  | "windrow-probe"
  | "hand-squeeze";

export interface ReadingRequest {
  readonly atUtc: string;
  readonly moistureWb?: number | undefined;
  readonly range?: readonly [number, number] | undefined;
  readonly method: ReadingMethod;
  /** What this reading adds to its method's error, one standard deviation, wet-basis fraction: a coarse scale, a small sample. */
  readonly addedSdWb?: number | undefined;
  /** Where in the field; the same reading with no other place is the same one, which is refused. */
  readonly place?: string | undefined;
  /** The person stands by it: an odd reading then counts without a second one. */
  readonly confirmed?: boolean | undefined;
}

/** What earlier readings of this field and crop taught about its rate: mean and spread of ln(rate factor), and when. */
export interface LearnedRateRequest {
  readonly rateLnMean: number;
  readonly rateLnSd: number;
  readonly atUtc: string;
}

export interface DrydownRequest {
  readonly weather: WeatherSeries;
  readonly swath: SwathRequest;
  readonly cutUtc: string;
  readonly operations?: readonly OperationRequest[] | undefined;
  readonly readings?: readonly ReadingRequest[] | undefined;
  readonly targetsWb?: readonly number[] | undefined;
  readonly learned?: LearnedRateRequest | undefined;
  /** How many draws the odds are made of; 0 = none. */
  readonly draws?: number | undefined;
  readonly seed?: number | undefined;
}
