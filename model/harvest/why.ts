import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { WhyAnswer, WindowLimit } from "./answer.ts";
import type { Need } from "./limited-by.ts";
import { BAND_ONLY, lowestWorkingEquilibriumWb } from "./limited-by.ts";
import type { RouteEntry } from "./routes.ts";
import type { Track } from "./spans.ts";
import { ALL_CONDITIONS, fitSpans, NO_FILM_MM, spanHours } from "./spans.ts";
import { edgeWords, hoursWords, percentWords, rainWords, spanWords, whenWords } from "./words.ts";
import type { FarmClock, Span } from "./work-hours.ts";

/** What the reasons of one route on one track are told from. */
export interface Told {
  readonly clock: FarmClock;
  readonly entry: RouteEntry;
  readonly track: Track;
  readonly need: Need;
  readonly equilibriumWb: Float64Array | null;
  readonly endUtcMs: number;
  readonly maxRainMm24h: number;
}

function why(code: string, atMs: number | null, moistureWb: number | null, text: string): WhyAnswer {
  return { code, atUtc: atMs === null ? null : utcLabel(atMs), moistureWb, text };
}

/** Spells of rain that are told one by one; the rest is summed. */
const SPELLS_TOLD = 3;
/** Dry hours that still belong to one spell, h. */
const SPELL_GAP_H = 2;

function wbAtHourStart(track: Track, i: number): number {
  return i === 0 ? track.startWb : (track.endWb[i - 1] as number);
}

/** Rain that falls on the swath before `untilMs`: when, how much, and how dry it already was. */
export function rainOnSwath({ clock, track }: Told, untilMs: number): WhyAnswer[] {
  const end = Math.min(track.count, Math.ceil((untilMs - track.startUtcMs) / HOUR_MS - 1e-9));
  const spells: { first: number; last: number; rainMm: number }[] = [];
  for (let i = 0; i < end; i++) {
    const rainMm = track.rainMm[i] as number;
    if (!(rainMm > 0)) continue;
    const open = spells.at(-1);
    if (open && i - open.last <= SPELL_GAP_H + 1) {
      open.last = i;
      open.rainMm += rainMm;
    } else {
      spells.push({ first: i, last: i, rainMm });
    }
  }
  const told = spells.slice(0, SPELLS_TOLD).map(({ first, rainMm }) => {
    const atMs = track.startUtcMs + first * HOUR_MS;
    const wb = wbAtHourStart(track, first);
    const text = `Rain on ${whenWords(clock, atMs)} reaches the swath at ${percentWords(wb)}: ${rainWords(rainMm)}.`;
    return why("rain-on-swath", atMs, wb, text);
  });
  const rest = spells.slice(SPELLS_TOLD);
  const next = rest[0];
  if (next) {
    const atMs = track.startUtcMs + next.first * HOUR_MS;
    const restMm = rest.reduce((sum, spell) => sum + spell.rainMm, 0);
    const more = `More rain from ${whenWords(clock, atMs)} on: ${rainWords(restMm)} in ${rest.length === 1 ? "one spell" : `${rest.length} spells`}.`;
    told.push(why("more-rain", atMs, wbAtHourStart(track, next.first), more));
  }
  return told;
}

/** The first window in words. */
export function windowWords({ clock, entry, need }: Told, window: Span, fromMs: number | null): WhyAnswer {
  const after = fromMs === null ? "" : `, ${hoursWords((window.startMs - fromMs) / HOUR_MS)} after the cut`;
  const work = need.hours > 0 ? ` The work takes ${hoursWords(need.hours)}.` : "";
  const text = `${spanWords(clock, window.startMs, window.endMs)} it ${entry.can}${after}.${work}`;
  return why("window", window.startMs, null, text);
}

/** Free water that keeps the first window from beginning, or null where it begins with the moisture. */
export function filmBeforeWindow({ clock, track, need }: Told, window: Span): WhyAnswer | null {
  const i = Math.floor((window.startMs - track.startUtcMs) / HOUR_MS);
  const filmMm = i <= 0 ? track.startFilmMm : (track.endFilmMm?.[i - 1] ?? 0);
  if (filmMm < NO_FILM_MM) return null;
  const wet = fitSpans(track, need.bandWb, { ...ALL_CONDITIONS, film: false }, need.days);
  const same = wet.find((span) => span.startMs < window.startMs && span.endMs > window.startMs);
  if (!same) return null;
  const text = `Dew or rain lies on the swath until ${whenWords(clock, window.startMs)}.`;
  return why("dew-on-swath", window.startMs, null, text);
}

