import { once } from "../once.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridField, type GridJob, momentsOf, slotUtcMs } from "./grid.ts";
import { laterIsOff, laterIsTaken, type PromisedHour, whoIsOff, whoIsTaken } from "./hour-lost.ts";
import { endsLater, forItsOwn, moreIsKept, nextWouldNotDo, putBack } from "./in-own-field.ts";
import { KIND_OF_OP } from "./keys.ts";
import { notFit } from "./not-fit.ts";
import { AROUND, type Cause, type Reason, type Visit } from "./reason.ts";
import { dayTime, fieldName, kindWord, listWords, opWord, spokenClock } from "./words.ts";

/** A visit of the plan before that this plan has at another hour. */
interface Moved extends PromisedHour {
  readonly field: number;
  readonly now: GridJob;
}

/** Why the visits of a plan are not at the hours that were promised; a visit that kept its hour has no reason. */
export function whyMoved(
  built: BuiltCrew,
  jobs: readonly GridJob[],
): (field: number, task: number) => Reason {
  const moved = movedVisits(built, jobs);
  const keyOf = ({ field, task }: Visit) => `${field}-${task}`;
  const byKey = new Map(moved.map((visit) => [keyOf(visit), visit]));
  const more = once(() => moreIsKept(built, jobs));
  const chosen = new Map<string, Cause>();
  const asked = new Set<string>();
  // The first cause that is true and does not lead back to the visit itself: what others are blamed for has a cause of its own.
  const choose = (visit: Moved): void => {
    const key = keyOf(visit);
    asked.add(key);
    for (const cause of causesOf(built, jobs, moved, visit, more)) {
      const blamed = (cause.of ?? []).flatMap((one) => byKey.get(keyOf(one)) ?? []);
      for (const one of blamed) if (!asked.has(keyOf(one))) choose(one);
      // One that is still without a cause waits for this one.
      if (blamed.every((one) => chosen.has(keyOf(one)))) {
        chosen.set(key, withPlaces(built, moved, visit, cause));
        return;
      }
    }
    chosen.set(key, AROUND);
  };
  for (const visit of moved) if (!asked.has(keyOf(visit))) choose(visit);
  return (field, task) => chosen.get(keyOf({ field, task })) ?? AROUND;
}

function movedVisits({ grid, request }: BuiltCrew, jobs: readonly GridJob[]): Moved[] {
  return grid.fields.flatMap((field, f) =>
    field.tasks.flatMap(({ op }, task): Moved[] => {
      const before = request.previous?.jobs.find((job) => job.fieldId === field.id && job.op === op);
      const now = jobs.find((job) => job.field === f && job.task === task);
      if (before === undefined || now === undefined) return [];
      if (Date.parse(before.startUtc) === momentsOf(grid, now).fromUtcMs) return [];
      const start = Math.round((Date.parse(before.startUtc) - grid.startUtcMs) / grid.slotMs);
      return [{ field: f, task, before, now, start, end: start + now.end - now.start }];
    }),
  );
}

/**
 * What stands in the way of the hour that was promised, the nearest first: the days, who is away, then crop and weather
 * had the mowing kept its hour, of the work after it too if that keeps its own; the same of its later works, for the sake
 * of which this one moves; then crop and weather after the mowing as it is now, the works before it, who is at other
 * fields, and last that more is brought in.
 */
