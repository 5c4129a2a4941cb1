import {
  type BuiltCrew,
  buildGridByField,
  type CrewJobAnswer,
  type CrewPlanAnswer,
  type CrewProgress,
  checkCrewRequest,
  fatesOf,
  hasChance,
  planReread,
  toCrewJob,
  toldReplay,
  wordsOfJobs,
} from "../../model/crew/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { allFaults, answerCautions } from "./all-faults.ts";
import type { CrewAsk, CrewTell } from "./messages.ts";
import { type PageSolver, pageSolver } from "./page-solver.ts";

/** The windows of the last question: kept, so that a dragged job is checked at once. */
let built: BuiltCrew | null = null;
let told: CrewPlanAnswer | null = null;
let solving: PageSolver | null = null;
let cancelled = false;
/** The question that is being worked on; an older one ends where it rests next. */
let latest = 0;

/** Members that the windows of the first picture are read from. */
const FIRST_MEMBERS = 4;

type PlanAsk = Extract<CrewAsk, { readonly kind: "plan" }>;

/** The limit of a plan that nobody asked to be proved: the search takes a part of it. */
const SOON_S = 4;

const tell = (message: CrewTell) => postMessage(message);

/** Lets the messages in that came meanwhile. */
const rest = () => new Promise<void>((go) => setTimeout(go));

interface PlanWay {
  readonly solve?: boolean;
  /** A better founded plan follows at once. */
  readonly more?: boolean;
}

async function plan(id: number, known: BuiltCrew | null, { solve = false, more = false }: PlanWay) {
  if (known === null) return;
  const startMs = performance.now();
  const elapsedS = () => (performance.now() - startMs) / 1000;
  let last: CrewProgress | null = null;
  const report = (progress: CrewProgress) => {
    last = progress;
    tell({ kind: "progress", id, progress });
  };
  solving = solve
    ? pageSolver((proved) => {
        if (last === null || last.value === null) return;
        const bound = Math.min(last.bound ?? proved, Math.max(last.value, proved));
        const gap = Math.max(0, bound - last.value) / Math.max(Math.abs(bound), 1e-9);
        report({ ...last, elapsedS: elapsedS(), bound, gap });
      })
    : null;
  const timeLimitS = solve ? known.request.timeLimitS : SOON_S;
  const { built: planned, answer } = await planReread(
    { ...known, request: { ...known.request, timeLimitS } },
    {
      solver: solving?.solver ?? null,
      elapsedS,
      stop: () => cancelled,
      onProgress: report,
      brief: more,
    },
  );
  solving = null;
  told = answer;
  // Windows that were read again are what the plan is checked against from here on.
  if (latest === id) built = { ...planned, request: built?.request ?? known.request };
  tell({ kind: "answer", id, answer, more, cautions: answerCautions(planned, answer) });
}

/** The robust plan takes windows of its own: it is made where somebody waits for the best one anyhow. */
function withComparison(known: BuiltCrew | null, timeLimitS: number): BuiltCrew | null {
  return known && { ...known, request: { ...known.request, timeLimitS, compare: true } };
}

/** The windows field by field; null where nobody waits for them any more. */
async function windowsOf(ask: PlanAsk, mostMembers?: number): Promise<Outcome<BuiltCrew> | null> {
  const steps = buildGridByField(ask.request, mostMembers);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    tell({ kind: "windows", id: ask.id, windows: step.value, first: mostMembers !== undefined });
    await rest();
    if (cancelled || latest !== ask.id) return null;
  }
}

async function planAnew(ask: PlanAsk): Promise<void> {
  const issues = checkCrewRequest(ask.request);
  if (issues.length > 0) {
    tell({ kind: "refused", id: ask.id, issues });
    return;
  }
  // A few members are read in a fraction of the time: a first picture while all of them are worked through. Where a plan
  // was given out, that is the picture meanwhile, and what moved is told of the whole forecast alone.
  const first = ask.request.previous == null ? await windowsOf(ask, FIRST_MEMBERS) : undefined;
  const whole = first?.ok === true && first.value.read === "all";
  if (first?.ok) {
    built = first.value;
    await plan(ask.id, built, { more: !whole });
    if (whole) return;
  }
  const outcome = first?.ok === false || first === null ? first : await windowsOf(ask);
  if (outcome === null) {
    // Stopped: what is in sight stays, and is now the plan.
    if (latest === ask.id && told !== null) {
      const cautions = built === null ? [] : answerCautions(built, told);
      tell({ kind: "answer", id: ask.id, answer: told, more: false, stopped: true, cautions });
    } else if (latest === ask.id) tell({ kind: "refused", id: ask.id, issues: [] });
    return;
  }
  if (!outcome.ok) {
    tell({ kind: "refused", id: ask.id, issues: outcome.issues });
    return;
  }
  built = outcome.value;
  await plan(ask.id, built, {});
}

function check(id: number, jobs: readonly CrewJobAnswer[]): void {
  if (built === null) return;
  const { request, members, sites } = built;
  const left = told?.left ?? [];
  const crewJobs = jobs.map(toCrewJob);
  const replay = request.fields.flatMap((field, f) => {
    const fates = fatesOf(field, members[f] ?? [], crewJobs);
    return fates === null ? [] : [toldReplay(field.id, fates, hasChance(sites[field.siteId]))];
  });
  const faults = allFaults(built, crewJobs);
  tell({ kind: "checked", id, faults, replay, ...wordsOfJobs(built, jobs, left) });
}

addEventListener("message", ({ data }: MessageEvent<CrewAsk>) => {
  if (data.kind === "cancel") {
    cancelled = true;
    solving?.cancel();
    return;
  }
  if (data.kind === "check") {
    check(data.id, data.jobs);
    return;
  }
  latest = data.id;
  cancelled = false;
  const work =
    data.kind === "plan"
      ? planAnew(data)
      : plan(data.id, withComparison(built, data.timeLimitS), { solve: true });
  work.catch((error: unknown) => {
    // What the model throws here is a mistake of ours: said in words, and what was planned stays.
    const message = error instanceof Error ? error.message : String(error);
    tell({ kind: "refused", id: data.id, issues: [{ path: "", code: "model-error", message }] });
  });
});
