import type { BuiltCrew } from "./build-grid.ts";
import { type GridJob, travelOf } from "./grid.ts";
import { machineIsOff, machineIsTaken } from "./hour-lost.ts";
import { AROUND, type Reason } from "./reason.ts";
import type { CrewJobAnswer } from "./request.ts";
import { fieldName } from "./words.ts";

/** Why a visit keeps its hour and takes longer or shorter, or is done by others: the machine, the person, then the work itself. */
export function whyOtherwise(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  before: CrewJobAnswer,
): Reason {
  const { grid } = built;
  const now = jobs.find((job) => job.field === f && job.task === task);
  if (now === undefined) return AROUND;
  const isSame = (id: string, kind: "machines" | "people", k: number) => grid[kind][k]?.id === id;
  if (!isSame(before.machineId, "machines", now.machine)) {
    const hour = { task, before, start: now.start, end: now.end };
    return machineIsOff(built, f, hour) ?? machineIsTaken(built, jobs, f, hour) ?? AROUND;
  }
  if (!isSame(before.personId, "people", now.person)) return whereIsPerson(built, jobs, f, before, now);
  return { why: "its area or the machine's rate is another" };
}

function whereIsPerson(
  { grid, request }: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  before: CrewJobAnswer,
  { start, end }: GridJob,
): Reason {
  const person = grid.people.findIndex(({ id }) => id === before.personId);
  const name =
    request.people[person]?.name ?? request.previous?.names?.people?.[before.personId] ?? before.personId;
  const elsewhere: Reason["customerWhy"] = "somebody else is free then";
  if (person < 0) return { why: `${name} is not in the crew any more`, customerWhy: elsewhere };
  if ((grid.people[person]?.freeUntil[start] as number) < end) {
    return { why: `${name} is not at work throughout`, customerWhy: elsewhere };
  }
  const site = grid.fields[f]?.site ?? 0;
  const other = jobs.find((job) => {
    const drive = travelOf(grid, grid.fields[job.field]?.site ?? 0, site);
    return job.person === person && job.field !== f && job.end + drive > start && end + drive > job.start;
  });
  const at = other === undefined ? undefined : request.fields[other.field];
  return at === undefined
    ? AROUND
    : { why: `${name} is at ${fieldName(at)} or on the way then`, customerWhy: elsewhere };
}
