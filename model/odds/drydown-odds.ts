import type { CourseOddsAnswer, DrydownAnswer, ReadingsAnswer } from "../drying/answer.ts";
import { DRYING_PARAMETERS } from "../drying/coefficients.ts";
import { runSweepCourse } from "../drying/course.ts";
import { DEFAULT_TARGETS_WB, drydownIn, toOperation } from "../drying/drydown.ts";
import type { DrydownRequest, LearnedRateRequest } from "../drying/request.ts";
import { secondOpinions } from "../drying/second-opinions.ts";
import type { Outcome } from "../limits.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import { prepareWeather } from "../weather/prepare.ts";
import { type Bent, bendToReadings, changeSentence, fewAgreeText } from "./bend.ts";
import {
  type DrawnCourse,
  drawnCourses,
  drawnMoistureAt,
  oddsOfCourses,
  parametersAtRate,
} from "./course-odds.ts";
import { withLearnedRate } from "./learned-rate.ts";
import { opinionRates } from "./opinion-rates.ts";
import { courseBands, quantiles } from "./quantiles.ts";
import { checkDraws, checkLearned, checkReadings } from "./reading-checks.ts";
import { drawSample } from "./sample.ts";
import { type Uncertainty, uncertaintyOf } from "./uncertainty.ts";
import { issuedUtcMs, weatherDraws } from "./weather-draws.ts";

/** Draws of one course where nothing else is asked; members of a forecast are gone through as often as it takes. */
export const COURSE_DRAWS = 200;
/** Readings leave few of the draws any weight: so many times as many are made before, and as many as asked drawn of them. */
export const READING_TIMES = 4;
/** Longer courses, of an archive, are followed by fewer draws, never under this. */
const LEAST_DRAWS = 51;
const MOST_DRAWN_HOURS = 400_000;
export const DEFAULT_SEED = 1;

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

/** What the draws said of one moment before any reading. */
function asIssued(
  prior: readonly DrawnCourse[],
  targetsWb: readonly number[],
  atUtc: string,
): ReadingsAnswer["asIssued"][number] {
  const moistures = prior.map((one) => drawnMoistureAt(one, Date.parse(atUtc)));
  return {
    atUtc,
    bandsWb: quantiles(moistures),
    targets: targetsWb.map((targetWb) => ({
      targetWb,
      chance: moistures.filter((wb) => wb <= targetWb).length / moistures.length,
    })),
  };
}

function readingsAnswer(
  bent: Bent,
  prior: readonly DrawnCourse[],
  issued: readonly DrawnCourse[],
  targetsWb: readonly number[],
): ReadingsAnswer {
  const { effects, effectiveSize, collapsed, learned, drawn } = bent;
  return {
    readings: effects,
    effectiveSize,
    of: prior.length,
    collapsed,
    countedShare: bent.countedShare,
    fewAgree: fewAgreeText(bent, prior.length),
    changes: targetsWb.map((wb) => changeSentence(prior, drawn, wb)),
    learned:
      learned === null
        ? null
        : { rateLnMean: learned.lnMean, rateLnSd: learned.lnSd, atUtc: utcLabel(learned.atUtcMs) },
    beforeWb: [...courseBands(prior.map(({ course }) => course.moistureWb)).p50],
    asIssued: effects.map(({ atUtc }) => asIssued(issued, targetsWb, atUtc)),
  };
}

/** One course with its odds: what /api/drydown, the command line and the page's worker call. */
export function drydownWithOdds(
  request: DrydownRequest,
  prepared: Outcome<PreparedWeather> = prepareWeather(request.weather),
): Outcome<DrydownAnswer> {
  const asked = request.draws ?? COURSE_DRAWS;
  const cutUtcMs = Date.parse(request.cutUtc);
  const readings = request.readings ?? [];
  const own = [
    ...checkDraws(request.draws),
    ...checkLearned(request.learned),
    ...(prepared.ok ? checkReadings(readings, cutUtcMs, prepared.value.usableUntilUtcMs) : []),
  ];
  const plainRate = withLearnedRequest(uncertaintyOf(request.swath.crop), request.learned, cutUtcMs);
  const central = drydownIn(prepared, request, parametersAtRate(Math.exp(plainRate.rateLnMean)));
  if (!central.ok) return { ok: false, issues: [...central.issues, ...own] };
  if (own.length > 0 || !prepared.ok) return { ok: false, issues: own };
  if (asked === 0) {
    if (readings.length === 0) return central;
    const warning = `Readings given: ${readings.length}. Without draws the course does not bend to them.`;
    return { ok: true, value: { ...central.value, warnings: [...central.value.warnings, warning] } };
  }

  const { weather } = prepared.value;
  const { swath } = request;
  const seed = request.seed ?? DEFAULT_SEED;
  const operations = (request.operations ?? []).map(toOperation);
  const targetsWb = request.targetsWb ?? DEFAULT_TARGETS_WB;
  const course = runSweepCourse(weather, swath, cutUtcMs, operations);
  const opinions = secondOpinions(weather, swath, cutUtcMs, operations);
  const rates = opinionRates(course, opinions, swath.initialMoistureWb, weather);
  const uncertainty = withLearnedRequest(uncertaintyOf(swath.crop, rates), request.learned, cutUtcMs);
  const lastReadingMs = readings.reduce((last, { atUtc }) => Math.max(last, Date.parse(atUtc)), 0);
  const weathers = weatherDraws(request.weather, prepared.value, lastReadingMs || null, seed);
  const count = drawCount(asked, course.count, weathers.members);
  const made =
    readings.length === 0 ? count : drawCount(count * READING_TIMES, course.count, weathers.members);
  const prior = drawnCourses(
    weathers,
    swath,
    cutUtcMs,
    operations,
    drawSample(swath, uncertainty, made, seed),
  );
  // Without an issue time the weather before the last reading counts as known by now: as issued, none of it was.
  const firstWeathers = () => weatherDraws(request.weather, prepared.value, null, seed);
  const sameIssue = [null, lastReadingMs].map((ms) => issuedUtcMs(request.weather, prepared.value, ms));
  const issued =
    readings.length === 0 || weathers.members > 0 || sameIssue[0] === sameIssue[1]
      ? prior
      : drawnCourses(
          firstWeathers(),
          swath,
          cutUtcMs,
          operations,
          drawSample(swath, uncertainty, count, seed),
        );
  const bent = readings.length === 0 ? null : bendToReadings(prior, swath, readings, seed, count);
  const drawn = bent?.drawn ?? prior;
  const { moistureWb, targets } = oddsOfCourses(drawn, targetsWb);
  const odds: CourseOddsAnswer = {
    draws: drawn.length,
    seed,
    weather: weathers.kind,
    members: weathers.members,
    leftOut: weathers.leftOut,
    text: weathers.text,
    moistureWb: {
      p10: [...moistureWb.p10],
      p25: [...moistureWb.p25],
      p50: [...moistureWb.p50],
      p75: [...moistureWb.p75],
      p90: [...moistureWb.p90],
    },
    targets,
    rate: { lnMean: uncertainty.rateLnMean, lnSd: uncertainty.rateLnSd },
    readings: bent === null ? null : readingsAnswer(bent, prior, issued, targetsWb),
  };
  // With readings the course itself bends: it runs at the middle of what they left.
  const shown =
    bent === null || bent.centre.p === DRYING_PARAMETERS
      ? central
      : drydownIn(prepared, { ...request, swath: bent.centre.swath }, bent.centre.p);
  if (!shown.ok) return shown;
  return { ok: true, value: { ...shown.value, secondOpinions: central.value.secondOpinions, odds } };
}
