import type { CrewOp } from "./keys.ts";
import type { FieldReplay, PlanWorth } from "./replay.ts";
import type { CrewJobAnswer } from "./request.ts";
import type { BoundKind, PlanMethod } from "./solve-grid.ts";

/** Of a work still to come, planned or held; what is done or under way has none. */
export interface CrewWindowAnswer {
  readonly fieldId: string;
  readonly op: CrewOp;
  /**
   * The window that the mowing opens. Null for mowing itself, where the mowing does not matter, and for a gathering that
   * is held while its raking is still to be planned. Held work may lie outside it.
   */
  readonly readyUtc: string | null;
  readonly untilUtc: string | null;
  /** Stretches in which weather, ground and light allow the work after some mowing hour. */
  readonly openUtc: readonly { readonly fromUtc: string; readonly toUtc: string }[];
}

export interface CrewChange {
  readonly fieldId: string;
  readonly op: CrewOp;
  /** Null where the visit is new. */
  readonly fromUtc: string | null;
  /** Null where the visit falls out; as before where another thing about it changed. */
  readonly toUtc: string | null;
  /** "3 h instead of 2 h"; absent where it takes as long as before. */
  readonly takes?: string | undefined;
  /** "with Baler two instead of Baler one"; absent where the same do it. No word for a customer. */
  readonly who?: string | undefined;
  readonly why: string;
  /** The same for the customer, where it would name other customers' fields or what the crew reckons by. */
  readonly customerWhy?: string | undefined;
  /** The whole sentence, in the farm's time. */
  readonly text: string;
}

/** A visit that fell out, in this revision or one before, and whose time has not come yet. */
export interface CancelledVisit {
  readonly fieldId: string;
  readonly op: CrewOp;
  readonly startUtc: string;
  /** As it was promised; absent where the plan before did not tell it. */
  readonly endUtc?: string | undefined;
}

/** A field that the plan does not finish. */
export interface FieldLeft {
  readonly fieldId: string;
  /** What is done of it, and the first reason that is true, in the farm's time. */
  readonly why: string;
  /** The same for the customer, where it would name other customers' fields or what the crew reckons by. */
  readonly customerWhy?: string | undefined;
  /** When it was mown: it lies in the swath. Null where it stands; plans kept from before may lack it. */
  readonly mownUtc?: string | null | undefined;
}

/**
 * What should be looked at in held work, and what is to be known before a crop is cut and fed: of which visit, of which
 * kind, where the question names it, in words.
 */
export interface CrewCaution {
  readonly fieldId: string;
  readonly op: CrewOp;
  readonly code:
    | "window"
    | "weather"
    | "lag"
    | "hours"
    /** Its cart is reckoned behind a chopper elsewhere, or its chopper has none. */
    | "travel"
    /** Its raking is done or held, and it comes later after that than a windrow should lie. */
    | "windrow"
    /** The crop is likely too wet at that hour. */
    | "wet"
    /** Its machine went away in the middle: the rest is not done. */
    | "broken-off"
    /** It was due, but its machine was away: it is planned anew. */
    | "not-begun"
    /** Its mowing is held, and nothing that must follow finds a place: it would lie mown. */
    | "would-lie"
    /** It lies mown and is left for a field that stands still: the objective counts both alike. */
    | "given-up"
    | "held-in-vain"
    /** To be settled before the mowing: insurer and labels. */
    | "before-cutting"
    /** What the standing crop is to be sampled for. */
    | "test"
    /** The mowing lies in a published wait or doubt after rain, frost or dull days. */
    | "hazard"
    /** What the route asks before its feed is fed. None of these clears a feed. */
    | "feed";
  readonly path: string;
  readonly text: string;
  /** The wait that a mowing lies in; absent = none. */
  readonly wait?: MowingWait | undefined;
}

