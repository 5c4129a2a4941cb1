import type { CropKey } from "../drying/keys.ts";
import type { ReadingMethod } from "../drying/request.ts";
import type { Ion } from "../feed/molar-masses.ts";
import type { Basis, ContentUnit } from "../feed/nitrate-units.ts";
import type { PackageKey, RouteKey, StoreKey } from "../harvest/keys.ts";
import type { WeatherSeries } from "../weather/series.ts";
import type { HabitDoc, Maybe } from "./farm-docs.ts";

/** What happens on it: observed weather, cuts, lots, readings, forecasts issued, what was learned, crew plans. */

export interface UploadDoc {
  readonly name: string;
  readonly siteId: string;
  /** First hour, and the end of the last. */
  readonly fromUtc: string;
  readonly toUtc: string;
  readonly series: WeatherSeries;
  readonly notes?: Maybe<string>;
}

export const CUT_OPERATIONS = ["mow", "ted", "rake", "invert", "bale", "wrap", "chop", "haul"] as const;
export type CutOperation = (typeof CUT_OPERATIONS)[number];

export interface CutOperationDoc {
  readonly kind: CutOperation;
  readonly plannedUtc?: Maybe<string>;
  readonly doneUtc?: Maybe<string>;
  /** When it was finished: the film's hours count from the end of baling. */
  readonly doneEndUtc?: Maybe<string>;
  readonly machineId?: Maybe<string>;
  readonly personId?: Maybe<string>;
  readonly coveredFraction?: Maybe<number>;
  readonly notes?: Maybe<string>;
}

export interface CutDoc {
  readonly fieldId: string;
  readonly crop: CropKey;
  readonly route?: Maybe<RouteKey>;
  readonly package?: Maybe<PackageKey>;
  /** One of the two at least. */
  readonly plannedUtc?: Maybe<string>;
  readonly cutUtc?: Maybe<string>;
  readonly dryMatterTHa?: Maybe<number>;
  readonly initialMoistureWb?: Maybe<number>;
  readonly habit?: Maybe<HabitDoc>;
  readonly operations?: Maybe<readonly CutOperationDoc[]>;
  /** Brought in, or given up: nothing more is due of it. */
  readonly closedUtc?: Maybe<string>;
  readonly notes?: Maybe<string>;
}

export const LAB_TESTS = ["nitrate", "prussic-acid", "moisture", "fermentation", "feed-value"] as const;
export type LabTest = (typeof LAB_TESTS)[number];

export interface LotTestDoc {
  readonly id: string;
  readonly what: LabTest;
  readonly dueUtc?: Maybe<string>;
  readonly sentUtc?: Maybe<string>;
  readonly expectedUtc?: Maybe<string>;
  readonly laboratory?: Maybe<string>;
  /** The result came, whatever it said. */
  readonly resultUtc?: Maybe<string>;
}

/** A laboratory's paper. A nitrate result without ion, unit and basis is no result. */
export interface LotResultDoc {
  readonly atUtc: string;
  readonly laboratory?: Maybe<string>;
  readonly testId?: Maybe<string>;
  readonly nitrate?: Maybe<{
    readonly value: number;
    readonly ion: Ion;
    readonly unit: ContentUnit;
    readonly basis: Basis;
  }>;
  readonly prussicAcid?: Maybe<{
    readonly value: number;
    readonly unit: ContentUnit;
    readonly basis: Basis;
  }>;
  readonly moistureWb?: Maybe<number>;
  readonly ph?: Maybe<number>;
  readonly notes?: Maybe<string>;
}

export interface HeatingDoc {
  readonly atUtc: string;
  readonly tempC: number;
  readonly place?: Maybe<string>;
}

export interface LotDoc {
  readonly name: string;
  readonly cutId?: Maybe<string>;
  readonly fieldId?: Maybe<string>;
  readonly crop: CropKey;
  readonly route: RouteKey;
  readonly package?: Maybe<PackageKey>;
  readonly store?: Maybe<StoreKey>;
  readonly place?: Maybe<string>;
  readonly bales?: Maybe<number>;
  readonly loads?: Maybe<number>;
  /** As it lies. */
  readonly tonnes?: Maybe<number>;
  readonly storedUtc: string;
  readonly wrappedUtc?: Maybe<string>;
  readonly storedMoistureWb?: Maybe<number>;
  /** When it is meant to be opened; left out = when the wait is over. */
  readonly openUtc?: Maybe<string>;
  readonly openedUtc?: Maybe<string>;
  /** Fed, sold or thrown away. */
  readonly finishedUtc?: Maybe<string>;
  readonly tests?: Maybe<readonly LotTestDoc[]>;
  readonly results?: Maybe<readonly LotResultDoc[]>;
  readonly heating?: Maybe<readonly HeatingDoc[]>;
  readonly notes?: Maybe<string>;
}

