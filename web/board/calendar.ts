import type { RainDay } from "../../model/odds/rain-days.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { sunDay } from "../../model/weather/sun.ts";
import {
  clockText,
  dayDateText,
  type FarmDay,
  farmDays,
  shortDayDateText,
  shortDayText,
  utcMs,
} from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage } from "../format/units.ts";
import { rainText } from "../format/words.ts";
import { mayRain, rainOddsText, rainOddsWords } from "./rain-odds.ts";

/** The hours across, shared by everything drawn above one another. */
export interface Scale {
  readonly fromMs: number;
  readonly toMs: number;
  readonly x0: number;
  readonly x1: number;
  x(moment: number | string): number;
}

export function scaleOf(fromMs: number, toMs: number, x0: number, x1: number): Scale {
  const perMs = (x1 - x0) / Math.max(1, toMs - fromMs);
  return { fromMs, toMs, x0, x1, x: (moment) => x0 + (utcMs(moment) - fromMs) * perMs };
}

export interface Span {
  readonly x0: number;
  readonly x1: number;
}

export interface DayColumn extends Span {
  readonly dayKey: string;
  /** "Thu 16"; where that has no room "Thu" or "Th", with the day of the month below it. */
  readonly label: string;
  readonly date: string;
  /** "dry", "14 mm", "no data"; "dry?" or "14 mm+" where hours of the day are not known. In a narrow column "14" alone. */
  readonly rainWords: string;
  readonly wet: boolean;
  /** "4 in 10, to 14 mm" for more than 1 mm, "4 in 10" where that has no room; "4" in a narrow column; "" where no chance is known. */
  readonly oddsWords: string;
  /** A chance worth telling, though no amount may be told. */
  readonly mayRain: boolean;
  /** The weather that is used ends before it: nothing is told of it. */
  readonly unused: boolean;
  /** "Sunday 21 Jun: 6.8 mm of rain, 14:00 to 20:00." */
  readonly sentence: string;
}

export interface RainBar extends Span {
  /** Sum of the three hours, mm. */
  readonly rainMm: number;
  readonly lengthPx: number;
}

/** First and last moment of the weather. */
export function seriesSpan(series: WeatherSeries): { readonly fromMs: number; readonly toMs: number } {
  const { startUtc } = series.hours;
  const first = startUtc[0];
  if (first === undefined)
    throw new RangeError("seriesSpan: hours.startUtc must hold at least one hour, got 0");
  const fromMs = utcMs(first);
  return { fromMs, toMs: fromMs + startUtc.length * HOUR_MS };
}

/** Rain between two moments, mm; null where every hour is missing or outside the weather. */
export function rainBetween(series: WeatherSeries, fromMs: number, toMs: number): number | null {
  const { fromMs: firstMs } = seriesSpan(series);
  const from = Math.max(0, Math.floor((fromMs - firstMs) / HOUR_MS));
  const to = Math.ceil((toMs - firstMs) / HOUR_MS);
  const known = series.hours.rainMm.slice(from, Math.max(from, to)).filter((mm) => mm !== null);
  return known.length === 0 ? null : known.reduce((sum, mm) => sum + mm, 0);
}

/** The weather with no rain told from a moment on: what the answer does not use is no forecast of its own. */
export function rainUntil(series: WeatherSeries, untilMs: number): WeatherSeries {
  const { fromMs, toMs } = seriesSpan(series);
  if (untilMs >= toMs) return series;
  const used = Math.round((untilMs - fromMs) / HOUR_MS);
  const rainMm = series.hours.rainMm.map((mm, i) => (i < used ? mm : null));
  return { ...series, hours: { ...series.hours, rainMm } };
}

/** Below this the day counts as dry in words, mm. */
export const DRY_BELOW_MM = 0.05;

/** Hours of a day whose rain is not known. */
function unknownHours(series: WeatherSeries, startMs: number, endMs: number): number {
  let hours = 0;
  for (let ms = startMs; ms < endMs; ms += HOUR_MS)
    if (rainBetween(series, ms, ms + HOUR_MS) === null) hours++;
  return hours;
}

/** A day in a word; with hours that are not known "dry?" and "6.8 mm+". */
function dayWords(mm: number | null, unknown: number, manner: Manner): string {
  if (mm === null) return "no data";
  if (mm < DRY_BELOW_MM) return unknown > 0 ? "dry?" : "dry";
  const text = rainText(mm, manner);
  // A column has no room for "under 0.01 in".
  const short = text.startsWith("under") ? "trace" : text;
  return unknown > 0 ? `${short}+` : short;
}

