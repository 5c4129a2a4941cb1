/** Why something is as it is in a plan, in a clause without capital and full stop. */
export interface Reason {
  readonly why: string;
  /** The same for the customer, where it would name other customers' fields or what the crew reckons by. */
  readonly customerWhy?: string | undefined;
}
