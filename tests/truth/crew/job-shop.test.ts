import loadHighs from "highs";
import { expect, test } from "vitest";
import { MilpBuilder } from "../../../model/crew/milp/milp.ts";
import { type MilpEngine, solveMilp } from "../../../model/crew/milp/solve.ts";

/**
 * Job-shop instance ft06, six jobs on six machines: Fisher & Thompson 1963, Probabilistic learning combinations of local
 * job-shop scheduling rules; proven optimum 55. The instance is from memory: [machine, time] in order, and its optimum is
 * as given in the list of instances with proven optima.
 */
const FT06 = [
  [
    [2, 1],
    [0, 3],
    [1, 6],
    [3, 7],
    [5, 3],
    [4, 6],
  ],
  [
    [1, 8],
    [2, 5],
    [4, 10],
    [5, 10],
    [0, 10],
    [3, 4],
  ],
  [
    [2, 5],
    [3, 4],
    [5, 8],
    [0, 9],
    [1, 1],
    [4, 7],
  ],
  [
    [1, 5],
    [0, 5],
    [2, 5],
    [3, 3],
    [4, 8],
    [5, 9],
  ],
  [
    [2, 9],
    [1, 3],
    [4, 5],
    [5, 4],
    [0, 3],
    [3, 1],
  ],
  [
    [1, 3],
    [3, 3],
    [5, 9],
    [0, 10],
    [4, 4],
    [2, 1],
  ],
] as const;
const OPTIMUM = 55;

test("ft06 through the plan's solver: 55", { timeout: 90_000 }, async () => {
  const engine: MilpEngine = await loadHighs();
  const horizon = 60;
  const model = new MilpBuilder();
  const end = model.column(0, horizon, false, -1);
  const works = FT06.map((job) => {
    let before = 0;
    const total = job.reduce((sum, [, time]) => sum + time, 0);
    return job.map(([machine, time]) => {
      // No work starts before those ahead of it could end, nor so late that those behind could not.
      const start = model.column(before, horizon - (total - before), false);
      before += time;
      return { machine, time, start };
    });
  });
  for (const job of works) {
    job.forEach(({ start, time }, i) => {
      const next = job[i + 1]?.start ?? end;
      model.row(
        time,
        Number.POSITIVE_INFINITY,
        new Map([
          [next, 1],
          [start, -1],
        ]),
      );
    });
  }
  const all = works.flat();
  all.forEach((a, i) => {
    for (const b of all.slice(i + 1)) {
      if (a.machine !== b.machine) continue;
      const aFirst = model.column(0, 1, true);
      model.row(
        a.time - horizon,
        Number.POSITIVE_INFINITY,
        new Map([
          [b.start, 1],
          [a.start, -1],
          [aFirst, -horizon],
        ]),
      );
      model.row(
        b.time,
        Number.POSITIVE_INFINITY,
        new Map([
          [a.start, 1],
          [b.start, -1],
          [aFirst, horizon],
        ]),
      );
    }
  });
  const solved = solveMilp(engine, model.build(), { timeLimitS: 25, relGap: 0, seed: 1 });
  expect(solved.closed).toBe(true);
  expect(solved.point?.[end]).toBeCloseTo(OPTIMUM, 5);
  expect(-solved.bound).toBeCloseTo(OPTIMUM, 5);
});
