import { DRYING_PARAMETERS, type DryingParameters } from "../drying/coefficients.ts";
import { type MoistureCourse, runSweepCourse, type SweepCourse } from "../drying/course.ts";
import type { Operation } from "../drying/operations.ts";
import type { SwathRequest } from "../drying/request.ts";
import { reaches } from "../drying/targets.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { parametersOfDraw, type TargetOdds, targetOdds } from "./odds.ts";
import { courseBands } from "./quantiles.ts";
import { type Draw, swathOfDraw } from "./sample.ts";
import type { WeatherDraws } from "./weather-draws.ts";

/** One draw of a cut with its moisture, as far as it was followed. */
export interface DrawnMoisture {
  readonly draw: Draw;
  readonly course: MoistureCourse;
}

/** One draw of a cut: what it is wrong about, and the course that follows. */
export interface DrawnCourse {
  readonly draw: Draw;
  readonly course: SweepCourse;
}

/** The courses of all draws of one cut, draw i in weather i. */
export function drawnCourses(
  weathers: WeatherDraws,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
  draws: readonly Draw[],
): readonly DrawnCourse[] {
  return draws.map((draw, i) => ({
    draw,
    course: runSweepCourse(
      weathers.of(i),
      swathOfDraw(swath, draw),
      cutUtcMs,
      operations,
      parametersOfDraw(draw),
    ),
  }));
}

/** Moisture of a drawn course at a moment, straight inside the hour, wet basis. */
export function drawnMoistureAt({ draw, course }: DrawnMoisture, utcMs: number): number {
  const { startUtcMs, cutUtcMs, moistureWb, count } = course;
  if (utcMs <= cutUtcMs) return draw.initialMoistureWb;
  const i = Math.min(count - 1, Math.floor((utcMs - startUtcMs) / HOUR_MS));
  const fromMs = i === 0 ? cutUtcMs : startUtcMs + i * HOUR_MS;
  const share = Math.min(1, (utcMs - fromMs) / (startUtcMs + (i + 1) * HOUR_MS - fromMs));
  const before = i === 0 ? draw.initialMoistureWb : (moistureWb[i - 1] as number);
  return before + ((moistureWb[i] as number) - before) * share;
}

/** A drawn course from the beginning of the hour that holds a moment on, with the moisture that it begins at. */
function pathFrom({ draw, course }: DrawnCourse, utcMs: number) {
  const { startUtcMs, moistureWb, count } = course;
  const i = Math.min(count - 1, Math.floor((utcMs - startUtcMs) / HOUR_MS));
  if (i < 1) return { path: course, initialWb: draw.initialMoistureWb };
  const fromMs = startUtcMs + i * HOUR_MS;
  const path = { startUtcMs: fromMs, cutUtcMs: fromMs, moistureWb: moistureWb.subarray(i, count) };
  return { path, initialWb: moistureWb[i - 1] as number };
}

/**
 * Hours from the cut at which a draw first reaches a moisture; null = never within the weather. A draw that is wetter than
 * that at the last reading reaches it only after: what it had dried to before, rain or dew has undone.
 *
 * @param readUtcMs of the last reading that counts, null = none does
 */
export function drawnHours(
  one: DrawnCourse,
  targetWb: number,
  readUtcMs: number | null = null,
): number | null {
  const { draw, course } = one;
  const again = readUtcMs !== null && drawnMoistureAt(one, readUtcMs) > targetWb;
  if (!again && targetWb >= draw.initialMoistureWb) return 0;
  const { path, initialWb } = pathFrom(one, again ? readUtcMs : course.cutUtcMs);
  const hit = reaches(path, initialWb, targetWb);
  return hit === null ? null : (hit.atUtcMs - course.cutUtcMs) / HOUR_MS;
}

/** Bands of the moisture and odds of each target from equally weighted draws, after the last reading: `drawnHours`. */
export function oddsOfCourses(
  drawn: readonly DrawnCourse[],
  targetsWb: readonly number[],
  readUtcMs: number | null = null,
) {
  return {
    moistureWb: courseBands(drawn.map(({ course }) => course.moistureWb)),
    targets: targetsWb.map(
      (wb): TargetOdds =>
        targetOdds(
          wb,
          drawn.map((one) => drawnHours(one, wb, readUtcMs)),
        ),
    ),
  };
}

/** The parameters at another rate of fresh tissue; the model's own object where the rate is 1. */
export function parametersAtRate(rateFactor: number): DryingParameters {
  return rateFactor === 1 ? DRYING_PARAMETERS : parametersOfDraw({ rateFactor });
}
