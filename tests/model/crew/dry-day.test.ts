import { readFileSync } from "node:fs";
import loadHighs from "highs";
import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { type MilpEngine, solveMilp } from "../../../model/crew/milp/solve.ts";
import type { Solver } from "../../../model/crew/solve-grid.ts";

const engine: MilpEngine = await loadHighs();
const solver: Solver = async (question) => solveMilp(engine, question.milp, question);
const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);

/** The example with afternoons of rain, 2 mm in each of four hours at every site and member, on some of its days. */
function rainedOn(days: readonly number[]): CrewPlanRequest {
  const asked = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  for (const { series } of Object.values<{ series: CrewPlanRequest["sites"][string]["series"] }>(
    asked.sites,
  )) {
    for (const { rainMm } of [series.hours, ...(series.members ?? [])]) {
      for (const day of days) (rainMm as number[]).fill(2, 24 * day + 9, 24 * day + 13);
    }
  }
  return asked;
}

async function planned(days: readonly number[]) {
  const built = buildGrid(rainedOn(days));
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return planBuilt(built.value, { solver, elapsedS: () => 0, brief: true });
}

// Through weather, windows and solver: a day of rain fewer, all else as it is.
test.each([
  [
    [1, 2, 3],
    [1, 3],
  ],
  [[2, 4], [4]],
  [
    [0, 2, 4],
    [0, 4],
  ],
])(
  "rain on days %j, then on %j alone: a dry day more loses nothing beyond the gap",
  { timeout: 120_000 },
  async (wet, dry) => {
    const [before, after] = [await planned(wet), await planned(dry)];
    expect(before.value).toBeGreaterThan(0);
    expect(after.value).toBeGreaterThanOrEqual(before.value - after.gap * after.bound - 1e-6);
  },
);
