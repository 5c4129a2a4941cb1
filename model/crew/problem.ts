/** A stretch of time, UTC milliseconds; the end is not part of it. */
export interface Span {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}

/** The window that one mowing opens for a later work of the same field: it starts and ends inside. */
export interface OperationWindow {
  readonly readyUtcMs: number;
  readonly untilUtcMs: number;
}

/**
 * The window of a work after a mowing, beside the other works of its field, which tell the stretch of fit hours that it
 * lies in; null when none opens, "any" where the mowing does not matter to it.
 */
export type WindowsOf = (
  fieldId: string,
  op: string,
  mow: Pick<CrewJob, "startUtcMs" | "endUtcMs">,
  own: readonly Pick<CrewJob, "op" | "startUtcMs" | "endUtcMs">[],
) => OperationWindow | null | "any";

export interface CrewJob {
  readonly fieldId: string;
  readonly op: string;
  readonly machineId: string;
  readonly personId: string;
  readonly startUtcMs: number;
  readonly endUtcMs: number;
}

export interface CrewField {
  readonly id: string;
  /** What people call it; absent = its id. */
  readonly name?: string | null | undefined;
  readonly siteId: string;
  /** In the order of the work; the first opens the windows of the others. */
  readonly ops: readonly string[];
}

/** A machine or a person: who, and when they can work. */
export interface CrewResource {
  readonly id: string;
  /** What people call it; absent = its id. */
  readonly name?: string | null | undefined;
  readonly available: readonly Span[];
  /** Ids of the machines that a machine takes along to its works: the carts behind a chopper. Absent = none. */
  readonly along?: readonly string[] | undefined;
}

/** Everything that a plan must keep to, apart from the plan itself. */
export interface CrewRules {
  readonly fields: readonly CrewField[];
  readonly machines: readonly CrewResource[];
  readonly people: readonly CrewResource[];
  readonly travelMin: Readonly<Record<string, number>>;
  readonly windowsOf: WindowsOf;
  /** Whether weather and light allow the work throughout, whatever the mowing hour. */
  readonly mayWork: (fieldId: string, op: string, span: Span) => boolean;
  /** What stands against the work in those hours, beside the other works of its field, in a clause; absent = not known. */
  readonly meets?: (fieldId: string, op: string, span: Span, own: readonly CrewJob[]) => string;
  /** How long the work takes with that machine, ms; null where that machine cannot do it. */
  readonly durationMs: (fieldId: string, op: string, machineId: string) => number | null;
  /** How long after the work before it this one may start, ms; null = any time. */
  readonly lagMs: (fieldId: string, op: string) => number | null;
  /**
   * Whether the crop is found dry at the hours of a gathering after its own works, whatever its window says; absent = windows
   * alone tell.
   */
  readonly isDryAllTheSame?: (fieldId: string, op: string, own: readonly CrewJob[]) => boolean;
  /** Done, under way or promised: held to nothing but being in one place at a time. */
  readonly isFixed: (fieldId: string, op: string) => boolean;
}
