import type { Course } from "../../../model/drying/course.ts";
import { emptyCourse } from "../../../model/drying/course.ts";
import type { RouteAnswer, WindowsAnswer } from "../../../model/harvest/answer.ts";
import { findWindowsWith } from "../../../model/harvest/board.ts";
import type { CourseOf, OpinionsOf } from "../../../model/harvest/drying-store.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import type { Site } from "../../../model/weather/series.ts";
import { inventedSpell, PLACES, type SpellOptions } from "../../support/weather.ts";

const HOUR_MS = 3_600_000;

/** A wide swath of rolled alfalfa on dry ground: invented. */
export const ROLLED_ALFALFA: WindowsRequest["swath"] = {
  crop: "alfalfa",
  dryMatterTHa: 3.2,
  initialMoistureWb: 0.78,
  conditioning: "roll",
  coveredFraction: 0.7,
  stubbleCm: 8,
  soil: "dry",
};

/** A plain question: alfalfa, one cut hour, dry hay at 3 ha/h, from midnight of 1 July in South Dakota. */
export function plainRequest(
  changes: Partial<WindowsRequest> = {},
  spell: SpellOptions & { readonly site?: Site; readonly fromUtc?: string; readonly hours?: number } = {},
): WindowsRequest {
  const { site = PLACES.southDakota, fromUtc = "2026-07-01T05:00:00Z", hours = 96, ...options } = spell;
  return {
    weather: inventedSpell(site, fromUtc, hours, options),
    field: { areaHa: 12 },
    swath: { ...ROLLED_ALFALFA, soil: "moist" },
    cutHours: [9],
    workHours: { from: "07:00", to: "20:00" },
    mowHaPerH: 4,
    treatments: [{ id: "wide", conditioning: "roll", coveredFraction: 0.7, stubbleCm: 8, plan: [] }],
    routes: [{ route: "dry-hay", package: "round", bandWb: [0.12, 0.16], haPerH: 3 }],
    ...changes,
  };
}

/** What a drawn course gives for the hours that end h hours after the cut. */
export interface Drawn {
  readonly wb: (hoursAfterCut: number) => number;
  readonly filmMm?: (hoursAfterCut: number) => number;
  readonly equilibriumWb?: number;
  /** The course where no rain falls after the cut; the same as `wb` where absent. */
  readonly wbWithoutRain?: (hoursAfterCut: number) => number;
}

/** A course drawn by hand, so that a test knows where its edges lie. */
export function drawnCourse(drawn: Drawn): CourseOf {
  return (weather, _swath, cutUtcMs): Course => {
    const first = Math.floor((cutUtcMs - weather.startUtcMs) / HOUR_MS);
    const course = emptyCourse(weather, first, cutUtcMs);
    const rains = weather.rainMm.subarray(first).some((mm) => mm > 0);
    const wb = rains ? drawn.wb : (drawn.wbWithoutRain ?? drawn.wb);
    for (let i = 0; i < course.count; i++) {
      course.moistureWb[i] = wb(i + 1);
      course.freeWaterMm[i] = drawn.filmMm?.(i + 1) ?? 0;
      course.equilibriumWb[i] = drawn.equilibriumWb ?? 0.1;
      course.rainMm[i] = weather.rainMm[first + i] as number;
    }
    return course;
  };
}

/** Straight lines through (hours after the cut, moisture), flat before and after. */
export function through(...points: readonly (readonly [number, number])[]): (hours: number) => number {
  return (hours) => {
    const after = points.findIndex(([at]) => at >= hours);
    const next = points[after] ?? points.at(-1);
    const before = points[after - 1];
    if (!next) throw new Error("no points");
    if (after <= 0 || !before) return next[1];
    return before[1] + ((next[1] - before[1]) * (hours - before[0])) / (next[0] - before[0]);
  };
}

export function ask(
  request: WindowsRequest,
  course: CourseOf,
  opinions: OpinionsOf = () => [],
): WindowsAnswer {
  const outcome = findWindowsWith({ course, opinions }, request);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

/** The first route of the first option. */
export function firstRoute(answer: WindowsAnswer): RouteAnswer {
  const route = answer.options[0]?.routes[0];
  if (!route) throw new Error("no option");
  return route;
}
