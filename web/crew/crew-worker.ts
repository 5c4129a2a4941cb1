import {
  type BuiltCrew,
  buildGrid,
  type CrewJobAnswer,
  type CrewPlanRequest,
  checkCrewRequest,
  fatesOf,
  hasChance,
  planBuilt,
  planFaults,
  rulesOf,
  toCrewJob,
  toldReplay,
} from "../../model/crew/index.ts";
import type { CrewAsk, CrewTell } from "./messages.ts";
import { type PageSolver, pageSolver } from "./page-solver.ts";

/** The windows of the last question: kept, so that a dragged job is checked at once. */
let built: BuiltCrew | null = null;
let solving: PageSolver | null = null;
let cancelled = false;

const tell = (message: CrewTell) => postMessage(message);

async function plan(id: number, known: BuiltCrew | null, withSolver: boolean, more = false): Promise<void> {
  if (known === null) return;
  const startMs = performance.now();
  cancelled = false;
  solving = withSolver ? pageSolver() : null;
  const answer = await planBuilt(known, {
    solver: solving?.solver ?? null,
    elapsedS: () => (performance.now() - startMs) / 1000,
    stop: () => cancelled,
    onProgress: (progress) => tell({ kind: "progress", id, progress }),
  });
  solving = null;
  tell({ kind: "answer", id, answer, more });
}

/** The robust plan takes windows of its own: it is made where somebody waits for the best one anyhow. */
function withComparison(known: BuiltCrew | null): BuiltCrew | null {
  return known && { ...known, request: { ...known.request, compare: true } };
}

function withoutMembers(sites: CrewPlanRequest["sites"]): CrewPlanRequest["sites"] {
  return Object.fromEntries(
    Object.entries(sites).map(([id, site]) => {
      const { members, ...series } = site.series;
      return [id, { ...site, series }];
    }),
  );
}

async function planAnew(ask: Extract<CrewAsk, { kind: "plan" }>): Promise<void> {
  const issues = checkCrewRequest(ask.request);
  if (issues.length === 0 && Object.values(ask.request.sites).some(({ series }) => series.members?.length)) {
    // The middle forecast alone is read in a fraction of the time: a first picture while the members are worked through.
    const first = buildGrid({ ...ask.request, sites: withoutMembers(ask.request.sites) });
    if (first.ok) {
      built = first.value;
      await plan(ask.id, built, false, true);
    }
  }
  const outcome = issues.length > 0 ? ({ ok: false, issues } as const) : buildGrid(ask.request);
  if (!outcome.ok) {
    tell({ kind: "refused", id: ask.id, issues: outcome.issues });
    return;
  }
  built = outcome.value;
  await plan(ask.id, built, false);
}

function check(id: number, jobs: readonly CrewJobAnswer[]): void {
  if (built === null) return;
  const { request, members, sites } = built;
  const crewJobs = jobs.map(toCrewJob);
  const replay = request.fields.flatMap((field, f) => {
    const fates = fatesOf(field, members[f] ?? [], crewJobs);
    return fates === null ? [] : [toldReplay(field.id, fates, hasChance(sites[field.siteId]))];
  });
  tell({ kind: "checked", id, faults: planFaults(rulesOf(built), crewJobs), replay });
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
  const work = data.kind === "plan" ? planAnew(data) : plan(data.id, withComparison(built), true);
  work.catch((error: unknown) => {
    // What the model throws here is a mistake of ours: said in words, and what was planned stays.
    const message = error instanceof Error ? error.message : String(error);
    tell({ kind: "refused", id: data.id, issues: [{ path: "", code: "model-error", message }] });
  });
});
