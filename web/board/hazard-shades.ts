import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/answer.ts";
import type { HazardCode } from "../../model/harvest/hazards/calendar.ts";
import { HAZARD_WORDS } from "../../model/harvest/hazards/hazard-words.ts";
import { shortDateClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText } from "../format/words.ts";
import type { Scale, Span } from "./calendar.ts";

/** A wait or a caution that the weather drives, along a row. */
export interface HazardShade extends Span {
  readonly level: "wait" | "caution";
}

interface Reached {
  readonly code: HazardCode;
  readonly level: "wait" | "caution";
  readonly fromMs: number;
  readonly toMs: number;
}

/** What a row's cut lies in; a standing row has the whole calendar of its routes. One a code, the longest. */
function reached(answer: WindowsAnswer, option: CutOptionAnswer): Reached[] {
  const routes = option.routes.map(({ route }) => route);
  const all: Reached[] =
    option.kind === "standing"
      ? answer.hazards
          .filter(({ route }) => routes.includes(route))
          .map(({ code, level, startUtc, endUtc }) => ({
            code,
            level,
            fromMs: utcMs(startUtc),
            toMs: utcMs(endUtc),
          }))
      : option.routes.flatMap(({ hazards }) =>
          hazards.map(({ code, level, sinceUtc, untilUtc }) => ({
            code,
            level,
            fromMs: Math.min(utcMs(sinceUtc), utcMs(option.cutUtc ?? sinceUtc)),
            toMs: utcMs(untilUtc),
          })),
        );
  const seen = new Set<string>();
  return all.filter(({ code, level, fromMs, toMs }) => {
    const key = `${code} ${level} ${fromMs} ${toMs}`;
    return !seen.has(key) && seen.add(key);
  });
}

/** The spans of a row in px, waits last so that they lie on top. */
export function hazardShades(answer: WindowsAnswer, option: CutOptionAnswer, scale: Scale): HazardShade[] {
  return reached(answer, option)
    .filter(({ fromMs, toMs }) => toMs > scale.fromMs && fromMs < scale.toMs)
    .map(({ level, fromMs, toMs }) => ({
      level,
      x0: Math.max(scale.x0, scale.x(fromMs)),
      x1: Math.min(scale.x1, scale.x(toMs)),
    }))
    .sort((a, b) => (a.level < b.level ? -1 : a.level > b.level ? 1 : a.x0 - b.x0));
}

/** Spans of one kind that are told by their day; the others are counted. */
const SPANS_TOLD = 2;

/** "Take care: soft soil, counted until Fri 3 Jul 14:00, Mon 6 Jul 09:00 and 3 more." or "" where the row is in none. */
export function hazardSentence(answer: WindowsAnswer, option: CutOptionAnswer, manner: Manner): string {
  const kinds = new Map<string, Reached[]>();
  for (const one of reached(answer, option)) {
    const kind = `${one.level} ${HAZARD_WORDS[one.code]}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), one]);
  }
  return [...kinds.values()]
    .flatMap((spans) => {
      const [first] = spans;
      if (first === undefined) return [];
      const until = [...new Set(spans.map(({ toMs }) => toMs))].sort((a, b) => a - b);
      const told = until.slice(0, SPANS_TOLD).map((toMs) => shortDateClockText(toMs, manner));
      const more = until.length - told.length;
      if (more > 0) told.push(`${more} more`);
      const what = `${first.level === "wait" ? "Wait" : "Take care"}: ${HAZARD_WORDS[first.code]}`;
      return [`${what}, counted until ${listText(told)}.`];
    })
    .join(" ");
}

/** The model's words of each hazard of a row, once each. */
export function hazardTexts(option: CutOptionAnswer): string[] {
  const texts = option.routes.flatMap(({ hazards, why }) =>
    why.filter(({ code }) => hazards.some((hazard) => hazard.code === code)).map(({ text }) => text),
  );
  return [...new Set(texts)];
}
