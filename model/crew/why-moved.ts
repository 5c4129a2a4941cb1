import { againstWords, standsAgainst } from "./against.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { courseOf, type GridField, type GridJob, type GridTask, slotUtcMs, travelOf } from "./grid.ts";
import { withBack } from "./heuristic/promises.ts";
import { scheduleOf } from "./heuristic/schedule.ts";
import { laterIsOff, laterIsTaken, type PromisedHour, whoIsAway, whoIsOff, whoIsTaken } from "./hour-lost.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { Reason } from "./reason.ts";
import type { CrewJobAnswer } from "./request.ts";
import { jobsOfField, servedValue } from "./value.ts";
import { dayTime, fieldName, hoursWord, kindWord, opWord, spanTime, spokenClock } from "./words.ts";

const AROUND: Reason = { why: "the plan around it changed" };

/**
 * What stands in the way of the hour that was promised, the first that is true: the days, who is away, then crop and weather
 * had the field's works kept their hours; the same of its later works, for the sake of which this one moves; then crop and
 * weather after the mowing as it is now, who is at other fields, the works beside it, and last that more is brought in.
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
  const works = field.tasks.map((_, i) => jobs.find((job) => job.field === f && job.task === i));
  const [mow, now] = [works[0], works[task]];
  if (own === undefined || now === undefined || mow === undefined) return AROUND;
  if (own.fixed !== null) return { why: "it is held at that hour", customerWhy: "that hour was agreed on" };
  const mine = promisedHour(built, task, before, now.end - now.start);
  const { start } = mine;
  if (start >= grid.count) return { why: "the forecast does not reach that far" };
  const missed = built.notBegun.some(({ fieldId, op }) => fieldId === field.id && op === own.op);
  if (missed) return { why: `the ${kindWord(KIND_OF_OP[own.op])} was away when it was due` };
  if (start < grid.nowSlot) return { why: "that hour is past" };
  const promised = promisedHours(built, f, works);
  const asPromised = works.map((job, i) => field.tasks[i]?.fixed ?? promised[i] ?? job);
  const asNow = works.map((job, i) => (i === task ? mine : job));
  const later = promised.flatMap((hour, i) =>
    hour !== null && i > task && hour.start !== works[i]?.start ? [hour] : [],
  );
  const laterUnfit = (hour: PromisedHour): Reason | null => {
    const unfit = notFit(built, jobs, f, hour, asPromised);
    if (unfit === null) return null;
    const will = `${opWord(field.tasks[hour.task]?.op ?? "bale")} on ${dayTime(slotUtcMs(grid, hour.start), spokenClock(built))} will not do`;
    const customerWhy = unfit.customerWhy === undefined ? undefined : `${will}: ${unfit.customerWhy}`;
    return { why: `${will}: ${unfit.why}`, customerWhy };
  };
  return (
    whoIsOff(built, f, mine) ??
    notFit(built, jobs, f, mine, asPromised) ??
    firstOf(later, (hour) => laterIsOff(built, f, hour)) ??
    firstOf(later, laterUnfit) ??
    notFit(built, jobs, f, mine, asNow) ??
    whoIsTaken(built, jobs, f, mine) ??
    firstOf(later, (hour) => laterIsTaken(built, jobs, f, hour)) ??
    inOwnField(built, jobs, f, task, start)
  );
}

function firstOf<T>(list: readonly T[], reasonOf: (one: T) => Reason | null): Reason | null {
  for (const one of list) {
    const found = reasonOf(one);
    if (found !== null) return found;
  }
  return null;
}

/** A visit of the plan before in the slots of this one, as long as it takes now. */
function promisedHour({ grid }: BuiltCrew, task: number, before: CrewJobAnswer, slots: number): PromisedHour {
  const start = Math.round((Date.parse(before.startUtc) - grid.startUtcMs) / grid.slotMs);
  return { task, before, start, end: start + slots };
}

/** The promised hours of a field's works still to come, by task; null where it has none. */
function promisedHours(
  built: BuiltCrew,
  f: number,
  works: readonly (GridJob | undefined)[],
): readonly (PromisedHour | null)[] {
  const { grid, request } = built;
  const field = grid.fields[f] as GridField;
  return field.tasks.map(({ op, fixed }, task) => {
    const before = request.previous?.jobs.find((job) => job.fieldId === field.id && job.op === op);
    const work = works[task];
    if (before === undefined || work === undefined || fixed !== null) return null;
    const hour = promisedHour(built, task, before, work.end - work.start);
    return hour.start >= grid.nowSlot && hour.start < grid.count ? hour : null;
  });
}

/** Crop or weather that stand against an hour of a work beside these works of its field; null = neither. */
function notFit(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
  works: readonly (Pick<GridJob, "start" | "end"> | undefined)[],
): Reason | null {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const { task, start, end } = hour;
  const { op, ready, until, openUntil } = field.tasks[task] as GridTask;
  const said = (slot: number) => dayTime(slotUtcMs(grid, slot), spokenClock(built));
  const course = courseOf(field, works);
  const mow = works[0];
  const isMowMoved = field.tasks[0]?.before !== null && field.tasks[0]?.before !== mow?.start;
  const since = isMowMoved && task > 0 && mow !== undefined ? ` after mowing on ${said(mow.start)}` : "";
  if (ready !== null && until !== null) {
    const [opens, closes] = [ready[course] as number, until[course] as number];
    if (opens < 0) return since === "" ? null : { why: `no hours would do for it${since}` };
    if (start < opens) {
      const notReady = `the crop is not ready for it before ${said(opens)}${since}`;
      const then = whyNotThen(built, jobs, f, hour, opens, Math.min(closes, openUntil[opens] ?? closes));
      if (then === null) return { why: notReady };
      return {
        why: `${notReady}, and ${then.why}`,
        customerWhy: `${notReady}, and ${then.customerWhy ?? then.why}`,
      };
    }
    if (end > closes)
      return {
        why: `${since === "" ? "" : `${since.trimStart()} `}its window closes at ${said(closes)}, when rain may come or it gets too dry`,
      };
  }
  if ((openUntil[start] as number) >= end) return null;
  const span = { fromUtcMs: slotUtcMs(grid, start), toUtcMs: slotUtcMs(grid, end) };
  const own = works.flatMap((job, i) => {
    const other = field.tasks[i]?.op;
    if (job === undefined || other === undefined || i >= task) return [];
    const [startUtcMs, endUtcMs] = [slotUtcMs(grid, job.start), slotUtcMs(grid, job.end)];
    return [{ fieldId: field.id, op: other, machineId: "", personId: "", startUtcMs, endUtcMs }];
  });
  return { why: againstWords(op, standsAgainst(built, field.id, op, span, own)) };
}

/** Why a work that is ready later than promised is not done as soon as it is; null where it is. */
function whyNotThen(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
  opens: number,
  closes: number,
): Reason | null {
  const { grid } = built;
  const now = jobs.find((job) => job.field === f && job.task === hour.task);
  const slots = hour.end - hour.start;
  if (now === undefined || now.start <= opens) return null;
  if (closes - opens >= slots)
    return whoIsAway(built, jobs, f, { ...hour, start: opens, end: opens + slots });
  if (closes <= opens) return null;
  const span = spanTime(slotUtcMs(grid, opens), slotUtcMs(grid, closes), spokenClock(built));
  return { why: `${span} is too short for the ${hoursWord(slots * grid.slotMs)} it takes` };
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
    return whoIsAway(built, jobs, f, { task, before, start: now.start, end: now.end }) ?? AROUND;
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