function* causesOf(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  moved: readonly Moved[],
  visit: Moved,
  more: () => boolean,
): Generator<Cause> {
  const { grid } = built;
  const { field: f, task, start } = visit;
  const field = grid.fields[f] as GridField;
  const own = field.tasks[task];
  const works = field.tasks.map((_, i) => jobs.find((job) => job.field === f && job.task === i));
  const mow = works[0];
  if (own === undefined || mow === undefined) return;
  if (own.fixed !== null) yield { why: "it is held at that hour", customerWhy: "that hour was agreed on" };
  if (start >= grid.count) yield { why: "the forecast does not reach that far" };
  const missed = built.notBegun.some(({ fieldId, op }) => fieldId === field.id && op === own.op);
  if (missed) yield { why: `the ${kindWord(KIND_OF_OP[own.op])} was away when it was due` };
  if (start < grid.nowSlot) yield { why: "that hour is past" };
  if (own.fixed !== null || start < 0 || start >= grid.count) return;
  const promised = moved.filter(
    (one) =>
      one.field === f &&
      field.tasks[one.task]?.fixed === null &&
      one.start >= grid.nowSlot &&
      one.start < grid.count,
  );
  const asPromised = works.map((job, i) => promised.find((one) => one.task === i) ?? job);
  const later = promised.filter((one) => one.task > task);
  const laterUnfit = (hour: Moved): Cause[] => {
    const at = dayTime(slotUtcMs(grid, hour.start), spokenClock(built));
    const will = `${opWord(field.tasks[hour.task]?.op ?? "bale")} on ${at} will not do`;
    return notFit(built, jobs, f, hour, asPromised).map(({ why, customerWhy, of }) => ({
      why: `${will}: ${why}`,
      customerWhy: customerWhy === undefined ? undefined : `${will}: ${customerWhy}`,
      of,
    }));
  };
  yield* some(whoIsOff(built, f, visit));
  yield* notFit(built, jobs, f, visit, asPromised);
  yield* some(nextWouldNotDo(built, jobs, visit));
  for (const hour of later) yield* some(laterIsOff(built, f, hour));
  for (const hour of later) yield* laterUnfit(hour);
  yield* notFit(built, jobs, f, visit, works);
  const isNearer = changedWith(built, moved, visit) === undefined;
  if (isNearer) yield* some(endsLater(built, jobs, visit));
  yield* some(whoIsTaken(built, jobs, f, visit));
  for (const hour of later) yield* some(laterIsTaken(built, jobs, f, hour));
  if (!isNearer) yield* some(endsLater(built, jobs, visit));
  yield* forItsOwn(built, jobs, visit);
  // Where the visit could go back, the rest of the plan does not ask for its move.
  const isAsked = () => putBack(built, jobs, visit) === null && more();
  yield* some(inWholePlan(built, moved, visit, isAsked));
  const next = works[task + 1];
  if (next !== undefined && next.start < visit.end && field.tasks[task + 1]?.before !== next.start) {
    const at = dayTime(slotUtcMs(grid, next.start), spokenClock(built));
    const why = `${opWord(field.tasks[task + 1]?.op ?? "bale")} comes sooner, on ${at}`;
    yield { why, of: [{ field: f, task: task + 1 }] };
  }
}

function some(cause: Cause | null): Cause[] {
  return cause === null ? [] : [cause];
}

/** The visit of another field with which this one changed places: the same work, one before the other then and after it now. */
function changedWith(built: BuiltCrew, moved: readonly Moved[], visit: Moved): Moved | undefined {
  const { grid } = built;
  const opOf = (one: Moved) => grid.fields[one.field]?.tasks[one.task]?.op;
  const takes = ({ now }: Moved, { start, end }: Moved) => now.start < end && start < now.end;
  return moved.find((other) => {
    if (other.field === visit.field || opOf(other) !== opOf(visit)) return false;
    const wasBefore = visit.start < other.start;
    if (wasBefore !== other.now.start < visit.now.start) return false;
    const [first, second] = wasBefore ? [visit, other] : [other, visit];
    // The one comes where the other was; the other goes at least to the hours beside.
    return takes(second, first) && first.now.start <= second.end && first.now.end >= second.start;
  });
}

function placeWords({ request }: BuiltCrew, { field }: Moved): string {
  const asked = request.fields[field];
  return asked === undefined ? "another field" : fieldName(asked);
}

/** A cause that blames the very visit that this one changed places with says so. */
function withPlaces(built: BuiltCrew, moved: readonly Moved[], visit: Moved, cause: Cause): Cause {
  const other = changedWith(built, moved, visit);
  const isBlamed = cause.of?.some(({ field, task }) => field === other?.field && task === other.task);
  if (other === undefined || !isBlamed || !cause.why.endsWith(" then")) return cause;
  return { ...cause, why: `${cause.why}: the two have changed places` };
}

/** With whom it changed places, and that more of all fields is kept: where no nearer cause is known, or it leads in a circle. */
function inWholePlan(
  built: BuiltCrew,
  moved: readonly Moved[],
  visit: Moved,
  isMore: () => boolean,
): Cause | null {
  const other = changedWith(built, moved, visit);
  const more = isMore() ? ["more of all fields is kept this way"] : [];
  const places = other === undefined ? [] : [`it has changed places with ${placeWords(built, other)}`];
  const why = listWords([...places, ...more]);
  return why === "" ? null : { why, customerWhy: "the visits of these days are ordered anew" };
}
