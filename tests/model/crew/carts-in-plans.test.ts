import { describe, expect, test } from "vitest";
import { poolLoadBound } from "../../../model/crew/bound.ts";
import { withCarts } from "../../../model/crew/carts.ts";
import type { Grid } from "../../../model/crew/grid.ts";
import {
  buildGrid,
  type CrewFieldRequest,
  type CrewJobAnswer,
  type CrewPlanRequest,
  planBuilt,
  planFaults,
  rulesOf,
  toCrewJob,
} from "../../../model/crew/index.ts";
import { type GridPlan, solveGrid } from "../../../model/crew/solve-grid.ts";
import { withMachine } from "../../../model/crew/variants.ts";
import { bruteForce } from "../../support/crew/brute-force.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { inventedGrid } from "../../support/crew/grids.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";
import { solverHere } from "../../support/crew/solver-here.ts";

const solver = await solverHere();

function solved(grid: Grid, with_: typeof solver | null = solver): Promise<GridPlan> {
  const began = performance.now();
  return solveGrid(grid, {
    timeLimitS: 20,
    seed: 1,
    solver: with_,
    elapsedS: () => (performance.now() - began) / 1000,
  });
}

/** Fields that are chopped and fields whose bales are hauled, with one cart that a chopper takes along. */
function oneCart(seed: number, fields = 3): Grid {
  const grid = inventedGrid({
    seed,
    fields,
    days: 1,
    slotsADay: 6,
    ops: ["mow", "chop"],
    opsOf: (f) => ((f + seed) % 2 === 0 ? ["mow", "chop"] : ["mow", "bale", "haul"]),
    machines: { mow: 2, bale: 1, chop: 1, haul: 1 },
    people: 2,
    sites: 1 + (seed % 2),
    travelSlots: seed % 3 === 0 ? 1 : 0,
    longest: 2,
    dries: [1, 2],
  });
  const [chopper, cart] = ["chop", "haul"].map((op) => grid.machines.findIndex((one) => one.op === op));
  const machines = grid.machines.map((one, k) =>
    k === chopper ? { ...one, along: [cart ?? -1] } : k === cart ? { ...one, follows: true } : one,
  );
  return { ...grid, machines };
}

const TINY = [1, 2, 6, 9, 12, 15, 16, 18, 19, 20, 21, 23, 28, 34];

describe("one cart behind a chopper and for hauling", () => {
  test.each(TINY)("tiny task %i: every combination tried gives the same value", async (seed) => {
    const grid = oneCart(seed);
    const most = bruteForce(grid);
    const plan = await solved(grid);
    expect(plan.value).toBeCloseTo(most, 4);
    expect(plan.bound).toBeGreaterThanOrEqual(most - 1e-6);
    expect(poolLoadBound(grid)).toBeGreaterThanOrEqual(most - 1e-6);
    expect((await solved(withMachine(grid, "haul"))).value).toBeGreaterThanOrEqual(most - 1e-6);
  });

  test("in most of these tasks the cart at two places would have brought more", () => {
    const free = (grid: Grid) => ({ ...grid, machines: grid.machines.map(({ along: _, ...one }) => one) });
    const gains = TINY.map((seed) => bruteForce(free(oneCart(seed))) - bruteForce(oneCart(seed)));
    expect(gains.filter((gain) => gain > 1).length).toBeGreaterThan(TINY.length / 2);
  });

  const busy = (seed: number): CrewPlanRequest => {
    const asked = differingCrew(seed);
    const fields = asked.fields.map((field, i): CrewFieldRequest => {
      const { dueUtc: _due, ...rest } = field;
      return i % 2 === 0
        ? { ...rest, route: "wilted-chop", ops: ["mow", "rake", "chop"] }
        : { ...rest, route: "dry-hay", ops: ["mow", "ted", "rake", "bale", "haul"] };
    });
    const machines = [
      ...asked.machines,
      { id: "chopper", kind: "chopper" as const, haPerH: 2 },
      { id: "cart", kind: "cart" as const, haPerH: 2 },
    ];
    return {
      ...asked,
      fields,
      machines,
      people: ["p", "q", "r"].map((id) => ({ id, from: "07:00", to: "20:00" })),
    };
  };

  test.each([3, 25, 60, 112])("crew of chance %i: never at two places", async (seed) => {
    const built = buildGrid(busy(seed));
    if (!built.ok) throw new Error(JSON.stringify(built.issues));
    const answer = await planBuilt(built.value, { solver, elapsedS: () => 0 });
    const spans = answer.jobs.filter(({ op }) => op === "chop" || op === "haul");
    for (const a of spans) {
      for (const b of spans) {
        if (a === b) continue;
        expect(a.endUtc <= b.startUtc || b.endUtc <= a.startUtc).toBe(true);
      }
    }
    expect(answer.carts).toEqual({ chopper: ["cart"] });
    expect(answer.warnings.join(" ")).not.toContain("is reckoned behind the chopper");
  });
});

