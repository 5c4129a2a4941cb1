import { HOUR_MS, localOffsetMs } from "../../model/weather/clock.ts";
import { clearSkyHours } from "../../model/weather/radiation.ts";

/** Invented station files: a fair summer, written in the ways of many stations. */

export const SITE = { latitude: 44.3, longitude: -98.2, elevationM: 400, timeZone: "America/Chicago" };
export const PLACE = { site: SITE, windHeightM: 2 };

export interface InventedRow {
  /** Start of the row's time. */
  readonly utcMs: number;
  readonly tempC: number;
  readonly humidity: number;
  readonly windMps: number;
  readonly solarWm2: number;
  readonly rainMm: number;
}

/** Rows of a clear spell with one shower a week, `stepMin` apart. */
export function inventedRows(firstUtc: string, days: number, stepMin = 60, site = SITE): InventedRow[] {
  const startMs = Date.parse(firstUtc);
  const count = (days * 1440) / stepMin;
  const hours = days * 24;
  // Means of finer steps come from the clear sky of the sub-hours, by shifting the hour's grid.
  const perHour = 60 / stepMin;
  const grids = Array.from({ length: perHour }, (_, k) =>
    clearSkyHours(
      startMs + k * stepMin * 60_000 - HOUR_MS / 2 + (stepMin * 60_000) / 2,
      hours + 1,
      site.latitude,
      site.longitude,
    ),
  );
  return Array.from({ length: count }, (_, i) => {
    const utcMs = startMs + i * stepMin * 60_000;
    const sun = grids[i % perHour]?.clearSkyWm2[Math.floor(i / perHour)] ?? 0;
    const dayH = (utcMs / HOUR_MS + site.longitude / 15 + 240_000) % 24;
    const warm = Math.cos(((dayH - 15) / 24) * 2 * Math.PI);
    const wet = Math.floor(i / perHour) % 168 === 100;
    return {
      utcMs,
      tempC: Math.round((20 + 7 * warm) * 10) / 10,
      humidity: Math.round(65 - 20 * warm),
      windMps: 2 + (i % 3),
      solarWm2: Math.round(sun * 0.95),
      rainMm: wet ? 2 / perHour : 0,
    };
  });
}

const two = (value: number) => String(value).padStart(2, "0");

/** What a clock on the wall shows: "2026-06-20 13:00". */
export function wallText(
  utcMs: number,
  clock: "utc" | "standard" | "daylight",
  zone = SITE.timeZone,
): string {
  const winter = localOffsetMs(zone, Date.UTC(new Date(utcMs).getUTCFullYear(), 0, 1));
  const offset = clock === "utc" ? 0 : clock === "standard" ? winter : localOffsetMs(zone, utcMs);
  const at = new Date(utcMs + offset);
  return `${at.getUTCFullYear()}-${two(at.getUTCMonth() + 1)}-${two(at.getUTCDate())} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}`;
}

export function csv(header: string, lines: readonly string[]): string {
  return `${header}\n${lines.join("\n")}\n`;
}
