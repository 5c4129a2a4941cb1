import type { BuiltCrew } from "./build-grid.ts";
import type { GridField, GridJob } from "./grid.ts";
import { fatesOf, meanKept } from "./replay.ts";
import { crewJob } from "./rules-of.ts";
import { jobsOfField, keptShare, leftValue, servedValue } from "./value.ts";

/** What the replay expects of a plan, in the money of the objective: its value, with the share kept over the members instead. */
export function expectedValue(built: BuiltCrew, jobs: readonly GridJob[]): number {
  return built.grid.fields.reduce((sum, field, f) => {
    const own = jobsOfField(field, f, jobs);
    if (own === null) return sum + leftValue(field);
    return (
      sum + servedValue(field, own) + field.worth * (expectedKept(built, f, own) - keptShare(field, own))
    );
  }, 0);
}

/** The share of a field's crop that the replay expects to be kept by these jobs; that of the objective where it cannot tell. */
export function expectedKept(built: BuiltCrew, f: number, own: readonly GridJob[]): number {
  const { grid, request, members } = built;
  const asked = request.fields[f];
  const moments = own.map((job) => crewJob(built, job));
  const fates = asked === undefined ? null : fatesOf(asked, members[f] ?? [], moments);
  return fates === null ? keptShare(grid.fields[f] as GridField, own) : meanKept(fates);
}
