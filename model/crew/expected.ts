import type { BuiltCrew } from "./build-grid.ts";
import type { GridJob } from "./grid.ts";
import { fatesOf, meanKept } from "./replay.ts";
import { crewJob } from "./rules-of.ts";
import { jobsOfField, keptShare, leftValue, servedValue } from "./value.ts";

/** What the replay expects of a plan, in the money of the objective: its value, with the share kept over the members instead. */
export function expectedValue(built: BuiltCrew, jobs: readonly GridJob[]): number {
  const { grid, request, members } = built;
  return grid.fields.reduce((sum, field, f) => {
    const own = jobsOfField(field, f, jobs);
    if (own === null) return sum + leftValue(field);
    const value = servedValue(field, own);
    const asked = request.fields[f];
    const moments = own.map((job) => crewJob(built, job));
    const fates = asked === undefined ? null : fatesOf(asked, members[f] ?? [], moments);
    if (fates === null) return sum + value;
    return sum + value + field.worth * (meanKept(fates) - keptShare(field, own));
  }, 0);
}
