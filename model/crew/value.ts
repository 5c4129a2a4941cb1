import { courseOf, type Grid, type GridField, type GridJob } from "./grid.ts";

/** Visits of the plan that is being changed, that are not done yet. */
function promised(field: GridField): number {
  return field.tasks.filter(({ before, fixed }) => before !== null && fixed === null).length;
}

/** What a field left standing counts: nothing, less the promised visits that fall out. */
export function leftValue(field: GridField): number {
  return -field.moveCost * promised(field);
}

/** The share of a field's crop that the objective reckons as kept by these jobs, in the order of its tasks. */
export function keptShare(field: GridField, jobs: readonly Pick<GridJob, "start" | "end">[]): number {
  const gather = field.gather < 0 ? undefined : jobs[field.gather];
  const lost = gather === undefined ? 0 : (field.gatherCost[gather.start] as number);
  return (field.mowGain[courseOf(field, jobs)] as number) - lost;
}

/** The planning objective of one field served by these jobs, in the order of its tasks. */
export function servedValue(field: GridField, jobs: readonly Pick<GridJob, "start" | "end">[]): number {
  const mow = jobs[0];
  const last = jobs.at(-1);
  if (mow === undefined || last === undefined) return leftValue(field);
  const moved = field.tasks.filter(
    ({ before, fixed }, i) => before !== null && fixed === null && jobs[i]?.start !== before,
  ).length;
  return field.worth * keptShare(field, jobs) - (field.lateCost[last.end] as number) - field.moveCost * moved;
}

/** The jobs of one field in the order of its tasks; null where any is missing, or what is done cannot lead to its end. */
export function jobsOfField(
  field: GridField,
  index: number,
  jobs: readonly GridJob[],
): readonly GridJob[] | null {
  const own = field.tasks.map((_, task) => jobs.find((job) => job.field === index && job.task === task));
  if (own[0] === undefined || !Number.isFinite(field.mowGain[courseOf(field, own)])) return null;
  return own.every((job) => job !== undefined) ? own : null;
}

/** The planning objective of a whole plan. */
export function planValue(grid: Grid, jobs: readonly GridJob[]): number {
  return grid.fields.reduce((sum, field, index) => {
    const own = jobsOfField(field, index, jobs);
    return sum + (own === null ? leftValue(field) : servedValue(field, own));
  }, 0);
}

/** The jobs of each field with what they bring, where a search begins; null where it is left or brings nothing. */
export function placesOf(
  grid: Grid,
  jobs: readonly GridJob[] | undefined,
): ({ readonly jobs: readonly GridJob[]; readonly value: number } | null)[] | undefined {
  return jobs === undefined
    ? undefined
    : grid.fields.map((field, f) => {
        const own = jobsOfField(field, f, jobs);
        if (own === null) return null;
        const value = servedValue(field, own);
        return value > leftValue(field) ? { jobs: own, value } : null;
      });
}
