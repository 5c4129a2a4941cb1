/** Why something is as it is in a plan, in a clause without capital and full stop. */
export interface Reason {
  readonly why: string;
  /** The same for the customer, where it would name other customers' fields or what the crew reckons by. */
  readonly customerWhy?: string | undefined;
}

/** A visit of a plan by its field and its work, as places in the grid. */
export interface Visit {
  readonly field: number;
  readonly task: number;
}

/** A reason that may lie in where other visits of the plan are. */
export interface Cause extends Reason {
  /** The visits that it blames; absent = none. */
  readonly of?: readonly Visit[] | undefined;
}

/** Where nothing closer is known to be true. */
export const AROUND: Reason = { why: "the plan around it changed" };
