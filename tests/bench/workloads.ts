import { runSweepCourse } from "../../model/drying/course.ts";
import type { SwathRequest } from "../../model/drying/request.ts";
import { findWindows } from "../../model/harvest/board.ts";
import { findWindowsWithOdds } from "../../model/harvest/board-odds.ts";
import type { WindowsRequest } from "../../model/harvest/request.ts";
import type { HourlyWeather } from "../../model/weather/hourly.ts";
import { prepareWeather } from "../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { inventedSpell, PLACES } from "../support/weather.ts";

export const MEMBERS = 51;
const DAYS = 10;
const HOUR_MS = 3_600_000;
const CUT_HOURS = [7, 8, 9, 10, 11, 12, 13, 14, 15, 16];

/** Eleven days, so that each of ten days of cuts is followed by a day at least. Two showers. */
function spell(shiftC: number): WeatherSeries {
  return inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", (DAYS + 1) * 24, {
    meanTempC: 24 + shiftC,
    dewPointC: 12,
    rainMm: { 85: 3, 86: 2, 180: 6 },
  });
}

function prepared(series: WeatherSeries): HourlyWeather {
  const outcome = prepareWeather(series);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("; "));
  return outcome.value.weather;
}

const wide: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 3.2,
  initialMoistureWb: 0.78,
  conditioning: "roll",
  coveredFraction: 0.7,
  stubbleCm: 8,
  soil: "dry",
};
const SWATHS: readonly SwathRequest[] = [wide, { ...wide, coveredFraction: 0.45 }];

function cuts(weather: HourlyWeather): number[] {
  const times: number[] = [];
  for (let day = 0; day < DAYS; day += 1) {
    for (const hour of CUT_HOURS) times.push(weather.startUtcMs + (day * 24 + hour) * HOUR_MS);
  }
  return times;
}

/** Every cut of both swaths through the weather, to its end. */
function courses(weather: HourlyWeather): { hours: number; sum: number } {
  let hours = 0;
  let sum = 0;
  for (const swath of SWATHS) {
    for (const cutUtcMs of cuts(weather)) {
      const course = runSweepCourse(weather, swath, cutUtcMs);
      hours += course.count;
      sum += course.moistureWb[course.count - 1] ?? 0;
    }
  }
  return { hours, sum };
}

export function oneForecastCourses() {
  const weather = prepared(spell(0));
  return { hours: courses(weather).hours, run: () => courses(weather).sum };
}

/** The courses of all members, or of one part of them: every so-many-th, so that parts are alike. */
export function memberCourses(part = 0, parts = 1) {
  const mine = Array.from({ length: MEMBERS }, (_, i) => i).filter((i) => i % parts === part);
  const members = mine.map((i) => prepared(spell((i - MEMBERS / 2) / 20)));
  return {
    hours: members.reduce((sum, weather) => sum + courses(weather).hours, 0),
    run: () => members.reduce((sum, weather) => sum + courses(weather).sum, 0),
  };
}

export function oneForecastBoard() {
  const request: WindowsRequest = {
    weather: spell(0),
    field: { areaHa: 12 },
    swath: wide,
    cutHours: CUT_HOURS,
    workHours: { from: "06:00", to: "22:00" },
    treatments: [
      { id: "wide", conditioning: "roll", coveredFraction: 0.7, stubbleCm: 8 },
      { id: "narrow", conditioning: "roll", coveredFraction: 0.45, stubbleCm: 8 },
    ],
    routes: [
      { route: "dry-hay", package: "round" },
      { route: "wrapped-bales" },
      { route: "wilted-chop", store: "bunker" },
    ],
  };
  const run = () => {
    const outcome = findWindows(request);
    if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("; "));
    return outcome.value.options.length;
  };
  return { options: run(), run, request };
}

/** The full board with its odds: 51 members, one draw each, all routes of the board above. */
export function oddsBoard() {
  const { request } = oneForecastBoard();
  const members = Array.from({ length: MEMBERS }, (_, i) => {
    const { airTempC, rainMm } = spell((i - MEMBERS / 2) / 20).hours;
    return { airTempC, rainMm };
  });
  const weather = { ...request.weather, members };
  const run = () => {
    const outcome = findWindowsWithOdds({ ...request, weather });
    if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("; "));
    return outcome.value.options.length;
  };
  return { options: run(), run };
}

const EXP_CALLS = 1_000_000;

/** The yardstick: so many Math.exp calls over varying values, their sum used. */
export function exponentials() {
  const values = Float64Array.from({ length: EXP_CALLS }, (_, i) => ((i * 2_654_435_761) % 4096) / 512 - 4);
  const run = () => {
    let sum = 0;
    for (let i = 0; i < values.length; i += 1) sum += Math.exp(values[i] ?? 0);
    return sum;
  };
  return { calls: EXP_CALLS, run };
}
