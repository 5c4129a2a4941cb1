import { DAY_MS, localOffsetMs, MINUTE_MS } from "../../model/weather/clock.ts";

/** VTIMEZONE of a zone over a span, by RFC 5545 section 3.6.5: every change of its clock as an observance of its own. */

const two = (value: number) => String(value).padStart(2, "0");

/** "+0530" */
function offsetText(offsetMs: number): string {
  const minutes = Math.round(Math.abs(offsetMs) / MINUTE_MS);
  return `${offsetMs < 0 ? "-" : "+"}${two(Math.floor(minutes / 60))}${two(minutes % 60)}`;
}

/** "20260712T130000", the wall clock of a moment under an offset. */
function wallText(utcMs: number, offsetMs: number): string {
  return new Date(utcMs + offsetMs).toISOString().slice(0, 19).replaceAll(/[-:]/g, "");
}

/** The moment in (from, to] at which the zone's offset changes, to the minute. */
function changeBetween(zone: string, fromMs: number, toMs: number): number {
  const before = localOffsetMs(zone, fromMs);
  let [lo, hi] = [fromMs, toMs];
  while (hi - lo > MINUTE_MS) {
    const middle = lo + Math.round((hi - lo) / 2 / MINUTE_MS) * MINUTE_MS;
    if (localOffsetMs(zone, middle) === before) lo = middle;
    else hi = middle;
  }
  return hi;
}

const YEAR_MS = 366 * DAY_MS;

/** The offset of a year's standard time: the smaller of those in its two halves, north or south. */
function standardOffsetMs(zone: string, utcMs: number): number {
  return Math.min(...[0, 1, 2, 3].map((quarter) => localOffsetMs(zone, utcMs + (quarter * YEAR_MS) / 4)));
}

export function timeZoneComponent(zone: string, fromUtcMs: number, toUtcMs: number): string {
  const day = (ms: number) => Math.floor(ms / DAY_MS) * DAY_MS;
  const firstMs = day(fromUtcMs) - YEAR_MS;
  const lines = ["BEGIN:VTIMEZONE", `TZID:${zone}`];
  const observance = (kind: string, startText: string, from: number, to: number) =>
    lines.push(
      `BEGIN:${kind}`,
      `DTSTART:${startText}`,
      `TZOFFSETFROM:${offsetText(from)}`,
      `TZOFFSETTO:${offsetText(to)}`,
      `END:${kind}`,
    );
  // What holds at the beginning, as if it had always held.
  const first = localOffsetMs(zone, firstMs);
  const isSummer = first > standardOffsetMs(zone, firstMs);
  observance(isSummer ? "DAYLIGHT" : "STANDARD", wallText(firstMs, first), first, first);
  for (let ms = firstMs; ms < toUtcMs + YEAR_MS; ms += DAY_MS) {
    const [from, to] = [localOffsetMs(zone, ms), localOffsetMs(zone, ms + DAY_MS)];
    if (from === to) continue;
    const at = changeBetween(zone, ms, ms + DAY_MS);
    // The onset is told on the clock that runs until then.
    observance(to > from ? "DAYLIGHT" : "STANDARD", wallText(at, from), from, to);
  }
  lines.push("END:VTIMEZONE");
  return lines.join("\r\n");
}
