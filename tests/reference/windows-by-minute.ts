import type { Course, Operation } from "../../model/drying/course.ts";
import type { SwathRequest } from "../../model/drying/request.ts";
import type { PlanStep, WindowsRequest } from "../../model/harvest/request.ts";
import type { HourlyWeather } from "../../model/weather/hourly.ts";
import { type LocalMinutes, localMinutes, workingDays } from "./local-minutes.ts";

/**
 * The windows and their ranking once more, as slowly and as plainly as they can be put: every minute of the forecast is
 * asked every question. It shares the course function and the prepared weather with the model, and nothing else.
 * The request must name everything: treatments with plans, routes with bands and rates, work hours and so on.
 */

export type CourseFunction = (
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
) => Course;

export interface SlowPair {
  readonly optionId: string;
  readonly route: string;
  readonly operations: readonly string[];
  readonly windows: readonly {
    readonly startUtc: string;
    readonly endUtc: string;
    readonly rainedOn: boolean;
  }[];
  readonly rank: number | null;
}

interface Judged {
  readonly pair: Omit<SlowPair, "rank">;
  /** Smaller is better, compared from the left. */
  readonly order: readonly (number | string)[] | null;
}

const MIN = 60_000;
const HOUR = 3_600_000;
const ROUTE_ORDER = ["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop", "green-chop", "grazing"];
const EPS = 1e-12;

const iso = (ms: number) => new Date(ms).toISOString().replace(".000Z", "Z");

/** Moisture and free water at any moment: straight lines between the hours' ends. */
interface Lines {
  readonly fromMs: number;
  readonly wb: (ms: number) => number;
  readonly filmMm: (ms: number) => number;
}

interface Farm {
  readonly weather: HourlyWeather;
  readonly endMs: number;
  readonly nowMs: number;
  readonly table: LocalMinutes;
  readonly days: readonly (number | null)[];
  readonly maxRainMm: number;
}

function hourOf(weather: HourlyWeather, ms: number): number {
  return Math.floor((ms - weather.startUtcMs) / HOUR);
}

function soilCarries(farm: Farm, hour: number): boolean {
  let fallen = 0;
  for (let k = Math.max(0, hour - 24); k < hour; k++) fallen += farm.weather.rainMm[k] as number;
  return fallen <= farm.maxRainMm + 1e-9;
}

/** Whether the machine can work through the whole of the minute that begins at `ms`. */
function fitMinute(farm: Farm, lines: Lines, band: readonly [number, number], ms: number): boolean {
  const hour = hourOf(farm.weather, ms);
  if ((farm.weather.rainMm[hour] as number) > 0) return false;
  if (!soilCarries(farm, hour)) return false;
  for (const at of [ms, ms + MIN]) {
    const wb = lines.wb(at);
    if (wb < band[0] - EPS || wb > band[1] + EPS) return false;
    if (lines.filmMm(at) > 0.02 + EPS) return false;
  }
  return true;
}

function windowsOf(farm: Farm, lines: Lines, band: readonly [number, number], hours: number, fromMs = 0) {
  const found: { startMs: number; endMs: number; day: number }[] = [];
  let open: { startMs: number; endMs: number; day: number } | null = null;
  for (let ms = Math.ceil(Math.max(lines.fromMs, fromMs) / MIN) * MIN; ms + MIN <= farm.endMs; ms += MIN) {
    const day = farm.days[(ms - farm.table.startMs) / MIN] ?? null;
    const fit = day !== null && fitMinute(farm, lines, band, ms);
    if (open && (!fit || open.day !== day)) {
      found.push(open);
      open = null;
    }
    if (!fit) continue;
    if (open) open.endMs = ms + MIN;
    else open = { startMs: ms, endMs: ms + MIN, day };
  }
  if (open) found.push(open);
  return found.filter(({ startMs, endMs }) => (endMs - startMs) / HOUR >= hours - 1e-9);
}

function courseLines(weather: HourlyWeather, course: Course, swath: SwathRequest): Lines {
  const line = (ends: Float64Array, atStart: number) => (ms: number) => {
    const hours = (ms - course.startUtcMs) / HOUR;
    // A moment between two hours is read from the hour before it, which ends there.
    const i = Math.min(weather.count, Math.max(0, Math.ceil(hours) - 1));
    const before = i === 0 ? atStart : (ends[i - 1] as number);
    const after = ends[i] as number;
    const share = hours - i;
    return share === 1 ? after : before + (after - before) * share;
  };
  return {
    fromMs: course.cutUtcMs,
    wb: line(course.moistureWb, swath.initialMoistureWb),
    filmMm: line(course.freeWaterMm, swath.freeWaterMm ?? (course.freeWaterMm[0] as number)),
  };
}

/** The minute at which the farm's clock shows this hour on this local day: the first such, or the one an hour on. */
function minuteShowing(farm: Farm, day: number, hour: number): number {
  for (const shown of [hour, hour + 1]) {
    for (let i = 0; i < farm.table.minute.length; i++) {
      if (farm.table.day[i] === day && farm.table.minute[i] === shown * 60)
        return farm.table.startMs + i * MIN;
    }
  }
  return Number.POSITIVE_INFINITY;
}

