import type { Conditioning, OperationKind } from "../drying/keys.ts";
import type { LearnedRateRequest, ReadingRequest, SwathRequest } from "../drying/request.ts";
import type { WeatherSeries } from "../weather/series.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";
import type { HayStoreKey, Keeping } from "./losses/index.ts";
import type { StandingValueQuestion } from "./value/before-cutting.ts";
import type { OwnRates } from "./value/prices.ts";

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

/** Where the feed of a route is kept and how it is given; what is left out has a stated default. */
export interface StoreRequest extends Omit<Keeping, "hayStore" | "silo"> {
  readonly store?: HayStoreKey | StoreKey | undefined;
}

/** What machines, labour, film and preservative cost, in the currency of the prices. */
export interface RatesRequest extends OwnRates {
  /** Own people at the machine that brings the crop in, paid at `labourPerH`. */
  readonly people?: number | undefined;
  /** What each day that the crop still stands costs of the feed's worth, per cent. */
  readonly waitPctPerDay?: number | undefined;
  /** Dry matter of one bale, kg: of hay, and of wrapped bales. */
  readonly baleDmKg?: number | undefined;
  readonly wrappedBaleDmKg?: number | undefined;
}

/** What the hazard calendar cannot read from the weather. */
export interface HazardsRequest {
  /** Whether the crop was short of water when the weather begins; null or absent = not said, which counts as yes. */
  readonly drought?: boolean | null | undefined;
  /** Height of a sorghum type's new growth, cm; null or absent = it is not growing anew. */
  readonly regrowthCm?: number | null | undefined;
}

/** One cut of the board, by the start of its mowing. */
export interface CutRequest {
  readonly cutUtc: string;
  /** Absent = the only one there is. */
  readonly treatment?: string | undefined;
}

/** What was measured on one cut of the board. */
export interface ReadCutRequest extends CutRequest {
  /** The route whose passes were made before the readings; absent = the first that lies in a swath. */
  readonly route?: RouteKey | undefined;
  readonly readings: readonly ReadingRequest[];
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
  /** What a tonne of dry matter that is fed out is worth, by route, in any currency. */
  readonly prices?: Readonly<Partial<Record<RouteKey, number | undefined>>> | undefined;
  /** By route; a bare text names the store. */
  readonly stores?:
    | Readonly<Partial<Record<RouteKey, HayStoreKey | StoreKey | StoreRequest | undefined>>>
    | undefined;
  readonly rates?: RatesRequest | undefined;
  readonly hazards?: HazardsRequest | undefined;
  /** What leaving the crop may bring: grain or later forage; what is not said counts as nothing, its chance as certain. */
  readonly leave?: { readonly [K in keyof StandingValueQuestion]?: number | undefined } | undefined;
  /** What a day of waiting costs a hectare, and a cut that is rained on or never comes in; the second absent = worked out from the prices. */
  readonly cutRule?:
    | { readonly waitingPerHa?: number | undefined; readonly rainedOnPerHa?: number | undefined }
    | undefined;
  /** What readings of this field and crop taught about its rate. */
  readonly learned?: LearnedRateRequest | undefined;
  /** Cuts that lie already: they stay on the board though they are before now, and are not ranked with what can be cut. */
  readonly madeCuts?: readonly CutRequest[] | undefined;
  /** Their rows bend to what was measured; the other cuts dry at the rate that it taught. */
  readonly readCuts?: readonly ReadCutRequest[] | undefined;
  /** Draws of the odds where the weather has no members of its own; 0 = no odds. */
  readonly draws?: number | undefined;
  readonly seed?: number | undefined;
}
