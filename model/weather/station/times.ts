import { DAY_MS, HOUR_MS, MINUTE_MS } from "../clock.ts";
import { readIsoTime } from "../labels.ts";
import type { Table } from "./table.ts";

/** The times of a station's rows as its clock showed them, from one column or from several. */

export const DATE_ORDERS = ["dmy", "mdy"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

export interface WallRow {
  readonly row: number;
  readonly cells: readonly string[];
  /** What the clock showed, as if it were UTC, ms. */
  readonly wallMs: number;
  /** The moment itself where the text carries its offset, else null. */
  readonly utcMs: number | null;
}

export interface WallTimes {
  readonly rows: readonly WallRow[];
  /** Rows whose time could not be read: the first few with their texts, and how many. */
  readonly unread: readonly { readonly row: number; readonly text: string }[];
  readonly unreadCount: number;
  /** Whether days and months can be told apart by the dates themselves; null where they cannot and it matters. */
  readonly order: DateOrder | null;
  /** Hours counted 1 to 24, which name the end of their hour. */
  readonly countsTo24: boolean;
}

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

interface DateNumbers {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const dayMs = ({ year, month, day }: DateNumbers): number => {
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= 31)) return Number.NaN;
  const ms = Date.UTC(year, month - 1, day);
  return new Date(ms).getUTCDate() === day ? ms : Number.NaN;
};

const fullYear = (text: string) =>
  text.length > 2 ? Number(text) : Number(text) + (Number(text) < 70 ? 2000 : 1900);

const NUMBERED = /^(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})$/;

/** Midnight of a date's text, or NaN. */
function dateMs(text: string, order: DateOrder | null): number {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text) ?? /^(\d{4})(\d{2})(\d{2})$/.exec(text);
  if (iso) return dayMs({ year: Number(iso[1]), month: Number(iso[2]), day: Number(iso[3]) });
  const numbered = NUMBERED.exec(text);
  if (numbered) {
    const [first, second, year] = [Number(numbered[1]), Number(numbered[3]), fullYear(numbered[4] ?? "")];
    // Points part a day from its month everywhere that they are used.
    const dayFirst = numbered[2] === "." || (order ?? (first > 12 ? "dmy" : "mdy")) === "dmy";
    return dayMs(dayFirst ? { year, month: second, day: first } : { year, month: first, day: second });
  }
  const named = /^(\d{1,2})[ -]([a-z]{3})[a-z]*\.?[ -,]+(\d{4}|\d{2})$/i.exec(text);
  if (named)
    return dayMs({
      year: fullYear(named[3] ?? ""),
      month: MONTHS.indexOf((named[2] ?? "").toLowerCase()) + 1,
      day: Number(named[1]),
    });
  const american = /^([a-z]{3})[a-z]*\.? (\d{1,2}),? (\d{4})$/i.exec(text);
  if (american)
    return dayMs({
      year: Number(american[3]),
      month: MONTHS.indexOf((american[1] ?? "").toLowerCase()) + 1,
      day: Number(american[2]),
    });
  return Number.NaN;
}

/** Time of a day, ms from midnight, 24:00 being the next one; NaN for anything else. */
export function timeOfDayMs(text: string): number {
  const clock = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:\.0+)?)?\s*([ap])?\.?m?\.?$/i.exec(text);
  if (clock) {
    const half = clock[4]?.toLowerCase();
    let hour = Number(clock[1]);
    if (half !== undefined) {
      if (hour < 1 || hour > 12) return Number.NaN;
      hour = (hour % 12) + (half === "p" ? 12 : 0);
    }
    const minute = Number(clock[2]);
    const ms = hour * HOUR_MS + minute * MINUTE_MS + Number(clock[3] ?? 0) * 1000;
    return minute < 60 && ms <= DAY_MS ? ms : Number.NaN;
  }
  if (!/^\d{1,4}(\.0+)?$/.test(text)) return Number.NaN;
  const number = Math.trunc(Number(text));
  // "0100" to "2400" are hours and minutes, "0" to "24" hours alone.
  const digits = text.replace(/\..*$/, "").length;
  const [hour, minute] = digits > 2 || number > 24 ? [Math.floor(number / 100), number % 100] : [number, 0];
  const ms = hour * HOUR_MS + minute * MINUTE_MS;
  return minute < 60 && ms <= DAY_MS ? ms : Number.NaN;
}

const WITH_TIME = /^(.*?)(?:[T ]+|(?<=^\d{8}):)(\d{1,2}:?\d{2}(?::\d{2}(?:\.0+)?)?\s*(?:[ap]\.?m?\.?)?)$/i;

function dateTimeMs(text: string, order: DateOrder | null): number {
  const parts = WITH_TIME.exec(text);
  if (parts)
    return dateMs((parts[1] ?? "").trim().replace(/,$/, ""), order) + timeOfDayMs((parts[2] ?? "").trim());
  return dateMs(text, order);
}

