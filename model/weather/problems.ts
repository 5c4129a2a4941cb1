import { cleaned, excerpt } from "./shown.ts";

/** What is wrong in a file, told by row and column, with a cap on how often the same thing is said. */

export interface CsvProblem {
  /** Line of the file, the header being 1; null when it is about the file or a whole column. */
  readonly row: number | null;
  readonly column: string | null;
  /** The cell as it stands in the file. */
  readonly value: string | null;
  /** What would be accepted, in words. */
  readonly limit: string | null;
  readonly code: string;
  readonly severity: "error" | "warning";
  readonly message: string;
}

export type ProblemPlace = Partial<Pick<CsvProblem, "row" | "column" | "value" | "limit">>;

/** How often one kind of problem in one column is told with its row; the rest is counted. */
const TOLD_SINGLY = 10;

/** Collects problems in the order found. */
export class ProblemList {
  readonly #told: CsvProblem[] = [];
  readonly #counts = new Map<string, { first: CsvProblem; count: number }>();

  error(code: string, message: string, place: ProblemPlace = {}): void {
    this.#add(code, "error", message, place);
  }

  warn(code: string, message: string, place: ProblemPlace = {}): void {
    this.#add(code, "warning", message, place);
  }

  hasErrors(): boolean {
    return [...this.#counts.values()].some(({ first }) => first.severity === "error");
  }

  /** All that was told singly, then one line for each kind of which there was more. */
  list(): readonly CsvProblem[] {
    const more = [...this.#counts.values()]
      .filter(({ count }) => count > TOLD_SINGLY)
      .map(({ first, count }): CsvProblem => {
        const more = count - TOLD_SINGLY;
        const where = first.row === null || first.column === null ? "the file" : `column ${first.column}`;
        const what = first.row === null ? "columns" : "rows";
        const message = `${where}: ${more} more ${what} have the same problem (${first.code})`;
        return {
          ...first,
          row: null,
          column: first.row === null ? null : first.column,
          value: null,
          message,
        };
      });
    return [...this.#told, ...more];
  }

  #add(code: string, severity: CsvProblem["severity"], message: string, place: ProblemPlace): void {
    const { row = null, column = null, value = null, limit = null } = place;
    const problem: CsvProblem = {
      row,
      column: column === null ? null : excerpt(column),
      value: value === null ? null : excerpt(value),
      limit: limit === null ? null : cleaned(limit),
      code,
      severity,
      message: excerpt(message, 400),
    };
    const key = JSON.stringify([code, row === null ? null : column]);
    const seen = this.#counts.get(key) ?? { first: problem, count: 0 };
    seen.count++;
    this.#counts.set(key, seen);
    if (seen.count <= TOLD_SINGLY) this.#told.push(problem);
  }
}
