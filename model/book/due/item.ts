import { DAY_MS, localDayKey, localParts } from "../../weather/clock.ts";
import type { SprayDoc } from "../farm-docs.ts";
import type { BookKind, Entry } from "../kinds.ts";

/** The kinds of work and of dates that the book makes due. */
export const DUE_WORK = [
  "mow",
  "turn",
  "rake",
  "bale",
  "wrap",
  "chop",
  "haul",
  "probe",
  "bring-in",
  "keep-out",
  "open",
  "send-sample",
  "result",
  "spray-over",
] as const;
export type DueWork = (typeof DUE_WORK)[number];

/** What may kill, the worst first: a stack that may burn, gas, feed that nobody tested. */
export const DANGERS = ["fire", "gas", "feed"] as const;
export type Danger = (typeof DANGERS)[number];

/** One thing to do, or one date that comes. */
export interface DueItem {
  /** The same in every list, as long as its entry is there. */
  readonly id: string;
  readonly work: DueWork;
  /** "Creek field: bale" */
  readonly title: string;
  readonly text: string;
  readonly atUtc: string;
  /** A deadline behind it, where it has one; of `keep-out` when it is over. */
  readonly byUtc: string | null;
  /** True where the day matters and the hour does not. */
  readonly allDay: boolean;
  /** The farm's day, YYYY-MM-DD. */
  readonly day: string;
  readonly timeZone: string;
  /** Its time is past and it was not done. */
  readonly overdue: boolean;
  /** Said before all else; null = nobody is in danger. */
  readonly danger: Danger | null;
  /** To be done again after so many hours until then; null = once. */
  readonly repeat: { readonly everyH: number; readonly untilUtc: string } | null;
  readonly fieldId: string | null;
  readonly cutId: string | null;
  readonly lotId: string | null;
  /** Of the entry that it comes from: rises when that is changed. */
  readonly revision: number;
  /** Where the waiting time or the limit comes from; null where the user said it. */
  readonly source: string | null;
}

export interface DueQuestion {
  readonly nowUtcMs: number;
  /** Days ahead, from now. */
  readonly days: number;
  /** With the tombstones, as far as they are known: what names a place or field that was removed keeps its clock and name. */
  readonly sites: readonly Entry<"sites">[];
  readonly fields: readonly Entry<"fields">[];
  readonly cuts: readonly Entry<"cuts">[];
  readonly lots: readonly Entry<"lots">[];
}

/** What an item is made of; the rest follows from where and when. */
export interface Sketch {
  readonly work: DueWork;
  readonly part: string;
  readonly name: string;
  readonly verb: string;
  readonly text: string;
  readonly atMs: number;
  readonly byMs?: number | null;
  readonly allDay?: boolean;
  /** False for a date that comes and passes by itself. */
  readonly toDo?: boolean;
  readonly danger?: Danger | null;
  readonly repeat?: DueItem["repeat"];
  readonly source?: string | null;
}

export interface Ground {
  readonly nowUtcMs: number;
  readonly timeZone: string;
  readonly entry: Entry<BookKind>;
  readonly fieldId: string | null;
  readonly cutId: string | null;
  readonly lotId: string | null;
  /** What was sprayed on its field. */
  readonly sprays: readonly SprayDoc[];
}

export const isoOf = (ms: number): string => new Date(ms).toISOString().replace(".000Z", "Z");

export function itemOf(ground: Ground, sketch: Sketch): DueItem {
  const { nowUtcMs, timeZone, entry, fieldId, cutId, lotId } = ground;
  const { work, part, name, verb, text, atMs, byMs = null, allDay = false, toDo = true } = sketch;
  const day = localDayKey(atMs, timeZone);
  const past = allDay ? day < localDayKey(nowUtcMs, timeZone) : (byMs ?? atMs) < nowUtcMs;
  return {
    id: `${work}.${entry.id}${part === "" ? "" : `.${part}`}`,
    work,
    title: `${name}: ${verb}`,
    text,
    atUtc: isoOf(atMs),
    byUtc: byMs === null ? null : isoOf(byMs),
    allDay,
    day,
    timeZone,
    overdue: toDo && past,
    danger: sketch.danger ?? null,
    repeat: sketch.repeat ?? null,
    fieldId,
    cutId,
    lotId,
    revision: entry.revision,
    source: sketch.source ?? null,
  };
}

/** A date that passes by itself is told until its day is over; work is told until it is done. */
export function isTold(item: DueItem, nowUtcMs: number, days: number): boolean {
  if (Date.parse(item.atUtc) >= nowUtcMs + days * DAY_MS) return false;
  const today = localDayKey(nowUtcMs, item.timeZone);
  if (item.work === "keep-out")
    return item.byUtc !== null && localDayKey(Date.parse(item.byUtc), item.timeZone) >= today;
  return item.overdue || item.day >= today || item.byUtc !== null;
}

/** "2 July" is the page's; here a day is told as the calendar writes it. */
export const dayText = (ms: number, timeZone: string): string => localDayKey(ms, timeZone);

/** A moment on the farm's clock as the calendar writes it, "2026-11-26 02:00"; the page tells it in its own way. */
export function hourText(ms: number, timeZone: string): string {
  const { dayKey, hour, minute } = localParts(ms, timeZone);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${dayKey} ${two(hour)}:${two(minute)}`;
}
