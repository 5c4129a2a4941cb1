import type { DrydownAnswer } from "../../model/drying/index.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";

/** Moisture per hour of the course at five chances, wet basis; as long as the course's hours. */
export interface CourseOdds {
  readonly p10: readonly number[];
  readonly p25: readonly number[];
  readonly p50: readonly number[];
  readonly p75: readonly number[];
  readonly p90: readonly number[];
}

/** Two edges one above the other, per cent, at a place across in hours. */
export interface SpreadPoint {
  readonly x: number;
  readonly lo: number;
  readonly hi: number;
}

export interface SpreadPlace {
  readonly xOf: (ms: number) => number;
  readonly hoursAcross: number;
}

function edges(
  startUtc: readonly string[],
  { xOf, hoursAcross }: SpreadPlace,
  at: (i: number) => readonly (number | undefined)[],
): SpreadPoint[] {
  const points: SpreadPoint[] = [];
  startUtc.forEach((start, i) => {
    const x = xOf(utcMs(start) + HOUR_MS);
    const known = at(i).filter((wb) => wb !== undefined);
    if (x > hoursAcross + 1e-6 || known.length < 2) return;
    points.push({ x, lo: Math.min(...known) * 100, hi: Math.max(...known) * 100 });
  });
  return points;
}

/** Between the driest and the wettest estimate of each hour: the model and its second opinions. Empty without an opinion. */
export function opinionRange(course: DrydownAnswer, place: SpreadPlace): SpreadPoint[] {
  const { hours, secondOpinions } = course;
  return edges(hours.startUtc, place, (i) => [
    hours.moistureWb[i],
    ...secondOpinions.map(({ hours: own }) => own.moistureWb[i]),
  ]);
}

/** A band of chance around the middle of the course. */
export function oddsBand(
  course: DrydownAnswer,
  lo: readonly number[],
  hi: readonly number[],
  place: SpreadPlace,
): SpreadPoint[] {
  return edges(course.hours.startUtc, place, (i) => [lo[i], hi[i]]);
}
