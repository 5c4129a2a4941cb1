import type { Outcome } from "../limits.ts";
import type { PreparedWeather } from "./hourly.ts";
import type { WeatherSeries } from "./series.ts";

/** Checks a series and makes it ready for the model: gaps filled up to 3 h, units converted, sky completed. */
export function prepareWeather(_series: WeatherSeries): Outcome<PreparedWeather> {
  throw new Error("prepareWeather: placeholder until the checks are in place");
}
