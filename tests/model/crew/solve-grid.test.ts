import loadHighs from "highs";
import { describe, expect, test } from "vitest";
import type { Grid, GridField, GridJob, GridTask } from "../../../model/crew/grid.ts";
import { coursesAt, middleSlot, stretchEnds, travelOf } from "../../../model/crew/grid.ts";
import type { MilpEngine } from "../../../model/crew/milp/engine.ts";
import { startFaults } from "../../../model/crew/milp/milp.ts";
import { solveMilp } from "../../../model/crew/milp/solve.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { type GridPlan, type Solver, solveGrid } from "../../../model/crew/solve-grid.ts";
import { withHour, withMachine } from "../../../model/crew/variants.ts";
import { bruteForce } from "../../support/crew/brute-force.ts";
import { inventedGrid, wholeWeek } from "../../support/crew/grids.ts";
import { solverHere } from "../../support/crew/solver-here.ts";
import { gridOfWeather } from "../../support/crew/weather-week.ts";

const engine: MilpEngine = await loadHighs();
const solver = await solverHere();

function solved(grid: Grid, with_: Solver | null = solver, timeLimitS = 20): Promise<GridPlan> {
  const began = performance.now();
  return solveGrid(grid, {
    timeLimitS,
    seed: 1,
    solver: with_,
    elapsedS: () => (performance.now() - began) / 1000,
  });
}

const tiny = (seed: number) =>
  inventedGrid({
    seed,
    fields: 3,
    days: 1,
    slotsADay: 7,
    ops: ["mow", "bale"],
    machines: { mow: 1 + (seed % 2), bale: 1 },
    people: 1 + (seed % 2),
    sites: 2 + (seed % 2),
    travelSlots: seed % 3 === 0 ? 1 : 0,
    longest: 2,
    dries: [1, 3],
  });

test.each([1, 3, 4, 9, 12, 18, 24, 30, 36])(
  "tiny task %i: every combination tried gives the same value",
  async (seed) => {
    const grid = tiny(seed);
    const plan = await solved(grid);
    expect(plan.value).toBeCloseTo(bruteForce(grid), 4);
    expect(plan.bound).toBeGreaterThanOrEqual(plan.value);
  },
);

/** Fields that are raked in one of two dry spells: in the second later, at a loss, for a window of its own. */
function twoSpells(seed: number): Grid {
  const grid = inventedGrid({
    seed,
    fields: 3,
    days: 1,
    slotsADay: 11,
    ops: ["mow", "rake", "bale"],
    machines: { mow: 1, rake: 1, bale: 1 },
    people: 1 + (seed % 2),
    sites: 2,
    travelSlots: seed % 3 === 0 ? 1 : 0,
    longest: 2,
    dries: [4, 6],
  });
  const both = (first: Int32Array | null, second: (slot: number, q: number) => number) =>
    first === null ? null : Int32Array.from([...first, ...first.map((s, q) => (s < 0 ? s : second(s, q)))]);
  const fields = grid.fields.map((field) => ({
    ...field,
    mowGain: Float64Array.from([...field.mowGain, ...field.mowGain.map((gain) => gain - 0.03)]),
    tasks: field.tasks.map((task) => {
      const first = field.tasks[1]?.ready ?? null;
      // The first spell leaves two slots for raking and ends soon after, the second begins behind it.
      const until =
        task.op === "rake"
          ? (task.until?.map((slot, q) => (slot < 0 ? slot : (first?.[q] ?? 0) + 2)) ?? null)
          : (task.until?.map((slot, q) => (slot < 0 ? slot : (task.ready?.[q] ?? 0) + 3)) ?? null);
      const later = task.op === "rake" ? 2 : 3;
      return {
        ...task,
        ready: both(task.ready, (slot) => slot + later),
        until: both(until, (slot) => slot + later + 2),
      };
    }),
  }));
  return { ...grid, fields };
}

test.each([1, 2, 3, 6, 9, 12])(
  "tiny task %i with two dry spells to rake in: every combination tried gives the same value",
  async (seed) => {
    const grid = twoSpells(seed);
    const most = bruteForce(grid);
    expect(most).toBeGreaterThan(0);
    const plan = await solved(grid);
    expect(plan.value).toBeCloseTo(most, 4);
    const { bound } = solveMilp(engine, stepModel(grid).milp, { timeLimitS: 20, relGap: 0, seed: 1 });
    expect(bound).toBeGreaterThanOrEqual(most - 1e-4);
    expect(startFaults(stepModel(grid).milp, stepModel(grid).pointOf(plan.jobs))).toEqual([]);
  },
);

