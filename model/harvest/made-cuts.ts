import { LEAST_HOURS_AFTER_CUT } from "../drying/drydown.ts";
import { HOUR_MS, localParts } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { MadeLeftOutAnswer } from "./answer.ts";
import { type CutMoment, courseCutUtcMs } from "./options.ts";
import type { CutRequest } from "./request.ts";
import type { Settled, SettledTreatment } from "./settle.ts";
import { dateWords } from "./words.ts";

/** One cut of the board with one treatment. */
export interface BoardCut {
  readonly id: string;
  readonly cut: CutMoment;
  readonly treatment: SettledTreatment;
  readonly made: boolean;
}

function idOf(cutUtcMs: number, treatment: SettledTreatment): string {
  return `${utcLabel(cutUtcMs)}/${treatment.id}`;
}

/** The id of the option that a request names. */
export function optionIdOf({ treatments }: Settled, { cutUtc, treatment }: CutRequest): string {
  const named = treatments.find(({ id }) => id === treatment) ?? treatments[0];
  return named === undefined ? "" : idOf(Date.parse(cutUtc), named);
}

/** A cut that was made, with its windows from now on; null where this weather cannot follow it. */
export function cutThatLies(settled: Settled, asked: CutRequest): BoardCut | null {
  const { weather, treatments, mowHours, nowUtcMs, endUtcMs } = settled;
  const treatment = treatments.find(({ id }) => id === asked.treatment) ?? treatments[0];
  const cutUtcMs = Date.parse(asked.cutUtc);
  const middleMs = courseCutUtcMs(weather, cutUtcMs, mowHours);
  if (treatment === undefined || cutUtcMs < weather.startUtcMs) return null;
  if (middleMs > endUtcMs - LEAST_HOURS_AFTER_CUT * HOUR_MS) return null;
  const cut = { cutUtcMs, courseCutUtcMs: middleMs, openFromMs: Math.max(nowUtcMs, middleMs) };
  return { id: idOf(cutUtcMs, treatment), cut, treatment, made: true };
}

/**
 * The cuts of a board in the order of time: those that can still be made, with every treatment, and those that were made,
 * with theirs. Of a cut that was made windows count from now on.
 */
export function boardCuts(
  settled: Settled,
  moments: readonly CutMoment[],
  madeCuts: readonly CutRequest[] = [],
): { readonly cuts: readonly BoardCut[]; readonly leftOut: readonly MadeLeftOutAnswer[] } {
  const { treatments } = settled;
  const cuts = new Map<string, BoardCut>();
  for (const cut of moments)
    for (const treatment of treatments) {
      const id = idOf(cut.cutUtcMs, treatment);
      cuts.set(id, { id, cut, treatment, made: false });
    }
  const leftOut: MadeLeftOutAnswer[] = [];
  for (const asked of madeCuts) {
    if (treatments.length === 0) continue;
    const cut = cutThatLies(settled, asked);
    if (cut === null)
      leftOut.push({ cutUtc: asked.cutUtc, text: leftOutText(settled, Date.parse(asked.cutUtc)) });
    else cuts.set(cut.id, cut);
  }
  const order = (one: BoardCut) => treatments.indexOf(one.treatment);
  return {
    cuts: [...cuts.values()].sort((a, b) => a.cut.cutUtcMs - b.cut.cutUtcMs || order(a) - order(b)),
    leftOut,
  };
}

function leftOutText({ weather, saying, endUtcMs }: Settled, cutUtcMs: number): string {
  const words = (ms: number) => dateWords(saying, localParts(ms, weather.site.timeZone));
  if (cutUtcMs >= weather.startUtcMs)
    return (
      `The cut ${words(cutUtcMs)} cannot be followed: this weather ends ${words(endUtcMs)}, ` +
      `and at least ${LEAST_HOURS_AFTER_CUT} h must follow the cut. A newer forecast reaches farther.`
    );
  return (
    `The cut ${words(cutUtcMs)} was made before this weather begins (${words(weather.startUtcMs)}): it cannot be followed. ` +
    "A forecast that also gives the past days (Open-Meteo), or a file of a station with the forecast added to it, reaches back to it."
  );
}
