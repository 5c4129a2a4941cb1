import type { SweepCourse } from "../drying/course.ts";
import { NO_FILM_MM } from "../harvest/spans.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { Span } from "./problem.ts";
import type { MemberSwath } from "./windows/member-swath.ts";

/** Whether crop is taken dry in one member, and what keeps it from that. */

/** Moisture may be so much over the band's top at one end of a job: no tester reads closer. */
const SLACK_WB = 0.01;
/** Dew may be so much over what the windows allow: no hand feels closer. */
const SLACK_FILM_MM = 0.005;

/**
 * Rain while it is taken; rain on the swath before, from which it is wet or after which it is too moist; too moist though no
 * rain fell on it; dew. In this order: of several the first is told.
 */
export const NOT_DRY_CAUSES = ["rain", "rain-before", "slow", "dew"] as const;
export type NotDryCause = (typeof NOT_DRY_CAUSES)[number];

/** Whether the crop of one member is dry enough when it is taken, free of dew at both ends, and no rain falls meanwhile. */
export function isTakenDry(member: MemberSwath, course: SweepCourse, span: Span, topWb: number): boolean {
  const { wettestWb, filmMm } = atEnds(course, span);
  const isDry = wettestWb <= topWb + SLACK_WB && filmMm <= NO_FILM_MM + SLACK_FILM_MM;
  return isDry && rainIn(member, span.fromUtcMs, span.toUtcMs) === 0;
}

/** Whether crop is drier than its band at one end of a gathering. */
export function isTakenTooDry(course: SweepCourse, span: Span, lowestWb: number): boolean {
  return atEnds(course, span).driestWb < lowestWb;
}

/** What keeps the crop of one member from being taken dry; null where nothing does. */
export function whyNotDry(
  member: MemberSwath,
  course: SweepCourse,
  span: Span,
  topWb: number,
): NotDryCause | null {
  if (isTakenDry(member, course, span, topWb)) return null;
  const { fromUtcMs, toUtcMs } = span;
  if (rainIn(member, fromUtcMs, toUtcMs) > 0) return "rain";
  if (atEnds(course, span).wettestWb > topWb + SLACK_WB)
    return rainIn(member, course.cutUtcMs, fromUtcMs) > 0 ? "rain-before" : "slow";
  return rainIn(member, filmFrom(course, span), toUtcMs) > 0 ? "rain-before" : "dew";
}

/** The hour of a course whose end is nearest before a moment. */
export function hourAt({ count, startUtcMs }: SweepCourse, utcMs: number): number {
  return Math.min(count - 1, Math.max(0, Math.floor((utcMs - startUtcMs) / HOUR_MS) - 1));
}

/** Rain of one member in all hours that a span touches, mm. */
export function rainIn({ weather }: MemberSwath, fromMs: number, toMs: number): number {
  const first = Math.max(0, Math.floor((fromMs - weather.startUtcMs) / HOUR_MS));
  const end = Math.ceil((toMs - weather.startUtcMs) / HOUR_MS);
  let sum = 0;
  for (let i = first; i < end; i++) sum += weather.rainMm[i] ?? 0;
  return sum;
}

function atEnds(course: SweepCourse, { fromUtcMs, toUtcMs }: Span) {
  const { moistureWb, freeWaterMm } = course;
  const [first, last] = [hourAt(course, fromUtcMs), hourAt(course, toUtcMs)];
  return {
    driestWb: Math.min(moistureWb[first] as number, moistureWb[last] as number),
    wettestWb: Math.max(moistureWb[first] as number, moistureWb[last] as number),
    filmMm: Math.max(freeWaterMm[first] as number, freeWaterMm[last] as number),
  };
}

/** Since when the crop has been wet without a break that is wet at the end of a span, or was at its beginning. */
function filmFrom(course: SweepCourse, { fromUtcMs, toUtcMs }: Span): number {
  const isWet = (hour: number) => (course.freeWaterMm[hour] as number) > NO_FILM_MM;
  const last = hourAt(course, toUtcMs);
  let hour = isWet(last) ? last : hourAt(course, fromUtcMs);
  while (hour > 0 && isWet(hour - 1)) hour -= 1;
  return Math.max(course.cutUtcMs, course.startUtcMs + hour * HOUR_MS);
}
