import { type Against, againstWords, standsAgainst } from "./against.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { coursesAt, type GridField, type GridJob, type GridTask, middleSlot, slotUtcMs } from "./grid.ts";
import type { PromisedHour } from "./hour-lost.ts";
import { notSooner, type OpenHours } from "./not-sooner.ts";
import type { Cause, Visit } from "./reason.ts";
import { hasChance } from "./windows/site-weather.ts";
import { dayTime, listWords, spokenClock } from "./words.ts";

/** Crop and weather against an hour that was promised. */

type Slots = Pick<GridJob, "start" | "end">;
type Works = readonly (Slots | undefined)[];

/** What a field's mowing opens for a work: the earliest and the latest of all courses it may begin. */
interface Opened {
  readonly windows: readonly OpenHours[];
  readonly opens: number;
  readonly closes: number;
  /** The stretch between two windows that the hour lies in; null where it lies in a window, or before or after all. */
  readonly gap: readonly [from: number, to: number] | null;
  readonly isIn: boolean;
}

/** Windows of a work after a mowing, whatever is done in between; null where none opens. */
function openedBy(
  field: GridField,
  task: number,
  mow: Pick<GridJob, "start" | "end">,
  hour: PromisedHour,
): Opened | null {
  const { ready, until } = field.tasks[task] as GridTask;
  const windows = coursesAt(field, middleSlot(mow.start, mow.end)).flatMap((course) => {
    const [opens, closes] = [ready?.[course] ?? -1, until?.[course] ?? -1];
    return opens >= 0 && Number.isFinite(field.mowGain[course] as number) ? [{ opens, closes }] : [];
  });
  if (windows.length === 0) return null;
  const { start, end } = hour;
  const before = windows.filter(({ opens }) => opens <= start).map(({ closes }) => closes);
  const after = windows.filter(({ opens }) => opens > start).map(({ opens }) => opens);
  const [from, to] = [Math.max(...before), Math.min(...after)];
  return {
    windows,
    opens: Math.min(...windows.map(({ opens }) => opens)),
    closes: Math.max(...windows.map(({ closes }) => closes)),
    isIn: windows.some(({ opens, closes }) => start >= opens && end <= closes),
    gap: before.length > 0 && after.length > 0 && from < to ? [from, to] : null,
  };
}

/**
 * Crop or weather that stand against an hour of a work beside these works of its field, told so that it is true of the hour
 * that the plan gives it too, the fullest first; none = neither, or none of which that can be said.
 *
 * @param works with the mowing as it was promised, or as it is now
 */
export function notFit(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
  works: Works,
): Cause[] {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const { task, start, end } = hour;
  const { op, ready, openUntil } = field.tasks[task] as GridTask;
  const now = jobs.find((job) => job.field === f && job.task === task);
  const said = (slot: number) => dayTime(slotUtcMs(grid, slot), spokenClock(built));
  const mow = works[0];
  if (now === undefined) return [];
  if (ready !== null && mow !== undefined) {
    const mown = jobs.find((job) => job.field === f && job.task === 0);
    const first = field.tasks[0];
    const isMowMoved = first?.fixed === null && first.before !== null && first.before !== mown?.start;
    const isAsPromised = isMowMoved && mow.start !== mown?.start;
    const opened = openedBy(field, task, mow, hour);
    if (opened === null) {
      return isAsPromised ? [{ why: "mown as promised, no hours would do for it" }] : [];
    }
    if (isAsPromised) {
      if (start < opened.opens)
        return [{ why: `mown as promised, the crop would not be ready for it before ${said(opened.opens)}` }];
      if (end > opened.closes && !opened.isIn)
        return [{ why: `mown as promised, its window would close on ${said(opened.closes)}` }];
    } else {
      const since = isMowMoved ? `after mowing on ${said(mow.start)}` : "";
      const unfit = inWindow(built, jobs, f, hour, now, opened, { works, since });
      if (unfit.length > 0) return unfit;
    }
  }
  if ((openUntil[start] as number) >= end) return [];
  return [{ why: againstWords(op, against(built, f, task, hour, works)) }];
}

