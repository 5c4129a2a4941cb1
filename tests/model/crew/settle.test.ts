import { describe, expect, test } from "vitest";
import type { BuiltCrew } from "../../../model/crew/build-grid.ts";
import { expectedValue } from "../../../model/crew/expected.ts";
import type { GridJob } from "../../../model/crew/grid.ts";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import {
  buildGrid,
  CREW_DEFAULTS,
  type CrewPlanRequest,
  fatesOf,
  planFaults,
  planReread,
  rulesOf,
} from "../../../model/crew/index.ts";
import { meanKept } from "../../../model/crew/replay.ts";
import { crewJob, gridJobs, jobAnswer } from "../../../model/crew/rules-of.ts";
import { settled } from "../../../model/crew/settle.ts";
import { planValue } from "../../../model/crew/value.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

function builtOf(request: CrewPlanRequest): BuiltCrew {
  const outcome = buildGrid(request);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

function builtCrew(): BuiltCrew {
  const fields = [crewField("creek"), crewField("hill", { areaHa: 5 })];
  return builtOf(crewRequest({ sites: { s1: { series: spellWithMembers(6, 5) } }, fields, horizonDays: 5 }));
}

/** So much of the plan's value mowings may give up in all. */
function mostGiven({ grid }: BuiltCrew): number {
  return CREW_DEFAULTS.givenForChance.value * grid.fields.reduce((sum, { worth }) => sum + worth, 0);
}

const found = (built: BuiltCrew) =>
  searchPlan(built.grid, { rounds: 60, random: seededRandom(1), stop: () => false }).jobs;

test("hours are chosen by what is kept over the members: hardly less value, no fault, no less kept", () => {
  const built = builtCrew();
  const before = found(built);
  expect(before.length).toBeGreaterThan(4);
  const after = settled(built, before, () => false);
  const inMoments = (jobs: typeof after) => jobs.map((job) => crewJob(built, job));
  expect(planValue(built.grid, after)).toBeGreaterThanOrEqual(
    planValue(built.grid, before) - mostGiven(built),
  );
  expect(planFaults(rulesOf(built), inMoments(after))).toEqual([]);
  let gained = 0;
  built.request.fields.forEach((field, f) => {
    const kept = (jobs: typeof after) => {
      const fates = fatesOf(field, built.members[f] ?? [], inMoments(jobs));
      return fates === null ? 0 : meanKept(fates);
    };
    expect(kept(after)).toBeGreaterThanOrEqual(kept(before) - 1e-9);
    gained += kept(after) - kept(before);
  });
  // Not for nothing: with these members some hour is better than the first.
  expect(gained).toBeGreaterThan(0);
});

const mowings = (jobs: readonly GridJob[]) =>
  jobs
    .filter(({ task }) => task === 0)
    .map(({ field, start }) => `${field} at ${start}`)
    .sort();

describe.each([2, 9, 20, 43, 60])("crew of chance %i, among members that differ", (seed) => {
  const built = builtOf(differingCrew(seed));
  const before = found(built);
  const after = settled(built, before, () => false);

  test("mowings move where the replay expects more by it than the plan is worth less", () => {
    expect(mowings(after)).not.toEqual(mowings(before));
    const given = planValue(built.grid, before) - planValue(built.grid, after);
    expect(given).toBeLessThanOrEqual(mostGiven(built));
    expect(expectedValue(built, after) - expectedValue(built, before)).toBeGreaterThan(Math.max(0, given));
    const faults = planFaults(
      rulesOf(built),
      after.map((job) => crewJob(built, job)),
    );
    expect(faults).toEqual([]);
  });

  test("a mowing that is held or promised stays", () => {
    const visits = before.map((job) => jobAnswer(built, job));
    const fixed = visits.filter(({ op }) => op === "mow");
    const held = builtOf({ ...differingCrew(seed), fixed });
    expect(mowings(settled(held, before, () => false))).toEqual(mowings(before));
    const promised = builtOf({ ...differingCrew(seed), previous: { jobs: visits, revision: 1 } });
    expect(mowings(settled(promised, before, () => false))).toEqual(mowings(before));
  });

  test("an answer tells the value and the gap of the plan that it gives", async () => {
    const tools = { solver: null, elapsedS: () => 0 };
    const { built: made, answer } = await planReread(builtOf(differingCrew(seed)), tools);
    expect(answer.value).toBeCloseTo(planValue(made.grid, gridJobs(made, answer.jobs)), 6);
    expect(answer.value).toBeLessThanOrEqual(answer.bound + 1e-6);
    expect(answer.gap).toBeCloseTo((answer.bound - answer.value) / answer.bound, 9);
  });
});

test("asked to stop, every work stays where it is", () => {
  const built = builtCrew();
  const before = found(built);
  const places = (jobs: typeof before) =>
    jobs.map(({ field, task, start }) => [field, task, start].join()).sort();
  expect(places(settled(built, before, () => true))).toEqual(places(before));
});
