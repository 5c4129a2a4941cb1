import type { SweepCourse } from "../drying/course.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { WhyAnswer, WindowLimit } from "./answer.ts";
import type { Need } from "./limited-by.ts";
import { ANY_HOUR, BAND_ONLY, hasWindow, lowestOf, lowestWorkingEquilibriumWb } from "./limited-by.ts";
import type { RouteEntry } from "./routes.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Saying } from "./saying.ts";
import type { Conditions, Track } from "./spans.ts";
import { ALL_CONDITIONS, fitSpans, holds, NO_FILM_MM, spanHours } from "./spans.ts";
import type { Teller } from "./words.ts";
import {
  edgeWords,
  hoursWords,
  percentWords,
  rainWords,
  spanWords,
  unlikeHoursWords,
  whenWords,
} from "./words.ts";
import type { Span } from "./work-hours.ts";

/** What the reasons of one route on one track are told from. */
export interface Told {
  readonly teller: Teller;
  readonly entry: RouteEntry;
  readonly track: Track;
  readonly need: Need;
  readonly equilibriumWb: Float64Array | null;
  /** The same without the rain that falls on it; null where none falls. */
  readonly withoutRain: (() => Track) | null;
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
export function rainOnSwath({ teller, track }: Told, untilMs: number): WhyAnswer[] {
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
    const text = `Rain on ${whenWords(teller, atMs)} reaches the swath at ${percentWords(wb)}: ${rainWords(rainMm, teller.saying)}.`;
    return why("rain-on-swath", atMs, wb, text);
  });
  const rest = spells.slice(SPELLS_TOLD);
  const next = rest[0];
  if (next) {
    const atMs = track.startUtcMs + next.first * HOUR_MS;
    const restMm = rest.reduce((sum, spell) => sum + spell.rainMm, 0);
    const more = `More rain from ${whenWords(teller, atMs)} on: ${rainWords(restMm, teller.saying)} in ${rest.length === 1 ? "one spell" : `${rest.length} spells`}.`;
    told.push(why("more-rain", atMs, wbAtHourStart(track, next.first), more));
  }
  return told;
}

/** Green chop and grazing take a day's need at a time, the others the whole field. */
function workWords({ teller, entry, need }: Told, hours = hoursWords(need.hours, teller.saying)): string {
  return entry.wholeArea ? `The work takes ${hours}` : `Each day's turn takes ${hours}`;
}

/** The first window in words. */
export function windowWords(told: Told, window: Span, fromMs: number | null): WhyAnswer {
  const { teller, entry, need } = told;
  const after =
    fromMs === null
      ? ""
      : `, ${hoursWords((window.startMs - fromMs) / HOUR_MS, teller.saying)} after the cut`;
  const work = need.hours > 0 ? ` ${workWords(told)}.` : "";
  const text = `${spanWords(teller, window.startMs, window.endMs)} it ${entry.can}${after}.${work}`;
  return why("window", window.startMs, null, text);
}

/** Free water that keeps the first window from beginning, or null where it begins with the moisture. */
export function filmBeforeWindow({ teller, track, need }: Told, window: Span): WhyAnswer | null {
  const i = Math.floor((window.startMs - track.startUtcMs) / HOUR_MS);
  const filmMm = i <= 0 ? track.startFilmMm : (track.endFilmMm?.[i - 1] ?? 0);
  if (filmMm < NO_FILM_MM) return null;
  const wet = fitSpans(track, need.bandWb, { ...ALL_CONDITIONS, film: false }, need.days);
  const same = wet.find((span) => span.startMs < window.startMs && span.endMs > window.startMs);
  if (!same) return null;
  const text = `Dew or rain lies on the swath until ${whenWords(teller, window.startMs)}.`;
  return why("dew-on-swath", window.startMs, null, text);
}