/** A published wait after weather, such as after a frost. */
export interface MowingWait {
  /** "prussic acid after frost". */
  readonly why: string;
  /** Until when it is counted; null = it lasts past this weather. */
  readonly untilUtc: string | null;
}

export interface HelpfulChange {
  readonly kind: "hour" | "machine" | "person" | "other-hour" | "dry-hay" | "wrapped-bales" | "wilted-chop";
  readonly fieldId: string | null;
  readonly machineKind: string | null;
  /** The works of a field that is left, by the route that `kind` names; absent for any other change. */
  readonly ops?: readonly CrewOp[] | undefined;
  /** In the money of the plan. */
  readonly gain: number;
  /** False where a longer search might find as much without the change; absent = it cannot. */
  readonly proved?: false | undefined;
  readonly text: string;
}

export interface ComparedPlan extends PlanWorth {
  readonly plan: "promised" | "best" | "robust";
  readonly served: number;
  /** The planning objective; null for the plan as promised, which was made for another forecast. */
  readonly value: number | null;
  readonly faults: number;
}

export interface CrewPlanAnswer {
  readonly jobs: readonly CrewJobAnswer[];
  readonly left: readonly FieldLeft[];
  /**
   * The planning objective: worth times the share kept of every field served, less lateness and moved visits. Value, bound
   * and gap are of the windows as the plan has them.
   */
  readonly value: number;
  readonly valueParts: { readonly kept: number; readonly lateness: number; readonly moved: number };
  readonly bound: number;
  readonly boundKind: BoundKind;
  /** True where a gap is left to the pool-load bound, that forgets the order of the works. */
  readonly boundWeak: boolean;
  readonly gap: number;
  /**
   * Ids of fields whose windows were read again under a plan, or are those of its replay: of plans in other windows bound
   * and gap say nothing. Absent where all are as they were first read.
   */
  readonly windowsReread?: readonly string[] | undefined;
  /** Ids of the carts that each chopper takes along to its works, by its id; absent where none takes any. */
  readonly carts?: Readonly<Record<string, readonly string[]>> | undefined;
  readonly method: PlanMethod;
  readonly replay: readonly FieldReplay[];
  /** Over the members; null where the weather is known or nothing is served. */
  readonly worth: PlanWorth | null;
  readonly help: HelpfulChange | null;
  /** That nothing was found to help, in a sentence; absent where something was, or nothing was sought. */
  readonly noHelp?: string | undefined;
  readonly compared: readonly ComparedPlan[] | null;
  readonly changes: readonly CrewChange[];
  /** Calendars hold them as cancelled until their time has passed: not everybody has seen the revision that dropped them. */
  readonly cancelled: readonly CancelledVisit[];
  readonly messages: readonly { readonly customer: string | null; readonly text: string }[];
  readonly windows: readonly CrewWindowAnswer[];
  readonly names: {
    readonly fields: Readonly<Record<string, string>>;
    readonly machines: Readonly<Record<string, string>>;
    readonly people: Readonly<Record<string, string>>;
    /** Whose the fields are, those that fell out since the plan before too; fields without a customer are not in it. */
    readonly customers?: Readonly<Record<string, string>> | undefined;
    /** Fields that the plan before had and nobody asks for any more, as far as it named them. */
    readonly gone?: Readonly<Record<string, string>> | undefined;
  };
  readonly timeZone: string;
  readonly slotMin: number;
  readonly nowUtc: string;
  readonly untilUtc: string;
  readonly revision: number;
  /** What the plan's visits are known by in calendars, through all revisions that are given the last one as `previous`. */
  readonly planId?: string | undefined;
  /** Weathers behind the chances, widened copies of a single forecast among them; 0 where the weather is known. */
  readonly counts: { readonly members: number; readonly courses: number };
  readonly assumptions: readonly string[];
  readonly cautions: readonly CrewCaution[];
  /** Of the weather, the texts of the cautions of held work, and each caution of the feed once with its fields. */
  readonly warnings: readonly string[];
}