/** A day in a column that has room for a number alone: "14", "0.5", "?" and nothing where it is dry. */
function dayNumber(mm: number | null, unknown: number, manner: Manner): string {
  if (mm === null) return "?";
  if (mm < DRY_BELOW_MM) return unknown > 0 ? "?" : "";
  const decimals = manner.units === "us" ? 1 : 0;
  const shown = numberText(toPage(mm, "rain", manner.units), decimals, manner);
  return shown === "0" ? "<" : shown;
}

/** Room that a day needs for "Thu 16", "Thu", anything at all, and for its rain with a unit, px. */
const WHOLE_LABEL_PX = 58;
const SHORT_LABEL_PX = 34;
const LEAST_LABEL_PX = 17;
export const RAIN_WORDS_PX = 48;

/** A day's rain in words: how much, between which hours, and with what chance (`odds`, in words). */
function rainSentence(
  series: WeatherSeries,
  { startMs, endMs: dayEndMs }: Pick<FarmDay, "startMs" | "endMs">,
  untilMs: number,
  manner: Manner,
  odds: string,
): string {
  const date = dayDateText(startMs, manner);
  const day = untilMs < dayEndMs ? `${date} until ${clockText(untilMs, manner)}` : date;
  const endMs = Math.min(dayEndMs, untilMs);
  const mm = rainBetween(series, startMs, endMs);
  if (mm === null) return `${day}: rain not known${odds}.`;
  const gaps = unknownHours(series, startMs, endMs);
  const unknown = gaps === 0 ? "" : ` ${gaps} ${gaps === 1 ? "hour" : "hours"} not known.`;
  if (mm < DRY_BELOW_MM) return `${day}: no rain${odds}.${unknown}`;
  const wet: number[] = [];
  for (let ms = startMs; ms < endMs; ms += HOUR_MS)
    if ((rainBetween(series, ms, ms + HOUR_MS) ?? 0) > 0) wet.push(ms);
  const from = wet[0] ?? startMs;
  const to = (wet.at(-1) ?? startMs) + HOUR_MS;
  const hours =
    to >= dayEndMs
      ? `from ${clockText(from, manner)} into the night`
      : `${clockText(from, manner)} to ${clockText(to, manner)}`;
  return `${day}: ${rainText(mm, manner)} of rain, ${hours}${odds}.${unknown}`;
}

/** "Rain: Sunday 21 Jun 6.8 mm, ...; dry on the other 3 days." */
export function rainInWords(columns: readonly DayColumn[]): string {
  const wet = columns.filter((column) => column.wet || column.mayRain);
  if (wet.length === 0) return "No rain is known on these days.";
  const dry = columns.filter(({ unused }) => !unused).length - wet.length;
  const rest = dry === 0 ? "" : ` None known on the other ${dry === 1 ? "day" : `${dry} days`}.`;
  return `Rain: ${wet.map(({ sentence }) => sentence.replace(/\.$/, "")).join("; ")}.${rest}`;
}

/** How far a day is known: whole, until a clock time of it, or not at all because the weather that is used ended before. */
type Reach = "whole" | "cut" | "after";

/**
 * The days across, in words.
 *
 * @param untilMs end of the weather that is used, UTC ms; nothing is told of what comes after it
 */
