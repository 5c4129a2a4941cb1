import type { ColumnName, Mark, WeatherSeries } from "../../model/weather/index.ts";
import { dayClockText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { spanInWords, weatherAge } from "../states/age.ts";
import { providerLabel } from "./forecast.ts";

/** Where the weather of the board comes from, in words: source, model, run, age, and what was not plainly given. */

const COLUMN_WORDS: Readonly<Partial<Record<ColumnName, string>>> = {
  airTempC: "temperature",
  relHumidityPct: "humidity",
  dewPointC: "dew point",
  windSpeedMps: "wind",
  solarWm2: "sun",
  rainMm: "rain",
  cloudPct: "cloud",
};

const MARK_WORDS: Readonly<Record<Exclude<Mark, "observed" | "forecast">, string>> = {
  "cloud-estimate": "estimated from cloud",
  interpolated: "filled between neighbours",
  coarse: "given for several hours at once",
  assumed: "assumed",
};

/** One column's hours that carry one mark: "sun estimated from cloud in 126 of 240 hours". */
export function markSentences({ marks, hours }: WeatherSeries, manner: Pick<Manner, "locale">): string[] {
  const total = numberText(hours.startUtc.length, 0, manner);
  return Object.entries(marks ?? {}).flatMap(([column, list]) =>
    Object.entries(MARK_WORDS).flatMap(([mark, words]) => {
      const count = list?.filter((one) => one === mark).length ?? 0;
      if (count === 0) return [];
      const name = COLUMN_WORDS[column as ColumnName] ?? column;
      return [`${name} ${words} in ${numberText(count, 0, manner)} of ${total} hours`];
    }),
  );
}

/** "Forecast of MET Norway, model ec, run Wednesday 06:00, 3 h old". */
export function sourceSentence(series: WeatherSeries, nowMs: number, manner: Manner): string {
  const { provider, model, issuedUtc, fetchedUtc } = series;
  const parts = [
    `${series.origin === "joined" ? "Your station, then the f" : "F"}orecast of ${providerLabel(provider)}`,
  ];
  // The service that picks its models by the place calls that so.
  if (model) parts.push(model === "best_match" ? "the models that fit the place best" : `model ${model}`);
  if (issuedUtc) parts.push(`issued ${dayClockText(issuedUtc, manner)}`);
  const { hours } = weatherAge(series, nowMs);
  if (hours !== null) parts.push(`${spanInWords(hours, manner)} old`);
  if (fetchedUtc) parts.push(`looked for ${dayClockText(fetchedUtc, manner)}`);
  return `${parts.join(", ")}.`;
}
