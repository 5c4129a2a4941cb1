import type { Grid } from "../../model/crew/grid.ts";
import { buildGrid, planCrew } from "../../model/crew/index.ts";
import { solveGrid } from "../../model/crew/solve-grid.ts";
import { threadSolver } from "../../server/crew/thread-solver.ts";
import { wholeWeek } from "../support/crew/grids.ts";
import { askedOfWeather, gridOfWeather } from "../support/crew/weather-week.ts";

interface CrewTime {
  readonly name: string;
  readonly workload: string;
  readonly result: string;
  readonly aim: string;
}

const WORKS =
  "5 works, 7 invented days in hours of which one rains, no drives, 7 machines, 4 people, windows known";

async function timed(grid: Grid, timeLimitS: number) {
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
  return `first plan ${(firstS ?? 0).toFixed(2)} s, last ${elapsedS().toFixed(1)} s (${plan.method}): ${proof}`;
}

/** Windows, durations and drives of a question: time of one core, the least of three. */
function windowsTime(count: number): string {
  const request = askedOfWeather(count);
  const times = Array.from({ length: 3 }, () => {
    const before = process.cpuUsage();
    buildGrid(request);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  });
  return `${Math.min(...times).toFixed(1)} s of one core`;
}

/** A whole answer, windows and replay included, against its limit. */
async function wholeAnswer(timeLimitS: number) {
  const began = performance.now();
  const elapsedS = () => (performance.now() - began) / 1000;
  const answer = await planCrew({ ...askedOfWeather(12), timeLimitS }, { solver: threadSolver(), elapsedS });
  if (!answer.ok) throw new Error(answer.issues[0]?.message);
  return `${elapsedS().toFixed(1)} s (${answer.value.method}, gap ${(100 * answer.value.gap).toFixed(2)} %)`;
}

/** Plans of one week, for the speed that is promised of them. */
export async function crewTimes(): Promise<CrewTime[]> {
  return [
    {
      name: "crew plan, twelve fields",
      workload: `12 fields, ${WORKS}`,
      result: await timed(wholeWeek(1, 12), 20),
      aim: "first plan under 1 s, within 1 % proved in under 20 s",
    },
    {
      name: "crew plan, twelve fields from weather",
      workload:
        "12 fields at 4 places, 5 works, 7 days of 20 members, 6 machines (one baler), 3 people, drives, windows known",
      result: await timed(gridOfWeather(12), 20),
      aim: "within 1 % proved in under 20 s",
    },
    {
      name: "crew plan, windows of twelve fields",
      workload: "the same fields, 20 members read",
      result: windowsTime(12),
      aim: "some 2 s",
    },
    {
      name: "crew plan, thirty fields",
      workload: `30 fields, ${WORKS}`,
      result: await timed(wholeWeek(1, 30), 2),
      aim: "a plan and a stated bound in under 3 s",
    },
    {
      name: "crew plan, thirty fields from weather",
      workload:
        "30 fields at 4 places, 5 works, 7 days of 20 members, 6 machines (one baler), 3 people, drives, windows known",
      result: await timed(gridOfWeather(30), 2),
      aim: "a plan and a stated bound in under 3 s",
    },
    {
      name: "crew plan, the whole answer",
      workload: "12 fields from weather as above, windows and replay included, timeLimitS 20",
      result: await wholeAnswer(20),
      aim: "no longer than its limit",
    },
  ];
}
