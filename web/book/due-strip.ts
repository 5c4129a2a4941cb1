import { DANGERS, type DueItem, type DueWork } from "../../model/book/due/item.ts";
import { addDays, localDayKey, startOfLocalDay, utcOfLocal } from "../../model/weather/clock.ts";
import { clockText, dayDateText, shortDayText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";

/** What is due as a picture of the coming days, and as a sentence. Pure. */

/** Work is done by somebody; a date comes by itself. */
const DATES: ReadonlySet<DueWork> = new Set(["keep-out", "result", "spray-over", "open"]);

export interface StripMark {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly date: boolean;
  /** Overdue, or dangerous. */
  readonly overdue: boolean;
  readonly title: string;
}

export interface StripDay {
  readonly x: number;
  readonly label: string;
  readonly number: string;
}

export interface Strip {
  readonly width: number;
  readonly height: number;
  readonly columnW: number;
  /** Foot of the days, where their names begin. */
  readonly footY: number;
  readonly days: readonly StripDay[];
  readonly marks: readonly StripMark[];
}

const MARK = 16;
const LEAST_ROWS = 2;
const MOST_ROWS = 8;
const FOOT = 36;

/** The farm's day of an item in the strip: what is overdue stands at today. */
function columnOf(item: DueItem, keys: readonly string[]): number {
  return item.overdue ? 0 : Math.max(0, keys.indexOf(item.day));
}

export function dueStrip(
  items: readonly DueItem[],
  nowMs: number,
  days: number,
  width: number,
  { zone }: Pick<Manner, "zone">,
): Strip {
  const today = localDayKey(nowMs, zone);
  const keys = Array.from({ length: days }, (_, i) => addDays(today, i));
  const columnW = width / days;
  const counts = new Array<number>(days).fill(0);
  const placed = items.map((item) => {
    const column = columnOf(item, keys);
    const row = counts[column] ?? 0;
    counts[column] = row + 1;
    return { item, column, row: Math.min(row, MOST_ROWS - 1) };
  });
  const rows = Math.min(MOST_ROWS, Math.max(LEAST_ROWS, ...counts));
  const footY = rows * MARK + 4;
  return {
    width,
    height: footY + FOOT,
    columnW,
    footY,
    days: keys.map((key, i) => {
      const startMs = startOfLocalDay(zone, key);
      const label = shortDayText(startMs, { zone });
      return {
        x: i * columnW,
        label: columnW < 32 ? label.slice(0, 2) : label,
        number: String(Number(key.slice(8))),
      };
    }),
    marks: placed.map(({ item, column, row }) => ({
      id: item.id,
      x: (column + 0.5) * columnW,
      y: footY - (row + 0.5) * MARK,
      date: DATES.has(item.work),
      overdue: item.overdue || item.danger !== null,
      title: item.title,
    })),
  };
}

/** "Friday 3 Jul 13:00", or the day alone where the hour does not matter; of what is going on, until when. */
export function dueTime(item: DueItem, manner: Manner): string {
  const at = { ...manner, zone: item.timeZone };
  if (item.work === "keep-out" && item.byUtc !== null) return `Until ${dayDateText(item.byUtc, at)}`;
  const day = dayDateText(item.atUtc, at);
  return item.allDay ? day : `${day} ${clockText(item.atUtc, at)}`;
}

/** What may kill, the worst of it with what to do, the others by name; "" where nothing does. */
function dangerSentence(items: readonly DueItem[], manner: Manner): string {
  const rank = ({ danger }: DueItem) => (danger === null ? DANGERS.length : DANGERS.indexOf(danger));
  const [worst, ...others] = items.filter(({ danger }) => danger !== null).sort((a, b) => rank(a) - rank(b));
  if (worst === undefined) return "";
  const too = others.length === 0 ? "" : ` Also: ${others.map(({ title }) => title).join("; ")}.`;
  return `Danger: ${worst.title}. ${daysInWords(worst, manner)}${too}`;
}

/** What the coming days ask for, said first: what may kill, then what is late, then what comes. */
export function dueSentence(items: readonly DueItem[], days: number, manner: Manner): string {
  if (items.length === 0) return `Nothing is due in the coming ${days} days.`;
  const usual = items.filter(({ danger }) => danger === null);
  const late = usual.find(({ overdue }) => overdue);
  const next = usual.find(({ overdue }) => !overdue);
  const lates = items.filter(({ overdue }) => overdue).length;
  const things = `${items.length} ${items.length === 1 ? "thing" : "things"} in the coming ${days} days`;
  return [
    dangerSentence(items, manner),
    late ? `Overdue: ${late.title}, ${dueTime(late, manner)}.` : "",
    next ? `Next: ${next.title}, ${dueTime(next, manner)}.` : "",
    `${things}${lates > 0 ? `, ${lates} overdue` : ""}.`,
  ]
    .filter((part) => part !== "")
    .join(" ");
}

const DAY_OR_HOUR = /\b(\d{4}-\d\d-\d\d)(?: (\d\d):(\d\d))?\b/g;

/** The text of an item, its days and hours as the page writes them. */
export function daysInWords(
  { text, timeZone: zone }: Pick<DueItem, "text" | "timeZone">,
  manner: Manner,
): string {
  return text.replace(DAY_OR_HOUR, (all, day: string, hour?: string, minute?: string) => {
    if (hour === undefined) return dayDateText(startOfLocalDay(zone, day), { zone });
    const moment = utcOfLocal(zone, day, Number(hour), Number(minute));
    if (moment.kind === "skipped") return all;
    const ms = moment.kind === "one" ? moment.utcMs : moment.firstUtcMs;
    return `${dayDateText(ms, { zone })}, ${clockText(ms, { ...manner, zone })}`;
  });
}
