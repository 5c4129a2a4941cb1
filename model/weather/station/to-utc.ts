import { HOUR_MS, localOffsetMs } from "../clock.ts";
import { offsetsOfYear, type StationClock } from "./clock-of-data.ts";
import type { WallRow } from "./times.ts";

/** From what a station's clock showed to UTC, with what daylight saving does to it. */

export interface UtcRow {
  readonly row: number;
  readonly cells: readonly string[];
  readonly utcMs: number;
}

export interface ToUtc {
  readonly rows: readonly UtcRow[];
  /** Rows of an hour that the clock jumps over, so that it cannot have shown it. */
  readonly skipped: readonly WallRow[];
  /** Hours of autumn that the clock shows twice, of which the file has one. */
  readonly lostHours: number;
}

/** The moments at which a zone's clock shows each hour of the wall, worked out once an hour. */
function wallClock(zone: string) {
  const hours = new Map<number, readonly number[]>();
  return (wallMs: number): readonly number[] => {
    const key = Math.floor(wallMs / HOUR_MS);
    const known = hours.get(key);
    if (known !== undefined) return known;
    const at = key * HOUR_MS;
    const offsets = new Set([localOffsetMs(zone, at - 26 * HOUR_MS), localOffsetMs(zone, at + 26 * HOUR_MS)]);
    const fits = [...offsets]
      .filter((offset) => localOffsetMs(zone, at - offset) === offset)
      .toSorted((a, b) => b - a);
    hours.set(key, fits);
    return fits;
  };
}

export function toUtc(rows: readonly WallRow[], clock: StationClock, zone: string): ToUtc {
  if (clock === "utc" || rows.length === 0)
    return {
      rows: rows.map(({ row, cells, wallMs, utcMs }) => ({ row, cells, utcMs: utcMs ?? wallMs })),
      skipped: [],
      lostHours: 0,
    };
  if (clock === "standard") {
    const offset = offsetsOfYear(zone, rows[0]?.wallMs ?? 0).standardH * HOUR_MS;
    return {
      rows: rows.map(({ row, cells, wallMs, utcMs }) => ({ row, cells, utcMs: utcMs ?? wallMs - offset })),
      skipped: [],
      lostHours: 0,
    };
  }
  const offsetsAt = wallClock(zone);
  const out: UtcRow[] = [];
  const skipped: WallRow[] = [];
  const twice = new Map<number, number>();
  let before = Number.NEGATIVE_INFINITY;
  for (const wall of rows) {
    const { row, cells, wallMs, utcMs } = wall;
    const offsets = offsetsAt(wallMs);
    if (utcMs === null && offsets.length === 0) {
      skipped.push(wall);
      continue;
    }
    // The larger offset is summer time's, which comes first; its second showing is taken once the first has passed.
    const [first, second] = offsets.map((offset) => wallMs - offset);
    const moment = utcMs ?? (second !== undefined && first !== undefined && first <= before ? second : first);
    if (moment === undefined) continue;
    if (second !== undefined) {
      const key = Math.floor(wallMs / HOUR_MS);
      twice.set(key, Math.max(twice.get(key) ?? 0, moment === second ? 2 : 1));
    }
    before = moment;
    out.push({ row, cells, utcMs: moment });
  }
  return { rows: out, skipped, lostHours: [...twice.values()].filter((times) => times === 1).length };
}
