import { HOUR_MS } from "../weather/clock.ts";

/**
 * Whether what was told came: found from what a book knows of the cut later. The event that is told of a route is a window
 * of its machine: long enough for the area, and overlapping the hours told.
 */

/** `what` of a told chance that this rule finds out about; of any other a book must say itself whether it came. */
export const WINDOW_EVENT = "window";

/**
 * Times in a book are rounded: work begun or a reading taken so near to the told hours' edge counts as at it, h. Assumed.
 */
export const AT_EDGE_H = 1;

/** A chance was told of a cut mown at an hour: of one that was mown farther from it nothing is found, h. Assumed. */
export const OF_CUT_H = 3;

/** What the rule reads of a told window. */
export interface ToldWindow {
  readonly route: string;
  readonly issuedUtc: string;
  readonly fromUtc: string;
  readonly toUtc: string;
  /** When mowing was to begin; absent = the cut as it lies. */
  readonly cutUtc?: string | null | undefined;
  /** The route's band, wet basis; absent = no reading can tell. */
  readonly bandWb?: readonly [number, number] | null | undefined;
}

/** What it reads of a kept cut. */
export interface KeptCut {
  readonly id: string;
  readonly fieldId?: string | null | undefined;
  readonly route?: string | null | undefined;
  readonly plannedUtc?: string | null | undefined;
  readonly cutUtc?: string | null | undefined;
  readonly operations?:
    | readonly {
        readonly kind: string;
        readonly doneUtc?: string | null | undefined;
        readonly doneEndUtc?: string | null | undefined;
      }[]
    | null
    | undefined;
}

/** What it reads of the readings of that cut. */
export interface CutReading {
  readonly atUtc: string;
  readonly moistureWb?: number | null | undefined;
}

/** The operation that a route's window is for; green chop and grazing take a part a day and have none. */
const WORK_OF_ROUTE: Readonly<Record<string, string>> = {
  "dry-hay": "bale",
  "wrapped-bales": "bale",
  "wilted-chop": "chop",
  "direct-chop": "chop",
};

const msOf = (utc: string | null | undefined): number => Date.parse(utc ?? "");

const isDone = (operation: { readonly doneUtc?: string | null | undefined }): boolean =>
  Boolean(operation.doneUtc);

/** The route that a cut came in by: bales with a film on are wrapped ones, whatever had been planned. */
function takenRoute({ route, operations }: KeptCut): string | null {
  const wrapped = (operations ?? []).some((one) => one.kind === "wrap" && isDone(one));
  return wrapped ? "wrapped-bales" : (route ?? null);
}

/** When it was mown; NaN where that is not kept. */
export function mownMs({ cutUtc, operations }: KeptCut): number {
  const mower = (operations ?? []).find((one) => one.kind === "mow" && isDone(one));
  return msOf(cutUtc ?? mower?.doneUtc);
}

/** A course begins in the middle of a mowing that may take a day's work: farther from it, h, it is of another cut. Assumed. */
const OF_COURSE_H = 12;

/** Whether a course that begins then is of this cut: true where nobody kept when it was mown. */
export function isCourseOf(cut: KeptCut, courseStartUtc: string): boolean {
  const offMs = Math.abs(mownMs(cut) - msOf(courseStartUtc));
  return Number.isNaN(offMs) || offMs <= OF_COURSE_H * HOUR_MS;
}

/** The work that takes a swath up. */
const GATHERING: readonly string[] = ["bale", "chop"];

/** Whether all of a cut was taken up before a moment: what is read from then on is of bales or a store, not of its swath. */
export function isGathered({ operations }: KeptCut, atUtc: string): boolean {
  const ends = (operations ?? [])
    .filter((one) => GATHERING.includes(one.kind) && isDone(one))
    .map(({ doneUtc, doneEndUtc }) => msOf(doneEndUtc ?? doneUtc));
  return ends.length > 0 && msOf(atUtc) > Math.max(...ends);
}

/** By the work of the route: done in the told hours, or only later. Null where neither can be said. */
function cameByWork({ route, issuedUtc, fromUtc, toUtc }: ToldWindow, cut: KeptCut): boolean | null {
  const work = WORK_OF_ROUTE[route];
  if (work === undefined || takenRoute(cut) !== route) return null;
  const edgeMs = AT_EDGE_H * HOUR_MS;
  const spans = (cut.operations ?? [])
    .filter((one) => one.kind === work && isDone(one))
    .map(({ doneUtc, doneEndUtc }) => [msOf(doneUtc), msOf(doneEndUtc ?? doneUtc)] as const);
  // Begun before the forecast it is no test of it.
  if (spans.length === 0 || spans.some(([startMs]) => startMs < msOf(issuedUtc))) return null;
  const inside = ([startMs, endMs]: readonly [number, number]) =>
    startMs <= msOf(toUtc) + edgeMs && endMs >= msOf(fromUtc) - edgeMs;
  if (spans.some(inside)) return true;
  return spans.every(([startMs]) => startMs > msOf(toUtc) + edgeMs) ? false : null;
}

/** By the reading nearest the end of the told hours: in the band, or above it. Below it the band may be long past. */
function cameByReading(
  { issuedUtc, toUtc, bandWb }: ToldWindow,
  readings: readonly CutReading[],
): boolean | null {
  if (!bandWb) return null;
  const off = ({ atUtc }: CutReading) => Math.abs(msOf(atUtc) - msOf(toUtc));
  const [last] = readings
    .filter((one) => typeof one.moistureWb === "number" && off(one) <= AT_EDGE_H * HOUR_MS)
    .filter(({ atUtc }) => msOf(atUtc) >= msOf(issuedUtc))
    .sort((a, b) => off(a) - off(b));
  const moistureWb = last?.moistureWb;
  if (typeof moistureWb !== "number") return null;
  const [lowWb, highWb] = bandWb;
  if (moistureWb > highWb) return false;
  return moistureWb >= lowWb ? true : null;
}

/**
 * Whether a told window came. In this order:
 *
 * - its route's work (baled, baled and wrapped, chopped) was done in the told hours: it came; done only after them: it did
 *   not, whatever held it up;
 * - else the reading nearest the end of the told hours, at most `AT_EDGE_H` from it: above the route's band it did not
 *   come, in the band it came;
 * - else it is not known, and not scored: work done earlier or by another route says nothing, nor does a cut that was mown
 *   more than `OF_CUT_H` from the hour that the chance was told for.
 *
 * A reading answers for moisture alone, not for dew or the hours that the area needs.
 *
 * @param readings of that cut
 * @returns null where it is not known
 */
export function cameOf(
  told: ToldWindow,
  cut: KeptCut | undefined,
  readings: readonly CutReading[],
): boolean | null {
  if (cut === undefined) return null;
  const mown = mownMs(cut);
  const cutMs = Number.isNaN(mown) ? msOf(cut.plannedUtc) : mown;
  const offMs = told.cutUtc ? Math.abs(cutMs - msOf(told.cutUtc)) : 0;
  if (!(offMs <= OF_CUT_H * HOUR_MS)) return null;
  return cameByWork(told, cut) ?? cameByReading(told, readings);
}

/** The rule in words, for whoever reads the scores. */
export const CAME_NOTE = `A told window came where the route's work (baled, wrapped, chopped) was done in its hours, and did not where it was done only later, for whatever reason. Without that, a reading within ${AT_EDGE_H} h of its end tells: in the route's band it came, above it did not. Where neither is in the book it is not scored.`;
