import type { Outcome } from "../limits.ts";
import { once } from "../once.ts";
import type { CrewPlanAnswer } from "./answer.ts";
import { answerOf } from "./answer-of.ts";
import {
  type Beginning,
  beginningOf,
  possibleJobs,
  promisedJobs,
  type Start,
  withDoubtfulPromises,
  withPromises,
} from "./beginning.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import { CREW_CHOICES } from "./defaults.ts";
import { expectedValue } from "./expected.ts";
import { doubtedWords } from "./plan-words.ts";
import type { CrewJobAnswer, CrewPlanRequest } from "./request.ts";
import { checkCrewRequest } from "./request-checks.ts";
import { type Reread, reread } from "./reread.ts";
import { jobAnswer } from "./rules-of.ts";
import { withSameHands } from "./same-hands.ts";
import { settled } from "./settle.ts";
import { type GridPlan, gapOf, type Solver, solveGrid } from "./solve-grid.ts";
import { withToldWindows } from "./told-windows.ts";
import { planValue } from "./value.ts";

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

/** Windows are read again so many times before the longer search, which may end at hours that the quick one did not see. */
const QUICK_REREADS = 5;
/** But for so much of the limit at most: the longer search needs its own. */
const QUICK_SHARE = 0.4;
/** And so many times after it. */
const REREADS = 4;
/** Fields are given windows from the replay in so many rounds at most. */
const TOLD_ROUNDS = 3;
/** What a plan whose windows hold may be expected to bring less than one of which they do not, as a share; assumed. */
const LESS_FOR_CHANCE = 0.02;
/** Courses of members that windows of all fields may be read from by the replay, for each second of the limit. */
const WIDER_COURSES_A_S = 1600;
/** That, and the plan in them, may take the limit so far. */
const WIDER_SHARE = 0.5;
/** And it must be expected to bring so much more, as a share: for less nobody is told other windows; assumed. */
const LEAST_WIDER = 0.001;
/** After this a first picture is shown as it is, s. */
const BRIEF_S = 0.5;
/** Better hours, replay and the change that helps most take so many times as long as the first search, at most. */
const AFTER_TIMES = 9;

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
  return (await planReread(built, tools)).answer;
}

/** A plan with the task that it answers: some windows may have been read again. */
export interface PlannedCrew {
  readonly built: BuiltCrew;
  readonly answer: CrewPlanAnswer;
}

/**
 * The same with its task. Windows that the replay of the plan speaks against are read again, and the plan is made once
 * more; the one of all these plans is taken of which the replay expects most. Value, bound and gap are of its windows.
 */
export async function planReread(given: BuiltCrew, tools: CrewTools): Promise<PlannedCrew> {
  const { brief = false, stop = () => false } = tools;
  const tell = teller(given, tools);
  tell("windows", null);
  const begun = beginningOf(given, brief, stop);
  const { asked, before } = begun;
  const solve = (built: BuiltCrew, timeLimitS: number, startJobs: Start) =>
    solveGrid(built.grid, {
      timeLimitS,
      elapsedS: tools.elapsedS,
      afterTimes: brief ? 0 : AFTER_TIMES,
      seed: built.request.seed ?? 1,
      solver: tools.solver,
      stop: tools.stop,
      startJobs,
      onPlan: (found) => tell("plan", found),
    });
  let searchS: number | null = null;
  const within = (timeLimitS: number) => async (built: BuiltCrew, startJobs: Start) => {
    const beganS = tools.elapsedS();
    const plan = await solve(built, timeLimitS, startJobs);
    if (timeLimitS === 0) searchS ??= tools.elapsedS() - beganS;
    if (brief) return plan;
    const jobs = settled(built, plan.jobs, stop);
    const value = planValue(built.grid, jobs);
    return { ...plan, jobs, value, gap: gapOf(value, plan.bound) };
  };
  const limitS = brief ? BRIEF_S : (asked.request.timeLimitS ?? CREW_CHOICES.timeLimitS.value);
  // A limit of nothing asks for no longer search; what is read again is quick. What comes after it has its time kept free.
  const afterS = () => (brief ? 0 : AFTER_TIMES * (searchS ?? 0));
  const past = (share: number) => () =>
    stop() || tools.elapsedS() > Math.max(BRIEF_S, share * (limitS - afterS()));
  // Quickly first: a longer search is for windows that hold.
  const isDoubtful = brief || asked.read === "some" || tools.solver !== null;
  const made = async (from: BuiltCrew, start: Start, times: number, timeS: number, late: () => boolean) => {
    const plan = await agreed(from, start, times, within(timeS), late);
    return brief || late() ? plan : toldBetter(plan, within(timeS), late);
  };
  const quickly = ({ asked: from, before: start }: Beginning) =>
    made(from, start, QUICK_REREADS, 0, past(brief ? 1 : QUICK_SHARE));
  const doubtful = withDoubtfulPromises(begun);
  const first = isDoubtful || doubtful !== null ? await quickly(begun) : null;
  const soon = first !== null && doubtful !== null ? better(first, await quickly(doubtful)) : first;
  const courses = Math.floor(WIDER_COURSES_A_S * limitS);
  const quick =
    soon === null || brief || courses === 0 || past(WIDER_SHARE)()
      ? soon
      : await wider(asked, soon, courses, within(0), past(WIDER_SHARE));
  const longer = () => made(quick?.built ?? asked, quick?.plan.jobs ?? before, REREADS, limitS, past(1));
  const found = quick === null ? await longer() : brief ? quick : better(quick, await longer());
  const { built, plan } = found;
  const untilS = Math.max(limitS, tools.elapsedS() + afterS());
  const late = () => tools.elapsedS() > untilS;
  const answer = answerOf(built, { ...plan, jobs: withSameHands(built, plan.jobs) }, { ...tools, late });
  const doubted = found.again()?.doubted ?? [];
  return {
    built,
    answer: { ...answer, warnings: [...doubtedWords(built.request, doubted), ...answer.warnings] },
  };
}