/** Walks back from a window minute by minute, so many hours, and no further than its working day goes. */
function minuteBefore(farm: Farm, windowMs: number, hours: number): number {
  const dayAt = (ms: number) => farm.days[Math.round((ms - farm.table.startMs) / MIN)] ?? null;
  const day = dayAt(windowMs);
  let ms = windowMs;
  for (let walked = 0; walked < hours * 60 && dayAt(ms - MIN) === day; walked++) ms -= MIN;
  return ms;
}

function passesOf(
  farm: Farm,
  plan: readonly PlanStep[],
  cutMs: number,
  courseCutMs: number,
  windowMs: number | null,
) {
  const passes: (Operation & { readonly waits: boolean })[] = [];
  let lastTedMs = Number.NEGATIVE_INFINITY;
  for (const step of plan) {
    let atUtcMs = Number.NaN;
    if (step.rule === "morning-after") {
      const day = farm.table.day[(cutMs - farm.table.startMs) / MIN] as number;
      atUtcMs = minuteShowing(farm, day + 1, step.hour);
    } else if (step.rule === "after-cut") {
      atUtcMs = courseCutMs + step.hours * HOUR;
    } else if (step.rule === "before-window") {
      if (windowMs === null) continue;
      atUtcMs = Math.max(courseCutMs, minuteBefore(farm, windowMs, step.hours));
    } else {
      atUtcMs = Date.parse(step.atUtc);
    }
    if (atUtcMs < courseCutMs || atUtcMs >= farm.endMs) continue;
    if (step.kind === "ted") lastTedMs = Math.max(lastTedMs, atUtcMs);
    const waits = step.rule === "before-window";
    passes.push({ kind: step.kind, atUtcMs, coveredFraction: step.coveredFraction ?? null, waits });
  }
  // A rake for a window that is there before the swath is spread is not driven.
  return passes
    .filter(({ kind, waits, atUtcMs }) => !(kind === "rake" && waits && lastTedMs > atUtcMs))
    .sort((a, b) => a.atUtcMs - b.atUtcMs);
}

function rainedBetween(weather: HourlyWeather, fromMs: number, toMs: number): boolean {
  for (let ms = fromMs; ms < toMs; ms += MIN) {
    if ((weather.rainMm[hourOf(weather, ms)] as number) > 0) return true;
  }
  return false;
}

/** Cut minutes: the first minute of the local day that shows a cut hour, mowing inside one working day, 24 h after it. */
function cutMinutes(farm: Farm, cutHours: readonly number[], mowHours: number): number[] {
  const cuts: number[] = [];
  const shown = new Set<string>();
  for (let i = 0; i < farm.table.minute.length; i++) {
    const minute = farm.table.minute[i] as number;
    if (minute % 60 !== 0 || !cutHours.includes(minute / 60)) continue;
    const label = `${farm.table.day[i]} ${minute}`;
    if (shown.has(label)) continue;
    shown.add(label);
    const ms = farm.table.startMs + i * MIN;
    if (ms < farm.nowMs || ms < farm.weather.startUtcMs || ms + 24 * HOUR > farm.endMs) continue;
    let fits = farm.days[i] !== null;
    for (let k = 0; k < Math.ceil(mowHours * 60 - 1e-6); k++)
      if (farm.days[i + k] !== farm.days[i]) fits = false;
    if (fits) cuts.push(ms);
  }
  return cuts;
}

function swathPairs(request: WindowsRequest, farm: Farm, course: CourseFunction): Judged[] {
  const { weather, table } = farm;
  const mowHours = request.field.areaHa / (request.mowHaPerH ?? Number.NaN);
  const judged: Judged[] = [];
  for (const cutMs of cutMinutes(farm, request.cutHours ?? [], mowHours)) {
    const middle = (cutMs - weather.startUtcMs) / HOUR + mowHours / 2;
    const courseCutMs = weather.startUtcMs + Math.floor(middle + 0.5) * HOUR;
    for (const treatment of request.treatments ?? []) {
      const swath = {
        ...request.swath,
        conditioning: treatment.conditioning,
        coveredFraction: treatment.coveredFraction,
        stubbleCm: treatment.stubbleCm,
      };
      for (const route of request.routes ?? []) {
        if (ROUTE_ORDER.indexOf(route.route) > 2) continue;
        const band = route.bandWb ?? [0, 0];
        const hours = request.field.areaHa / (route.haPerH ?? Number.NaN);
        const plan = treatment.plan ?? [];
        const run = (passes: Operation[], fromMs: number) =>
          windowsOf(
            farm,
            courseLines(weather, course(weather, swath, courseCutMs, passes), swath),
            band,
            hours,
            fromMs,
          );
        let passes = passesOf(farm, plan, cutMs, courseCutMs, null);
        let windows = run(passes, courseCutMs);
        const waiting = plan.filter((step) => step.rule === "before-window");
        if (windows[0] && waiting.length > 0) {
          const windowMs = windows[0].startMs;
          passes = passesOf(farm, plan, cutMs, courseCutMs, windowMs);
          // What is prepared for may not begin before it is prepared.
          const prepared = passes.filter(({ waits }) => waits).at(-1);
          windows = run(passes, prepared?.atUtcMs ?? courseCutMs);
        }
        const dayAt = (ms: number) => table.day[(ms - table.startMs) / MIN] as number;
        const first = windows[0];
        const rained = first !== undefined && rainedBetween(weather, courseCutMs, first.startMs);
        const lying = first ? dayAt(first.startMs) - dayAt(courseCutMs) : 0;
        judged.push({
          pair: {
            optionId: `${iso(cutMs)}/${treatment.id}`,
            route: route.route,
            operations: passes.map((pass) => `${pass.kind} ${iso(pass.atUtcMs)}`),
            windows: windows.map(({ startMs, endMs }) => ({
              startUtc: iso(startMs),
              endUtc: iso(endMs),
              rainedOn: rainedBetween(weather, courseCutMs, startMs),
            })),
          },
          order: first
            ? [0, rained ? 1 : 0, lying, first.startMs, cutMs, ROUTE_ORDER.indexOf(route.route), treatment.id]
            : null,
        });
      }
    }
  }
  return judged;
}

