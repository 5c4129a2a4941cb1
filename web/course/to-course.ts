import type { OperationAnswer, RouteAnswer } from "../../model/harvest/answer.ts";
import { HOUR_MS, localParts } from "../../model/weather/clock.ts";
import { nightSpans, rainBetween, scaleOf, seriesSpan } from "../board/calendar.ts";
import { clockText, farmDays, hourTickText, shortDayText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { windowSpanText } from "../format/window-times.ts";
import { bandPct, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import type { CourseInput, CourseMark, CoursePicture, CoursePoint, CourseTick } from "./course-picture.ts";
import { courseSentence } from "./course-sentence.ts";
import { keptLine } from "./kept-line.ts";
import { lossBesideMark, shatteredPct } from "./leaf-loss.ts";
import { lineBefore, readingMarks } from "./reading-marks.ts";
import { oddsBand, opinionRange } from "./spread.ts";
import { toldMs } from "./told-ms.ts";

/** Hours of weather shown before the cut, so that the cut mark does not sit on the axis. */
const BEFORE_CUT_H = 10;
/** Hours of the course that must lie in a shared calendar. */
const LEAST_SHARED_H = 24;
/** Dew of an hour below this is not drawn, mm. */
const DEW_SHOWN_MM = 0.005;
/** Most hours across: past this the chart ends a day after the route's last window drawn. */
const MOST_HOURS = 168;

const OPERATION_LABELS: Readonly<Record<OperationAnswer["kind"], string>> = {
  ted: "Ted",
  rake: "Rake",
  invert: "Invert",
};

/** Where the chart ends: the first window and a day and a half more, at least four days, never past the course. */
function endMs(input: CourseInput, cutMs: number, courseEndMs: number): number {
  const firsts = input.option.routes.flatMap(({ windows: [first] }) => (first ? [utcMs(first.endUtc)] : []));
  const needed = Math.max(cutMs + 96 * HOUR_MS, ...firsts.map((ms) => ms + 36 * HOUR_MS));
  return Math.min(courseEndMs, needed, cutMs + MOST_HOURS * HOUR_MS);
}

/** Every zone in use is a whole number of quarter hours from UTC. */
const QUARTER_MS = HOUR_MS / 4;

function ticksOf(fromMs: number, toMs: number, manner: Manner): CourseTick[] {
  const ticks: CourseTick[] = [];
  let ms = Math.ceil(fromMs / QUARTER_MS) * QUARTER_MS;
  while (ms < toMs) {
    const { hour, minute } = localParts(ms, manner.zone);
    const atMs = ms;
    // From a full hour to the next; by quarters up to the first one, and after a clock change of half an hour.
    ms += minute === 0 ? HOUR_MS : QUARTER_MS;
    if (minute !== 0 || hour % 6 !== 0) continue;
    // An hour that comes twice is marked the first time.
    if (ticks[ticks.length - 1]?.hour === hour) continue;
    ticks.push({
      x: (atMs - fromMs) / HOUR_MS,
      label: hourTickText(atMs, manner),
      hour,
      day: hour === 0 ? shortDayText(atMs, manner) : null,
    });
  }
  return ticks;
}

/** Moisture of a line at a place across, straight between its points. */
export function moistureAt(points: readonly CoursePoint[], x: number): number {
  const after = points.findIndex((point) => point.x >= x);
  const b = points[after];
  const a = points[after - 1];
  if (!b) return points[points.length - 1]?.y ?? 0;
  if (!a || b.x === a.x) return b.y;
  return a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
}

/** Whether the crop is in by then: the route's first window has closed. */
export function isGone(route: RouteAnswer | null, ms: number): boolean {
  const first = route?.windows[0];
  return first !== undefined && ms >= utcMs(first.endUtc);
}

/**
 * The course of one cut as a picture.
 *
 * Its points stand at the end of each hour, after the one at the cut where the starting moisture is given.
 */
export function toCourse(input: CourseInput): CoursePicture {
  const { course, option, route, routes, manner, series } = input;
  const { startUtc, moistureWb, leafMoistureWb, stemMoistureWb, equilibriumWb, dewMm } = course.hours;
  const firstMs = utcMs(startUtc[0] ?? course.usableUntilUtc);
  const cutMs = utcMs(option.courseCutUtc ?? startUtc[0] ?? course.usableUntilUtc);
  const courseEndMs = firstMs + startUtc.length * HOUR_MS;
  const mowMs = utcMs(option.cutUtc ?? cutMs);
  const { span } = input;
  const shared = span !== undefined && mowMs >= span.fromMs && cutMs + LEAST_SHARED_H * HOUR_MS <= span.toMs;
  // No earlier than there is weather to show.
  const beforeMs = Math.floor((mowMs - BEFORE_CUT_H * HOUR_MS) / HOUR_MS) * HOUR_MS;
  const firstDayMs = Math.min(seriesSpan(series).fromMs, mowMs);
  const fromMs = shared ? span.fromMs : input.whole ? firstDayMs : Math.max(firstDayMs, beforeMs);
  const toMs = shared ? span.toMs : input.whole ? courseEndMs : endMs(input, cutMs, courseEndMs);
  const hoursAcross = (toMs - fromMs) / HOUR_MS;
  const xOf = (ms: number) => (ms - fromMs) / HOUR_MS;
  const within = ({ x }: { readonly x: number }) => x <= hoursAcross + 1e-6;

  const line = (values: readonly number[], starts: readonly string[]): CoursePoint[] =>
    values.map((wb, i) => ({ x: xOf(utcMs(starts[i] ?? "") + HOUR_MS), y: wb * 100 })).filter(within);
  const start = input.initialMoistureWb;
  // With odds the line is the middle of them.
  const tissue = [
    ...(start === undefined ? [] : [{ x: xOf(cutMs), y: start * 100 }]),
    ...line(input.odds?.p50 ?? moistureWb, startUtc),
  ];
  const place = { xOf, hoursAcross };
  const { odds } = input;
  const chances =
    odds === undefined
      ? []
      : [oddsBand(course, odds.p10, odds.p90, place), oddsBand(course, odds.p25, odds.p75, place)];
  const marks: CourseMark[] = [];
  const first = tissue[0];
  if (first) {
    marks.push({
      kind: "cut",
      x: xOf(mowMs),
      y: first.y,
      atMs: mowMs,
      label: `Cut ${clockText(mowMs, manner)}`,
    });
  }
  const lossOf = (kind: OperationAnswer["kind"], pct: number) =>
    input.swath ? lossBesideMark(shatteredPct(kind, input.swath, pct / 100), manner) : "";
  for (const { kind, atUtc } of route?.operations ?? []) {
    const x = xOf(utcMs(atUtc));
    if (x > hoursAcross) continue;
    const gone = isGone(route, utcMs(atUtc));
    const when = `${OPERATION_LABELS[kind]} ${clockText(toldMs(atUtc), manner)}`;
    marks.push({
      kind,
      x,
      y: moistureAt(tissue, x),
      atMs: utcMs(atUtc),
      label: gone ? `${when}, if it still lies` : `${when}${lossOf(kind, moistureAt(tissue, x))}`,
      ...(gone ? { short: when, gone } : {}),
    });
  }
  const windows = (route?.windows ?? [])
    .map(({ startUtc: start, endUtc: end }) => ({
      x0: xOf(utcMs(start)),
      x1: Math.min(hoursAcross, xOf(utcMs(end))),
    }))
    .filter(({ x0 }) => x0 < hoursAcross);
  const firstWindow = route?.windows[0];
  if (route && firstWindow && windows[0]) {
    const x = (windows[0].x0 + windows[0].x1) / 2;
    const short = windowSpanText(firstWindow, manner);
    const label = `${sentenceCase(ROUTE_LABELS[route.route])} ${short}`;
    marks.push({
      kind: "window",
      x,
      y: moistureAt(tissue, x),
      atMs: utcMs(firstWindow.startUtc),
      label,
      short,
    });
  }
  marks.push(...readingMarks(course.odds, xOf, hoursAcross, manner));

  const rain: { x0: number; x1: number; rainMm: number }[] = [];
  // Rain after the weather that is used falls on no course.
  const untilMs = Math.min(toMs, utcMs(course.usableUntilUtc));
  for (let ms = fromMs; ms < untilMs; ms += HOUR_MS) {
    const rainMm = rainBetween(series, ms, ms + HOUR_MS) ?? 0;
    if (rainMm > 0) rain.push({ x0: xOf(ms), x1: xOf(ms) + 1, rainMm });
  }
  const dew = dewMm
    .map((mm, i) => ({ x: xOf(firstMs + (i + 0.5) * HOUR_MS), mm, i }))
    .filter(({ mm, i }) => mm > DEW_SHOWN_MM && i % 2 === 0)
    .filter(within)
    .map(({ x }) => ({ x }));
  return {
    fromMs,
    hoursAcross,
    shared,
    days: {
      count: farmDays(firstDayMs, courseEndMs, manner.zone).length,
      more: fromMs > firstDayMs || courseEndMs > toMs,
    },
    tissue,
    leaf: line(leafMoistureWb, startUtc),
    stem: line(stemMoistureWb, startUtc),
    floor: line(equilibriumWb, startUtc),
    opinions: course.secondOpinions.map(({ name, hours }) => ({
      name,
      points: line(hours.moistureWb, hours.startUtc),
    })),
    // The odds have the spread of the estimates among them.
    range: odds === undefined ? opinionRange(course, place) : [],
    chances,
    before: lineBefore(course.odds, startUtc, xOf, hoursAcross),
    kept: input.kept ? keptLine(input.kept, cutMs, xOf, hoursAcross, manner) : null,
    bands: routes.map(({ route: key, label, bandWb }) => ({
      route: key,
      label: sentenceCase(label),
      range: bandPct(bandWb, manner),
      loPct: bandWb[0] * 100,
      hiPct: bandWb[1] * 100,
    })),
    marks,
    windows,
    rain,
    dew,
    nights: nightSpans(series, scaleOf(fromMs, toMs, 0, hoursAcross), manner.zone),
    ticks: ticksOf(fromMs, toMs, manner),
    ...courseSentence(input),
  };
}