/** A field to chop and one whose bales are hauled, in three dry days. */
function asked(over: Partial<CrewPlanRequest> = {}): CrewPlanRequest {
  return crewRequest({
    sites: { s1: { series: spellWithMembers(4, 0) } },
    fields: [
      {
        ...crewField("creek", { areaHa: 6, route: "wilted-chop", ops: ["mow", "chop"] }),
        name: "Creek field",
      },
      crewField("hill", { areaHa: 6, ops: ["mow", "bale", "haul"] }),
    ],
    machines: [
      ...crewRequest().machines,
      { id: "chopper", kind: "chopper", haPerH: 3 },
      { id: "cart", kind: "cart", haPerH: 3, name: "Old cart" },
    ],
    ...over,
  });
}

function builtOf(request: CrewPlanRequest) {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

test("a chopper works only while its cart is there, and the plan says why it waits", async () => {
  const planned = (toUtc: string) => {
    const away = { offUtc: [{ fromUtc: "2026-07-01T05:00:00Z", toUtc }] };
    const machines = asked().machines.map((one) => (one.id === "cart" ? { ...one, ...away } : one));
    const built = builtOf(asked({ machines, fields: asked().fields.slice(0, 1) }));
    return planBuilt(built, { solver: null, elapsedS: () => 0 });
  };
  const { jobs, assumptions } = await planned("2026-07-03T17:00:00Z");
  expect(jobs.find(({ op }) => op === "chop")?.startUtc ?? "").toMatch(/^2026-07-03T(1[7-9]|2\d)/);
  expect(assumptions).toContain("chopper chops only while Old cart is there.");
  const { left } = await planned("2026-07-08T05:00:00Z");
  expect(left.map(({ why }) => why)).toEqual([
    "a cart of the only chopper (Old cart) is away through all of these days",
  ]);
});

test("work drawn by hand with the cart at two places is called so", () => {
  const built = builtOf(asked());
  const job = (fieldId: string, op: "chop" | "haul", machineId: string, hour: number): CrewJobAnswer => ({
    fieldId,
    op,
    machineId,
    personId: op === "chop" ? "a" : "b",
    startUtc: `2026-07-02T${hour}:00:00Z`,
    endUtc: `2026-07-02T${hour + 2}:00:00Z`,
  });
  const travel = (hour: number) =>
    planFaults(
      rulesOf(built),
      [job("creek", "chop", "chopper", 15), job("hill", "haul", "cart", hour)].map(toCrewJob),
    )
      .filter(({ code }) => code === "travel")
      .map(({ text }) => text);
  expect(travel(16)).toEqual(["Old cart: cannot reach hill for the hauling after Creek field"]);
  expect(travel(17)).toEqual([]);
});

test("without fields to chop no chopper takes a cart along", () => {
  const grid = builtOf(asked({ fields: asked().fields.slice(1) })).grid;
  expect(grid.machines.every(({ along, follows }) => along === undefined && follows === undefined)).toBe(
    true,
  );
  expect(withCarts({ fields: [], machines: [] }, { behind: null }, grid.machines)).toBe(grid.machines);
});

describe("choppers and carts that are away at times", () => {
  const fields = asked().fields.slice(0, 1);
  const crew = [...crewRequest().machines, { id: "b", kind: "chopper" as const, haPerH: 3 }];
  const cart = { id: "cart", kind: "cart" as const, haPerH: 3 };
  const plan = (machines: CrewPlanRequest["machines"], over: Partial<CrewPlanRequest> = {}) =>
    planBuilt(builtOf(asked({ fields, machines, ...over })), { solver: null, elapsedS: () => 0 });
  const days = { offUtc: [{ fromUtc: "2026-07-01T05:00:00Z", toUtc: "2026-07-03T05:00:00Z" }] };

  test("one more of either takes nothing from those that are there", async () => {
    const { value } = await plan([...crew, cart]);
    expect(value).toBeGreaterThan(0);
    const faster = { id: "a", kind: "chopper" as const, haPerH: 12, ...days };
    expect((await plan([faster, ...crew, cart])).value).toBeGreaterThanOrEqual(value - 1e-6);
    const other = { ...cart, id: "other", haPerH: 6, ...days };
    expect((await plan([...crew, cart, other])).value).toBeGreaterThanOrEqual(value - 1e-6);
  });

  test("as the days pass the cart stays with the chopper that was promised", async () => {
    const machines = [{ id: "a", kind: "chopper" as const, haPerH: 12, ...days }, ...crew, cart];
    const before = await plan(machines);
    expect(before.jobs.find(({ op }) => op === "chop")?.machineId).toBe("b");
    const chopped = Date.parse(before.jobs.find(({ op }) => op === "chop")?.startUtc ?? "");
    const nowUtc = new Date(chopped - 3_600_000).toISOString();
    const again = await plan(machines, { previous: before, nowUtc });
    expect(again.changes).toEqual([]);
    expect(again.left).toEqual([]);
  });
});
