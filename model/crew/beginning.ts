import type { BuiltCrew } from "./build-grid.ts";
import type { AskedDry } from "./dry-all-the-same.ts";
import type { GridField, GridJob } from "./grid.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import { withPromisedHours } from "./promised-hours.ts";
import { RISK_BELOW } from "./replay.ts";
import { crewJob, gridJobs, rulesOf } from "./rules-of.ts";
import { withToldWindows } from "./told-windows.ts";
import { planFaults } from "./validity.ts";
import { jobsOfField } from "./value.ts";

/** Where a search begins. */
export type Start = readonly GridJob[] | undefined;

export interface Beginning {
  readonly asked: BuiltCrew;
  readonly before: Start;
}

/** The plan before as jobs of the grid; null where there is none. */
export function promisedJobs(built: BuiltCrew): readonly GridJob[] | null {
  const { previous } = built.request;
  return previous == null ? null : gridJobs(built, previous.jobs);
}

/** Fields of the plan before of which not every visit is among these jobs. */
function lostIn(
  { grid }: BuiltCrew,
  promised: readonly GridJob[],
  kept: readonly GridJob[],
): readonly number[] {
  return [...new Set(promised.map(({ field }) => field))].filter(
    (f) => jobsOfField(grid.fields[f] as GridField, f, kept) === null,
  );
}

/**
 * Where a search begins: what of the plan before can still be carried out, and the task in which it can. Promised hours
 * that lie in no window stay a choice where the replay will have them; other fields are given those of the replay, from
 * which they may have come, but for a first picture.
 */
export function beginningOf(built: BuiltCrew, brief: boolean, stop: () => boolean): Beginning {
  const promised = promisedJobs(built);
  if (promised === null) return { asked: built, before: undefined };
  const first = { asked: built, before: possibleJobs(built, promised) };
  const begun = withPromises(first, promised) ?? first;
  const only = brief ? [] : lostIn(begun.asked, promised, begun.before);
  const told = only.length === 0 ? null : withToldWindows(begun.asked, begun.before, [], stop, { only });
  const again = told === null ? [] : possibleJobs(told, promised);
  return told !== null && again.length > begun.before.length ? { asked: told, before: again } : begun;
}

/** The same with those promised hours of the fields that it loses which will do, though no window has them; null where none will. */
export function withPromises(
  { asked, before }: { readonly asked: BuiltCrew; readonly before: readonly GridJob[] },
  promised: readonly GridJob[],
  ofCrop?: AskedDry,
) {
  const lost = lostIn(asked, promised, before);
  const all = withPromisedHours(asked, promised, lost, ofCrop);
  if (all === null) return null;
  // Of the others it is machines or people that they have lost: their windows stay as they are.
  const stillLost = lostIn(all, promised, possibleJobs(all, promised));
  const back = lost.filter((f) => !stillLost.includes(f));
  const found = withPromisedHours(asked, promised, back, ofCrop);
  if (found === null) return null;
  const kept = possibleJobs(found, promised);
  return kept.length > before.length ? { asked: found, before: kept } : null;
}

/**
 * The same with promised hours at which the crop is drier than its band, or dry in fewer members than windows are asked for
 * but not at risk: as good a promise as it was, if nothing else is better. Null where there are none.
 */
export function withDoubtfulPromises({ asked, before }: Beginning): Beginning | null {
  const promised = promisedJobs(asked);
  if (promised === null || before === undefined) return null;
  const share = Math.min(RISK_BELOW, asked.request.readyShare ?? 1);
  return withPromises({ asked, before }, promised, { share, tooDry: true });
}

/** Of some jobs those that can be carried out, field by field, and all work that is held. */
export function possibleJobs(built: BuiltCrew, jobs: readonly GridJob[]): GridJob[] {
  const { grid } = built;
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
