import type { Outcome } from "../limits.ts";
import { seededRandom } from "../odds/random.ts";
import { utcLabel } from "../weather/labels.ts";
import type { ComparedPlan, CrewPlanAnswer, CrewWindowAnswer, FieldLeft } from "./answer.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import { cautionsOf } from "./cautions.ts";
import { changesOf, messagesOf } from "./changes.ts";
import { CREW_CHOICES } from "./defaults.ts";
import { type GridField, type GridJob, middleSlot, slotUtcMs } from "./grid.ts";
import { mostHelpful } from "./help.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import type { CrewJob } from "./problem.ts";
import { fatesOf, type MemberFate, toldReplay, worthOverMembers } from "./replay.ts";
import type { CrewJobAnswer, CrewPlanRequest } from "./request.ts";
import { checkCrewRequest } from "./request-checks.ts";
import { crewJob, rulesOf, stretches, toCrewJob } from "./rules-of.ts";
import { settled } from "./settle.ts";
import { type GridPlan, type Solver, solveGrid } from "./solve-grid.ts";
import { planFaults } from "./validity.ts";
import { jobsOfField, leftValue } from "./value.ts";
import { mownUtcMs, whyLeft } from "./why-left.ts";
import { hasChance } from "./windows/site-weather.ts";

/** What the plan is worked out with: the caller's clock and solver, since the model has neither. */
export interface CrewTools {
  /** Null = the heuristic alone. */
  readonly solver: Solver | null;
  /** Time since the question came, s. */
  readonly elapsedS: () => number;
  /** True ends the search with what there is. */
  readonly stop?: (() => boolean) | undefined;
  readonly onProgress?: ((progress: CrewProgress) => void) | undefined;
  /** True = without a longer search and the change that would help most: for a first picture. */
  readonly brief?: boolean | undefined;
}

export interface CrewProgress {
  readonly stage: "windows" | "first" | "better";
  readonly elapsedS: number;
  readonly jobs: readonly CrewJobAnswer[];
  readonly value: number | null;
  readonly bound: number | null;
  readonly gap: number | null;
}

function jobAnswer(built: BuiltCrew, job: GridJob): CrewJobAnswer {
  const { startUtcMs, endUtcMs, ...rest } = crewJob(built, job);
  return { ...rest, startUtc: utcLabel(startUtcMs), endUtc: utcLabel(endUtcMs) };
}

/** Who does what when: what /api/crew-plan, the command line and the page's worker call. */
export async function planCrew(request: CrewPlanRequest, tools: CrewTools): Promise<Outcome<CrewPlanAnswer>> {
  const issues = checkCrewRequest(request);
  if (issues.length > 0) return { ok: false, issues };
  const outcome = buildGrid(request);
  if (!outcome.ok) return outcome;
  const built = outcome.value;
  return { ok: true, value: await planBuilt(built, tools) };
}

/** The same once the windows are known: a page keeps them while people change the plan. */
export async function planBuilt(built: BuiltCrew, tools: CrewTools): Promise<CrewPlanAnswer> {
  const { grid, request } = built;
  const windowsS = tools.elapsedS();
  const report = (stage: CrewProgress["stage"], plan: GridPlan | null) =>
    tools.onProgress?.({
      stage,
      elapsedS: tools.elapsedS(),
      jobs: plan === null ? [] : plan.jobs.map((job) => jobAnswer(built, job)),
      value: plan?.value ?? null,
      bound: plan?.bound ?? null,
      gap: plan?.gap ?? null,
    });
  report("windows", null);
  const timeLimitS = tools.brief ? 0 : (request.timeLimitS ?? CREW_CHOICES.timeLimitS.value);
  let told = false;
  const plan = await solveGrid(grid, {
    // The limit is the search's: windows are known before it begins.
    timeLimitS,
    elapsedS: () => tools.elapsedS() - windowsS,
    seed: request.seed ?? 1,
    solver: tools.solver,
    stop: tools.stop,
    startJobs: previousJobs(built),
    onPlan: (found) => {
      report(told ? "better" : "first", found);
      told = true;
    },
  });
  const jobs = tools.brief ? plan.jobs : settled(built, plan.jobs, tools.stop ?? (() => false));
  return answerOf(built, { ...plan, jobs }, tools);
}

