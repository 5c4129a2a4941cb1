import type { Conditioning, CropKey, SoilClass } from "../drying/keys.ts";
import type { Animal } from "../feed/animals.ts";
import type { PackageKey, RouteKey } from "../harvest/keys.ts";
import type { FlatRate } from "../harvest/value/prices.ts";

/** What a farm has: places, fields, machines, people, prices, stock. A key that may be left out may be null: not known. */

export type Maybe<T> = T | null | undefined;

export interface SiteDoc {
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly timeZone: string;
  readonly windHeightM?: Maybe<number>;
  readonly notes?: Maybe<string>;
}

/** What a label's interval stands before. */
export const INTERVAL_BEFORE = ["cutting", "grazing", "feeding"] as const;
export type IntervalBefore = (typeof INTERVAL_BEFORE)[number];

export interface SprayDoc {
  readonly product: string;
  readonly appliedUtc: string;
  /** Of the label, days. */
  readonly intervalDays: number;
  readonly before: IntervalBefore;
  readonly notes?: Maybe<string>;
}

/** How a field's swath is made, as far as it is the field's habit. */
export interface HabitDoc {
  readonly conditioning?: Maybe<Conditioning>;
  readonly coveredFraction?: Maybe<number>;
  readonly stubbleCm?: Maybe<number>;
  readonly soil?: Maybe<SoilClass>;
  readonly dryingAgent?: Maybe<boolean>;
}

export interface FieldDoc {
  readonly name: string;
  readonly siteId: string;
  readonly areaHa: number;
  readonly crop: CropKey;
  readonly dryMatterTHa?: Maybe<number>;
  readonly initialMoistureWb?: Maybe<number>;
  readonly stage?: Maybe<string>;
  readonly latitude?: Maybe<number>;
  readonly longitude?: Maybe<number>;
  readonly sprays?: Maybe<readonly SprayDoc[]>;
  readonly habit?: Maybe<HabitDoc>;
  readonly customer?: Maybe<string>;
  readonly priority?: Maybe<number>;
  readonly valuePerHa?: Maybe<number>;
  readonly dueUtc?: Maybe<string>;
  /** What stands after the # of the page's address: its levers. */
  readonly link?: Maybe<string>;
  readonly notes?: Maybe<string>;
}

export const MACHINE_KINDS = ["mower", "tedder", "rake", "baler", "wrapper", "chopper", "cart"] as const;
export type MachineKind = (typeof MACHINE_KINDS)[number];

export interface SpanDoc {
  readonly fromUtc: string;
  readonly toUtc: string;
}

export interface MachineDoc {
  readonly name: string;
  readonly kind: MachineKind;
  readonly package?: Maybe<PackageKey>;
  readonly haPerH?: Maybe<number>;
  readonly widthM?: Maybe<number>;
  readonly speedKmH?: Maybe<number>;
  readonly efficiency?: Maybe<number>;
  readonly offUtc?: Maybe<readonly SpanDoc[]>;
  readonly notes?: Maybe<string>;
}

export interface PersonDoc {
  readonly name: string;
  /** Working day on the farm's clock, "07:00". */
  readonly from: string;
  readonly to: string;
  readonly offUtc?: Maybe<readonly SpanDoc[]>;
  readonly notes?: Maybe<string>;
}

export interface PricesDoc {
  readonly name: string;
  readonly currency?: Maybe<string>;
  readonly pricePerTDm?: Maybe<Partial<Record<RouteKey, number | undefined>>>;
  /** Each left out is the model's default. */
  readonly rates?: Maybe<Partial<Record<FlatRate, number | undefined>>>;
  readonly notes?: Maybe<string>;
}

export interface HerdDoc {
  readonly name: string;
  readonly animal: Animal;
  readonly count?: Maybe<number>;
  readonly dailyNeedKgDm?: Maybe<number>;
  readonly notes?: Maybe<string>;
}
