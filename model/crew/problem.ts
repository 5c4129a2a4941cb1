/** A stretch of time, UTC milliseconds; the end is not part of it. */
export interface Span {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}

/** The window that one mowing hour opens for a later operation of the same field. */
export interface OperationWindow {
  readonly readyUtcMs: number;
  /** The last moment at which the operation may start. */
  readonly deadlineUtcMs: number;
  /** 0-1, or null where no members stand behind the window. */
  readonly chance: number | null;
  /** Share of the field's value lost, 0-1. */
  readonly valueLoss: number;
}

/** The window of an operation after mowing at that hour; null when none opens. */
export type WindowsOf = (fieldId: string, op: string, mowUtcMs: number) => OperationWindow | null;

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
  readonly siteId: string;
  /** In the order of the work; the first opens the windows of the others. */
  readonly ops: readonly string[];
}

/** A machine or a person: who, and when they can work. */
export interface CrewResource {
  readonly id: string;
  readonly available: readonly Span[];
}