/** The plan before as jobs of the grid, where it still can be carried out: where the search begins. */
function previousJobs(built: BuiltCrew): GridJob[] | undefined {
  const { grid, request } = built;
  if (request.previous == null) return undefined;
  const jobs = gridJobs(built, request.previous.jobs);
  // A field of which one visit is impossible now is planned afresh: by itself, or beside work that is held. Who is in the
  // way of whom a fault does not say, so each field must fit in with those before it.
  const rules = rulesOf(built);
  const fits = (some: readonly GridJob[]) =>
    planFaults(
      rules,
      some.map((job) => crewJob(built, job)),
    ).length === 0;
  const isHeld = ({ field, task }: GridJob) => grid.fields[field]?.tasks[task]?.fixed != null;
  const kept = fixedJobs(grid);
  for (const f of grid.fields.keys()) {
    const more = jobs.filter((job) => job.field === f && !isHeld(job));
    if (more.length > 0 && fits([...kept, ...more])) kept.push(...more);
  }
  return kept;
}

/** Jobs of an answer in the slots of the grid; one of a field, machine or person that is not there is passed over. */
function gridJobs({ grid }: BuiltCrew, jobs: readonly CrewJobAnswer[]): GridJob[] {
  return jobs.flatMap((job): GridJob[] => {
    const field = grid.fields.findIndex(({ id }) => id === job.fieldId);
    const task = grid.fields[field]?.tasks.findIndex(({ op }) => op === job.op) ?? -1;
    const machine = grid.machines.findIndex(({ id }) => id === job.machineId);
    const person = grid.people.findIndex(({ id }) => id === job.personId);
    if (field < 0 || task < 0 || machine < 0 || person < 0) return [];
    const fixed = grid.fields[field]?.tasks[task]?.fixed;
    if (fixed != null) return [{ field, task, ...fixed }];
    const start = Math.round((Date.parse(job.startUtc) - grid.startUtcMs) / grid.slotMs);
    const slots = grid.fields[field]?.tasks[task]?.slotsOf[machine] ?? 0;
    return [{ field, task, machine, person, start, end: start + slots }];
  });
}

/** What moved against the plan before, the text to each customer and the windows, of a plan that a person changed. */
export function wordsOfJobs(
  built: BuiltCrew,
  jobs: readonly CrewJobAnswer[],
  left: CrewPlanAnswer["left"],
): Pick<CrewPlanAnswer, "changes" | "messages" | "windows"> {
  const inGrid = gridJobs(built, jobs);
  const changes = changesOf(built, inGrid, left);
  return {
    changes,
    messages: messagesOf(built, inGrid, left, changes),
    windows: windowAnswers(built, inGrid),
  };
}

function namesOf(list: readonly { readonly id: string; readonly name?: string | null | undefined }[]) {
  return Object.fromEntries(list.map(({ id, name }) => [id, name ?? id]));
}

function fatesByField(built: BuiltCrew, jobs: readonly CrewJob[]): (readonly MemberFate[] | null)[] {
  return built.request.fields.map((field, f) => fatesOf(field, built.members[f] ?? [], jobs));
}

