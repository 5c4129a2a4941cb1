/** A mixed-integer model in rows, to be MAXIMISED, as the solver's engine is handed it. */
export interface Milp {
  readonly numCols: number;
  readonly numRows: number;
  readonly gain: Float64Array;
  /** Added to the objective whatever the columns. */
  readonly offset: number;
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  /** 1 where the column takes whole numbers only. */
  readonly integer: Int32Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  /** Row-wise: entries of row i stand at rowStart[i] ... rowStart[i + 1] - 1. */
  readonly rowStart: Int32Array;
  readonly rowCol: Int32Array;
  readonly rowValue: Float64Array;
}

/** Terms of a row under construction: the coefficient of each column. */
export type Terms = Map<number, number>;

export function addTerm(terms: Terms, col: number, value: number): void {
  if (col < 0) return;
  const sum = (terms.get(col) ?? 0) + value;
  if (sum === 0) terms.delete(col);
  else terms.set(col, sum);
}

/** Gathers columns and rows. */
export class MilpBuilder {
  readonly gain: number[] = [];
  readonly #lower: number[] = [];
  readonly #upper: number[] = [];
  readonly #integer: number[] = [];
  readonly #rowLower: number[] = [];
  readonly #rowUpper: number[] = [];
  readonly #start: number[] = [0];
  readonly #cols: number[] = [];
  readonly #values: number[] = [];
  offset = 0;

  column(lower: number, upper: number, integer: boolean, gain = 0): number {
    this.gain.push(gain);
    this.#lower.push(lower);
    this.#upper.push(upper);
    this.#integer.push(integer ? 1 : 0);
    return this.gain.length - 1;
  }

  get columns(): number {
    return this.gain.length;
  }

  row(lower: number, upper: number, terms: Terms): void {
    if (terms.size === 0 && lower <= 0 && upper >= 0) return;
    for (const [col, value] of terms) {
      this.#cols.push(col);
      this.#values.push(value);
    }
    this.#start.push(this.#cols.length);
    this.#rowLower.push(lower);
    this.#rowUpper.push(upper);
  }

  build(): Milp {
    return {
      numCols: this.gain.length,
      numRows: this.#rowLower.length,
      gain: Float64Array.from(this.gain),
      offset: this.offset,
      colLower: Float64Array.from(this.#lower),
      colUpper: Float64Array.from(this.#upper),
      integer: Int32Array.from(this.#integer),
      rowLower: Float64Array.from(this.#rowLower),
      rowUpper: Float64Array.from(this.#rowUpper),
      rowStart: Int32Array.from(this.#start),
      rowCol: Int32Array.from(this.#cols),
      rowValue: Float64Array.from(this.#values),
    };
  }
}

/** The sum of one row at a point. */
export function rowSum(milp: Milp, i: number, point: Float64Array): number {
  let sum = 0;
  for (let k = milp.rowStart[i] as number; k < (milp.rowStart[i + 1] as number); k++) {
    sum += (milp.rowValue[k] as number) * (point[milp.rowCol[k] as number] as number);
  }
  return sum;
}

/** Rows and bounds that a point breaks, in words; empty where it may be handed to the solver as a start. */
export function startFaults(milp: Milp, point: Float64Array, tolerance = 1e-6): string[] {
  const faults: string[] = [];
  for (let j = 0; j < milp.numCols; j++) {
    const value = point[j] as number;
    if (
      value < (milp.colLower[j] as number) - tolerance ||
      value > (milp.colUpper[j] as number) + tolerance
    ) {
      faults.push(`column ${j}: ${value} is outside its bounds`);
    }
  }
  for (let i = 0; i < milp.numRows; i++) {
    const sum = rowSum(milp, i, point);
    if (sum < (milp.rowLower[i] as number) - tolerance || sum > (milp.rowUpper[i] as number) + tolerance) {
      faults.push(`row ${i}: ${sum} is outside ${milp.rowLower[i]} to ${milp.rowUpper[i]}`);
    }
  }
  return faults;
}

/** The objective of a point. */
export function objectiveOf(milp: Milp, point: Float64Array): number {
  let sum = milp.offset;
  for (let j = 0; j < milp.numCols; j++) sum += (milp.gain[j] as number) * (point[j] as number);
  return sum;
}