/** Why an hour lies in none of these windows, as far as the plan's own hour agrees. */
function inWindow(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
  now: GridJob,
  opened: Opened,
  { works, since }: { readonly works: Works; readonly since: string },
): Cause[] {
  const { windows, opens, closes, gap, isIn } = opened;
  const said = (slot: number) => dayTime(slotUtcMs(built.grid, slot), spokenClock(built));
  if (isIn) return [];
  // After a mowing that moved: what moved that.
  const mowing: readonly Visit[] = since === "" ? [] : [{ field: f, task: 0 }];
  // By itself too, where what keeps it longer leads back to the work itself.
  const withThen = (why: string, then: Cause | null): Cause[] => {
    const alone = { why, of: mowing };
    if (then === null) return [alone];
    const customerWhy = `${why}, and ${then.customerWhy ?? then.why}`;
    return [{ why: `${why}, and ${then.why}`, customerWhy, of: [...mowing, ...(then.of ?? [])] }, alone];
  };
  if (hour.start < opens) {
    if (now.start < opens) return [];
    const { first, why } = notSooner(built, jobs, f, hour, now, opens, windows);
    const before =
      first === opens ? "the crop is not ready for it before" : "no hours that would do for it come before";
    return withThen(`${before} ${said(first)}${since === "" ? "" : ` ${since}`}`, why);
  }
  if (gap !== null) {
    const [from, to] = gap;
    if (now.start < to && now.end > from) return [];
    const later =
      now.start < to ? { first: to, why: null } : notSooner(built, jobs, f, hour, now, to, windows);
    const stand = standWords(against(built, f, hour.task, hour, works));
    const none = `no hours are fit for it between ${said(from)} and ${said(later.first)}${stand}`;
    return withThen(none, later.why);
  }
  if (hour.end <= closes || now.end > closes) return [];
  const closing = closingWords(built, f, hour.task, closes, works);
  const why = `${since === "" ? "" : `${since} `}its window closes on ${said(closes)}${closing}`;
  return [{ why, of: mowing }];
}

/** ", when rain may come and it gets too dry": what ends a window, where that is known. */
function closingWords(built: BuiltCrew, f: number, task: number, closes: number, works: Works): string {
  const { grid, sites, request } = built;
  const field = grid.fields[f] as GridField;
  const op = field.tasks[task]?.op;
  if (op === undefined || closes >= grid.count) return "";
  const hour = { start: closes, end: closes + 1 };
  const { weather, wetFromRain, crop } = against(built, f, task, hour, works);
  const rain = hasChance(sites[request.fields[f]?.siteId ?? ""]) ? "rain may come" : "rain comes";
  const isWet = crop === "too wet" || (wetFromRain && !weather.includes("rain"));
  const ends = [
    ...(weather.includes("rain") ? [rain] : []),
    ...(weather.includes("dew") ? ["dew falls"] : []),
    ...(weather.includes("soft ground") ? ["the ground gets too soft"] : []),
    ...(weather.includes("darkness") ? ["it gets dark"] : []),
    ...(isWet && !weather.includes("rain") ? ["the crop gets too wet"] : []),
    ...(crop === "too dry" ? ["the crop gets too dry"] : []),
  ];
  return ends.length === 0 ? "" : `, when ${listWords(ends)}`;
}

/** What stands against some slots of a work beside the works before it. */
function against(built: BuiltCrew, f: number, task: number, hour: Slots, works: Works): Against {
  const { grid } = built;
  const { id, tasks } = grid.fields[f] as GridField;
  const before = tasks.slice(0, task).flatMap(({ op }, i) => {
    const job = works[i];
    if (job === undefined) return [];
    const [startUtcMs, endUtcMs] = [slotUtcMs(grid, job.start), slotUtcMs(grid, job.end)];
    return [{ fieldId: id, op, machineId: "", personId: "", startUtcMs, endUtcMs }];
  });
  const span = { fromUtcMs: slotUtcMs(grid, hour.start), toUtcMs: slotUtcMs(grid, hour.end) };
  return standsAgainst(built, id, (tasks[task] as GridTask).op, span, before);
}

/** " (rain, soft ground and crop too wet at that hour)"; nothing where nothing is known. */
function standWords({ weather, wetFromRain, crop }: Against): string {
  const isWet = wetFromRain && !weather.includes("rain");
  const stand = [
    ...weather,
    ...(isWet ? ["water from rain"] : []),
    ...(crop === null ? [] : [`crop ${crop}`]),
  ];
  return stand.length === 0 ? "" : ` (${listWords(stand)} at that hour)`;
}
