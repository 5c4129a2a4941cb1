import type { BuiltCrew } from "./build-grid.ts";
import { courseOf, type GridField, type GridJob, slotUtcMs, travelOf } from "./grid.ts";
import { withBack } from "./heuristic/promises.ts";
import { fits, scheduleOf } from "./heuristic/schedule.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { CrewJobAnswer } from "./request.ts";
import { jobsOfField, servedValue } from "./value.ts";
import { dayTime, fieldName, kindWord, opWord, spokenClock } from "./words.ts";

export interface Reason {
  readonly why: string;
  /** The same for the customer, where it would name other customers' fields or what the crew reckons by. */
  readonly customerWhy?: string | undefined;
}

const AROUND: Reason = { why: "the plan around it changed" };

/**
 * What stands in the way of the hour that was promised, the first that is true: the days, the crop, the weather, the
 * machine, the crew, then the works of the same field before and behind it, and last that more is brought in.
 */
export function whyMoved(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  before: CrewJobAnswer,
): Reason {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const own = field.tasks[task];
  const now = jobs.find((job) => job.field === f && job.task === task);
  const mow = jobs.find((job) => job.field === f && job.task === 0);
  if (own === undefined || now === undefined || mow === undefined) return AROUND;
  if (own.fixed !== null) return { why: "it is held at that hour", customerWhy: "that hour was agreed on" };
  const said = (slot: number) => dayTime(slotUtcMs(grid, slot), spokenClock(built));
  const start = Math.round((Date.parse(before.startUtc) - grid.startUtcMs) / grid.slotMs);
  const end = start + (now.end - now.start);
  if (start >= grid.count) return { why: "the forecast does not reach that far" };
  const missed = built.notBegun.some(({ fieldId, op }) => fieldId === field.id && op === own.op);
  if (missed) return { why: `the ${kindWord(KIND_OF_OP[own.op])} was away when it was due` };
  if (start < grid.nowSlot) return { why: "that hour is past" };
  const works = field.tasks.map((_, i) =>
    i === task ? { start, end } : jobs.find((job) => job.field === f && job.task === i),
  );
  const course = courseOf(field, works);
  const mowMoved = field.tasks[0]?.before !== null && field.tasks[0]?.before !== mow.start;
  if (own.ready !== null && own.until !== null) {
    const [ready, until] = [own.ready[course] as number, own.until[course] as number];
    const since = mowMoved && task > 0 ? ` after mowing on ${said(mow.start)}` : "";
    if (start < ready) return { why: `the crop is not ready for it before ${said(ready)}${since}` };
    if (end > until)
      return { why: `its window closes at ${said(until)}, when rain may come or it gets too dry` };
  }
  if ((own.openUntil[start] as number) < end) {
    return { why: "rain, dew, soft ground or darkness stands against that hour" };
  }
  return whoIsAway(built, jobs, f, task, before, { start, end }) ?? inOwnField(built, jobs, f, task, start);
}

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
  if (!isSame(before.machineId, "machines", now.machine))
    return whoIsAway(built, jobs, f, task, before, now) ?? AROUND;
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

/** The machine that was to do it, then the crew: gone, away, or at another field or on the drive. */
function whoIsAway(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  before: CrewJobAnswer,
  { start, end }: { readonly start: number; readonly end: number },
): Reason | null {
  const { grid, request } = built;
  const { site, tasks } = grid.fields[f] as GridField;
  const op = tasks[task]?.op ?? "mow";
  const word = kindWord(KIND_OF_OP[op]);
  const machine = grid.machines.findIndex(({ id }) => id === before.machineId);
  if (machine < 0) return { why: `the ${word} that was to do it is gone` };
  if ((grid.machines[machine]?.freeUntil[start] as number) < end) {
    return { why: `the ${word} is off at that hour` };
  }
  const others = jobs.filter((job) => job.machine === machine && job.field !== f);
  const meets = (job: GridJob) => job.start < end && start < job.end;
  const drives = (job: GridJob) => {
    const drive = travelOf(grid, grid.fields[job.field]?.site ?? 0, site);
    return job.end + drive > start && end + drive > job.start;
  };
  const other = others.find(meets) ?? others.find(drives);
  const at = other === undefined ? undefined : request.fields[other.field];
  if (other !== undefined && at !== undefined) {
    const way = meets(other) ? "" : " or on its way";
    return {
      why: `the ${word} is at ${fieldName(at)}${way} then`,
      customerWhy: `the ${word} is needed elsewhere then`,
    };
  }
  const atWork = grid.people.filter(({ freeUntil }) => (freeUntil[start] as number) >= end);
  if (atWork.length === 0) return { why: "nobody works at that hour", customerWhy: "nobody is free then" };
  const busy = scheduleOf(
    grid,
    jobs.filter((job) => job.field !== f),
  );
  const some = grid.people.some(
    ({ freeUntil }, p) =>
      (freeUntil[start] as number) >= end && fits(grid, busy.taken.people[p], start, end, site),
  );
  return some
    ? null
    : { why: "everybody at work is at other fields then", customerWhy: "nobody is free then" };
}

/** Its hour could be kept but for the works beside it, or for what is brought in. */
function inOwnField(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  start: number,
): Reason {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const own = jobsOfField(field, f, jobs);
  if (own === null) return AROUND;
  const [last, next] = [own[task - 1], own[task + 1]];
  const lagSlots = field.tasks[task + 1]?.lagSlots;
  const length = (own[task]?.end ?? 0) - (own[task]?.start ?? 0);
  if (last !== undefined && start < last.end) {
    return { why: `${opWord(field.tasks[task - 1]?.op ?? "mow")} before it ends later` };
  }
  if (next !== undefined && field.tasks[task + 1]?.before !== next.start) {
    const word = opWord(field.tasks[task + 1]?.op ?? "bale");
    if (lagSlots != null && next.start > start + length + lagSlots) {
      return { why: `${word} moves too, and must follow it soon` };
    }
  }
  const elsewhere = jobs.filter((job) => job.field !== f);
  const back = withBack(grid, scheduleOf(grid, elsewhere), f, own, [task]);
  if (back === null) return AROUND;
  // Without what the move itself costs: whether the hour brings more.
  const free = { ...field, moveCost: 0 };
  return servedValue(free, own) > servedValue(free, back) + 1e-9
    ? { why: "more of the crop is kept this way" }
    : AROUND;
}
