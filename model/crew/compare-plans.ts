import { seededRandom } from "../odds/random.ts";
import type { ComparedPlan } from "./answer.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import type { GridField } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import type { CrewJob } from "./problem.ts";
import { fatesOf, type MemberFate, worthOverMembers } from "./replay.ts";
import type { CrewPlanRequest } from "./request.ts";
import { crewJob, rulesOf, toCrewJob } from "./rules-of.ts";
import { settled } from "./settle.ts";
import { planFaults } from "./validity.ts";
import { planValue } from "./value.ts";

/** How each field fares in each member; null where the plan has not all of its works. */
export function fatesByField(built: BuiltCrew, jobs: readonly CrewJob[]): (readonly MemberFate[] | null)[] {
  return built.request.fields.map((field, f) => fatesOf(field, built.members[f] ?? [], jobs));
}

export function worthOf(built: BuiltCrew, jobs: readonly CrewJob[], isLeft: (fieldId: string) => boolean) {
  const fates = fatesByField(built, jobs);
  return worthOverMembers(
    built.request.fields.flatMap((field, f) => {
      const own = fates[f];
      const worth = (built.grid.fields[f] as GridField).worth;
      return own == null || isLeft(field.id) ? [] : [{ worth, fates: own }];
    }),
  );
}

/** A plan replayed: what it is worth over the members, how many fields it serves, and whether it can be carried out. */
export function comparedPlan(
  built: BuiltCrew,
  plan: ComparedPlan["plan"],
  jobs: readonly CrewJob[],
  value: number | null,
): ComparedPlan {
  const isBroken = (fieldId: string) =>
    built.placed.some(({ asked, brokeOff }) => brokeOff !== null && asked.fieldId === fieldId);
  const served = built.request.fields.filter(
    ({ id, ops }) =>
      !isBroken(id) && ops.every((op) => jobs.some((job) => job.fieldId === id && job.op === op)),
  );
  const isLeft = (fieldId: string) => !served.some(({ id }) => id === fieldId);
  return {
    plan,
    served: served.length,
    value,
    faults: planFaults(rulesOf(built), jobs).length,
    ...worthOf(built, jobs, isLeft),
  };
}

/** Nine in ten members must be ready before the robust plan starts a work. */
const ROBUST_SHARE = 0.9;
const ROBUST_ROUNDS = 150;
/** Members that its windows are read from: nine in ten can be told of them. */
const ROBUST_MEMBERS = 10;

/** As promised (the plan before), the best, and the one that waits for more members. */
export function comparedPlans(
  built: BuiltCrew,
  best: readonly CrewJob[],
  value: number,
  stop: () => boolean,
): ComparedPlan[] {
  const { request } = built;
  const plans: ComparedPlan[] = [];
  if (request.previous != null) {
    plans.push(comparedPlan(built, "promised", request.previous.jobs.map(toCrewJob), null));
  }
  plans.push(comparedPlan(built, "best", best, value));
  const robust = stop() ? null : robustPlan(request);
  if (robust !== null) plans.push(comparedPlan(robust.built, "robust", robust.jobs, robust.value));
  return plans;
}

function robustPlan(request: CrewPlanRequest) {
  const outcome = buildGrid({ ...request, readyShare: ROBUST_SHARE }, ROBUST_MEMBERS);
  if (!outcome.ok) return null;
  const built = outcome.value;
  const random = seededRandom(request.seed ?? 1);
  const found = searchPlan(built.grid, { rounds: ROBUST_ROUNDS, random, stop: () => false });
  const jobs = settled(built, found.jobs, () => false);
  return { built, jobs: jobs.map((job) => crewJob(built, job)), value: planValue(built.grid, jobs) };
}
