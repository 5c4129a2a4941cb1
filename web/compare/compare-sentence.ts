import { HOUR_MS } from "../../model/weather/clock.ts";
import type { Alignment } from "../course/course-picture.ts";
import { modelReachedMs } from "../course/course-sentence.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { listText, moisturePct, sentenceCase } from "../format/words.ts";
import type { Kept } from "../state/state.ts";
import { routeBands } from "../worker/route-bands.ts";
import { differences } from "./differences.ts";
import { courseCutMs } from "./kept-cut.ts";

/** When a cut first comes down to a moisture, UTC ms; null where it does not in its weather. */
export function reachMs(cut: Kept, targetWb: number): number | null {
  return modelReachedMs(cut.course, targetWb);
}

/** The moistures to compare at, wettest first: where each route's band begins. */
export function compareTargets(now: Kept): number[] {
  const tops = routeBands(now.request).map(({ bandWb }) => bandWb[1]);
  return [...new Set(tops)].filter((wb) => wb < now.request.swath.initialMoistureWb).sort((a, b) => b - a);
}

/** "9 h sooner to 65 %", by the calendar or counted from each cut. */
function targetText(now: Kept, kept: Kept, targetWb: number, align: Alignment, manner: Manner): string {
  const pct = moisturePct(targetWb, manner);
  const [a, b] = [reachMs(now, targetWb), reachMs(kept, targetWb)];
  if (a === null && b === null) return `neither gets to ${pct}`;
  if (a === null) return `does not get to ${pct} where the kept cut does`;
  if (b === null) return `gets to ${pct} where the kept cut does not`;
  const shiftMs = align === "cut" ? courseCutMs(now) - courseCutMs(kept) : 0;
  const hours = Math.round((b - (a - shiftMs)) / HOUR_MS);
  if (hours === 0) return `as soon to ${pct}`;
  return `${numberText(Math.abs(hours), 0, manner)} h ${hours > 0 ? "sooner" : "later"} to ${pct}`;
}

/**
 * The chosen cut against the kept one in a sentence: what differs, and how much sooner or later each moisture is reached.
 * "Wide 70 % against windrow 45 %: 9 h sooner to 65 % and 31 h sooner to 16 %."
 */
export function compareSentence(now: Kept, kept: Kept, align: Alignment, manner: Manner): string {
  const all = differences(now, kept, manner);
  const chosen = all.filter(({ follows }) => !follows);
  const found = chosen.length > 0 ? chosen : all;
  if (found.length === 0) return "The chosen cut is the kept one. Change a lever or choose another row.";
  const names = (side: "now" | "kept") => listText(found.map((difference) => difference[side]));
  const apart = courseCutMs(now) !== courseCutMs(kept);
  const basis = align === "cut" && apart ? "counted from each cut, " : "";
  const targets = compareTargets(now).map((wb) => targetText(now, kept, wb, align, manner));
  return `${sentenceCase(names("now"))} against ${names("kept")}: ${basis}${listText(targets)}.`;
}
