import type { MilpEngine } from "./engine.ts";
import { type Milp, objectiveOf, startFaults } from "./milp.ts";
import { narrowed, relax } from "./relax.ts";
import { type MilpOptions, type MilpResult, solveMilp } from "./solve.ts";

/** A margin that did not suffice is so many times as large in the next round. */
const WIDER = 4;

/**
 * Maximises a large model in rounds. Its relaxation tells what leaving each limit costs: a plan within the asked gap of that
 * bound leaves none of those that cost more than the gap, so the first round holds them all, which leaves a far smaller
 * model. What is held can bring no more than the relaxation's bound less the margin, and the bound of all is the larger
 * of the two. Where the gap is not closed so, the margin widens, until nothing is held.
 *
 * @param options with a gap above 0: without one no limit may be held
 * @param elapsedS time since the call, s
 */
export function solveInStages(
  engine: MilpEngine,
  milp: Milp,
  options: MilpOptions,
  elapsedS: () => number,
): MilpResult {
  const leftS = () => Math.max(0, options.timeLimitS - elapsedS());
  let point = options.start ?? null;
  let value = point === null ? Number.NEGATIVE_INFINITY : objectiveOf(milp, point);
  let bound = Number.POSITIVE_INFINITY;
  const note = (proved: number) => {
    if (proved >= bound) return;
    bound = Math.max(proved, value);
    options.onBound?.(bound);
  };
  const isClosed = () => Number.isFinite(bound) && bound - value <= options.relGap * Math.abs(bound);
  const result = (byClock: boolean): MilpResult => ({
    point,
    bound,
    closed: isClosed(),
    byClock,
    infeasible: false,
  });

  const relaxation = relax(engine, milp, leftS(), options.seed);
  if (relaxation === null) return result(true);
  note(relaxation.bound);
  for (let margin = options.relGap * Math.abs(bound); !isClosed(); margin *= WIDER) {
    if (leftS() <= 0) return result(true);
    const part = narrowed(milp, relaxation, margin);
    // Nothing outside the part is worth more than this.
    const outside = part.held === 0 ? Number.NEGATIVE_INFINITY : relaxation.bound - margin;
    const start = point !== null && startFaults(part.milp, point).length === 0 ? point : undefined;
    const found = solveMilp(engine, part.milp, {
      ...options,
      timeLimitS: leftS(),
      byInterior: true,
      start,
      onPlan: (better, worth) => {
        if (worth > value) options.onPlan?.(better, worth);
      },
      onBound: (proved) => note(Math.max(proved, outside)),
    });
    const worth = found.point === null ? Number.NEGATIVE_INFINITY : objectiveOf(milp, found.point);
    if (worth > value) [point, value] = [found.point, worth];
    note(Math.max(found.bound, outside));
    if (part.held === 0 && found.infeasible && point === null) return found;
    if (found.byClock) return result(true);
    // The tree was cut off, or all of the model was looked at: another round finds no more.
    if (part.held === 0 || !(found.closed || found.infeasible)) return result(false);
  }
  return result(false);
}
