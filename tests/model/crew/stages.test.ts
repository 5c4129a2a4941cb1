import loadHighs from "highs";
import { describe, expect, test } from "vitest";
import type { MilpEngine } from "../../../model/crew/milp/engine.ts";
import { type Milp, MilpBuilder, objectiveOf, startFaults } from "../../../model/crew/milp/milp.ts";
import { narrowed, relax } from "../../../model/crew/milp/relax.ts";
import { solveMilp } from "../../../model/crew/milp/solve.ts";
import { solveInStages } from "../../../model/crew/milp/stages.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { wholeWeek } from "../../support/crew/grids.ts";

const engine: MilpEngine = await loadHighs();
const still = () => 0;

/** A packing of 14 things into four bins' limits, invented: few enough to look at all 16 384 choices. */
function packing(seed: number): Milp {
  const random = seededRandom(seed);
  const builder = new MilpBuilder();
  const things = Array.from({ length: 14 }, () => builder.column(0, 1, true, 10 + 90 * random()));
  for (let row = 0; row < 4; row++) {
    const terms = new Map(things.map((col) => [col, 1 + Math.floor(9 * random())]));
    builder.row(Number.NEGATIVE_INFINITY, 20 + Math.floor(10 * random()), terms);
  }
  return builder.build();
}

/** The best of all choices, looked at one by one. */
function bestOf(milp: Milp): number {
  let best = Number.NEGATIVE_INFINITY;
  for (let bits = 0; bits < 1 << milp.numCols; bits++) {
    const point = Float64Array.from({ length: milp.numCols }, (_, j) => (bits >> j) & 1);
    const value = objectiveOf(milp, point);
    if (value > best && startFaults(milp, point).length === 0) best = value;
  }
  return best;
}

describe.each([1, 2, 3, 4, 5, 6])("a packing of seed %i", (seed) => {
  const milp = packing(seed);
  const best = bestOf(milp);

  test.each([0.0005, 0.02, 0.2])(
    "in rounds ends within the asked gap of %f, its bound above all choices",
    (relGap) => {
      const told: number[] = [];
      const options = { timeLimitS: 20, relGap, seed: 1, onBound: (bound: number) => told.push(bound) };
      const { point, bound, closed } = solveInStages(engine, milp, options, still);
      expect(closed).toBe(true);
      expect(startFaults(milp, point as Float64Array)).toEqual([]);
      const value = objectiveOf(milp, point as Float64Array);
      expect(bound).toBeGreaterThanOrEqual(best - 1e-6);
      expect(value).toBeGreaterThanOrEqual((1 - relGap) * bound - 1e-6);
      for (const one of told) expect(one).toBeGreaterThanOrEqual(best - 1e-6);
    },
  );

  test("keeps every choice within the margin of the relaxation's bound", () => {
    const relaxation = relax(engine, milp, 20, 1);
    if (relaxation === null) throw new Error("not relaxed");
    expect(relaxation.bound).toBeGreaterThanOrEqual(best - 1e-6);
    let held = 0;
    for (const margin of [1, 5, 20, 60]) {
      const part = narrowed(milp, relaxation, margin);
      held += part.held;
      for (let bits = 0; bits < 1 << milp.numCols; bits++) {
        const point = Float64Array.from({ length: milp.numCols }, (_, j) => (bits >> j) & 1);
        if (objectiveOf(milp, point) <= relaxation.bound - margin + 1e-6) continue;
        if (startFaults(milp, point).length > 0) continue;
        expect(startFaults(part.milp, point)).toEqual([]);
      }
    }
    expect(held).toBeGreaterThan(0);
  });
});

test("a plan that nothing satisfies is told as such", () => {
  const builder = new MilpBuilder();
  const one = builder.column(0, 1, true, 1);
  const other = builder.column(0, 1, true, 1);
  builder.row(
    1,
    1,
    new Map([
      [one, 2],
      [other, 2],
    ]),
  );
  const result = solveInStages(engine, builder.build(), { timeLimitS: 20, relGap: 0.01, seed: 1 }, still);
  expect(result.infeasible).toBe(true);
  expect(result.point).toBeNull();
});

test("out of time before its relaxation it keeps the start and proves nothing", () => {
  const { milp } = stepModel(wholeWeek(1, 12));
  const start = new Float64Array(milp.numCols);
  const options = { timeLimitS: 5, relGap: 0.005, seed: 1, start };
  const { point, bound, byClock, closed } = solveInStages(engine, milp, options, () => 5);
  expect([byClock, closed, bound]).toEqual([true, false, Number.POSITIVE_INFINITY]);
  expect(point).toBe(start);
});

test("the step model of a week in rounds agrees with the same at once", { timeout: 60_000 }, () => {
  const { milp } = stepModel(wholeWeek(1, 6));
  const options = { timeLimitS: 50, relGap: 0.005, seed: 1 };
  const rounds = solveInStages(engine, milp, options, still);
  const atOnce = solveMilp(engine, milp, { ...options, relGap: 0 });
  const value = objectiveOf(milp, atOnce.point as Float64Array);
  expect(rounds.closed).toBe(true);
  expect(rounds.bound).toBeGreaterThanOrEqual(value - 1e-6);
  expect(objectiveOf(milp, rounds.point as Float64Array)).toBeGreaterThanOrEqual(0.995 * rounds.bound - 1e-6);
});
