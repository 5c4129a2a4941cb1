import { learnedUntilMs } from "../../model/odds/reading-checks.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { cutsThatLie } from "../made/made-cuts.ts";
import { rateBeside } from "../reading/readings.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { State } from "../state/state.ts";
import { pastOf } from "../states/past.ts";
import type { WeatherSource } from "../weather/source.ts";
import type { Asker } from "./asker.ts";

const HOUR_MS = 3_600_000;

function utcText(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 19)}Z`;
}

/**
 * From when on a board of this weather begins. A forecast, and a file that reaches far enough past now, is of what is to
 * come; invented weather and files of the past are looked at from their first hour on.
 */
export function fromNow(source: WeatherSource | null, nowMs: number): { readonly nowUtc?: string } {
  if (source === null || source.kind === "sample" || pastOf(source, nowMs) !== null) return {};
  const hourMs = Math.floor(nowMs / HOUR_MS) * HOUR_MS;
  const { startUtc } = source.series.hours;
  const [first, last] = [Date.parse(startUtc[0] ?? ""), Date.parse(startUtc.at(-1) ?? "")];
  return hourMs < first || hourMs > last ? {} : { nowUtc: utcText(hourMs) };
}

/**
 * The weather that is asked about. A file of the past says when it was forecast, or else holds what had come by now: chances
 * are of weather that is still to come.
 */
export function askedWeather(source: WeatherSource, nowMs: number): WeatherSeries {
  const { kind, series } = source;
  if (kind !== "upload" || series.issuedUtc != null || pastOf(source, nowMs) === null) return series;
  return { ...series, issuedUtc: utcText(nowMs) };
}

/** The rate that a board of this state goes by beside its readings, as it is told from another. */
export function rateText({ source, inputs, readings, learned }: State): string {
  return source === null ? "" : JSON.stringify(rateBeside({ readings, learned }, { source, inputs }));
}

/** Whether both are of one forecast, of which the later may have the members that were slow. */
function sameForecast(source: WeatherSource, before: unknown): boolean {
  const last = before as WeatherSource | undefined;
  return (
    source.kind === "forecast" &&
    last?.kind === "forecast" &&
    source.place === last.place &&
    source.series.fetchedUtc === last.series.fetchedUtc
  );
}

/**
 * All that a question was of but its reader: where nothing of it changed, the same board is asked for in other words, or
 * with members that came late.
 */
export type Asked = readonly unknown[];

/**
 * Asks the worker for the board of this state. Nothing is asked while there is no weather, or a field holds a mistake.
 *
 * @param last what the question before was of; null = there was none
 * @returns what this question was of
 */
export function ask(asker: Asker, state: State, last: Asked | null): Asked | null {
  const { source, inputs, learned, readings, made, locale, picture } = state;
  const { units, draws } = state.preferences;
  const { question } = readInputs(inputs);
  if (source === null || question === null) return last;
  const { nowUtc } = fromNow(source, state.nowMs);
  const rate = rateBeside({ readings, learned }, { source, inputs });
  const request = {
    ...question,
    weather: askedWeather(source, state.nowMs),
    ...(nowUtc === undefined ? {} : { nowUtc }),
    ...(draws === undefined ? {} : { draws }),
    // What is learned later than this weather, or in invented weather that lies ahead, is nothing to go by yet.
    ...(rate && Date.parse(rate.atUtc) <= learnedUntilMs(source.series, nowUtc) ? { learned: rate } : {}),
    ...cutsThatLie(made, readings, { source, inputs }, question.routes),
  };
  const asked = [source, inputs, rateText(state), readings, made, nowUtc];
  const isSame = (part: unknown, i: number) =>
    part === last?.[i] || (part === source && sameForecast(source, last?.[i]));
  const whole = picture?.answer.odds !== undefined && asked.every(isSame);
  asker.ask({ source, inputs, request, speech: { units, locale }, whole });
  return asked;
}
