import { engineModel, engineSeed, INFEASIBLE, type MilpEngine, OPTIMAL, TIME_LIMIT } from "./engine.ts";
import { type Milp, startFaults } from "./milp.ts";

export interface MilpOptions {
  readonly timeLimitS: number;
  /** Ends once the gap between plan and bound is no more than this share of the plan. */
  readonly relGap: number;
  /** It also ends after so many nodes of its tree; absent = however many. */
  readonly mostNodes?: number | undefined;
  readonly seed: number;
  /** True = its first relaxation by an interior point: far fewer steps where many plans are worth the same. */
  readonly byInterior?: boolean | undefined;
  /** A feasible point to begin from. */
  readonly start?: Float64Array | undefined;
  /** Asked at the solver's checkpoints; true ends it with what it has. */
  readonly stop?: (() => boolean) | undefined;
  readonly onPlan?: ((point: Float64Array, value: number) => void) | undefined;
  readonly onBound?: ((bound: number) => void) | undefined;
}

export interface MilpResult {
  /** The best point found, or the start; null where neither is. */
  readonly point: Float64Array | null;
  /** No point's objective is above this; infinite where nothing was proved. */
  readonly bound: number;
  /** True where the solver ended by itself within the gap. */
  readonly closed: boolean;
  /** True where the time limit ended it. */
  readonly byClock: boolean;
  /** True where it proved that no point satisfies the rows. */
  readonly infeasible: boolean;
}

/**
 * Maximises a model. Synchronous, as the engine is: call it in a worker.
 *
 * @throws RangeError where the start breaks a row, because the engine would pass over it in silence
 */
export function solveMilp(engine: MilpEngine, milp: Milp, options: MilpOptions): MilpResult {
  const { start } = options;
  if (start !== undefined) {
    const faults = startFaults(milp, start);
    if (faults.length > 0)
      throw new RangeError(
        `solveMilp: the start must satisfy every row, got ${faults.slice(0, 3).join("; ")}`,
      );
  }
  const model = engineModel(engine, milp);
  let bestBound = Number.POSITIVE_INFINITY;
  const noteBound = (dual: unknown) => {
    if (typeof dual !== "number" || !Number.isFinite(dual) || -dual >= bestBound) return;
    bestBound = -dual;
    options.onBound?.(bestBound);
  };
  let found: Float64Array | null = start ?? null;
  try {
    model.options.set({
      output_flag: false,
      time_limit: options.timeLimitS,
      mip_rel_gap: options.relGap,
      ...(options.mostNodes === undefined ? {} : { mip_max_nodes: options.mostNodes }),
      random_seed: engineSeed(options.seed),
      ...(options.byInterior ? { mip_lp_solver: "ipm" } : {}),
    });
    if (start !== undefined) model.setSolution({ colValue: start });
    model.run({
      4: ({ data }) => {
        if (data.mip_solution !== undefined) {
          found = data.mip_solution;
          options.onPlan?.(found, -(data.objective_function_value ?? Number.NaN));
        }
        return undefined;
      },
      5: ({ data }) => {
        noteBound(data.mip_dual_bound);
        return undefined;
      },
      6: (event) => {
        noteBound(event.data.mip_dual_bound);
        if (options.stop?.()) event.interrupt();
        return undefined;
      },
    });
    const status = model.getModelStatus();
    if (status === INFEASIBLE) {
      return { point: null, bound: Number.NEGATIVE_INFINITY, closed: true, byClock: false, infeasible: true };
    }
    noteBound(model.info.get("mip_dual_bound"));
    const closed = status === OPTIMAL;
    const { colValue } = model.getSolution();
    if (closed && colValue.length === milp.numCols) found = Float64Array.from(colValue);
    return { point: found, bound: bestBound, closed, byClock: status === TIME_LIMIT, infeasible: false };
  } finally {
    model.dispose();
  }
}