function answerOf(built: BuiltCrew, plan: GridPlan, tools: CrewTools): CrewPlanAnswer {
  const { grid, request } = built;
  const stop = tools.stop ?? (() => false);
  const crewJobs = plan.jobs.map((job) => crewJob(built, job));
  const faults = planFaults(rulesOf(built), crewJobs);
  // Each answer is proved by a check that knows nothing of how it was found.
  if (faults.length > 0) throw new Error(`the plan cannot be carried out: ${faults[0]?.text}`);
  const left = grid.fields.flatMap((field, f): FieldLeft[] => {
    if (jobsOfField(field, f, plan.jobs) !== null) return [];
    const mownMs = mownUtcMs(built, f);
    const mownUtc = mownMs === null ? null : utcLabel(mownMs);
    return [{ fieldId: field.id, why: whyLeft(built, plan.jobs, f), mownUtc }];
  });
  const isLeft = (fieldId: string) => left.some((one) => one.fieldId === fieldId);
  const fates = fatesByField(built, crewJobs);
  const replay = request.fields.flatMap((field, f) => {
    const own = fates[f];
    if (own == null || isLeft(field.id)) return [];
    return [toldReplay(field.id, own, hasChance(built.sites[field.siteId]))];
  });
  const members = Math.max(
    0,
    ...Object.values(built.sites).map(({ kind, members }) => (kind === "known" ? 0 : members.length)),
  );
  const changes = changesOf(built, plan.jobs, left);
  const cautions = cautionsOf(built, crewJobs, replay);
  return {
    jobs: plan.jobs.map((job) => jobAnswer(built, job)),
    left,
    value: plan.value,
    valueParts: valueParts(built, plan.jobs),
    bound: plan.bound,
    boundKind: plan.boundKind,
    boundWeak: plan.boundKind === "pool-load" && plan.gap > 0,
    gap: plan.gap,
    method: plan.method,
    replay,
    worth: members > 0 && replay.length > 0 ? worthOf(built, crewJobs, isLeft) : null,
    help: tools.brief ? null : mostHelpful(built, plan.jobs, crewJobs, plan.value, replay, stop),
    compared: request.compare === true ? comparedPlans(built, crewJobs, plan.value, stop) : null,
    changes,
    messages: messagesOf(built, plan.jobs, left, changes),
    windows: windowAnswers(built, plan.jobs),
    names: {
      fields: namesOf(request.fields),
      machines: namesOf(request.machines),
      people: namesOf(request.people),
    },
    timeZone: built.timeZone,
    slotMin: grid.slotMs / 60_000,
    nowUtc: utcLabel(built.nowUtcMs),
    untilUtc: utcLabel(slotUtcMs(grid, grid.count)),
    revision: request.previous == null ? 0 : (request.previous.revision ?? 0) + 1,
    counts: { members, courses: built.windows.reduce((sum, { courses }) => sum + courses, 0) },
    assumptions: built.assumptions,
    cautions,
    warnings: [...built.warnings, ...cautions.map(({ text }) => text)],
  };
}

function worthOf(built: BuiltCrew, jobs: readonly CrewJob[], isLeft: (fieldId: string) => boolean) {
  const fates = fatesByField(built, jobs);
  return worthOverMembers(
    built.request.fields.flatMap((field, f) => {
      const own = fates[f];
      const worth = (built.grid.fields[f] as GridField).worth;
      return own == null || isLeft(field.id) ? [] : [{ worth, fates: own }];
    }),
  );
}

function valueParts(built: BuiltCrew, jobs: readonly GridJob[]): CrewPlanAnswer["valueParts"] {
  let kept = 0;
  let lateness = 0;
  let moved = 0;
  built.grid.fields.forEach((field, f) => {
    const own = jobsOfField(field, f, jobs);
    const [mow, last] = [own?.[0], own?.at(-1)];
    if (own === null || mow === undefined || last === undefined) {
      moved -= leftValue(field);
      return;
    }
    const gather = own[field.gather];
    const lost = gather === undefined ? 0 : (field.gatherCost[gather.start] as number);
    kept += field.worth * ((field.mowGain[middleSlot(mow.start, mow.end)] as number) - lost);
    lateness += field.lateCost[last.end] as number;
    moved +=
      field.moveCost *
      field.tasks.filter(
        ({ before, fixed }, i) => before !== null && fixed === null && own[i]?.start !== before,
      ).length;
  });
  return { kept, lateness, moved };
}

function windowAnswers(built: BuiltCrew, jobs: readonly GridJob[]): CrewWindowAnswer[] {
  const { grid } = built;
  const label = (slot: number) => utcLabel(slotUtcMs(grid, slot));
  return grid.fields.flatMap((field, f) => {
    const mow = jobs.find((job) => job.field === f && job.task === 0);
    const q = mow === undefined ? -1 : middleSlot(mow.start, mow.end);
    return field.tasks.map(({ op, ready, until, openUntil }): CrewWindowAnswer => {
      const opens = ready?.[q] ?? -1;
      return {
        fieldId: field.id,
        op,
        readyUtc: opens < 0 ? null : label(opens),
        untilUtc: opens < 0 ? null : label(until?.[q] ?? opens),
        openUtc: stretches(built, openUntil).map(({ fromUtcMs, toUtcMs }) => ({
          fromUtc: utcLabel(fromUtcMs),
          toUtc: utcLabel(toUtcMs),
        })),
      };
    });
  });
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
export const ROBUST_SHARE = 0.9;
const ROBUST_ROUNDS = 150;
/** Members that its windows are read from: nine in ten can be told of them. */
const ROBUST_MEMBERS = 10;

/** As promised (the plan before), the best, and the one that waits for more members. */
function comparedPlans(
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
  return { built, jobs: jobs.map((job) => crewJob(built, job)), value: found.value };
}
