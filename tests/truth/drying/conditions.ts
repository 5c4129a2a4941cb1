import { saturationKPa } from "../../../model/drying/air-terms.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import type { HourlyWeather } from "../../../model/weather/hourly.ts";

/** Steady or daily repeating air, invented to state the conditions of a check. */
export interface Air {
  readonly airTempC: number;
  readonly rhFrac: number;
  readonly wind2mMps: number;
  readonly solarWm2: number;
  readonly cloudFrac: number;
  readonly rainMm: number;
}

/** The conditions that hold unless a row says otherwise. */
export const STANDARD_AIR: Air = {
  airTempC: 25,
  rhFrac: 0.5,
  wind2mMps: 2,
  solarWm2: 600,
  cloudFrac: 0,
  rainMm: 0,
};
export const STILL_SHADE = { solarWm2: 0, wind2mMps: 0.5 } as const;

/** 450 g/m² of conditioned alfalfa on dry ground. */
export const STANDARD_SWATH: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 4.5,
  initialMoistureWb: 0.8,
  conditioning: "roll",
  coveredFraction: 1,
  stubbleCm: 8,
  soil: "dry",
  freeWaterMm: 0,
};

export const START_MS = Date.UTC(2026, 5, 20, 0);

/** Weather from one air an hour. */
export function weatherOf(count: number, airAt: (hour: number) => Partial<Air>): HourlyWeather {
  const airs = Array.from({ length: count }, (_, hour) => ({ ...STANDARD_AIR, ...airAt(hour) }));
  const column = (of: (air: Air) => number) => Float64Array.from(airs, of);
  return {
    site: { latitude: 45, longitude: 0, elevationM: 0, timeZone: "UTC" },
    startUtcMs: START_MS,
    count,
    airTempC: column((a) => a.airTempC),
    vapourPressureKPa: column((a) => a.rhFrac * saturationKPa(a.airTempC)),
    wind2mMps: column((a) => a.wind2mMps),
    solarWm2: column((a) => a.solarWm2),
    cloudFrac: column((a) => a.cloudFrac),
    rainMm: column((a) => a.rainMm),
    pressureKPa: column(() => 101.3),
    daylight: Uint8Array.from(airs, (a) => (a.solarWm2 > 0 ? 1 : 0)),
  };
}

/** The same air in every hour. */
export function steady(count: number, air: Partial<Air> = {}): HourlyWeather {
  return weatherOf(count, () => air);
}

export interface Day {
  readonly minTempC: number;
  readonly maxTempC: number;
  readonly dewPointC: number;
  readonly windMps: number;
  readonly nightWindMps?: number;
  readonly noonSunWm2: number;
  readonly cloudFrac: number;
}

/** Days that repeat: sun from 05:00 to 20:00, coolest at 05:00, warmest at 15:00. Starts at midnight. */
export function repeatedDays(days: number, day: Day): HourlyWeather {
  return weatherOf(days * 24, (hour) => {
    const h = (hour % 24) + 0.5;
    const warmth =
      h < 5 || h >= 15
        ? Math.cos((Math.PI * ((h - 15 + 24) % 24)) / 14)
        : -Math.cos((Math.PI * (h - 5)) / 10);
    const airTempC = (day.minTempC + day.maxTempC) / 2 + (warmth * (day.maxTempC - day.minTempC)) / 2;
    const up = h > 5 && h < 20;
    return {
      airTempC,
      rhFrac: Math.min(1, saturationKPa(day.dewPointC) / saturationKPa(airTempC)),
      wind2mMps: up ? day.windMps : (day.nightWindMps ?? day.windMps),
      solarWm2: up ? day.noonSunWm2 * Math.sin((Math.PI * (h - 5)) / 15) : 0,
      cloudFrac: day.cloudFrac,
    };
  });
}