/** The same task with windows that do not follow the order of their mowings. */
function outOfOrder(grid: Grid): Grid {
  const late = (slots: Int32Array | null, by: (q: number) => number) =>
    slots?.map((slot, q) => (slot < 0 ? slot : slot + by(q))) ?? null;
  const fields = grid.fields.map((field) => ({
    ...field,
    tasks: field.tasks.map((task) => ({
      ...task,
      ready: late(task.ready, (q) => 2 * (q % 2)),
      until: late(task.until, (q) => -3 * (q % 3)),
    })),
  }));
  return { ...grid, fields };
}

test.each([1, 3, 4, 9, 12, 18, 24, 30, 36])(
  "tiny task %i with windows out of order: every combination tried gives the same value",
  async (seed) => {
    const grid = outOfOrder(tiny(seed));
    const most = bruteForce(grid);
    expect((await solved(grid)).value).toBeCloseTo(most, 4);
    const { bound } = solveMilp(engine, stepModel(grid).milp, { timeLimitS: 20, relGap: 0, seed: 1 });
    expect(bound).toBeGreaterThanOrEqual(most - 1e-4);
  },
);

/** What a plan of a grid breaks, by rules written again here. */
function broken(grid: Grid, jobs: readonly GridJob[]): string[] {
  const faults: string[] = [];
  const together = (a: GridJob, b: GridJob) => {
    const [sa, sb] = [grid.fields[a.field]?.site ?? 0, grid.fields[b.field]?.site ?? 0];
    return a.end + travelOf(grid, sa, sb) > b.start && b.end + travelOf(grid, sb, sa) > a.start;
  };
  jobs.forEach((a, i) => {
    for (const b of jobs.slice(i + 1)) {
      if (a.machine === b.machine && together(a, b)) faults.push("machine in two places");
      if (a.person === b.person && together(a, b)) faults.push("person in two places");
    }
    const task = grid.fields[a.field]?.tasks[a.task];
    const before = jobs.find((job) => job.field === a.field && job.task === a.task - 1);
    if (task === undefined) return;
    for (let t = a.start; t < a.end; t++) {
      if ((task.openUntil[t] ?? 0) <= t) faults.push("weather");
      if ((grid.machines[a.machine]?.freeUntil[t] ?? 0) <= t) faults.push("machine hours");
      if ((grid.people[a.person]?.freeUntil[t] ?? 0) <= t) faults.push("crew hours");
    }
    if (a.end - a.start !== task.slotsOf[a.machine]) faults.push("duration");
    if (before !== undefined && a.start < before.end) faults.push("sequence");
    if (before !== undefined && task.lagSlots !== null && a.start > before.end + task.lagSlots)
      faults.push("lag");
    if (a.task > 0) return;
    // One course of the mowing hour holds all works behind it.
    const field = grid.fields[a.field] as GridField;
    const own = jobs.filter((job) => job.field === a.field);
    const holds = (course: number) =>
      own.every(({ task: index, start, end }) => {
        const { ready, until } = field.tasks[index] as GridTask;
        if (ready === null || until === null) return true;
        return (ready[course] ?? -1) >= 0 && start >= (ready[course] ?? 0) && end <= (until[course] ?? 0);
      });
    if (!coursesAt(field, middleSlot(a.start, a.end)).some(holds)) faults.push("window");
  });
  return faults;
}

const middling = (seed: number) =>
  inventedGrid({
    seed,
    fields: 4,
    days: 3,
    slotsADay: 8,
    ops: ["mow", "ted", "bale", "wrap"],
    machines: { mow: 1, ted: 1, bale: 1, wrap: 1 },
    people: 2,
    sites: 3,
    travelSlots: 1,
    longest: 3,
    dries: [20, 26],
    rainDays: seed % 2 ? [2] : [],
  });

// Four searches of up to 1.2 s each, and the machine may be busy with other tests.
describe.each([1, 2, 3])("random task %i", { timeout: 30_000 }, (seed) => {
  test("keeps to every rule, stays under its bound, and loses nothing by more machines, hours or dry days", async () => {
    const grid = middling(seed);
    const plan = await solved(grid, solver, 1.2);
    expect(broken(grid, plan.jobs)).toEqual([]);
    expect(plan.value).toBeLessThanOrEqual(plan.bound + 1e-6);
    expect(plan.gap).toBeCloseTo((plan.bound - plan.value) / Math.max(plan.bound, 1e-9), 6);
    const dry = inventedDry(grid);
    for (const more of [withMachine(grid, "bale"), withHour(grid), dry]) {
      const other = await solved(more, solver, 1.2);
      // The other plan may be short of its own best by its stated gap, and of this one by no more.
      expect(other.bound).toBeGreaterThanOrEqual(plan.value - 1e-6);
      expect(other.value).toBeGreaterThanOrEqual(plan.value - other.gap * other.bound - 1e-6);
    }
  });
});

