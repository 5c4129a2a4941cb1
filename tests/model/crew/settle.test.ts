import { expect, test } from "vitest";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { buildGrid, fatesOf, planFaults, rulesOf } from "../../../model/crew/index.ts";
import { meanKept } from "../../../model/crew/replay.ts";
import { crewJob } from "../../../model/crew/rules-of.ts";
import { settled } from "../../../model/crew/settle.ts";
import { planValue } from "../../../model/crew/value.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

function builtCrew() {
  const fields = [crewField("creek"), crewField("hill", { areaHa: 5 })];
  const outcome = buildGrid(
    crewRequest({ sites: { s1: { series: spellWithMembers(6, 5) } }, fields, horizonDays: 5 }),
  );
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

test("hours that cost the plan nothing are chosen by what is kept over the members: same value, no fault, no less kept", () => {
  const built = builtCrew();
  const found = searchPlan(built.grid, { rounds: 60, random: seededRandom(1), stop: () => false });
  expect(found.jobs.length).toBeGreaterThan(4);
  const after = settled(built, found.jobs, () => false);
  const inMoments = (jobs: typeof after) => jobs.map((job) => crewJob(built, job));
  expect(planValue(built.grid, after)).toBeCloseTo(planValue(built.grid, found.jobs), 6);
  expect(planFaults(rulesOf(built), inMoments(after))).toEqual([]);
  let gained = 0;
  built.request.fields.forEach((field, f) => {
    const kept = (jobs: typeof after) => {
      const fates = fatesOf(field, built.members[f] ?? [], inMoments(jobs));
      return fates === null ? 0 : meanKept(fates);
    };
    expect(kept(after)).toBeGreaterThanOrEqual(kept(found.jobs) - 1e-9);
    gained += kept(after) - kept(found.jobs);
  });
  // Not for nothing: with these members some hour is better than the first.
  expect(gained).toBeGreaterThan(0);
});

test("asked to stop, every work stays where it is", () => {
  const built = builtCrew();
  const found = searchPlan(built.grid, { rounds: 20, random: seededRandom(1), stop: () => false });
  const places = (jobs: typeof found.jobs) =>
    jobs.map(({ field, task, start }) => [field, task, start].join()).sort();
  expect(places(settled(built, found.jobs, () => true))).toEqual(places(found.jobs));
});
