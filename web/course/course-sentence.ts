import type { DrydownAnswer } from "../../model/drying/answer.ts";
import { lastRead } from "../../model/odds/odds.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { clockText, dayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { bandPct, listText, moisturePct, ROUTE_LABELS } from "../format/words.ts";
import type { CourseInput } from "./course-picture.ts";
import { courseIndexAt } from "./reading.ts";
import { readingSentences } from "./reading-marks.ts";
import { toldMs } from "./told-ms.ts";

/**
 * When a moisture is first reached, in an hour-by-hour course: UTC ms, straight inside the hour; null where never.
 * A course that starts at or below it has reached it at its start.
 */
export function reachedMs(
  hours: { readonly startUtc: readonly string[]; readonly moistureWb: readonly number[] },
  targetWb: number,
): number | null {
  const at = hours.moistureWb.findIndex((wb) => wb <= targetWb);
  if (at < 0) return null;
  const startMs = utcMs(hours.startUtc[at] ?? "");
  const before = hours.moistureWb[at - 1];
  const after = hours.moistureWb[at] ?? targetWb;
  if (before === undefined || before <= after) return startMs + HOUR_MS;
  return startMs + ((before - targetWb) / (before - after)) * HOUR_MS;
}

/** Where a course's own target of that moisture says when, use it; else read it off the hours. */
export function modelReachedMs(course: DrydownAnswer, targetWb: number): number | null {
  const target = course.targets.find((each) => Math.abs(each.targetWb - targetWb) < 1e-9);
  if (target) return target.reached ? utcMs(target.reachedUtc) : null;
  return reachedMs(course.hours, targetWb);
}

/** How a course stands to a moisture: ahead, and when; down to it by the last reading; that one wetter; never. */
type Reach =
  | { readonly kind: "ahead"; readonly ms: number }
  | { readonly kind: "down" }
  | { readonly kind: "wetter" }
  | { readonly kind: "never" };

/** No moment before the last reading that counts is told: the reading says what the swath was by then. */
function reachOf(course: DrydownAnswer, targetWb: number): Reach {
  const ms = modelReachedMs(course, targetWb);
  if (ms === null) return { kind: "never" };
  const last = lastRead(course.odds?.readings?.readings ?? []);
  if (last === null || ms >= last.atMs) return { kind: "ahead", ms };
  if (last.wb <= targetWb) return { kind: "down" };
  // Wetted again since, as the reading says: it dries once more.
  const from = course.hours.startUtc.findIndex((utc) => utcMs(utc) + HOUR_MS > last.atMs);
  const since = {
    startUtc: course.hours.startUtc.slice(from),
    moistureWb: course.hours.moistureWb.slice(from),
  };
  const again =
    from < 0 || (course.hours.moistureWb[from] ?? targetWb) <= targetWb ? null : reachedMs(since, targetWb);
  return again === null ? { kind: "wetter" } : { kind: "ahead", ms: again };
}

/** Earliest and latest estimate of when a moisture is reached: the model and the second opinions. */
export interface EstimateRange {
  readonly earliestMs: number;
  readonly latestMs: number;
  /** How many estimates there are, and how many of them never get there in this weather. */
  readonly asked: number;
  readonly never: number;
}

/** Null where fewer than two estimates reach the moisture: one hour is no range. */
export function estimateRange(course: DrydownAnswer, targetWb: number): EstimateRange | null {
  const times = [
    modelReachedMs(course, targetWb),
    ...course.secondOpinions.map(({ hours }) => reachedMs(hours, targetWb)),
  ];
  const known = times.filter((ms) => ms !== null);
  if (known.length < 2) return null;
  return {
    earliestMs: Math.min(...known),
    latestMs: Math.max(...known),
    asked: times.length,
    never: times.length - known.length,
  };
}

/** "wrapped bales 19 to 26 h", counted from the cut. */
function rangeText(name: string, range: EstimateRange, cutMs: number, manner: Manner): string {
  // Outward to whole hours, as in the answer above the board.
  const h = (ms: number, whole: (hours: number) => number) =>
    numberText(whole(Math.max(0, (ms - cutMs) / HOUR_MS)), 0, manner);
  const [from, to] = [h(range.earliestMs, Math.floor), h(range.latestMs, Math.ceil)];
  if (range.never > 0) return `${name} ${from} h or more (${range.never} of ${range.asked} say never)`;
  return from === to ? `${name} ${to} h` : `${name} ${from} to ${to} h`;
}