/** What the dates of a column themselves say of their order. */
function orderOf(texts: Iterable<string>): DateOrder | "either" | "none" | "both" {
  let [dmy, mdy, any] = [false, false, false];
  for (const text of texts) {
    const match = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})(?:\D|$)/.exec(text.trim());
    if (!match) continue;
    any = true;
    if (Number(match[1]) > 12) dmy = true;
    if (Number(match[2]) > 12) mdy = true;
  }
  if (!any) return "none";
  if (dmy && mdy) return "both";
  return dmy ? "dmy" : mdy ? "mdy" : "either";
}

/** How many of the first rows' cells are read as what they should be. */
function reads(table: Table, index: number, test: (text: string) => boolean): boolean {
  const cells = table.rows.slice(0, 50).map(({ cells: row }) => (row[index] ?? "").trim());
  const full = cells.filter((cell) => cell !== "");
  return full.length > 0 && full.filter(test).length >= full.length * 0.8;
}

const MOST_UNREAD = 5;

/** Reads the times of all rows; null where no column holds them. */
export function readWallTimes(table: Table, said: DateOrder | null): WallTimes | null {
  const at = (role: string) => table.columns.findIndex((column) => column.role === role);
  let [dateTime, date, time] = [at("dateTime"), at("date"), at("time")];
  const holdsDate = (text: string) =>
    !Number.isNaN(dateTimeMs(text, "mdy")) || !Number.isNaN(dateTimeMs(text, "dmy"));
  // "Date" often holds the time too, and "Time" the date.
  if (dateTime < 0 && date >= 0 && reads(table, date, (text) => WITH_TIME.test(text) && holdsDate(text)))
    [dateTime, date] = [date, -1];
  if (dateTime < 0 && time >= 0 && reads(table, time, holdsDate)) [dateTime, time] = [time, -1];
  const [year, month, day, doy] = [at("year"), at("month"), at("day"), at("dayOfYear")];
  const [hour, minute] = [at("hour"), at("minute")];
  const apart = year >= 0 && ((month >= 0 && day >= 0) || doy >= 0);
  if (dateTime < 0 && date < 0 && !apart) return null;

  const dated = dateTime >= 0 ? dateTime : date;
  const found = dated < 0 ? "none" : orderOf(cellsOf(table, dated));
  const order = said ?? (found === "dmy" || found === "mdy" ? found : found === "none" ? "dmy" : null);
  const rows: WallRow[] = [];
  const unread: { row: number; text: string }[] = [];
  let unreadCount = 0;
  let most = 0;
  let least = Number.POSITIVE_INFINITY;
  const dates = new Map<string, number>();
  const dateOf = (text: string) => {
    const known = dates.get(text);
    if (known !== undefined) return known;
    const ms = dateMs(text, order);
    dates.set(text, ms);
    return ms;
  };
  for (const { row, cells } of table.rows) {
    const cell = (index: number) => (cells[index] ?? "").trim();
    let wallMs: number;
    let utcMs: number | null = null;
    if (dateTime >= 0) {
      const text = cell(dateTime);
      const iso = readIsoTime(text);
      if (iso.kind === "moment") {
        utcMs = iso.utcMs;
        wallMs = iso.utcMs;
      } else wallMs = dateTimeMs(text, order);
    } else {
      const midnight =
        date >= 0
          ? dateOf(cell(date))
          : doy >= 0
            ? Date.UTC(Number(cell(year)), 0, 1) + (Number(cell(doy)) - 1) * DAY_MS
            : dayMs({ year: Number(cell(year)), month: Number(cell(month)), day: Number(cell(day)) });
      const clock = time >= 0 ? timeOfDayMs(cell(time)) : hour >= 0 ? timeOfDayMs(cell(hour)) : 0;
      const minutes = minute >= 0 && Number(cell(minute)) < 60 ? Number(cell(minute)) * MINUTE_MS : 0;
      wallMs = midnight + clock + minutes;
      if (hour >= 0) {
        most = Math.max(most, clock);
        least = Math.min(least, clock);
      } else if (time >= 0) {
        most = Math.max(most, clock);
        least = Math.min(least, clock);
      }
    }
    if (Number.isFinite(wallMs)) rows.push({ row, cells, wallMs, utcMs });
    else {
      unreadCount += 1;
      const texts = [dateTime, date, time, year, month, day, doy, hour, minute]
        .filter((i) => i >= 0)
        .map(cell);
      if (unread.length < MOST_UNREAD) unread.push({ row, text: texts.join(" ") });
    }
  }
  return {
    rows,
    unread,
    unreadCount,
    order: found === "both" && said === null ? null : order,
    countsTo24: most === DAY_MS && least > 0,
  };
}

function* cellsOf(table: Table, index: number): Iterable<string> {
  for (const { cells } of table.rows) yield cells[index] ?? "";
}
