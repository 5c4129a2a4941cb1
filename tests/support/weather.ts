import { getPosition } from "suncalc";
import type { Site, WeatherSeries } from "../../model/weather/series.ts";

/** How the invented days run. Everything has a default: warm, dry, fair and without rain. */
export interface SpellOptions {
  readonly meanTempC?: number;
  readonly swingC?: number;
  readonly dewPointC?: number;
  readonly windMps?: number;
  /** Rain of chosen hours, by index. */
  readonly rainMm?: Readonly<Record<number, number>>;
}

const HOUR_MS = 3_600_000;

/** Saturation vapour pressure, kPa (FAO-56 eq. 11), written here again so that no test leans on the model. */
function saturationKPa(tempC: number): number {
  return 0.6108 * Math.exp((17.27 * tempC) / (tempC + 237.3));
}

/**
 * An invented, physically plain spell: temperature swings with the solar day, humidity keeps a fixed dew point,
 * sun is 0.72 of the extraterrestrial on the horizontal, wind rises with the day.
 */
export function inventedSpell(
  site: Site,
  fromUtc: string,
  hours: number,
  options: SpellOptions = {},
): WeatherSeries {
  const { meanTempC = 23, swingC = 7, dewPointC = 11, windMps = 2.5, rainMm = {} } = options;
  const fromMs = Date.parse(fromUtc);
  const index = Array.from({ length: hours }, (_, i) => i);
  const middle = index.map((i) => fromMs + (i + 0.5) * HOUR_MS);
  const solarHour = middle.map((ms) => (((ms / HOUR_MS + site.longitude / 15) % 24) + 24) % 24);
  const airTempC = solarHour.map((h) => meanTempC + swingC * Math.cos(((h - 15) / 24) * 2 * Math.PI));
  const sinAltitude = middle.map((ms) => {
    const { altitude } = getPosition(new Date(ms), site.latitude, site.longitude);
    return Math.max(0, Math.sin((altitude * Math.PI) / 180));
  });
  const round = (value: number, digits: number) => Number(value.toFixed(digits));
  return {
    site,
    windHeightM: 2,
    origin: "upload",
    hours: {
      startUtc: index.map((i) => new Date(fromMs + i * HOUR_MS).toISOString().replace(".000Z", "Z")),
      airTempC: airTempC.map((t) => round(t, 2)),
      relHumidityPct: airTempC.map((t) =>
        round(Math.min(99, (100 * saturationKPa(dewPointC)) / saturationKPa(t)), 1),
      ),
      windSpeedMps: solarHour.map((h) =>
        round(windMps * (1 + 0.5 * Math.cos(((h - 15) / 24) * 2 * Math.PI)), 2),
      ),
      solarWm2: sinAltitude.map((s) => round(0.72 * 1361 * s, 1)),
      rainMm: index.map((i) => rainMm[i] ?? 0),
      cloudPct: index.map((i) => (rainMm[i] ? 100 : 10)),
    },
  };
}

/** Places that a clock, a season or a half-hour zone could catch out. */
export const PLACES = {
  southDakota: { latitude: 44.3, longitude: -98.2, elevationM: 400, timeZone: "America/Chicago" },
  newZealand: { latitude: -43.9, longitude: 171.7, elevationM: 120, timeZone: "Pacific/Auckland" },
  india: { latitude: 29.7, longitude: 77.0, elevationM: 240, timeZone: "Asia/Kolkata" },
  ireland: { latitude: 52.7, longitude: -7.8, elevationM: 110, timeZone: "Europe/Dublin" },
  arctic: { latitude: 69.6, longitude: 19.0, elevationM: 10, timeZone: "Europe/Oslo" },
} as const satisfies Record<string, Site>;
