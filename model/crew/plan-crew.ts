import type { Outcome } from "../limits.ts";
import type { CrewPlanAnswer } from "./answer.ts";
import { answerOf } from "./answer-of.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import { CREW_CHOICES } from "./defaults.ts";
import type { GridJob } from "./grid.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import type { CrewJobAnswer, CrewPlanRequest } from "./request.ts";
import { checkCrewRequest } from "./request-checks.ts";
import { crewJob, gridJobs, jobAnswer, rulesOf } from "./rules-of.ts";
import { settled } from "./settle.ts";
import { type GridPlan, type Solver, solveGrid } from "./solve-grid.ts";
import { planFaults } from "./validity.ts";

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

/** Better hours, replay and the change that helps most take so many times as long as the first search. */
const AFTER_TIMES = 2.5;

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
    timeLimitS,
    elapsedS: tools.elapsedS,
    afterTimes: tools.brief ? 0 : AFTER_TIMES,
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
