import { expect, test } from "vitest";
import { buildGrid, planReread } from "../../../model/crew/index.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { solverHere } from "../../support/crew/solver-here.ts";

test("with time all fields are given windows from the replay: none stands in usual hours in the way of another", {
  timeout: 60_000,
}, async () => {
  const solver = await solverHere();
  const planned = async (timeLimitS: number) => {
    const built = buildGrid({ ...differingCrew(27), timeLimitS });
    if (!built.ok) throw new Error(JSON.stringify(built.issues));
    return (await planReread(built.value, { solver, elapsedS: () => 0 })).answer;
  };
  const [soon, later] = [await planned(0), await planned(10)];
  expect(later.left.length).toBeLessThan(soon.left.length);
  expect(later.worth?.expected).toBeGreaterThan(1.2 * (soon.worth?.expected ?? 0));
  expect(later.value).toBeLessThanOrEqual(later.bound + 1e-6);
  expect(later.assumptions.join(" ")).toContain(
    "brings more than any that was found in windows at usual hours",
  );
  expect(soon.assumptions.join(" ")).toContain("a longer limit may find some");
});