export function dayColumns(
  whole: WeatherSeries,
  days: readonly FarmDay[],
  scale: Scale,
  manner: Manner,
  odds: ReadonlyMap<string, RainDay> = new Map(),
  untilMs: number = seriesSpan(whole).toMs,
): DayColumn[] {
  const series = rainUntil(whole, untilMs);
  return days.map(({ dayKey, startMs, endMs }) => {
    const reach: Reach = startMs >= untilMs ? "after" : endMs > untilMs ? "cut" : "whole";
    const x0 = scale.x(startMs);
    const x1 = scale.x(endMs);
    const roomPx = x1 - x0;
    const whole = roomPx >= WHOLE_LABEL_PX;
    const name = roomPx < LEAST_LABEL_PX ? "" : shortDayText(startMs, manner);
    const mm = rainBetween(series, startMs, endMs);
    const unknown = unknownHours(series, startMs, endMs);
    const unused = reach === "after";
    const silent = name === "" || unused;
    const rain = unused ? undefined : odds.get(dayKey);
    return {
      dayKey,
      x0,
      x1,
      label: whole ? shortDayDateText(startMs, manner) : name.slice(0, roomPx >= SHORT_LABEL_PX ? 3 : 2),
      date: whole || name === "" ? "" : shortDayDateText(startMs, manner).slice(name.length + 1),
      rainWords: silent
        ? ""
        : roomPx >= RAIN_WORDS_PX
          ? dayWords(mm, unknown, manner)
          : dayNumber(mm, unknown, manner),
      wet: (mm ?? 0) >= DRY_BELOW_MM,
      // The chance of a few of its hours, under the day's name, would be read as the day's.
      oddsWords:
        rain === undefined || silent || reach === "cut"
          ? ""
          : rainOddsText(rain, roomPx, roomPx < RAIN_WORDS_PX, manner),
      mayRain: mayRain(rain?.chance),
      unused,
      sentence: unused
        ? `${dayDateText(startMs, manner)}: this weather is not used.`
        : rainSentence(
            series,
            { startMs, endMs },
            untilMs,
            manner,
            rain === undefined ? "" : rainOddsWords(rain, manner),
          ),
    };
  });
}

/** The spans with the sun down, by the farm's place. A polar day has none, a polar night is one. */
export function nightSpans(series: WeatherSeries, scale: Scale, zone: string): Span[] {
  const { latitude, longitude } = series.site;
  const lightSpans = farmDays(scale.fromMs - 24 * HOUR_MS, scale.toMs + 24 * HOUR_MS, zone)
    .map(({ startMs, endMs }) => {
      const sun = sunDay((startMs + endMs) / 2, latitude, longitude);
      if (sun.kind === "rises") return { fromMs: sun.riseUtcMs, toMs: sun.setUtcMs };
      return sun.kind === "polar-day" ? { fromMs: startMs, toMs: endMs } : { fromMs: startMs, toMs: startMs };
    })
    .sort((a, b) => a.fromMs - b.fromMs);
  const nights: Span[] = [];
  let darkFromMs = scale.fromMs;
  for (const { fromMs, toMs } of lightSpans) {
    if (toMs <= fromMs || toMs <= darkFromMs) continue;
    const untilMs = Math.min(fromMs, scale.toMs);
    if (untilMs > darkFromMs) nights.push({ x0: scale.x(darkFromMs), x1: scale.x(untilMs) });
    darkFromMs = Math.max(darkFromMs, toMs);
    if (darkFromMs >= scale.toMs) break;
  }
  if (darkFromMs < scale.toMs) nights.push({ x0: scale.x(darkFromMs), x1: scale.x(scale.toMs) });
  return nights;
}

/** Rain of three hours that fills the strip, mm; more is drawn no longer (the words give the amount). */
const FULL_BAR_MM = 12;

/** Blocks of three hours from each local midnight, from when to when. */
export function rainBlocks(days: readonly FarmDay[]): readonly (readonly [fromMs: number, toMs: number])[] {
  return days.flatMap(({ startMs, endMs }) =>
    Array.from({ length: Math.ceil((endMs - startMs) / (3 * HOUR_MS)) }, (_, i) => {
      const fromMs = startMs + i * 3 * HOUR_MS;
      return [fromMs, Math.min(endMs, fromMs + 3 * HOUR_MS)] as const;
    }),
  );
}

/** The root of the amount, so that a shower is seen beside a storm. */
export function barLengthPx(mm: number, stripPx: number): number {
  return Math.max(3, stripPx * Math.min(1, Math.sqrt(mm / FULL_BAR_MM)));
}

/** Rain in blocks of three hours. */
export function rainBars(
  series: WeatherSeries,
  days: readonly FarmDay[],
  scale: Scale,
  stripPx: number,
): RainBar[] {
  return rainBlocks(days).flatMap(([fromMs, toMs]) => {
    const mm = rainBetween(series, fromMs, toMs) ?? 0;
    if (mm < DRY_BELOW_MM) return [];
    const lengthPx = barLengthPx(mm, stripPx);
    return [{ x0: scale.x(fromMs), x1: scale.x(toMs), rainMm: mm, lengthPx }];
  });
}
