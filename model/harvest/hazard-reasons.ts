import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { HazardAnswer, RouteHazard, WhyAnswer, WindowLimit } from "./answer.ts";
import { type HazardSpan, hazardCalendar } from "./hazards/index.ts";
import type { RouteKey } from "./keys.ts";
import type { Settled, SettledRoute } from "./settle.ts";
import { type Teller, whenWords } from "./words.ts";
import type { Span } from "./work-hours.ts";

/** The hazard calendar on the board: which waits and cautions a cut or a turn lies in, and in which words. */

/** The calendar of each route asked for. One for a board: the weather's own, whatever the cut. */
export type HazardCalendars = ReadonlyMap<RouteKey, readonly HazardSpan[]>;

export function hazardCalendars({
  weather,
  swath,
  routes,
  hazards,
  maxRainMm24h,
}: Pick<Settled, "weather" | "swath" | "routes" | "hazards" | "maxRainMm24h">): HazardCalendars {
  return new Map(
    routes.map(({ route }) => [
      route,
      hazardCalendar(weather, { crop: swath.crop, route, ...hazards, maxRainMm24h }),
    ]),
  );
}

/** Those of the spans that touch a span of time, or a moment. */
export function hazardsDuring(calendar: readonly HazardSpan[], { startMs, endMs }: Span): HazardSpan[] {
  return calendar.filter(
    ({ startUtcMs, endUtcMs }) => startUtcMs < Math.max(endMs, startMs + 1) && startMs < endUtcMs,
  );
}

/** Hazards of the mowing of a swath route. */
export function mowingHazards(
  calendars: HazardCalendars,
  { route }: Pick<SettledRoute, "route">,
  cutUtcMs: number,
  mowHours: number,
): HazardSpan[] {
  const span = { startMs: cutUtcMs, endMs: cutUtcMs + mowHours * HOUR_MS };
  return hazardsDuring(calendars.get(route) ?? [], span);
}

/** What is left of the spans outside the waits, in order. */
export function outsideWaits(spans: readonly Span[], calendar: readonly HazardSpan[]): Span[] {
  const waits = calendar.filter(({ level }) => level === "wait");
  return waits.reduce<Span[]>(
    (left, wait) =>
      left
        .flatMap(({ startMs, endMs }) => [
          { startMs, endMs: Math.min(endMs, wait.startUtcMs) },
          { startMs: Math.max(startMs, wait.endUtcMs), endMs },
        ])
        .filter(({ startMs, endMs }) => endMs > startMs),
    [...spans],
  );
}

const AFTER_RAIN: readonly HazardSpan["code"][] = ["nitrate-after-rain", "prussic-regrowth"];

/** Why there is no turn outside the waits: the rain that began them, or that they last longer than the weather given. */
export function waitLimit(calendar: readonly HazardSpan[]): WindowLimit {
  const rain = calendar.some(({ level, code }) => level === "wait" && AFTER_RAIN.includes(code));
  return rain ? "rain" : "forecast-too-short";
}

export function waitLimitWords(limit: WindowLimit): WhyAnswer {
  const text = "Waits after rain, frost or for height leave no day within this weather.";
  return { code: limit, atUtc: null, moistureWb: null, text };
}

/** The reasons: what it is, what to do, and until when. */
export function hazardReasons(teller: Teller, spans: readonly HazardSpan[], endUtcMs: number): WhyAnswer[] {
  return spans.map(({ code, text, sinceUtcMs, endUtcMs: untilMs }) => {
    const until =
      untilMs < endUtcMs ? ` Counted until ${whenWords(teller, untilMs)}.` : " It lasts past this weather.";
    return { code, atUtc: utcLabel(sinceUtcMs), moistureWb: null, text: text + until };
  });
}

/** Codes and times, for a picture that shades a row. */
export function routeHazards(spans: readonly HazardSpan[]): RouteHazard[] {
  return spans.map(({ code, level, sinceUtcMs, endUtcMs }) => ({
    code,
    level,
    sinceUtc: utcLabel(sinceUtcMs),
    untilUtc: utcLabel(endUtcMs),
  }));
}

/** The whole calendar, for a picture that shades its columns. */
export function hazardAnswers(calendars: HazardCalendars): HazardAnswer[] {
  return [...calendars].flatMap(([route, spans]) =>
    spans.map(({ code, level, startUtcMs, endUtcMs, sinceUtcMs, text, source }) => ({
      route,
      code,
      level,
      startUtc: utcLabel(startUtcMs),
      endUtc: utcLabel(endUtcMs),
      sinceUtc: utcLabel(sinceUtcMs),
      text,
      source,
    })),
  );
}
