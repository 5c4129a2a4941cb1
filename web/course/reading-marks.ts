import type { CourseOddsAnswer, ReadingsAnswer } from "../../model/drying/index.ts";
import { lastRead, readingSentence } from "../../model/odds/odds.ts";
import { READING_METHODS } from "../../model/odds/reading-methods.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { bandPct, moisturePct } from "../format/words.ts";
import type { CourseMark, CoursePoint } from "./course-picture.ts";
import { toldMs } from "./told-ms.ts";

/** What readings of a swath add to its course: a diamond each, and the middle course as it was before them. */

type Told = ReadingsAnswer["readings"][number];

/** "Microwave", without the conditions that stand after it. */
function methodName({ method }: Told): string {
  return READING_METHODS[method].label.split(",")[0] ?? method;
}

/** "Microwave 46 %", "Hand squeeze 50–60 %". */
function readText(told: Told, manner: Manner): string {
  const { low, high } = told.observedWb;
  const said =
    told.method === "hand-squeeze" ? bandPct([low, high], manner) : moisturePct((low + high) / 2, manner);
  return `${methodName(told)} ${said}`;
}

/** Each reading with its error bar; hollow where it was questioned. */
export function readingMarks(
  odds: CourseOddsAnswer | undefined,
  xOf: (ms: number) => number,
  hoursAcross: number,
  manner: Manner,
): CourseMark[] {
  return (odds?.readings?.readings ?? []).flatMap((told): CourseMark[] => {
    const atMs = utcMs(told.atUtc);
    const x = xOf(atMs);
    if (x > hoursAcross) return [];
    const { low, high } = told.observedWb;
    const bar = { loPct: low * 100, hiPct: high * 100, used: told.used };
    return [{ kind: "reading", x, y: (bar.loPct + bar.hiPct) / 2, atMs, label: readText(told, manner), bar }];
  });
}

/** The middle course before the readings; empty where none was used. */
export function lineBefore(
  odds: CourseOddsAnswer | undefined,
  startUtc: readonly string[],
  xOf: (ms: number) => number,
  hoursAcross: number,
): CoursePoint[] {
  const told = odds?.readings;
  if (!told?.readings.some(({ used }) => used)) return [];
  return told.beforeWb
    .map((wb, i) => ({ x: xOf(utcMs(startUtc[i] ?? "") + HOUR_MS), y: wb * 100 }))
    .filter(({ x }) => x <= hoursAcross + 1e-6);
}

type Change = ReadingsAnswer["changes"][number];

/** "16 % is now due Saturday 11:40, 6 h sooner than before the reading." in the farm's time, as the row's window is told. */
function changeText({ targetWb, beforeHours, afterHours }: Change, cutMs: number, manner: Manner): string {
  return readingSentence(beforeHours, afterHours, {
    target: moisturePct(targetWb, manner),
    when: (hours) => dayClockText(toldMs(cutMs + hours * HOUR_MS), manner),
    number: (whole) => numberText(whole, 0, manner),
  });
}

/** What the readings changed of the targets that were still ahead of the last one used; the chosen route's first. */
export function changesAhead(
  told: ReadingsAnswer,
  cutMs: number,
  manner: Manner,
): readonly { readonly targetWb: number; readonly text: string }[] {
  const last = lastRead(told.readings);
  if (last === null) return [];
  const lastH = (last.atMs - cutMs) / HOUR_MS;
  return told.changes
    .filter(({ afterHours }) => afterHours === null || afterHours > lastH)
    .map((change) => ({ targetWb: change.targetWb, text: changeText(change, cutMs, manner) }));
}

/** "Microwave 46 % Thursday 14:00." and what it changed; nothing without readings. */
export function readingSentences(
  odds: CourseOddsAnswer | undefined,
  cutMs: number,
  manner: Manner,
): string[] {
  const told = odds?.readings;
  if (!told) return [];
  const each = told.readings.map(
    (one) =>
      `${readText(one, manner)} ${dayClockText(one.atUtc, manner)}${one.used ? "." : ", questioned and not used."}`,
  );
  const change = changesAhead(told, cutMs, manner)[0]?.text;
  return [...each, ...(change === undefined ? [] : [change])];
}

/** How fast the field dries against the model's usual, as learned; null where nothing was. */
export function rateSentence(odds: CourseOddsAnswer | undefined, manner: Manner): string | null {
  const learned = odds?.readings?.learned;
  const lnMean = learned ? learned.rateLnMean : odds?.rate.lnMean;
  if (lnMean === undefined || (!learned && lnMean === 0)) return null;
  const times = numberText(Math.exp(lnMean), 2, manner);
  return `${learned ? "By its readings" : "By earlier readings"} this field dries ${times} times as fast as is usual.`;
}
