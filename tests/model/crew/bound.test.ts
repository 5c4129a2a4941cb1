import { expect, test } from "vitest";
import { fieldsAlone, placeAlone } from "../../../model/crew/alone.ts";
import { poolLoadBound } from "../../../model/crew/bound.ts";
import type { Grid, GridField, GridTask } from "../../../model/crew/grid.ts";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { servedValue } from "../../../model/crew/value.ts";
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

test("of a mowing that is held the course that keeps most counts, wherever it stands among them", () => {
  const grid = inventedGrid({
    seed: 3,
    fields: 1,
    days: 1,
    slotsADay: 12,
    ops: ["mow", "bale"],
    machines: { mow: 1, bale: 1 },
    people: 1,
    sites: 1,
    travelSlots: 0,
    longest: 1,
    dries: [2, 2],
  });
  const [field] = grid.fields as [GridField];
  const [mow, bale] = field.tasks as [GridTask, GridTask];
  const q = field.mowGain.findIndex((gain) => Number.isFinite(gain));
  const held = { ...mow, fixed: { start: q, end: q + 1, machine: 0, person: 0 } };
  // The second course keeps least, the third most, a slot later than the first.
  const courses = (slots: Int32Array | null, later: number) =>
    Int32Array.from(
      [0, 0, later].flatMap((by) => [...(slots ?? [])].map((slot) => (slot < 0 ? slot : slot + by))),
    );
  const mowGain = Float64Array.from(
    [0, -0.05, 0.05].flatMap((by) => [...field.mowGain].map((gain) => gain + by)),
  );
  const baled = { ...bale, ready: courses(bale.ready, 1), until: courses(bale.until, 0) };
  const one = { ...grid, fields: [{ ...field, mowGain, tasks: [held, baled] }] };
  const best = (bale.ready?.[q] ?? 0) + 1;
  const value = servedValue(one.fields[0] as GridField, [
    { start: q, end: q + 1 },
    { start: best, end: best + 1 },
  ]);
  expect(fieldsAlone(one)[0]?.value).toBeCloseTo(value, 9);
  expect(placeAlone(one, 0)?.value).toBeCloseTo(value, 9);
});
