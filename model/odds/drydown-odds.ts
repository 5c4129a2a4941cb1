import type { CourseOddsAnswer, DrydownAnswer, ReadingsAnswer } from "../drying/answer.ts";
import { DEFAULT_TARGETS_WB, drydownIn, toOperation } from "../drying/drydown.ts";
import type { DrydownRequest, ReadingRequest } from "../drying/request.ts";
import type { Outcome } from "../limits.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import { prepareWeather } from "../weather/prepare.ts";
import { type Bent, bendToReadings, changeOf, fewAgreeText } from "./bend.ts";
import { bentCentre, drydownAtCentre } from "./bent-centre.ts";
import {
  type DrawnCourse,
  drawnCourses,
  drawnMoistureAt,
  oddsOfCourses,
  parametersAtRate,
} from "./course-odds.ts";
import {
  COURSE_DRAWS,
  lastReadingMs,
  type SampledCut,
  sampleOfCut,
  withLearnedRequest,
} from "./cut-sample.ts";
import { lastRead } from "./odds.ts";
import { quantiles } from "./quantiles.ts";
import { bendWithoutQuestioned } from "./questioned.ts";
import { checkDraws, checkLearned, checkReadings } from "./reading-checks.ts";
import { drawSample } from "./sample.ts";
import { uncertaintyOf } from "./uncertainty.ts";
import { issuedUtcMs, oddsText, weatherDraws } from "./weather-draws.ts";

export const DEFAULT_SEED = 1;

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

/**
 * What is told of the readings.
 *
 * @param before the course by itself without them
 * @param after the one that they left: the hours of both are those of a board's row
 */
function readingsAnswer(
  bent: Bent,
  of: number,
  issued: readonly DrawnCourse[],
  before: DrydownAnswer,
  after: DrydownAnswer,
  cutUtcMs: number,
): ReadingsAnswer {
  const { effects, effectiveSize, collapsed, learned } = bent;
  const last = lastRead(effects);
  const targetsWb = after.targets.map(({ targetWb }) => targetWb);
  return {
    readings: effects,
    effectiveSize,
    of,
    collapsed,
    countedShare: bent.countedShare,
    fewAgree: fewAgreeText(bent, of),
    // Where no reading counts nothing has changed, and there is none to compare with.
    changes: after.targets.flatMap((target, i) => {
      const was = before.targets[i];
      return was && last !== null ? [changeOf(was, target, cutUtcMs, last)] : [];
    }),
    learned:
      learned === null
        ? null
        : { rateLnMean: learned.lnMean, rateLnSd: learned.lnSd, atUtc: utcLabel(learned.atUtcMs) },
    beforeWb: before.hours.moistureWb,
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
    ...checkLearned(request.learned, request.weather),
    ...(prepared.ok ? checkReadings(readings, cutUtcMs, prepared.value.usableUntilUtcMs) : []),
  ];
  const plainRate = withLearnedRequest(uncertaintyOf(request.swath.crop), request.learned, cutUtcMs);
  const central = drydownIn(prepared, request, parametersAtRate(Math.exp(plainRate.rateLnMean)));
  if (!central.ok) return { ok: false, issues: [...central.issues, ...own] };
  if (own.length > 0 || !prepared.ok) return { ok: false, issues: own };
  if (asked === 0) {
    if (readings.length === 0) return central;
    const warning = `Readings given: ${readings.length}. Without draws the course does not bend to them.`;
    const { warnings, warningCodes } = central.value;
    return {
      ok: true,
      value: {
        ...central.value,
        warnings: [...warnings, warning],
        warningCodes: [...warningCodes, "readings-unused"],
      },
    };
  }

  const { swath } = request;
  const seed = request.seed ?? DEFAULT_SEED;
  const operations = (request.operations ?? []).map(toOperation);
  const targetsWb = request.targetsWb ?? DEFAULT_TARGETS_WB;
  const weathersAt = (ms: number | null) => weatherDraws(request.weather, prepared.value, ms, seed);
  const cut: SampledCut = {
    series: request.weather,
    prepared: prepared.value,
    swath,
    cutUtcMs,
    operations,
    readings,
    learned: request.learned,
    draws: asked,
    seed,
  };
  const round = (taken: readonly ReadingRequest[]) => {
    const sample = sampleOfCut({ ...cut, readings: taken }, weathersAt);
    const prior = drawnCourses(sample.weathers, swath, cutUtcMs, operations, sample.draws);
    return { ...sample, taken, prior, bent: bendToReadings(prior, swath, taken, seed, sample.count) };
  };
  const found = bendWithoutQuestioned(readings, round);
  const { weathers, uncertainty, count, prior, bent } = found;
  // Without an issue time the weather before the last reading counts as known by now: as issued, none of it was.
  const sameIssue = [null, lastReadingMs(found.taken) || null].map((ms) =>
    issuedUtcMs(request.weather, prepared.value, ms),
  );
  const issued =
    found.taken.length === 0 || weathers.members > 0 || sameIssue[0] === sameIssue[1]
      ? prior
      : drawnCourses(
          weathersAt(null),
          swath,
          cutUtcMs,
          operations,
          drawSample(swath, uncertainty, count, seed),
        );
  const { drawn } = bent;
  const { moistureWb, targets } = oddsOfCourses(drawn, targetsWb, lastRead(bent.effects)?.atMs);
  // With readings the course itself bends: it runs in the middle of what they left.
  const centre = bentCentre(bent, swath, weathers, prepared.value.weather);
  const shown = bent.used ? drydownAtCentre(prepared.value, request, centre) : central;
  if (!shown.ok) return shown;
  const odds: CourseOddsAnswer = {
    draws: drawn.length,
    seed,
    weather: weathers.kind,
    members: weathers.members,
    leftOut: weathers.leftOut,
    text: oddsText(weathers, drawn.length),
    moistureWb: {
      p10: [...moistureWb.p10],
      p25: [...moistureWb.p25],
      p50: [...moistureWb.p50],
      p75: [...moistureWb.p75],
      p90: [...moistureWb.p90],
    },
    targets,
    rate: { lnMean: uncertainty.rateLnMean, lnSd: uncertainty.rateLnSd },
    readings:
      readings.length === 0
        ? null
        : readingsAnswer(bent, prior.length, issued, central.value, shown.value, cutUtcMs),
  };
  return { ok: true, value: { ...shown.value, secondOpinions: central.value.secondOpinions, odds } };
}
