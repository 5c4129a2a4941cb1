import { utcLabel } from "./labels.ts";
import { shown } from "./shown.ts";

/** How the sentences about weather name a moment, a temperature, a height and a column. */
export interface WeatherTelling {
  time(utcMs: number): string;
  /** A temperature; the decimals of what is rounded on purpose are given. */
  tempC(valueC: number, decimals?: number): string;
  /** A difference of two temperatures. */
  degreesC(stepC: number, decimals?: number): string;
  heightM(valueM: number): string;
  /** A column under its canonical name. */
  column(name: string): string;
}

const digits = (value: number, decimals: number | undefined) =>
  decimals === undefined ? shown(value) : value.toFixed(decimals);

/** As the API speaks: UTC, metric, columns under their keys. */
export const PLAIN_TELLING: WeatherTelling = {
  time: utcLabel,
  tempC: (valueC, decimals) => `${digits(valueC, decimals)} °C`,
  degreesC: (stepC, decimals) => `${digits(stepC, decimals)} °C`,
  heightM: (valueM) => `${valueM} m`,
  column: (name) => name,
};

/** The columns in people's words. */
export const COLUMN_WORDS: Readonly<Record<string, string>> = {
  airTempC: "air temperature",
  dewPointC: "dew point",
  relHumidityPct: "humidity",
  windSpeedMps: "wind",
  solarWm2: "sun",
  rainMm: "rain",
  cloudPct: "cloud",
  pressureHpa: "air pressure",
};