/** The same task with the last day's weather open to all work. */
function inventedDry(grid: Grid): Grid {
  const open = (until: Int32Array) =>
    stretchEnds(
      Uint8Array.from(until, (end, t) => (end > t || (t >= 48 && t % 24 >= 7 && t % 24 < 15) ? 1 : 0)),
    );
  return {
    ...grid,
    fields: grid.fields.map((field) => ({
      ...field,
      tasks: field.tasks.map((task) => ({ ...task, openUntil: open(task.openUntil) })),
    })),
  };
}

test("twelve fields, five works, a week: the first answer at once", async () => {
  const grid = wholeWeek(2);
  const began = performance.now();
  const plan = await solved(grid, null);
  expect(performance.now() - began).toBeLessThan(1000);
  expect(broken(grid, plan.jobs)).toEqual([]);
  expect(plan.gap).toBeLessThan(0.01);
});

// That it takes under 20 s of an idle machine is measured by the bench; here the machine may be busy with other tests.
test("twelve fields, five works, a week: within one per cent proved", { timeout: 120_000 }, async () => {
  const grid = wholeWeek(1, 12);
  const plan = await solved(grid, solver, 90);
  expect(broken(grid, plan.jobs)).toEqual([]);
  expect(plan.gap).toBeLessThanOrEqual(0.01);
});

// One baler, drives and hours fit at four places for a part of each day: the model's relaxation alone is 44 000 steps of simplex.
test("twelve fields in windows from weather, with drives: within one per cent proved", {
  timeout: 120_000,
}, async () => {
  const grid = gridOfWeather(12);
  const plan = await solved(grid, solver, 90);
  expect(broken(grid, plan.jobs)).toEqual([]);
  expect([plan.boundKind, plan.method]).toEqual(["step-milp", "step-milp"]);
  expect(plan.gap).toBeLessThanOrEqual(0.01);
});

test("what the pool-load bound leaves open, the step model closes", { timeout: 60_000 }, async () => {
  const grid = inventedGrid({
    seed: 5,
    fields: 5,
    days: 2,
    slotsADay: 8,
    ops: ["mow", "bale"],
    machines: { mow: 1, bale: 1 },
    people: 1,
    sites: 1,
    travelSlots: 0,
    longest: 3,
    dries: [3, 20],
  });
  const plan = await solved(grid, solver, 40);
  expect(broken(grid, plan.jobs)).toEqual([]);
  expect([plan.boundKind, plan.method]).toEqual(["step-milp", "step-milp"]);
  expect(plan.gap).toBeLessThan(1e-6);
});

test("thirty fields: a plan within three seconds, its bound called what it is", async () => {
  const grid = wholeWeek(1, 30);
  const began = performance.now();
  const plan = await solved(grid, null, 2);
  expect(performance.now() - began).toBeLessThan(3000);
  expect(broken(grid, plan.jobs)).toEqual([]);
  expect(plan.boundKind).toBe("pool-load");
  expect(plan.bound).toBeGreaterThan(plan.value);
});

/** A plan by a clock that goes on by so much each time it is looked at, s. */
function byClock(grid: Grid, stepS: number): Promise<GridPlan> {
  let s = 0;
  const elapsedS = () => {
    s += stepS;
    return s;
  };
  return solveGrid(grid, { timeLimitS: 4, seed: 1, solver: null, elapsedS });
}

test("the same seed gives the same plan whatever the machine's speed; where the clock cuts in, the method says so", async () => {
  const grid = middling(2);
  const [fast, slow] = [await byClock(grid, 0), await byClock(grid, 1e-6)];
  expect(slow).toEqual(fast);
  expect(fast.method).toBe("heuristic");
  expect((await byClock(grid, 0.5)).method).toBe("heuristic-cut-by-clock");
});

// Of these three tasks a model that knows of no drives proves 54, 23 and 50 % more than any plan can bring.
test.each([6, 24, 36])("tiny task %i: with its drives the step model alone proves the optimum", (seed) => {
  const grid = tiny(seed);
  const { bound } = solveMilp(engine, stepModel(grid).milp, { timeLimitS: 20, relGap: 0, seed: 1 });
  expect(bound).toBeCloseTo(bruteForce(grid), 4);
});
