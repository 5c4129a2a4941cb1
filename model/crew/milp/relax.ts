import { engineModel, engineSeed, type MilpEngine, OPTIMAL } from "./engine.ts";
import { type Milp, rowSum } from "./milp.ts";

/** The model without its whole numbers, solved: a bound on every plan, and what it would cost to leave a limit. */
export interface Relaxation {
  /** No point's objective is above this. */
  readonly bound: number;
  /** For each column and each row the limit that it stands at, and what each unit away from that costs at least. */
  readonly cols: Prices;
  readonly rows: Prices;
}

interface Prices {
  readonly value: Float64Array;
  readonly price: Float64Array;
}

/** Null where the time did not suffice. */
export function relax(engine: MilpEngine, milp: Milp, timeLimitS: number, seed: number): Relaxation | null {
  const model = engineModel(engine, milp, new Int32Array(milp.numCols));
  try {
    // Simplex takes ten times as long here: many plans are worth the same, and each of its steps gains nothing.
    model.options.set({
      output_flag: false,
      solver: "ipx",
      time_limit: timeLimitS,
      random_seed: engineSeed(seed),
    });
    model.run({});
    if (model.getModelStatus() !== OPTIMAL) return null;
    const { colValue, colDual, rowDual } = model.getSolution();
    if (colDual.length !== milp.numCols || rowDual.length !== milp.numRows) return null;
    const value = Float64Array.from(colValue);
    return {
      bound: -model.getObjectiveValue(),
      cols: { value, price: Float64Array.from(colDual, Math.abs) },
      rows: {
        value: Float64Array.from({ length: milp.numRows }, (_, i) => rowSum(milp, i, value)),
        price: Float64Array.from(rowDual, Math.abs),
      },
    };
  } finally {
    model.dispose();
  }
}

/** How near to a limit a value stands at it. */
const AT_LIMIT = 1e-6;

/**
 * The model held to the limits that its relaxation prices above a margin. Whole numbers leave a limit by one at least, so
 * that no point outside is worth more than the relaxation's bound less the margin (reduced-cost fixing: Dantzig, Fulkerson
 * & Johnson 1954, Solution of a large-scale traveling-salesman problem; from memory).
 *
 * @param margin above 0, in the unit of the objective
 */
export function narrowed(
  milp: Milp,
  { cols, rows }: Relaxation,
  margin: number,
): { readonly milp: Milp; readonly held: number } {
  const [colLower, colUpper] = [milp.colLower.slice(), milp.colUpper.slice()];
  const [rowLower, rowUpper] = [milp.rowLower.slice(), milp.rowUpper.slice()];
  let held = 0;
  const hold = (lower: Float64Array, upper: Float64Array, { value, price }: Prices, i: number) => {
    if ((price[i] as number) <= margin || lower[i] === upper[i]) return;
    const [from, to, at] = [lower[i] as number, upper[i] as number, value[i] as number];
    if (Math.abs(at - from) <= AT_LIMIT) upper[i] = from;
    else if (Math.abs(at - to) <= AT_LIMIT) lower[i] = to;
    else return;
    held++;
  };
  for (let j = 0; j < milp.numCols; j++) if (milp.integer[j] === 1) hold(colLower, colUpper, cols, j);
  for (let i = 0; i < milp.numRows; i++) if (isWhole(milp, i)) hold(rowLower, rowUpper, rows, i);
  return { milp: { ...milp, colLower, colUpper, rowLower, rowUpper }, held };
}

/** True where the sum of a row and its limits are whole numbers at every point. */
function isWhole(milp: Milp, i: number): boolean {
  const isLimit = (value: number) => !Number.isFinite(value) || Number.isInteger(value);
  if (!isLimit(milp.rowLower[i] as number) || !isLimit(milp.rowUpper[i] as number)) return false;
  for (let k = milp.rowStart[i] as number; k < (milp.rowStart[i + 1] as number); k++) {
    if (milp.integer[milp.rowCol[k] as number] !== 1 || !Number.isInteger(milp.rowValue[k])) return false;
  }
  return true;
}
