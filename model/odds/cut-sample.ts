import { runSweepCourse } from "../drying/course.ts";
import { hourOf } from "../drying/course-columns.ts";
import { runOn, startMoisture } from "../drying/course-run.ts";
import type { Operation } from "../drying/operations.ts";
import type { LearnedRateRequest, ReadingRequest, SwathRequest } from "../drying/request.ts";
import { secondOpinions } from "../drying/second-opinions.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import type { WeatherSeries } from "../weather/series.ts";
import { type Bent, bendToReadings } from "./bend.ts";
import type { DrawnMoisture } from "./course-odds.ts";
import { withLearnedRate } from "./learned-rate.ts";
import { parametersOfDraw } from "./odds.ts";
import { opinionRates } from "./opinion-rates.ts";
import { bendWithoutQuestioned } from "./questioned.ts";
import { type Draw, drawSample, swathOfDraw } from "./sample.ts";
import { type Uncertainty, uncertaintyOf } from "./uncertainty.ts";
import { type WeatherDraws, weatherDraws } from "./weather-draws.ts";

/** The sample of one cut: the same for its course and for its row on a board. */

/** Draws of one course where nothing else is asked; members of a forecast are gone through as often as it takes. */
export const COURSE_DRAWS = 200;
/** Readings leave few of the draws any weight: so many times as many are made before, and as many as asked drawn of them. */
const READING_TIMES = 4;
/** Longer courses, of an archive, are followed by fewer draws, never under this. */
const LEAST_DRAWS = 51;
const MOST_DRAWN_HOURS = 400_000;

/** One cut with its passes, and what was measured on it. */
export interface SampledCut {
  readonly series: WeatherSeries;
  readonly prepared: PreparedWeather;
  readonly swath: SwathRequest;
  readonly cutUtcMs: number;
  readonly operations: readonly Operation[];
  readonly readings: readonly ReadingRequest[];
  /** What was known of the rate before these readings. */
  readonly learned: LearnedRateRequest | undefined;
  readonly draws: number;
  readonly seed: number;
}

export interface CutSample {
  readonly weathers: WeatherDraws;
  readonly uncertainty: Uncertainty;
  /** How many draws tell the course, and how many are made for them. */
  readonly count: number;
  readonly draws: readonly Draw[];
}

/** The prior of a field's rate: what was learned of it, forgotten with time, in place of the assumed centre. */
export function withLearnedRequest(
  prior: Uncertainty,
  learned: LearnedRateRequest | undefined,
  nowUtcMs: number,
): Uncertainty {
  if (learned === undefined) return prior;
  const { rateLnMean, rateLnSd, atUtc } = learned;
  return withLearnedRate(prior, { lnMean: rateLnMean, lnSd: rateLnSd, atUtcMs: Date.parse(atUtc) }, nowUtcMs);
}

/** As many as asked, fewer of a long course; of members the next whole number of rounds, so that all count alike. */
function drawCount(asked: number, hours: number, members: number): number {
  const most = Math.max(LEAST_DRAWS, Math.floor(MOST_DRAWN_HOURS / Math.max(1, hours)));
  const count = Math.min(asked, most);
  return members === 0 ? count : Math.ceil(count / members) * members;
}

/** The moment of the last reading, UTC ms; 0 where there is none. */
export function lastReadingMs(readings: readonly ReadingRequest[]): number {
  return readings.reduce((last, { atUtc }) => Math.max(last, Date.parse(atUtc)), 0);
}

/**
 * Weathers and draws of a cut before any reading counts.
 *
 * @param weathersAt the weathers with what is past at a moment (null = as issued) taken as known
 */
export function sampleOfCut(
  { series, prepared, swath, cutUtcMs, operations, readings, learned, draws: asked, seed }: SampledCut,
  weathersAt = (ms: number | null): WeatherDraws => weatherDraws(series, prepared, ms, seed),
): CutSample {
  const { weather } = prepared;
  const course = runSweepCourse(weather, swath, cutUtcMs, operations);
  const opinions = secondOpinions(weather, swath, cutUtcMs, operations);
  const rates = opinionRates(course, opinions, swath.initialMoistureWb, weather);
  const uncertainty = withLearnedRequest(uncertaintyOf(swath.crop, rates), learned, cutUtcMs);
  const weathers = weathersAt(lastReadingMs(readings) || null);
  const count = drawCount(asked, course.count, weathers.members);
  const made =
    readings.length === 0 ? count : drawCount(count * READING_TIMES, course.count, weathers.members);
  return { weathers, uncertainty, count, draws: drawSample(swath, uncertainty, made, seed) };
}

/**
 * The cut bent to its readings, without the courses after them: weights, what they taught, and which draws go on. The same
 * draws as those of the cut's own course with its odds.
 */
export function bentCut(
  asked: SampledCut,
  weathersAt?: (ms: number | null) => WeatherDraws,
): { readonly bent: Bent<DrawnMoisture>; readonly sample: CutSample } {
  return bendWithoutQuestioned(asked.readings, (readings) => {
    const cut = { ...asked, readings };
    const { swath, cutUtcMs, operations, seed, prepared } = cut;
    const sample = sampleOfCut(cut, weathersAt);
    const { weathers, draws, count } = sample;
    const { weather } = prepared;
    const startMs = weather.startUtcMs + hourOf(weather, cutUtcMs) * HOUR_MS;
    // A reading lies inside an hour: its end is needed too.
    const untilHour = Math.floor((lastReadingMs(readings) - startMs) / HOUR_MS) + 1;
    const drawn = draws.map((draw, i): DrawnMoisture => {
      const own = weathers.of(i);
      const block = new Float64Array(2 * own.count);
      const lying = swathOfDraw(swath, draw);
      const run = startMoisture(block, own, lying, cutUtcMs, operations, parametersOfDraw(draw));
      runOn(run, Math.max(0, untilHour));
      return { draw, course: run.course };
    });
    return { bent: bendToReadings(drawn, swath, readings, seed, count), sample };
  });
}