function rangeSentences({ course, routes, option, manner }: CourseInput): string[] {
  const cutMs = utcMs(option.courseCutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc);
  const readMs = lastRead(course.odds?.readings?.readings ?? [])?.atMs ?? Number.NEGATIVE_INFINITY;
  const texts: string[] = [];
  let mostMs = 0;
  for (const { label, bandWb } of [...routes].sort((a, b) => b.bandWb[1] - a.bandWb[1])) {
    const range = estimateRange(course, bandWb[1]);
    // Estimates that begin before the last reading know less than it.
    if (range === null || range.earliestMs < readMs) continue;
    mostMs = Math.max(mostMs, range.latestMs - range.earliestMs);
    texts.push(rangeText(lowerFirst(label), range, cutMs, manner));
  }
  if (texts.length === 0) return [];
  const most = numberText(mostMs / HOUR_MS, 0, manner);
  return [`Estimates put ${listText(texts)} after the cut.`, `Second opinions differ by up to ${most} h.`];
}

function lowerFirst(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

/** Where the bands lie when the chosen route opens, else at the end: "Thursday 14:00, as dry hay opens, 8 in 10 courses: 14 to 19 %." */
function bandSentences({ course, option, route, manner, odds }: CourseInput): string[] {
  if (odds === undefined) return [];
  const first = route?.windows[0];
  const lastMs = utcMs(course.hours.startUtc.at(-1) ?? course.usableUntilUtc) + HOUR_MS;
  const atMs = first ? utcMs(first.startUtc) : lastMs;
  const i = courseIndexAt(course, atMs);
  const [p10, p90] = i === null ? [] : [odds.p10[i], odds.p90[i]];
  if (p10 === undefined || p90 === undefined || option.courseCutUtc === null) return [];
  const why = first && route ? `as ${ROUTE_LABELS[route.route]} opens` : "at the end of this weather";
  const [from, to] = [p10, p90].map((wb) => numberText(wb * 100, 0, manner));
  return [`${dayClockText(toldMs(atMs), manner)}, ${why}, 8 in 10 courses: ${from} to ${to} %.`];
}

/** The course in a sentence or three, and its heading. */
export function courseSentence(input: CourseInput): {
  readonly sentence: string;
  readonly heading: string;
} {
  const { course, option, routes, manner, initialMoistureWb } = input;
  const cut = option.cutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc;
  const middle = option.courseCutUtc ?? cut;
  const mowing =
    utcMs(middle) === utcMs(cut) ? "" : `, middle of the mowing ${clockText(toldMs(middle), manner)},`;
  const first = course.hours.moistureWb[0];
  const start =
    initialMoistureWb !== undefined
      ? ` at ${moisturePct(initialMoistureWb, manner)}`
      : first === undefined
        ? ""
        : ` with ${moisturePct(first, manner)} left after the first hour`;
  const byWettest = [...routes].sort((a, b) => b.bandWb[1] - a.bandWb[1]);
  const reached: string[] = [];
  const named: Record<Exclude<Reach["kind"], "ahead">, string[]> = { down: [], wetter: [], never: [] };
  for (const { route, label, bandWb } of byWettest) {
    const reach = reachOf(course, bandWb[1]);
    const name = `${lowerFirst(label)} (${bandPct(bandWb, manner)})`;
    // Dry enough is not yet a time to work: dew, rain, wet ground or the working day may leave none.
    const timeless = option.routes.some((each) => each.route === route && each.windows.length === 0);
    if (reach.kind !== "ahead") named[reach.kind].push(name);
    else
      reached.push(
        `${name} ${dayClockText(toldMs(reach.ms), manner)}${timeless ? ", though with no time to work" : ""}`,
      );
  }
  const sentences = [`Cut ${dayClockText(cut, manner)}${mowing}${start}.`];
  if (reached.length > 0) sentences.push(`Reaches ${listText(reached)}.`);
  const { down, wetter, never } = named;
  if (down.length > 0) sentences.push(`Down to ${listText(down)} by the last reading.`);
  if (wetter.length > 0)
    sentences.push(
      `The last reading was wetter than ${listText(wetter)}, and than the course was: no time is told for ${wetter.length > 1 ? "them" : "it"}. Measure again.`,
    );
  if (never.length > 0) sentences.push(`Does not come down to ${listText(never)} in this weather.`);
  sentences.push(...bandSentences(input), ...readingSentences(course.odds, utcMs(middle), manner));
  sentences.push(...rangeSentences(input));
  return { sentence: sentences.join(" "), heading: `Course of the swath cut ${dayClockText(cut, manner)}` };
}
