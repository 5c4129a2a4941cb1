import type { Milp } from "./milp.ts";

/** What is used of the solver's engine (the package `highs`), so that the model imports none. */
export interface MilpEngine {
  readonly infinity: number;
  createModel(source: {
    readonly numCols: number;
    readonly numRows: number;
    readonly offset: number;
    readonly colCost: Float64Array;
    readonly colLower: Float64Array;
    readonly colUpper: Float64Array;
    readonly rowLower: Float64Array;
    readonly rowUpper: Float64Array;
    readonly integrality: Int32Array;
    readonly matrix: {
      readonly format: "csr";
      readonly numRows: number;
      readonly numCols: number;
      readonly starts: Int32Array;
      readonly indices: Int32Array;
      readonly values: Float64Array;
    };
  }): EngineModel;
}

export interface EngineEvent {
  readonly data: {
    readonly mip_solution?: Float64Array;
    readonly mip_dual_bound?: number;
    readonly objective_function_value?: number;
  };
}

export interface EngineModel {
  readonly options: { set(values: Readonly<Record<string, number | boolean | string>>): unknown };
  readonly info: { get(name: "mip_dual_bound"): unknown };
  setSolution(solution: { readonly colValue: Float64Array }): unknown;
  run(callbacks: {
    readonly 4?: (event: EngineEvent) => undefined;
    readonly 5?: (event: EngineEvent) => undefined;
    readonly 6?: (event: EngineEvent & { interrupt(): void }) => undefined;
  }): unknown;
  getSolution(): {
    readonly colValue: ArrayLike<number>;
    readonly colDual: ArrayLike<number>;
    readonly rowDual: ArrayLike<number>;
  };
  getModelStatus(): number;
  getObjectiveValue(): number;
  dispose(): void;
}

/** Status codes of the engine: optimal, infeasible, out of time. */
export const OPTIMAL = 7;
export const INFEASIBLE = 8;
export const TIME_LIMIT = 13;

/**
 * A model as the engine takes it, which minimises: gains are handed over with their sign turned.
 *
 * @param integer 1 where a column takes whole numbers only; the model's own, or none for its relaxation
 */
export function engineModel(engine: MilpEngine, milp: Milp, integer = milp.integer): EngineModel {
  const finite = (values: Float64Array) =>
    values.map((value) => Math.min(engine.infinity, Math.max(-engine.infinity, value)));
  return engine.createModel({
    numCols: milp.numCols,
    numRows: milp.numRows,
    offset: -milp.offset,
    colCost: milp.gain.map((gain) => -gain),
    colLower: finite(milp.colLower),
    colUpper: finite(milp.colUpper),
    rowLower: finite(milp.rowLower),
    rowUpper: finite(milp.rowUpper),
    integrality: integer,
    matrix: {
      format: "csr",
      numRows: milp.numRows,
      numCols: milp.numCols,
      starts: milp.rowStart,
      indices: milp.rowCol,
      values: milp.rowValue,
    },
  });
}

/** Seeds of the engine end here. */
export function engineSeed(seed: number): number {
  return seed % 2_147_483_647;
}