function standingPairs(request: WindowsRequest, farm: Farm): Judged[] {
  const { standing, field, swath } = request;
  if (!standing) return [];
  const perDay = (standing.dryDownPointsPerDay ?? Number.NaN) / 100;
  const lines: Lines = {
    fromMs: farm.nowMs,
    wb: (ms) => Math.max(0, standing.moistureWb - (perDay * (ms - farm.nowMs)) / (24 * HOUR)),
    filmMm: () => 0,
  };
  const judged: Judged[] = [];
  for (const route of request.routes ?? []) {
    const at = ROUTE_ORDER.indexOf(route.route);
    if (at < 3) continue;
    const whole = route.route === "direct-chop";
    const needKg = standing.dailyNeedKgDm ?? Number.NaN;
    const cropKg = field.areaHa * swath.dryMatterTHa * 1000;
    const turnHa = Math.min(field.areaHa, needKg / (swath.dryMatterTHa * 1000));
    const hours = whole
      ? field.areaHa / (route.haPerH ?? Number.NaN)
      : Math.max(1, route.route === "grazing" ? 0 : turnHa / (route.haPerH ?? Number.NaN));
    let windows = windowsOf(farm, lines, whole ? (route.bandWb ?? [0, 0]) : [0, 1], hours);
    if (!whole) {
      windows = windows.filter((window, i) => windows.findIndex((other) => other.day === window.day) === i);
      windows = windows.slice(0, Math.ceil(cropKg / needKg - 1e-9));
    }
    const first = windows[0];
    judged.push({
      pair: {
        optionId: `standing/${route.route}`,
        route: route.route,
        operations: [],
        windows: windows.map(({ startMs, endMs }) => ({
          startUtc: iso(startMs),
          endUtc: iso(endMs),
          rainedOn: false,
        })),
      },
      order: first ? [whole ? 0 : 1, 0, 0, first.startMs, first.startMs, at, ""] : null,
    });
  }
  return judged;
}

function isBetter(a: readonly (number | string)[], b: readonly (number | string)[]): boolean {
  for (let i = 0; i < a.length; i++) {
    const x = a[i] as number | string;
    const y = b[i] as number | string;
    if (x !== y) return x < y;
  }
  return false;
}

/**
 * All option-route pairs with their windows and ranks, sorted by option and route.
 *
 * @param worthOf expected value of a pair, which ranks before all else: worked out elsewhere
 */
export function windowsByMinute(
  request: WindowsRequest,
  weather: HourlyWeather,
  course: CourseFunction,
  worthOf: (optionId: string, route: string) => number,
): SlowPair[] {
  const startMs = weather.startUtcMs - 24 * HOUR;
  const endMs = weather.startUtcMs + weather.count * HOUR;
  const table = localMinutes(weather.site.timeZone, startMs, endMs + 48 * HOUR);
  const farm: Farm = {
    weather,
    endMs,
    nowMs: request.nowUtc ? Date.parse(request.nowUtc) : weather.startUtcMs,
    table,
    days: workingDays(table, request.workHours?.from ?? "", request.workHours?.to ?? ""),
    maxRainMm: request.soilCarry?.maxRainMm24h ?? Number.NaN,
  };
  const found = [...swathPairs(request, farm, course), ...standingPairs(request, farm)];
  const judged = found.map(({ pair, order }) => ({
    pair,
    order: order && [-worthOf(pair.optionId, pair.route), ...order],
  }));
  const orders = judged.flatMap(({ order }) => (order ? [order] : []));
  return judged
    .map(({ pair, order }) => ({
      ...pair,
      rank: order ? 1 + orders.filter((other) => isBetter(other, order)).length : null,
    }))
    .sort((a, b) => (a.optionId + a.route < b.optionId + b.route ? -1 : 1));
}
