import type { Issue, Outcome } from "../limits.ts";
import { limitIssue } from "../limits.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather, PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import { prepareWeather } from "../weather/prepare.ts";
import { toldWarnings } from "../weather/warnings.ts";
import { saturationKPa } from "./air-terms.ts";
import type { CourseHours, DrydownAnswer, TargetAnswer } from "./answer.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import type { Course } from "./course.ts";
import { runCourse } from "./course.ts";
import { DRYING_BRANCH_RH } from "./isotherm.ts";
import { CROPS } from "./keys.ts";
import { SWATH_LIMITS } from "./limits.ts";
import { COVER_AFTER, type Operation } from "./operations.ts";
import type { DrydownRequest, OperationRequest, SwathRequest } from "./request.ts";
import type { SecondOpinion } from "./second-opinions.ts";
import { secondOpinions } from "./second-opinions.ts";
import type { MoisturePath, TargetContext } from "./targets.ts";
import { targetAnswer } from "./targets.ts";

/** The model's version: raised whenever the same question may get another number. */
export const MODEL_VERSION = "9";

/** Weather that must follow the cut, h. */
export const LEAST_HOURS_AFTER_CUT = 24;
export const DEFAULT_TARGETS_WB: readonly number[] = [0.65, 0.5, 0.2, 0.16];

/** One course with its targets and second opinions, without odds: see `drydownWithOdds` of the odds room. */
export function drydown(request: DrydownRequest): Outcome<DrydownAnswer> {
  return drydownIn(prepareWeather(request.weather), request);
}

/**
 * The same in weather already made ready, for many courses in one series. `prepared` is of `request.weather`.
 *
 * @param p the model's parameters; others where a field's own rate is known
 */
export function drydownIn(
  prepared: Outcome<PreparedWeather>,
  request: DrydownRequest,
  p: DryingParameters = DRYING_PARAMETERS,
): Outcome<DrydownAnswer> {
  const swathIssues = checkSwath(request.swath, "swath");
  if (!prepared.ok) return { ok: false, issues: [...prepared.issues, ...swathIssues] };
  const { weather } = prepared.value;
  const cutUtcMs = Date.parse(request.cutUtc);
  const operations = (request.operations ?? []).map(toOperation);
  const issues = [
    ...swathIssues,
    ...checkCut(prepared.value, request.cutUtc, cutUtcMs),
    ...checkOperations(request.operations ?? [], prepared.value, cutUtcMs),
    ...(request.targetsWb ?? []).flatMap(
      (wb, i) => limitIssue(`targetsWb[${i}]`, wb, SWATH_LIMITS.targetWb) ?? [],
    ),
  ];
  if (issues.length > 0) return { ok: false, issues };

  const { swath } = request;
  const course = runCourse(weather, swath, cutUtcMs, operations, p);
  let dry: MoisturePath | null = null;
  const context: TargetContext = {
    weather,
    course,
    withoutRain: () => {
      dry ??= runCourse(withoutRain(weather), swath, cutUtcMs, operations, p);
      return dry;
    },
  };
  const targetsWb = request.targetsWb ?? DEFAULT_TARGETS_WB;
  const opinions = secondOpinions(weather, swath, cutUtcMs, operations);
  return {
    ok: true,
    value: {
      modelVersion: MODEL_VERSION,
      areaBasis: "covered-m2",
      usableUntilUtc: utcLabel(prepared.value.usableUntilUtcMs),
      hours: courseHours(course),
      targets: targetsWb.map((wb) => targetAnswer(course, swath.initialMoistureWb, wb, context)),
      secondOpinions: opinions.map((opinion) => opinionAnswer(opinion, course, swath, targetsWb, context)),
      missingHours: prepared.value.missingHours,
      assumptions: [
        ...prepared.value.assumptions,
        ...swathAssumptions(swath),
        ...passAssumptions(request.operations ?? []),
        ...airAssumptions(weather),
      ],
      ...toldWarnings(prepared.value.warnings),
    },
  };
}

/** The hour labels from the hour that contains the cut. */
function labels(course: Course): string[] {
  return Array.from({ length: course.count }, (_, i) => utcLabel(course.startUtcMs + i * HOUR_MS));
}

/** The course in the form it crosses an edge. */
function courseHours(course: Course): CourseHours {
  return {
    startUtc: labels(course),
    moistureWb: [...course.moistureWb],
    leafMoistureWb: [...course.leafMoistureWb],
    stemMoistureWb: [...course.stemMoistureWb],
    equilibriumWb: [...course.equilibriumWb],
    dryMatterGM2: [...course.dryMatterGM2],
    coveredFraction: [...course.coveredFraction],
    freeWaterMm: [...course.freeWaterMm],
    rainMm: [...course.rainMm],
    interceptedMm: [...course.interceptedMm],
    drainedMm: [...course.drainedMm],
    dewMm: [...course.dewMm],
    vapourUptakeMm: [...course.vapourUptakeMm],
    absorbedMm: [...course.absorbedMm],
    evaporationMm: [...course.evaporationMm],
    operationMm: [...course.operationMm],
  };
}

