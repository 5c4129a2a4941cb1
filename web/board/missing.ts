import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { dayClockText, spanText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText, sentenceCase } from "../format/words.ts";
import { type Scale, type Span, seriesSpan } from "./calendar.ts";

/** Hours that are not known, or not used, with what was done about it. */
export interface MissingSpan extends Span {
  readonly fromMs: number;
  readonly toMs: number;
  /** "Friday 14:00 to 17:00: wind missing, filled between its neighbours." */
  readonly sentence: string;
  /** Only the rain's own strip is unknown: the rows stand on assumed dry weather. */
  readonly stripOnly: boolean;
}

type Hours = WeatherSeries["hours"];

const isMissing = (column: readonly (number | null)[] | undefined, i: number) =>
  column === undefined || column[i] === null || column[i] === undefined;

/** What an hour lacks. A night needs neither radiation nor cloud. */
function lacks(hours: Hours, i: number, dark: boolean): string[] {
  const names: string[] = [];
  if (isMissing(hours.airTempC, i)) names.push("temperature");
  if (isMissing(hours.relHumidityPct, i) && isMissing(hours.dewPointC, i)) names.push("humidity");
  if (isMissing(hours.windSpeedMps, i)) names.push("wind");
  if (!dark && isMissing(hours.solarWm2, i) && isMissing(hours.cloudPct, i)) names.push("radiation");
  return names;
}

/**
 * The hours to be hatched, in time order.
 *
 * @param isDark whether an hour's middle lies in the night
 */
export function missingSpans(
  series: WeatherSeries,
  answer: Pick<WindowsAnswer, "usableUntilUtc">,
  scale: Scale,
  manner: Manner,
  isDark: (ms: number) => boolean,
): MissingSpan[] {
  const { hours } = series;
  const { fromMs, toMs } = seriesSpan(series);
  const usableUntilMs = Math.min(toMs, utcMs(answer.usableUntilUtc));
  const noRain = hours.rainMm.every((mm) => mm === null);
  const spans: MissingSpan[] = [];
  const add = (startMs: number, endMs: number, sentence: string, stripOnly = false) => {
    if (endMs <= scale.fromMs || startMs >= scale.toMs) return;
    const x0 = scale.x(Math.max(startMs, scale.fromMs));
    const x1 = scale.x(Math.min(endMs, scale.toMs));
    spans.push({ x0, x1, fromMs: startMs, toMs: endMs, sentence, stripOnly });
  };
  if (noRain) add(fromMs, toMs, "No rain in this weather: it is taken as dry.", true);
  const namesAt = (i: number) => {
    const names = lacks(hours, i, isDark(fromMs + (i + 0.5) * HOUR_MS));
    return !noRain && isMissing(hours.rainMm, i) ? [...names, "rain"] : names;
  };
  const count = Math.round((usableUntilMs - fromMs) / HOUR_MS);
  for (let i = 0; i < count; i++) {
    const names = namesAt(i).join(" ");
    if (names === "") continue;
    let end = i + 1;
    while (end < count && namesAt(end).join(" ") === names) end++;
    const [startMs, endMs] = [fromMs + i * HOUR_MS, fromMs + end * HOUR_MS];
    const done = i === 0 ? "the weather is used from there on" : "filled between the hours around it";
    add(startMs, endMs, `${spanText(startMs, endMs, manner)}: ${listText(namesAt(i))} missing, ${done}.`);
    i = end - 1;
  }
  if (usableUntilMs < toMs) {
    const names = namesAt(count);
    const why = names.length > 0 ? `: ${listText(names)} missing` : "";
    add(
      usableUntilMs,
      toMs,
      `${sentenceCase(`not used from ${dayClockText(usableUntilMs, manner)}`)} on${why}.`,
    );
  }
  return spans;
}
