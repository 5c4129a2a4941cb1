/** What is said of one thing on the board in the line below it. */
export interface Telling {
  readonly sentence: string;
  /** Reasons and cautions. */
  readonly more: readonly string[];
}

/** The handlers by which anything on the board is told on hover and on focus alike. */
export function tells(telling: Telling, onTell: (telling: Telling | null) => void) {
  return {
    onMouseEnter: () => onTell(telling),
    onMouseLeave: () => onTell(null),
    onFocus: () => onTell(telling),
    onBlur: () => onTell(null),
  };
}
