import type { DrydownAnswer } from "../../model/drying/index.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { seriesSpan } from "../board/calendar.ts";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { moisturePct, rainText } from "../format/words.ts";
import type { CourseOdds } from "./spread.ts";
import { toldMs } from "./told-ms.ts";

/** What is read off the picture at one moment, in words; null where nothing is known. */
export interface CourseReading {
  /** "Thursday 13:00". */
  readonly hour: string;
  /** "52 %, leaf 40 %, stem 58 %", or that nothing is cut yet. */
  readonly moisture: string;
  /** "between 47 and 58 % in 8 of 10, between 49 and 55 % in 5 of 10"; null without odds. */
  readonly band: string | null;
  /** "water on it 0.3 mm"; null where there is none. */
  readonly water: string | null;
  /** The kept cut's moisture at the same moment. */
  readonly kept: string | null;
  /** "26 °C, humidity 45 %, wind 3.1 m/s, sun 640 W/m², no rain" of the hour that begins. */
  readonly air: string;
}

/** Free water below this is no water, mm: the same as the model counts as a dry swath. */
const DRY_BELOW_MM = 0.02;

function airText(series: WeatherSeries, ms: number, manner: Manner): string {
  const { fromMs } = seriesSpan(series);
  const i = Math.floor((ms - fromMs) / HOUR_MS);
  const { hours } = series;
  const known = (column: readonly (number | null)[] | undefined) => column?.[i] ?? null;
  const parts: string[] = [];
  const say = (value: number | null, text: (value: number) => string) => {
    if (value !== null) parts.push(text(value));
  };
  say(known(hours.airTempC), (c) => quantityText(c, "temperature", manner));
  const humidity = known(hours.relHumidityPct);
  say(humidity, (pct) => `humidity ${numberText(pct, 0, manner)} %`);
  if (humidity === null)
    say(known(hours.dewPointC), (c) => `dew point ${quantityText(c, "temperature", manner)}`);
  say(known(hours.windSpeedMps), (mps) => `wind ${quantityText(mps, "wind", manner)}`);
  const sun = known(hours.solarWm2);
  say(sun, (wm2) => `sun ${numberText(wm2, 0, manner)} W/m²`);
  if (sun === null) say(known(hours.cloudPct), (pct) => `cloud ${numberText(pct, 0, manner)} %`);
  say(known(hours.rainMm), (mm) => (mm > 0 ? `rain ${rainText(mm, manner)}` : "no rain"));
  return parts.length === 0 ? "no weather for this hour" : parts.join(", ");
}

/** Whether an hour of the weather lies after what is used of it. */
function isUnused({ usableUntilUtc }: DrydownAnswer, series: WeatherSeries, ms: number): boolean {
  return ms >= utcMs(usableUntilUtc) && ms < seriesSpan(series).toMs;
}

/** Values at the end of the hour that this moment ends; null outside the course. */
export function courseIndexAt(course: DrydownAnswer, ms: number): number | null {
  const firstMs = utcMs(course.hours.startUtc[0] ?? course.usableUntilUtc);
  const i = Math.round((ms - firstMs) / HOUR_MS) - 1;
  return i >= 0 && i < course.hours.startUtc.length ? i : null;
}

/** Moisture of a course at a full hour, wet basis; null before its cut and after its end. */
export function moistureWbAt(course: DrydownAnswer, ms: number): number | null {
  const i = courseIndexAt(course, ms);
  return i === null ? null : (course.hours.moistureWb[i] ?? null);
}

function moistureText(
  course: DrydownAnswer,
  cutMs: number,
  initialMoistureWb: number | undefined,
  ms: number,
  manner: Manner,
): string {
  if (ms < cutMs) return "not cut yet";
  const i = courseIndexAt(course, ms);
  if (i === null) {
    const atCut = ms < cutMs + HOUR_MS && initialMoistureWb !== undefined;
    return atCut ? moisturePct(initialMoistureWb, manner) : "past the end of the course";
  }
  const { moistureWb, leafMoistureWb, stemMoistureWb } = course.hours;
  const pct = (wb: number | undefined) => (wb === undefined ? "not known" : moisturePct(wb, manner));
  return `${pct(moistureWb[i])}, leaf ${pct(leafMoistureWb[i])}, stem ${pct(stemMoistureWb[i])}`;
}

/** "between 14 and 28 %", whole per cent; "14 %" where both come to the same. */
function betweenText(lowWb: number, highWb: number, manner: Manner): string {
  const [low, high] = [lowWb, highWb].map((wb) => numberText(wb * 100, 0, manner));
  return low === high ? `${high} %` : `between ${low} and ${high} %`;
}

/** Where eight and five of ten courses lie at the end of an hour. */
function bandText(odds: CourseOdds | undefined, i: number, manner: Manner): string | null {
  const [p10, p25, p75, p90] = [odds?.p10[i], odds?.p25[i], odds?.p75[i], odds?.p90[i]];
  if (p10 === undefined || p25 === undefined || p75 === undefined || p90 === undefined) return null;
  return `${betweenText(p10, p90, manner)} in 8 of 10, ${betweenText(p25, p75, manner)} in 5 of 10`;
}

export interface ReadFrom {
  readonly course: DrydownAnswer;
  /** Moment from which the swath lies. */
  readonly cutMs: number;
  readonly initialMoistureWb?: number | undefined;
  readonly series: WeatherSeries;
  readonly manner: Manner;
  readonly odds?: CourseOdds | undefined;
  /** A cut kept aside; shiftMs = how much later it is drawn than it lies. */
  readonly kept?: { readonly course: DrydownAnswer; readonly shiftMs: number } | null | undefined;
}

/** Moisture, hour and air at one full hour of the picture. */
export function readCourse(from: ReadFrom, ms: number): CourseReading {
  const { course, cutMs, initialMoistureWb, series, manner, kept, odds } = from;
  const i = courseIndexAt(course, ms);
  const waterMm = i === null ? 0 : (course.hours.freeWaterMm[i] ?? 0);
  const keptWb = kept ? moistureWbAt(kept.course, ms - kept.shiftMs) : null;
  return {
    hour: dayClockText(toldMs(ms), manner),
    moisture: moistureText(course, cutMs, initialMoistureWb, ms, manner),
    band: ms < cutMs || i === null ? null : bandText(odds, i, manner),
    water: waterMm >= DRY_BELOW_MM ? `water on it ${rainText(waterMm, manner)}` : null,
    kept: keptWb === null ? null : moisturePct(keptWb, manner),
    air: isUnused(course, series, ms) ? "not used here" : airText(series, ms, manner),
  };
}

/** The reading in one line, as it is spoken. */
export function readingText({ hour, moisture, band, water, kept, air }: CourseReading): string {
  const swath = [
    `swath ${moisture}`,
    ...(band === null ? [] : [band]),
    ...(water === null ? [] : [water]),
  ].join(", ");
  return `${hour}: ${swath}${kept === null ? "" : `; kept cut ${kept}`}; air ${air}`;
}

/** Full hours of the farm's clock across the picture: whole hours from its first, UTC ms. */
export function hourNear(ms: number, fromMs: number, toMs: number): number {
  const hour = fromMs + Math.round((ms - fromMs) / HOUR_MS) * HOUR_MS;
  return Math.min(Math.max(hour, fromMs), fromMs + Math.floor((toMs - fromMs) / HOUR_MS) * HOUR_MS);
}