function opinionAnswer(
  opinion: SecondOpinion,
  course: Course,
  swath: SwathRequest,
  targetsWb: readonly number[],
  context: TargetContext,
) {
  const path: MoisturePath = { ...opinion, startUtcMs: course.startUtcMs, cutUtcMs: course.cutUtcMs };
  // An opinion knows no rain: rain cannot be what holds it up.
  const own: TargetContext = { ...context, withoutRain: () => path };
  const targets: TargetAnswer[] = targetsWb.map((wb) => targetAnswer(path, swath.initialMoistureWb, wb, own));
  return {
    name: opinion.name,
    source: opinion.source,
    hours: { startUtc: labels(course), moistureWb: [...opinion.moistureWb] },
    targets,
  };
}

const RAINLESS = new WeakSet<HourlyWeather>();

/** The same weather with no rain, for "would it have dried?". */
export function withoutRain(weather: HourlyWeather): HourlyWeather {
  const dry = { ...weather, rainMm: new Float64Array(weather.count) };
  RAINLESS.add(dry);
  return dry;
}

/** Whether a weather is one that was asked for without its rain. */
export function isWithoutRain(weather: HourlyWeather): boolean {
  return RAINLESS.has(weather);
}

/** What is wrong with a swath, field by field. */
export function checkSwath(swath: SwathRequest, path: string): Issue[] {
  const issues: Issue[] = [];
  if (!CROPS.includes(swath.crop)) {
    issues.push({
      path: `${path}.crop`,
      code: "unknown-crop",
      message: `${path}.crop: got ${String(swath.crop)}, must be one of ${CROPS.join(", ")}`,
    });
  }
  const number = (name: keyof typeof SWATH_LIMITS & keyof SwathRequest) => {
    const value = swath[name];
    const issue = typeof value === "number" ? limitIssue(`${path}.${name}`, value, SWATH_LIMITS[name]) : null;
    if (issue) issues.push(issue);
  };
  number("dryMatterTHa");
  number("initialMoistureWb");
  number("coveredFraction");
  number("stubbleCm");
  number("freeWaterMm");
  return issues;
}

function checkCut(prepared: PreparedWeather, cutUtc: string, cutUtcMs: number): Issue[] {
  const { weather, usableUntilUtcMs, usableEndReason } = prepared;
  const latestMs = usableUntilUtcMs - LEAST_HOURS_AFTER_CUT * HOUR_MS;
  if (cutUtcMs >= weather.startUtcMs && cutUtcMs <= latestMs) return [];
  const ends = usableEndReason === null ? "" : ` (it ends there: ${usableEndReason})`;
  const span = `the usable weather runs from ${utcLabel(weather.startUtcMs)} to ${utcLabel(usableUntilUtcMs)}${ends}`;
  return [
    {
      path: "cutUtc",
      code: "outside-weather",
      message: `cutUtc: got ${cutUtc}; ${span} and at least ${LEAST_HOURS_AFTER_CUT} h of it must follow the cut`,
    },
  ];
}

function checkOperations(
  requests: readonly OperationRequest[],
  prepared: PreparedWeather,
  cutUtcMs: number,
): Issue[] {
  return requests.flatMap(({ atUtc, coveredFraction }, i) => {
    const issues: Issue[] = [];
    const atMs = Date.parse(atUtc);
    if (!(atMs >= cutUtcMs && atMs < prepared.usableUntilUtcMs)) {
      issues.push({
        path: `operations[${i}].atUtc`,
        code: "outside-course",
        message: `operations[${i}].atUtc: got ${atUtc}, must lie between the cut and the end of the usable weather (${utcLabel(prepared.usableUntilUtcMs)})`,
      });
    }
    if (coveredFraction !== undefined) {
      const issue = limitIssue(
        `operations[${i}].coveredFraction`,
        coveredFraction,
        SWATH_LIMITS.coveredFraction,
      );
      if (issue) issues.push(issue);
    }
    return issues;
  });
}

/** A pass as the course takes it. */
export function toOperation({ kind, atUtc, coveredFraction }: OperationRequest): Operation {
  return { kind, atUtcMs: Date.parse(atUtc), coveredFraction: coveredFraction ?? null };
}

function swathAssumptions(swath: SwathRequest): string[] {
  const assumptions = ["Soil under the swath is as warm as the mean air of the last 24 hours."];
  if (swath.freeWaterMm === null || swath.freeWaterMm === undefined) {
    assumptions.push(
      "Free water at cutting is worked out from dew and rain on the standing crop before the cut.",
    );
  }
  return assumptions;
}

function passAssumptions(operations: readonly OperationRequest[]): string[] {
  const silent = operations.filter(
    ({ kind, coveredFraction }) => kind !== "invert" && coveredFraction === undefined,
  );
  const kinds = [...new Set(silent.map(({ kind }) => kind))];
  return kinds.map((kind) => {
    const covered = COVER_AFTER[kind === "rake" ? "rake" : "ted"].value;
    return `After a pass to ${kind} the swath is taken to cover ${Math.round(100 * covered)} % of the cut width.`;
  });
}

/** Says when the air leaves the table that the drying equilibrium was fitted to. */
function airAssumptions(weather: HourlyWeather): string[] {
  let dry = 0;
  for (let i = 0; i < weather.count; i++) {
    const rhFrac = (weather.vapourPressureKPa[i] as number) / saturationKPa(weather.airTempC[i] as number);
    if (weather.daylight[i] === 1 && rhFrac < DRYING_BRANCH_RH[0]) dry++;
  }
  if (dry === 0) return [];
  return [
    `In ${dry} daylight hours the air is drier than the hay equilibrium table reaches (RH 30 %): how dry hay gets then is an extrapolation.`,
  ];
}