/** Plans a task, from some jobs on. */
type Solve = (built: BuiltCrew, start: Start) => Promise<GridPlan>;

/** A plan with its task, what the replay expects of it, and its windows held against the replay: each worked out once. */
interface Planned {
  readonly built: BuiltCrew;
  readonly plan: GridPlan;
  readonly expected: () => number;
  readonly again: () => Reread | null;
}

function plannedIn(built: BuiltCrew, plan: GridPlan): Planned {
  return {
    built,
    plan,
    expected: once(() => expectedValue(built, plan.jobs)),
    again: once(() => reread(built, plan.jobs)),
  };
}

/**
 * The later plan, which keeps to more chance, unless the replay expects clearly more of the earlier one: windows are read
 * again under the passes of one plan, and may shut out what other passes would keep dry.
 */
function better(earlier: Planned, later: Planned): Planned {
  const before = earlier.expected();
  // What is promised moves only where more is kept.
  const less = earlier.built.request.previous == null ? LESS_FOR_CHANCE : 0;
  return later.expected() >= before - less * Math.abs(before) ? later : earlier;
}

/** What can be kept of the plan before, as it was: a new one must be worth the change. */
function asPromised(asked: BuiltCrew, start: Start, { plan }: Planned): Planned {
  const jobs = start ?? [];
  const value = planValue(asked.grid, jobs);
  return plannedIn(asked, { ...plan, jobs, value, gap: gapOf(value, plan.bound) });
}

/** The plan of a task, made anew for windows that were read again, so many times at most: the best of them. */
async function agreed(
  asked: BuiltCrew,
  start: Start,
  times: number,
  solve: Solve,
  stop: () => boolean,
): Promise<Planned> {
  let last = plannedIn(asked, await solve(asked, start));
  let best = asked.request.previous == null ? last : better(asPromised(asked, start, last), last);
  for (let left = times; left > 0 && !stop(); left--) {
    const again = last.again()?.built;
    if (again === undefined) break;
    last = plannedIn(again, await solve(again, possibleJobs(again, last.plan.jobs)));
    best = better(best, last);
  }
  return best;
}

/**
 * The plan made anew with windows from the replay for the fields that its windows fail, where that is the better one; again
 * for those that the new one leaves.
 */
async function toldBetter(found: Planned, solve: Solve, stop: () => boolean): Promise<Planned> {
  let best = found;
  for (let left = TOLD_ROUNDS; left > 0 && !stop(); left--) {
    const { jobs } = best.plan;
    const again = best.again();
    const told = withToldWindows(again?.built ?? best.built, jobs, again?.doubted ?? [], stop);
    if (told === null) break;
    const promised = promisedJobs(told) ?? [];
    const start = [...jobs, ...promised.filter(({ field }) => !jobs.some((job) => job.field === field))];
    const next = better(best, await agreed(told, possibleJobs(told, start), REREADS, solve, stop));
    if (next === best) break;
    best = next;
  }
  return best;
}

/**
 * The plan made anew with windows from the replay for all fields, those that are served too, where the replay expects more
 * of it: a field in usual windows may stand in the way of another that has hours only there.
 *
 * @param courses of members that may be followed for it
 */
async function wider(
  asked: BuiltCrew,
  found: Planned,
  courses: number,
  solve: Solve,
  stop: () => boolean,
): Promise<Planned> {
  const { jobs } = found.plan;
  const told = withToldWindows(asked, jobs, [], stop, { served: true, courses });
  if (told === null) return found;
  const first = { asked: told, before: possibleJobs(told, jobs) };
  // The hours of the plan that is to be bettered stay a choice.
  const { asked: all, before } = withPromises(first, jobs) ?? first;
  const widened = told.told.filter((id) => !asked.told.includes(id));
  const task = { ...all, promised: asked.promised, widened };
  const next = await agreed(task, before, QUICK_REREADS, solve, stop);
  const least = found.expected() + LEAST_WIDER * Math.abs(found.expected());
  return next.expected() > least ? next : found;
}

/** Tells how far it is: the first plan, and better ones after it. */
function teller(built: BuiltCrew, { elapsedS, onProgress }: CrewTools) {
  let told = false;
  return (what: "windows" | "plan", plan: GridPlan | null) => {
    onProgress?.({
      stage: what === "windows" ? what : told ? "better" : "first",
      elapsedS: elapsedS(),
      jobs: plan === null ? [] : plan.jobs.map((job) => jobAnswer(built, job)),
      value: plan?.value ?? null,
      bound: plan?.bound ?? null,
      gap: plan?.gap ?? null,
    });
    told ||= what === "plan";
  };
}