/** The hours after the cut between which the estimates come down to the band, always as a range. */
export function rangeWords(
  topWb: number,
  hours: { readonly earliest: number | null; readonly latest: number | null },
  reached: number,
  asked: number,
): WhyAnswer | null {
  if (asked < 2) return null;
  const top = edgeWords(topWb);
  if (hours.earliest === null || hours.latest === null) {
    const none = `None of the ${asked} estimates (the model and published formulas) comes down to ${top} within the forecast.`;
    return why("estimates", null, topWb, none);
  }
  const early = hoursWords(hours.earliest);
  const text =
    reached < asked
      ? `Down to ${top} between ${early} after the cut and later than the forecast: ${asked - reached} of ${asked} estimates do not get there.`
      : `Down to ${top} between ${early} and ${hoursWords(hours.latest)} after the cut, by the model and published formulas.`;
  return why("estimates", null, topWb, text);
}

function longest(spans: readonly Span[]): Span | null {
  let best: Span | null = null;
  for (const span of spans) if (best === null || spanHours(span) > spanHours(best)) best = span;
  return best;
}

/** End of the first hour that ends below this moisture, UTC ms. */
export function firstBelowMs(track: Track, footWb: number): number {
  for (let i = 0; i < track.count; i++) {
    if ((track.endWb[i] as number) < footWb) return track.startUtcMs + (i + 1) * HOUR_MS;
  }
  return track.fromUtcMs;
}

/** Why there is no window, in words that name the hour or the amount. */
export function limitWords(told: Told, limit: WindowLimit): WhyAnswer {
  const { clock, entry, track, need, endUtcMs } = told;
  const [footWb, topWb] = need.bandWb;
  const lastWb = track.count === 0 ? track.startWb : (track.endWb[track.count - 1] as number);
  const needs = `The work takes ${hoursWords(need.hours)}`;
  switch (limit) {
    case "standing-too-wet":
      return why(
        limit,
        endUtcMs,
        lastWb,
        `The standing crop is still at ${percentWords(lastWb)} on ${whenWords(clock, endUtcMs)}; the store takes at most ${edgeWords(topWb)}.`,
      );
    case "rain":
      return why(
        limit,
        null,
        null,
        `Without the rain in this forecast it ${entry.can}; with it there is no time long enough.`,
      );
    case "air-too-humid": {
      const lowest = told.equilibriumWb
        ? lowestWorkingEquilibriumWb(track, told.equilibriumWb, need.days)
        : topWb;
      return why(
        limit,
        null,
        lowest,
        `In the working hours the air is never dry enough: the crop would rest at ${percentWords(lowest)} at best, ${edgeWords(topWb)} is needed.`,
      );
    }
    case "over-dry": {
      const atMs = firstBelowMs(track, footWb);
      const best = longest(fitSpans(track, need.bandWb, BAND_ONLY, need.days));
      const band = `${edgeWords(footWb)} to ${edgeWords(topWb)}`;
      const text = best
        ? `It stays at ${band} for ${hoursWords(spanHours(best))} at the longest and is too dry by ${whenWords(clock, atMs)}. ${needs}.`
        : `It is too dry from the start for ${band}.`;
      return why(limit, atMs, footWb, text);
    }
    case "dew":
      return why("dew-on-swath", null, null, `Dew lies on the swath when it is otherwise ready. ${needs}.`);
    case "soil-too-wet":
      return why(
        limit,
        null,
        null,
        `The soil does not carry machines when the crop is ready: over ${rainWords(told.maxRainMm24h)} of rain in the 24 hours before.`,
      );
    case "working-hours": {
      const any = fitSpans(track, need.bandWb, { ...ALL_CONDITIONS, work: false }, need.days);
      const best = longest(any);
      const when = best ? `: ready ${spanWords(clock, best.startMs, best.endMs)}` : "";
      return why(limit, best?.startMs ?? null, null, `It needs work beyond the working hours${when}.`);
    }
    case "too-few-hours": {
      const best = longest(fitSpans(track, need.bandWb, ALL_CONDITIONS, need.days));
      const had = best
        ? `The longest span is ${hoursWords(spanHours(best))}, ${spanWords(clock, best.startMs, best.endMs)}. `
        : "";
      return why(limit, best?.startMs ?? null, null, `${had}${needs} in one day.`);
    }
    case "slow-drying":
      return why(
        limit,
        endUtcMs,
        lastWb,
        `It is still at ${percentWords(lastWb)} on ${whenWords(clock, endUtcMs)} and dries so slowly that ${edgeWords(topWb)} is over ten more days away.`,
      );
    case "forecast-too-short":
      return why(
        limit,
        endUtcMs,
        lastWb,
        lastWb > topWb
          ? `The forecast ends on ${whenWords(clock, endUtcMs)} with the crop at ${percentWords(lastWb)}; ${edgeWords(topWb)} may come later.`
          : `The forecast ends on ${whenWords(clock, endUtcMs)}; a time to work may come later.`,
      );
  }
}
