import type { Conditioning, OperationKind } from "../drying/keys.ts";
import type { SwathRequest } from "../drying/request.ts";
import type { WeatherSeries } from "../weather/series.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";

/** One planned pass, by a rule or at a moment. `coveredFraction` where the pass changes it. */
export type PlanStep = {
  readonly kind: OperationKind;
  readonly coveredFraction?: number | undefined;
  /** The routes for which the pass is made; absent = every route that lies in a swath. */
  readonly routes?: readonly RouteKey[] | undefined;
} & (
  | { readonly rule: "morning-after"; readonly hour: number }
  | { readonly rule: "after-cut"; readonly hours: number }
  | { readonly rule: "before-window"; readonly hours: number }
  | { readonly rule?: undefined; readonly atUtc: string }
);

/** How the swath is made and handled. `plan` absent = the route's default, [] = nothing. */
export interface TreatmentRequest {
  readonly id: string;
  readonly conditioning: Conditioning;
  readonly coveredFraction: number;
  readonly stubbleCm: number;
  readonly plan?: readonly PlanStep[] | undefined;
}

export interface RouteRequest {
  readonly route: RouteKey;
  readonly package?: PackageKey | null | undefined;
  readonly store?: StoreKey | null | undefined;
  /** Moisture band of the route, wet basis, [driest, wettest]; absent = by package or store. */
  readonly bandWb?: readonly [number, number] | undefined;
  readonly haPerH?: number | undefined;
}

export interface StandingRequest {
  /** Moisture of the standing crop at `nowUtc`, wet basis. */
  readonly moistureWb: number;
  readonly dryDownPointsPerDay?: number | undefined;
  readonly dailyNeedKgDm?: number | undefined;
}

export interface WorkHours {
  /** Local "HH:MM"; `to` earlier than `from` means through midnight. */
  readonly from: string;
  readonly to: string;
}

/** Rain of the last 24 h above which soil does not carry machines, mm. */
export interface SoilCarryRequest {
  readonly maxRainMm24h?: number | undefined;
}

export interface WindowsRequest {
  readonly weather: WeatherSeries;
  readonly nowUtc?: string | null | undefined;
  readonly field: { readonly areaHa: number };
  readonly swath: SwathRequest;
  readonly standing?: StandingRequest | undefined;
  readonly cutHours?: readonly number[] | undefined;
  readonly workHours?: WorkHours | undefined;
  readonly mowHaPerH?: number | undefined;
  readonly treatments?: readonly TreatmentRequest[] | undefined;
  readonly routes?: readonly RouteRequest[] | undefined;
  readonly soilCarry?: SoilCarryRequest | undefined;
  readonly seed?: number | undefined;
}
