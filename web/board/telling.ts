/** What is said of one thing on the board in the line below it. */
export interface Telling {
  readonly sentence: string;
  /** Reasons and cautions. */
  readonly more: readonly string[];
}
