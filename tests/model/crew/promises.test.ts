import { expect, test } from "vitest";
import type { Grid } from "../../../model/crew/grid.ts";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { promisesKept } from "../../../model/crew/heuristic/promises.ts";
import { planValue } from "../../../model/crew/value.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { inventedGrid } from "../../support/crew/grids.ts";

const effort = (rounds: number) => ({ rounds, random: seededRandom(1), stop: () => false });

test("a plan searched anew in the same task moves no promised visit, and one moved for nothing goes back", () => {
  for (const seed of [1, 2, 3]) {
    const fresh = inventedGrid({
      seed,
      fields: 5,
      days: 5,
      slotsADay: 10,
      ops: ["mow", "rake", "bale"],
      machines: { mow: 1, rake: 1, bale: 1 },
      people: 2,
      sites: 3,
      travelSlots: 1,
      longest: 2,
    });
    const found = searchPlan(fresh, effort(80));
    const promisedAt = (field: number, task: number) =>
      found.jobs.find((job) => job.field === field && job.task === task)?.start ?? null;
    const grid: Grid = {
      ...fresh,
      fields: fresh.fields.map((field, f) => ({
        ...field,
        moveCost: 0.01 * field.worth,
        tasks: field.tasks.map((task, i) => ({ ...task, before: promisedAt(f, i) })),
      })),
    };
    const value = planValue(grid, found.jobs);
    // From nothing, not from the plan that stands.
    const again = searchPlan(grid, effort(80));
    expect(again.value).toBeGreaterThanOrEqual(value - 1e-6);
    // A raking put off by hand, where the baling leaves room.
    const late = found.jobs.find(
      (job) =>
        job.task === 1 &&
        found.jobs.some((next) => next.field === job.field && next.task === 2 && next.start > job.end),
    );
    if (late === undefined) continue;
    const moved = found.jobs.map((job) =>
      job === late ? { ...job, start: job.start + 1, end: job.end + 1 } : job,
    );
    expect(planValue(grid, moved)).toBeLessThan(value - 1e-6);
    expect(planValue(grid, promisesKept(grid, moved))).toBeCloseTo(value, 6);
  }
});