export interface ReadingDoc {
  /** One of the three at least. */
  readonly fieldId?: Maybe<string>;
  readonly cutId?: Maybe<string>;
  readonly lotId?: Maybe<string>;
  readonly atUtc: string;
  readonly method: ReadingMethod;
  /** Either the number or the range of a hand squeeze. */
  readonly moistureWb?: Maybe<number>;
  readonly range?: Maybe<readonly [number, number]>;
  readonly place?: Maybe<string>;
  /** Mixed into the sample. */
  readonly grabs?: Maybe<number>;
  readonly weighings?: Maybe<{
    readonly tareG: number;
    readonly freshG: number;
    readonly driedG: readonly number[];
  }>;
  readonly notes?: Maybe<string>;
}

/** JSON of another contract, kept as it was. */
export type KeptJson = Readonly<Record<string, unknown>>;

/** A forecast's course at its issue: what readings score later. */
export interface ForecastCourseDoc {
  readonly startUtc: readonly string[];
  /** End of each hour; central. */
  readonly moistureWb: readonly (number | null)[];
  readonly quantiles?: Maybe<{
    readonly p10: readonly (number | null)[];
    readonly p25: readonly (number | null)[];
    readonly p50: readonly (number | null)[];
    readonly p75: readonly (number | null)[];
    readonly p90: readonly (number | null)[];
  }>;
  /** One list of hours a draw, equally weighted. */
  readonly membersWb?: Maybe<readonly (readonly (number | null)[])[]>;
}

/** A chance that was told, and by when one can see whether the thing came. */
export interface ToldChanceDoc {
  readonly id: string;
  /** "window" = the route's machine can work long enough in a span that overlaps these hours. */
  readonly what: string;
  readonly route?: Maybe<RouteKey>;
  readonly fromUtc: string;
  readonly toUtc: string;
  /** When mowing was to begin. */
  readonly cutUtc?: Maybe<string>;
  /** The route's band that it was told by, wet basis. */
  readonly bandWb?: Maybe<readonly [number, number]>;
  readonly chance: number;
  /** Left out = the record finds it from the cut's work and readings. */
  readonly came?: Maybe<boolean>;
}

export interface ForecastDoc {
  readonly fieldId?: Maybe<string>;
  readonly siteId?: Maybe<string>;
  readonly cutId?: Maybe<string>;
  readonly issuedUtc: string;
  readonly modelVersion: string;
  readonly verb: "drydown" | "windows";
  readonly crop?: Maybe<CropKey>;
  readonly route?: Maybe<RouteKey>;
  readonly seed?: Maybe<number>;
  readonly provider?: Maybe<string>;
  readonly chances?: Maybe<readonly ToldChanceDoc[]>;
  /** The whole request of the verb, the weather in it. */
  readonly request: KeptJson;
  readonly course?: Maybe<ForecastCourseDoc>;
  readonly notes?: Maybe<string>;
}

/** What readings taught about the rate of a field and crop. */
export interface LearnedRateDoc {
  readonly fieldId: string;
  readonly crop: CropKey;
  readonly atUtc: string;
  readonly lnMean: number;
  readonly lnSd: number;
  readonly notes?: Maybe<string>;
}

export interface CrewPlanDoc {
  readonly name: string;
  readonly madeUtc: string;
  readonly request: KeptJson;
  readonly answer: KeptJson;
  /** The book's own count of its changes: the calendar's SEQUENCE, that never falls. */
  readonly sequence?: number | undefined;
  /** The last file that went out with other visits than those kept, as the book counted it; `visits` is their hash. */
  readonly sent?: { readonly sequence: number; readonly visits: string } | null | undefined;
  readonly notes?: Maybe<string>;
}
