import { HOUR_MS, localOffsetMs } from "../../../../model/weather/clock.ts";
import { clearSkyHours } from "../../../../model/weather/radiation.ts";
import { readWeatherFile, type WeatherFilePlace } from "../../../../model/weather/station/index.ts";
import { DAKOTA } from "../make-series.ts";

/** Invented station files: a clear sky over Dakota, written by whatever clock and name of the hour a test wants. */

export const PLACE: WeatherFilePlace = { site: DAKOTA, windHeightM: 2 };

export function check(text: string, stationAnswers: Record<string, string> = {}, place = PLACE) {
  return readWeatherFile(text, { ...place, stationAnswers });
}

export type Clock = "utc" | "standard" | "daylight";

/** What the clock of the place shows at a moment, as YYYY-MM-DD HH:MM. */
export function wall(utcMs: number, clock: Clock): string {
  const zone = clock === "daylight" ? localOffsetMs(DAKOTA.timeZone, utcMs) : -6 * HOUR_MS;
  return new Date(utcMs + (clock === "utc" ? 0 : zone)).toISOString().slice(0, 16).replace("T", " ");
}

export interface Written {
  readonly from: string;
  readonly hours: number;
  readonly clock: Clock;
  readonly label: "start" | "end";
  readonly header?: string;
  readonly row?: (time: string, solarWm2: number, i: number) => string;
}

/** Hours of clear sky; the rest is 20 °C, 60 %, 2 m/s and no rain. */
export function clearFile({
  from,
  hours,
  clock,
  label,
  header = "Timestamp,Temp (°C),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)",
  row = (time, solarWm2) => `${time},20,60,2,${solarWm2.toFixed(1)},0`,
}: Written): string {
  const startMs = Date.parse(from);
  const { clearSkyWm2 } = clearSkyHours(startMs, hours, DAKOTA.latitude, DAKOTA.longitude);
  const rows = Array.from({ length: hours }, (_, i) => {
    const named = startMs + (i + (label === "end" ? 1 : 0)) * HOUR_MS;
    return row(wall(named, clock), clearSkyWm2[i] as number, i);
  });
  return [header, ...rows].join("\n");
}
