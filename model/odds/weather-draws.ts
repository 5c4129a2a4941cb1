import { HOUR_MS } from "../weather/clock.ts";
import { type HourlyWeather, mapColumns, type PreparedWeather } from "../weather/hourly.ts";
import { memberSeries } from "../weather/members.ts";
import { prepareWeather } from "../weather/prepare.ts";
import type { WeatherSeries } from "../weather/series.ts";
import { streamSeed } from "./random.ts";
import { WIDENED_TEXT, widenedMember } from "./widen.ts";

/** Where the weather's share of the odds comes from: an ensemble, one forecast widened, or weather that is past. */
export type OddsWeatherKind = "members" | "widened" | "known";

/** No forecast reaches farther than this: a longer upload without an issue time is a record of the past. Assumed. */
export const LONGEST_FORECAST_H = 16 * 24;

export interface WeatherDraws {
  readonly kind: OddsWeatherKind;
  /** Members that can be used, 0 where none were given. */
  readonly members: number;
  /** Members given that end before the main series, or cannot be read. */
  readonly leftOut: number;
  /** The weather of draw i. The same object for the same i. */
  readonly of: (i: number) => HourlyWeather;
  /** What the answer says of it. */
  readonly text: string;
}

export const KNOWN_TEXT =
  "The weather is taken as known: the odds are those of the model and the crop alone.";

/** The hours of a member that the main series has; null where it does not cover them. */
function coveringMain(member: HourlyWeather, main: HourlyWeather): HourlyWeather | null {
  const from = (main.startUtcMs - member.startUtcMs) / HOUR_MS;
  if (from < 0 || member.count - from < main.count) return null;
  if (from === 0 && member.count === main.count) return member;
  const { startUtcMs, count } = main;
  const columns = mapColumns(member, (column) => column.subarray(from, from + count) as typeof column);
  return { ...member, startUtcMs, count, ...columns };
}

/** Members made ready, by series: a board and its courses ask for the same. */
const READY = new WeakMap<
  WeatherSeries,
  { readonly weathers: readonly HourlyWeather[]; readonly leftOut: number }
>();

function readyMembers(series: WeatherSeries, main: HourlyWeather) {
  const known = READY.get(series);
  if (known) return known;
  const weathers = (series.members ?? []).flatMap((_, i) => {
    const member = prepareWeather(memberSeries(series, i));
    const covering = member.ok ? coveringMain(member.value.weather, main) : null;
    return covering === null ? [] : [covering];
  });
  const ready = { weathers, leftOut: (series.members?.length ?? 0) - weathers.length };
  READY.set(series, ready);
  return ready;
}

/** End of the last hour that is marked as observed, UTC ms; null where none is. */
function observedUntilMs(series: WeatherSeries, prepared: PreparedWeather): number | null {
  const marks = prepared.marks.airTempC ?? prepared.marks.rainMm;
  const last = marks?.lastIndexOf("observed") ?? -1;
  return last < 0 ? null : Date.parse(series.hours.startUtc[last] as string) + HOUR_MS;
}

/**
 * From when on the weather is a forecast, UTC ms: when it was issued, as given, else when it was fetched, or the end of what
 * is marked as observed if that is later: what was measured is no longer uncertain. Else now.
 * Null for weather that is past: an archive, or an upload longer than any forecast.
 */
export function issuedUtcMs(
  series: WeatherSeries,
  prepared: PreparedWeather,
  nowUtcMs: number | null,
): number | null {
  if (series.origin === "archive") return null;
  const told = series.issuedUtc ?? series.fetchedUtc ?? null;
  const observed = observedUntilMs(series, prepared);
  if (told !== null) return Math.max(Date.parse(told), observed ?? Number.NEGATIVE_INFINITY);
  if (observed !== null) return observed;
  if (prepared.weather.count > LONGEST_FORECAST_H) return null;
  return nowUtcMs ?? prepared.weather.startUtcMs;
}

/** Fewer members than this are too few to tell chances by alone: each is then gone through several times. Assumed. */
export const FEW_MEMBERS = 20;

/** What the odds say of their weathers, and of draws that are too few to tell chances by. */
export function oddsText({ text, members }: Pick<WeatherDraws, "text" | "members">, draws: number): string {
  if (draws >= FEW_MEMBERS || (members > 0 && members < FEW_MEMBERS)) return text;
  const only = draws === 1 ? "One draw alone does" : `${draws} draws do`;
  return `${text} ${only} not show how far it may turn: take no chance of so few as sure, however high or low.`;
}

function membersText(members: number, leftOut: number): string {
  const left =
    leftOut === 0
      ? ""
      : ` ${leftOut} ${leftOut === 1 ? "ends" : "end"} early and ${leftOut === 1 ? "is" : "are"} left out.`;
  const few =
    members >= FEW_MEMBERS
      ? ""
      : ` So few do not show how far the weather may turn: take no chance of them as sure, however high or low.`;
  return `Odds from ${members} ${members === 1 ? "member" : "members"} of the forecast, each with a draw of what the model may be wrong about.${left}${few}`;
}

/**
 * The weathers that the draws run through. Draw i has member i (again from the first where there are more draws than
 * members), a widened copy of a single forecast, or the one weather that is known. The same seed gives the same weathers.
 */
export function weatherDraws(
  series: WeatherSeries,
  prepared: PreparedWeather,
  nowUtcMs: number | null,
  seed: number,
): WeatherDraws {
  const { weathers, leftOut } = readyMembers(series, prepared.weather);
  if (weathers.length > 0) {
    const of = (i: number) => weathers[i % weathers.length] as HourlyWeather;
    return {
      kind: "members",
      members: weathers.length,
      leftOut,
      of,
      text: membersText(weathers.length, leftOut),
    };
  }
  const issued = issuedUtcMs(series, prepared, nowUtcMs);
  const { weather } = prepared;
  if (issued === null || issued >= weather.startUtcMs + weather.count * HOUR_MS) {
    return { kind: "known", members: 0, leftOut, of: () => weather, text: KNOWN_TEXT };
  }
  const made = new Map<number, HourlyWeather>();
  const of = (i: number) => {
    const member = made.get(i) ?? widenedMember(weather, issued, streamSeed(seed, i));
    made.set(i, member);
    return member;
  };
  return { kind: "widened", members: 0, leftOut, of, text: WIDENED_TEXT };
}