/** The hours after the cut between which the estimates come down to the band, always as a range. */
export function rangeWords(
  saying: Saying,
  topWb: number,
  hours: { readonly earliest: number | null; readonly latest: number | null },
  reached: number,
  asked: number,
  rained: boolean,
): WhyAnswer | null {
  if (asked < 2) return null;
  const top = edgeWords(topWb, saying);
  const rain = rained ? " (the formulas do not count rain)" : "";
  if (hours.earliest === null) {
    const none = `None of the ${asked} estimates (the model and published formulas) comes down to ${top} within this weather${rain}.`;
    return why("estimates", null, topWb, none);
  }
  const [early, late] = unlikeHoursWords(hours.earliest, hours.latest ?? Number.POSITIVE_INFINITY, saying);
  const missing = asked - reached;
  const text =
    hours.latest === null
      ? `Down to ${top} after ${early} or later; ${missing} of ${asked} estimates ${missing === 1 ? "does" : "do"} not get there within this weather${rain}.`
      : `Down to ${top} between ${early} and ${late} after the cut, by the model and published formulas${rain}.`;
  return why("estimates", null, topWb, text);
}

/** Thick stems stay wet long after the leaves: the whole may be in the band while neither is. */
export function stemsAndLeaves(course: SweepCourse, atMs: number): WhyAnswer | null {
  const hours = (atMs - course.startUtcMs) / HOUR_MS;
  const i = Math.min(course.count - 1, Math.max(0, Math.ceil(hours) - 1));
  const at = (ends: Float64Array) => {
    const after = ends[i] as number;
    const before = i === 0 ? after : (ends[i - 1] as number);
    return before + (after - before) * (hours - i);
  };
  const stem = at(course.stemMoistureWb);
  const leaf = at(course.leafMoistureWb);
  if (percentWords(stem) === percentWords(leaf) || stem < leaf) return null;
  const text = `Stems are still at ${percentWords(stem)} while leaves are at ${percentWords(leaf)}: chop a sample and test it.`;
  return why("stems-wetter", atMs, stem, text);
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

function firstHolding({ track, need }: Told, conditions: Conditions): Span | null {
  return fitSpans(track, need.bandWb, conditions, need.days).find((span) => holds(span, need.hours)) ?? null;
}

/** Where the moisture alone would have left time enough: when that was, and that it was not all fit for work. */
function restWords(told: Told): string {
  const { teller, need } = told;
  const moist = need.hours > 24 ? null : firstHolding(told, BAND_ONLY);
  if (moist === null) return "";
  return ` The moisture alone would do ${spanWords(teller, moist.startMs, moist.endMs)}, but dew, rain, wet soil or the end of the working day cuts into that.`;
}

/** Dry hay in dry air is baled in the damp of night or morning: when that is, and what else would help. */
function dampHours(told: Told): string {
  const { teller, entry, track, need } = told;
  if (entry !== ROUTE_CATALOGUE["dry-hay"] || lowestOf(track) >= need.bandWb[0]) return "";
  const drier = `accept drier hay (a lower foot of the band than ${edgeWords(need.bandWb[0], teller.saying)}) with more leaf lost`;
  const enough = firstHolding(told, ANY_HOUR);
  const best = enough ?? longest(fitSpans(track, need.bandWb, ANY_HOUR, need.days));
  if (best === null) return ` What would change it: ${drier}.`;
  const span = spanWords(teller, best.startMs, best.endMs);
  return enough
    ? ` From ${span} it is damp enough: work through the night or early morning, or ${drier}.`
    : ` From ${span} it is damp enough: bale part of the field then, at night if need be, or ${drier}.`;
}

/** Why there is no window, in words that name the hour or the amount. */
export function limitWords(told: Told, limit: WindowLimit): WhyAnswer {
  const { teller, entry, track, need, endUtcMs } = told;
  const { saying } = teller;
  const [footWb, topWb] = need.bandWb;
  const lastWb = track.count === 0 ? track.startWb : (track.endWb[track.count - 1] as number);
  const needs = workWords(told);
  switch (limit) {
    case "standing-too-wet":
      return why(
        limit,
        endUtcMs,
        lastWb,
        `The standing crop is still at ${percentWords(lastWb)} on ${whenWords(teller, endUtcMs)}; the store takes at most ${edgeWords(topWb, saying)}.`,
      );
    case "rain":
      return why(
        limit,
        null,
        null,
        told.withoutRain !== null && hasWindow(told.withoutRain(), need, ALL_CONDITIONS)
          ? `Without the rain in this weather it ${entry.can}; with it there is no time long enough.`
          : `Rain, dew and wet soil together leave no time long enough. ${needs}.`,
      );
    case "air-too-humid": {
      const lowest = told.equilibriumWb
        ? lowestWorkingEquilibriumWb(track, told.equilibriumWb, need.days)
        : topWb;
      return why(
        limit,
        null,
        lowest,
        `In the working hours the air is never dry enough: the crop would rest at ${percentWords(lowest)} at best, ${edgeWords(topWb, saying)} is needed.`,
      );
    }
    case "over-dry": {
      const atMs = firstBelowMs(track, footWb);
      const best = longest(fitSpans(track, need.bandWb, BAND_ONLY, need.days));
      const band = `${edgeWords(footWb, saying)} to ${edgeWords(topWb, saying)}`;
      const [held, asked] = unlikeHoursWords(best ? spanHours(best) : 0, need.hours, saying);
      const short = best
        ? `It stays at ${band} for ${held} at the longest and is too dry by ${whenWords(teller, atMs)}. ${workWords(told, asked)}.`
        : `It is past ${band} within a minute and too dry by ${whenWords(teller, atMs)}.`;
      const text =
        best === null && track.startWb < footWb ? `It is too dry from the start for ${band}.` : short;
      return why(limit, atMs, footWb, text + dampHours(told));
    }
    case "dew":
      return why("dew-on-swath", null, null, `Dew lies on the swath when it is otherwise ready. ${needs}.`);
    case "soil-too-wet":
      return why(
        limit,
        null,
        null,
        `The soil does not carry machines when the crop is ready: over ${rainWords(told.maxRainMm24h, saying)} of rain in the 24 hours before.`,
      );
    case "working-hours": {
      const ready = firstHolding(told, ANY_HOUR);
      if (ready) {
        const text = `It needs work beyond the working hours: ready ${spanWords(teller, ready.startMs, ready.endMs)}. ${needs}.`;
        return why(limit, ready.startMs, null, text + dampHours(told));
      }
      const moist = firstHolding(told, BAND_ONLY);
      const when = moist ? ` (${spanWords(teller, moist.startMs, moist.endMs)})` : "";
      const text = `It is at ${edgeWords(footWb, saying)} to ${edgeWords(topWb, saying)} only outside the working hours${when}, and dew or rain breaks up that time. ${needs}.`;
      return why(limit, moist?.startMs ?? null, null, text);
    }
    case "too-few-hours": {
      const best = longest(fitSpans(track, need.bandWb, ALL_CONDITIONS, need.days));
      const [held, asked] = unlikeHoursWords(best ? spanHours(best) : 0, need.hours, saying);
      const had = best ? `The longest span is ${held}, ${spanWords(teller, best.startMs, best.endMs)}. ` : "";
      return why(
        limit,
        best?.startMs ?? null,
        null,
        `${had}${workWords(told, asked)} in one day.${restWords(told)}${dampHours(told)}`,
      );
    }
    case "slow-drying":
      return why(
        limit,
        endUtcMs,
        lastWb,
        `It is still at ${percentWords(lastWb)} on ${whenWords(teller, endUtcMs)} and dries so slowly that ${edgeWords(topWb, saying)} is over ten more days away.`,
      );
    case "forecast-too-short":
      return why(
        limit,
        endUtcMs,
        lastWb,
        lastWb > topWb
          ? `This weather ends on ${whenWords(teller, endUtcMs)} with the crop at ${percentWords(lastWb)}; ${edgeWords(topWb, saying)} may come later.`
          : `This weather ends on ${whenWords(teller, endUtcMs)}; a time to work may come later.`,
      );
  }
}
