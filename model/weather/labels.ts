/** Hour labels: ISO 8601 with Z inside a series, with Z or an offset where files come in. */

const DIGIT_0 = 48;

function digits(text: string, from: number, count: number): number {
  let value = 0;
  for (let k = from; k < from + count; k++) {
    const digit = text.charCodeAt(k) - DIGIT_0;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
}

/** YYYY-MM-DDTHH:MM at the head of a text as if in UTC, ms; NaN when it is not a real date and time of day. */
function wallClockMs(text: string): number {
  const year = digits(text, 0, 4);
  const month = digits(text, 5, 2);
  const day = digits(text, 8, 2);
  const hour = digits(text, 11, 2);
  const minute = digits(text, 14, 2);
  if (text[4] !== "-" || text[7] !== "-" || text[13] !== ":") return Number.NaN;
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= 31 && hour <= 23 && minute <= 59)) return Number.NaN;
  const ms = Date.UTC(year, month - 1, day, hour, minute);
  // Date.UTC rolls 30 February into March: a date that does not exist is refused instead.
  return day > 28 && new Date(ms).getUTCDate() !== day ? Number.NaN : ms;
}

/**
 * The moment of a label such as 2026-07-01T05:00:00Z (seconds and milliseconds may be left out, and must be 0), ms;
 * NaN for anything else: no Z, no such day, 24:00, a part of a minute.
 */
export function utcLabelMs(text: string): number {
  if (typeof text !== "string" || text[10] !== "T") return Number.NaN;
  const tail = text.slice(16);
  if (tail !== ":00Z" && tail !== "Z" && tail !== ":00.000Z") return Number.NaN;
  return wallClockMs(text);
}

/** The label of a moment: YYYY-MM-DDTHH:MM:SSZ. */
export function utcLabel(utcMs: number): string {
  return `${new Date(utcMs).toISOString().slice(0, 19)}Z`;
}

export type IsoTime =
  | { readonly kind: "moment"; readonly utcMs: number }
  /** A time of day without Z or offset: nobody can say which hour that is. */
  | { readonly kind: "no-zone" }
  | { readonly kind: "unreadable" };

const ISO = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2})(?::00(?:\.0+)?)?\s?(Z|[+-]\d{2}(?::?\d{2})?)?$/i;

/** Reads an ISO 8601 time with Z or an offset, to the minute. */
export function readIsoTime(text: string): IsoTime {
  const match = ISO.exec(text.trim());
  if (!match) return { kind: "unreadable" };
  const wallMs = wallClockMs(`${match[1]}T${match[2]}`);
  if (Number.isNaN(wallMs)) return { kind: "unreadable" };
  const zone = match[3];
  if (zone === undefined) return { kind: "no-zone" };
  if (zone === "Z" || zone === "z") return { kind: "moment", utcMs: wallMs };
  const hours = digits(zone, 1, 2);
  const minutes = zone.length > 3 ? digits(zone, zone.length - 2, 2) : 0;
  if (hours > 14 || minutes > 59) return { kind: "unreadable" };
  const offsetMs = (hours * 60 + minutes) * 60_000 * (zone.startsWith("-") ? -1 : 1);
  return { kind: "moment", utcMs: wallMs - offsetMs };
}
