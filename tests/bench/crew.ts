import { solveGrid } from "../../model/crew/solve-grid.ts";
import { threadSolver } from "../../server/crew/thread-solver.ts";
import { wholeWeek } from "../support/crew/grids.ts";

interface CrewTime {
  readonly name: string;
  readonly workload: string;
  readonly result: string;
  readonly aim: string;
}

const WORKS = "5 works, 7 days in hours of which one rains, 7 machines, 4 people, windows known";

async function timed(fields: number, seed: number, timeLimitS: number) {
  const grid = wholeWeek(seed, fields);
  const began = performance.now();
  const elapsedS = () => (performance.now() - began) / 1000;
  let firstS: number | null = null;
  const plan = await solveGrid(grid, {
    timeLimitS,
    seed: 1,
    solver: threadSolver(),
    elapsedS,
    onPlan: () => {
      firstS ??= elapsedS();
    },
  });
  const proof = `value ${plan.value.toFixed(0)}, bound ${plan.bound.toFixed(0)} (${plan.boundKind}), gap ${(100 * plan.gap).toFixed(2)} %`;
  return `first plan ${(firstS ?? 0).toFixed(2)} s, last ${elapsedS().toFixed(1)} s: ${proof}`;
}

/** Plans of one week, for the speed that is promised of them. */
export async function crewTimes(): Promise<CrewTime[]> {
  return [
    {
      name: "crew plan, twelve fields",
      workload: `12 fields, ${WORKS}`,
      result: await timed(12, 1, 20),
      aim: "first plan under 1 s, within 1 % proved in under 20 s",
    },
    {
      name: "crew plan, thirty fields",
      workload: `30 fields, ${WORKS}`,
      result: await timed(30, 1, 2),
      aim: "a plan and a stated bound in under 3 s",
    },
  ];
}
