import {
  type BuiltCrew,
  buildGrid,
  type CrewJobAnswer,
  checkCrewRequest,
  fatesOf,
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

async function plan(id: number, withSolver: boolean): Promise<void> {
  if (built === null) return;
  const startMs = performance.now();
  cancelled = false;
  solving = withSolver ? pageSolver() : null;
  const answer = await planBuilt(built, {
    solver: solving?.solver ?? null,
    elapsedS: () => (performance.now() - startMs) / 1000,
    stop: () => cancelled,
    onProgress: (progress) => tell({ kind: "progress", id, progress }),
  });
  solving = null;
  tell({ kind: "answer", id, answer });
}

async function planAnew(ask: Extract<CrewAsk, { kind: "plan" }>): Promise<void> {
  const issues = checkCrewRequest(ask.request);
  const outcome = issues.length > 0 ? ({ ok: false, issues } as const) : buildGrid(ask.request);
  if (!outcome.ok) {
    tell({ kind: "refused", id: ask.id, issues: outcome.issues });
    return;
  }
  built = outcome.value;
  await plan(ask.id, false);
}

function check(id: number, jobs: readonly CrewJobAnswer[]): void {
  if (built === null) return;
  const { request, members, sites } = built;
  const crewJobs = jobs.map(toCrewJob);
  const replay = request.fields.flatMap((field, f) => {
    const fates = fatesOf(field, members[f] ?? [], crewJobs);
    return fates === null ? [] : [toldReplay(field.id, fates, sites[field.siteId]?.hasMembers ?? false)];
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
  const work = data.kind === "plan" ? planAnew(data) : plan(data.id, true);
  work.catch((error: unknown) => {
    // What the model throws here is a mistake of ours: said in words, and what was planned stays.
    const message = error instanceof Error ? error.message : String(error);
    tell({ kind: "refused", id: data.id, issues: [{ path: "", code: "model-error", message }] });
  });
});
