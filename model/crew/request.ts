import type { SwathRequest } from "../drying/request.ts";
import type { PackageKey, StoreKey, SwathRouteKey } from "../harvest/keys.ts";
import type { WeatherSeries } from "../weather/series.ts";
import type { CrewOp, MachineKind } from "./keys.ts";

export interface OffSpan {
  readonly fromUtc: string;
  readonly toUtc: string;
}

export interface CrewSiteRequest {
  readonly series: WeatherSeries;
  readonly name?: string | null | undefined;
}

export interface CrewFieldRequest {
  readonly id: string;
  readonly siteId: string;
  readonly name?: string | null | undefined;
  readonly customer?: string | null | undefined;
  readonly areaHa: number;
  readonly swath: SwathRequest;
  readonly route: SwathRouteKey;
  readonly package?: PackageKey | null | undefined;
  readonly store?: StoreKey | null | undefined;
  readonly bandWb?: readonly [number, number] | undefined;
  /** In the order of the work; the first is "mow". */
  readonly ops: readonly CrewOp[];
  /** Rates on this field that replace those of the machines, ha/h. */
  readonly haPerH?: Readonly<Partial<Record<CrewOp, number>>> | undefined;
  readonly valuePerHa: number;
  readonly priority?: number | undefined;
  readonly dueUtc?: string | null | undefined;
  /** What each day past `dueUtc` costs, in the money of `valuePerHa`; absent = a stated share of the field's value. */
  readonly latenessPerDay?: number | undefined;
}

export interface CrewMachineRequest {
  readonly id: string;
  readonly kind: MachineKind;
  readonly name?: string | null | undefined;
  /** Absent = that of a typical machine. */
  readonly haPerH?: number | undefined;
  readonly offUtc?: readonly OffSpan[] | undefined;
}

export interface CrewPersonRequest {
  readonly id: string;
  readonly name?: string | null | undefined;
  /** Local "HH:MM"; `to` not later than `from` means through midnight. */
  readonly from: string;
  readonly to: string;
  readonly offUtc?: readonly OffSpan[] | undefined;
}

export interface CrewFixedRequest {
  readonly fieldId: string;
  readonly op: CrewOp;
  readonly machineId: string;
  readonly personId?: string | null | undefined;
  readonly startUtc: string;
  /** When it ended or is promised to end; absent = after as long as the machine takes. */
  readonly endUtc?: string | null | undefined;
}

export interface CrewJobAnswer {
  readonly fieldId: string;
  readonly op: CrewOp;
  readonly machineId: string;
  readonly personId: string;
  readonly startUtc: string;
  readonly endUtc: string;
}

/** As much of an earlier answer as a new plan begins from. */
export interface PreviousPlan {
  readonly jobs: readonly CrewJobAnswer[];
  readonly revision?: number | undefined;
  /** What its visits are known by in calendars: it stays through all revisions. */
  readonly planId?: string | undefined;
  /** Visits that fell out before: they stay cancelled until their time has passed. */
  readonly cancelled?:
    | readonly {
        readonly fieldId: string;
        readonly op: CrewOp;
        readonly startUtc: string;
        readonly endUtc?: string | undefined;
      }[]
    | undefined;
  /** How its fields were called and whose they were: those that are gone since are told by it. */
  readonly names?:
    | {
        readonly fields?: Readonly<Record<string, string>> | undefined;
        readonly customers?: Readonly<Record<string, string>> | undefined;
        readonly machines?: Readonly<Record<string, string>> | undefined;
        readonly people?: Readonly<Record<string, string>> | undefined;
        readonly gone?: Readonly<Record<string, string>> | undefined;
      }
    | undefined;
}

export interface CrewPlanRequest {
  readonly sites: Readonly<Record<string, CrewSiteRequest>>;
  readonly fields: readonly CrewFieldRequest[];
  readonly machines: readonly CrewMachineRequest[];
  readonly people: readonly CrewPersonRequest[];
  /** "s1|s2": minutes, both ways; a pair that is left out is reckoned from the coordinates. */
  readonly travelMin?: Readonly<Record<string, number>> | undefined;
  readonly fixed?: readonly CrewFixedRequest[] | undefined;
  readonly previous?: PreviousPlan | null | undefined;
  readonly nowUtc?: string | null | undefined;
  readonly slotMin?: 60 | 30 | undefined;
  readonly horizonDays?: number | undefined;
  /** Share of the members that must be ready before a work may start. */
  readonly readyShare?: number | undefined;
  /** False = work may go on after dark. */
  readonly daylightOnly?: boolean | undefined;
  /** What a promised visit costs that moves or falls out, as a share of the field's value. */
  readonly moveCostShare?: number | undefined;
  readonly roadKmH?: number | undefined;
  /** True = also replay the plan before and a more careful one beside the best. */
  readonly compare?: boolean | undefined;
  /** True = sentences say "3 pm" instead of "15:00". */
  readonly hour12?: boolean | undefined;
  readonly seed?: number | undefined;
  readonly timeLimitS?: number | undefined;
}
