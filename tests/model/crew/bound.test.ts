import { expect, test } from "vitest";
import { fieldsAlone } from "../../../model/crew/alone.ts";
import { poolLoadBound } from "../../../model/crew/bound.ts";
import type { Grid } from "../../../model/crew/grid.ts";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { bruteForce } from "../../support/crew/brute-force.ts";
import { inventedGrid } from "../../support/crew/grids.ts";

const tiny = (seed: number, travelSlots = seed % 3) =>
  inventedGrid({
    seed,
    fields: 3,
    days: 1,
    slotsADay: 6,
    ops: ["mow", "bale"],
    machines: { mow: 1, bale: 1 },
    people: 1 + (seed % 2),
    sites: 2 + (seed % 2),
    travelSlots,
    longest: 2,
    dries: [1, 3],
  });

test("no plan of sixty random tasks, found by trying every combination, is above the pool-load bound", () => {
  for (let seed = 1; seed <= 60; seed++) {
    const grid = tiny(seed);
    expect(poolLoadBound(grid), `seed ${seed}`).toBeGreaterThanOrEqual(bruteForce(grid) - 1e-6);
  }
});

test("a field by itself brings what every combination of its hours brings", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const grid = tiny(seed);
    fieldsAlone(grid).forEach(({ value }, f) => {
      const only = { ...grid, fields: grid.fields.slice(f, f + 1) };
      expect(value).toBeCloseTo(bruteForce(only), 6);
    });
  }
});

test("a field that cannot be served even alone counts nothing: the gap is honest", () => {
  const grid = tiny(2);
  const shut: Grid = {
    ...grid,
    fields: grid.fields.map((field, f) =>
      f === 0
        ? {
            ...field,
            worth: 50_000,
            tasks: field.tasks.map((task) => ({ ...task, slotsOf: task.slotsOf.map((slots) => 9 * slots) })),
          }
        : field,
    ),
  };
  expect(fieldsAlone(shut)[0]?.value).toBeCloseTo(0, 9);
  expect(poolLoadBound(shut)).toBeLessThan(5000);
  expect(poolLoadBound(shut)).toBeGreaterThanOrEqual(bruteForce(shut) - 1e-6);
});

test("thirty fields with hours on the road: drives and windows count in the bound", () => {
  const week = (travelSlots: number) =>
    inventedGrid({
      seed: 1,
      fields: 30,
      days: 7,
      slotsADay: 13,
      ops: ["mow", "ted", "rake", "bale", "wrap"],
      machines: { mow: 2, ted: 1, rake: 1, bale: 2, wrap: 1 },
      people: 4,
      sites: 30,
      travelSlots,
      longest: 3,
      rainDays: [3],
    });
  const near = week(0);
  const far = week(1);
  const { value } = searchPlan(far, { rounds: 60, random: seededRandom(1), stop: () => false });
  expect(poolLoadBound(far)).toBeGreaterThanOrEqual(value);
  expect(poolLoadBound(far) / poolLoadBound(near)).toBeLessThan(0.9);
});
