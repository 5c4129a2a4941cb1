import { LEAST_HOURS_AFTER_CUT } from "../drying/drydown.ts";
import { CONDITIONINGS, CROPS, SOIL_CLASSES } from "../drying/keys.ts";
import { SWATH_LIMITS } from "../drying/limits.ts";
import { type Issue, type Limit, limitInWords, limitIssue, within } from "../limits.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import { ROUTES, SWATH_ROUTES } from "./keys.ts";
import { CLOCK_READING, CLOCK_READING_OR_24, HARVEST_COUNTS, HARVEST_LIMITS } from "./limits.ts";
import { moneyIssues } from "./money-checks.ts";
import { planIssues, timeIssue } from "./plan-checks.ts";
import type { RouteRequest, TreatmentRequest, WindowsRequest, WorkHours } from "./request.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";

/** Everything that can be wrong with a question about windows, the weather itself apart. */

type Issues = (Issue | null)[];

function issue(path: string, code: string, text: string): Issue {
  return { path, code, message: `${path}: ${text}` };
}

function optional(path: string, value: number | undefined, limit: Limit): Issue | null {
  return value === undefined ? null : limitIssue(path, value, limit);
}

function oneOf(path: string, value: string, known: readonly string[]): Issue | null {
  if (known.includes(value)) return null;
  return issue(path, "unknown-value", `got ${JSON.stringify(value)}, must be one of ${known.join(", ")}`);
}

function countIssue(path: string, count: number, most: number): Issue | null {
  if (count === 0) return issue(path, "too-few", "got an empty list, must have at least 1");
  return count > most ? issue(path, "too-many", `got a list of ${count}, must have at most ${most}`) : null;
}

/** Paths of entries whose key was there before. */
function repeats(keys: readonly string[], pathOf: (i: number) => string): Issue[] {
  return keys.flatMap((key, i) =>
    keys.indexOf(key) < i
      ? [issue(pathOf(i), "duplicate", `got ${JSON.stringify(key)} a second time, must be there once`)]
      : [],
  );
}

function workIssues(work: WorkHours): Issues {
  const reading = (path: string, value: string, pattern: RegExp, ends: string) =>
    pattern.test(value)
      ? null
      : issue(
          path,
          "bad-time",
          `got ${JSON.stringify(value)}, must be a local time HH:MM from 00:00 to ${ends}`,
        );
  const issues: Issues = [
    reading("workHours.from", work.from, CLOCK_READING, "23:59"),
    reading("workHours.to", work.to, CLOCK_READING_OR_24, "24:00"),
  ];
  const readable = !issues.some((found) => found !== null);
  if (readable && work.from === work.to) {
    issues.push(
      issue(
        "workHours.to",
        "out-of-order",
        `got "${work.to}", must differ from workHours.from; 00:00 to 24:00 is the whole day`,
      ),
    );
  }
  return issues;
}

function bandIssues(path: string, band: readonly [number, number]): Issues {
  const edges = band.map((edge, k) => limitIssue(`${path}[${k}]`, edge, HARVEST_LIMITS.bandWb));
  if (edges.some((found) => found !== null) || band[0] < band[1]) return edges;
  return [
    issue(path, "out-of-order", `got [${band.join(", ")}], must be the driest, then the wettest moisture`),
  ];
}

function routeIssues(asked: RouteRequest, path: string): Issues {
  const unknown = oneOf(`${path}.route`, asked.route, ROUTES);
  if (unknown) return [unknown];
  const entry = ROUTE_CATALOGUE[asked.route];
  const choice = (key: "package" | "store", value: string | null | undefined, known: readonly string[]) => {
    if (value === null || value === undefined) return null;
    if (known.length > 0) return oneOf(`${path}.${key}`, value, known);
    return issue(
      `${path}.${key}`,
      "not-for-route",
      `got ${JSON.stringify(value)}, must be null for ${asked.route}`,
    );
  };
  const issues: Issues = [
    choice("package", asked.package, entry.packages),
    choice("store", asked.store, entry.stores),
    optional(`${path}.haPerH`, asked.haPerH, HARVEST_LIMITS.haPerH),
  ];
  if (asked.bandWb !== undefined) {
    if (entry.wholeArea) issues.push(...bandIssues(`${path}.bandWb`, asked.bandWb));
    else
      issues.push(
        issue(`${path}.bandWb`, "not-for-route", `${asked.route} takes the crop fresh and has no band`),
      );
  }
  return issues;
}

function treatmentIssues(treatment: TreatmentRequest, path: string): Issues {
  const issues: Issues = [
    oneOf(`${path}.conditioning`, treatment.conditioning, CONDITIONINGS),
    limitIssue(`${path}.coveredFraction`, treatment.coveredFraction, SWATH_LIMITS.coveredFraction),
    limitIssue(`${path}.stubbleCm`, treatment.stubbleCm, SWATH_LIMITS.stubbleCm),
    ...planIssues(treatment.plan ?? [], `${path}.plan`),
  ];
  const { length } = treatment.id;
  if (length === 0)
    issues.push(issue(`${path}.id`, "too-few", "got an empty text, must have at least 1 character"));
  if (length > HARVEST_COUNTS.treatmentIdLength) {
    issues.push(
      issue(
        `${path}.id`,
        "too-many",
        `got ${length} characters, must have at most ${HARVEST_COUNTS.treatmentIdLength}`,
      ),
    );
  }
  return issues;
}

function swathIssues({ swath }: WindowsRequest): Issues {
  const issues: Issues = [
    oneOf("swath.crop", swath.crop, CROPS),
    oneOf("swath.conditioning", swath.conditioning, CONDITIONINGS),
    oneOf("swath.soil", swath.soil, SOIL_CLASSES),
  ];
  for (const key of ["dryMatterTHa", "initialMoistureWb", "coveredFraction", "stubbleCm"] as const) {
    issues.push(limitIssue(`swath.${key}`, swath[key], SWATH_LIMITS[key]));
  }
  if (typeof swath.freeWaterMm === "number") {
    issues.push(limitIssue("swath.freeWaterMm", swath.freeWaterMm, SWATH_LIMITS.freeWaterMm));
  }
  return issues;
}

function cutHourIssues(cutHours: readonly number[]): Issues {
  return cutHours.map((hour, i) => {
    const path = `cutHours[${i}]`;
    if (!within(hour, HARVEST_LIMITS.cutHour)) return limitIssue(path, hour, HARVEST_LIMITS.cutHour);
    if (Number.isInteger(hour)) return null;
    return issue(
      path,
      "not-whole",
      `got ${hour}, must be a whole number; it ${limitInWords(HARVEST_LIMITS.cutHour)}`,
    );
  });
}

/** Checks of the question that need no weather. */
export function checkRequest(request: WindowsRequest): Issue[] {
  const { standing, treatments, routes, cutHours } = request;
  const issues: Issues = [
    limitIssue("field.areaHa", request.field.areaHa, HARVEST_LIMITS.areaHa),
    ...swathIssues(request),
    optional("mowHaPerH", request.mowHaPerH, HARVEST_LIMITS.mowHaPerH),
    optional("soilCarry.maxRainMm24h", request.soilCarry?.maxRainMm24h, HARVEST_LIMITS.maxRainMm24h),
    ...(request.workHours ? workIssues(request.workHours) : []),
    ...moneyIssues(request),
    optional("hazards.regrowthCm", request.hazards?.regrowthCm ?? undefined, HARVEST_LIMITS.regrowthCm),
  ];
  if (standing) {
    issues.push(
      limitIssue("standing.moistureWb", standing.moistureWb, HARVEST_LIMITS.standingMoistureWb),
      optional(
        "standing.dryDownPointsPerDay",
        standing.dryDownPointsPerDay,
        HARVEST_LIMITS.dryDownPointsPerDay,
      ),
      optional("standing.dailyNeedKgDm", standing.dailyNeedKgDm, HARVEST_LIMITS.dailyNeedKgDm),
    );
  }
  if (cutHours)
    issues.push(countIssue("cutHours", cutHours.length, HARVEST_COUNTS.cutHours), ...cutHourIssues(cutHours));
  if (treatments) {
    issues.push(countIssue("treatments", treatments.length, HARVEST_COUNTS.treatments));
    issues.push(...treatments.flatMap((treatment, i) => treatmentIssues(treatment, `treatments[${i}]`)));
    issues.push(
      ...repeats(
        treatments.map(({ id }) => id),
        (i) => `treatments[${i}].id`,
      ),
    );
  }
  if (routes) {
    issues.push(countIssue("routes", routes.length, ROUTES.length));
    issues.push(...routes.flatMap((route, i) => routeIssues(route, `routes[${i}]`)));
    issues.push(
      ...repeats(
        routes.map(({ route }) => route),
        (i) => `routes[${i}].route`,
      ),
    );
  }
  if (typeof request.nowUtc === "string") issues.push(timeIssue("nowUtc", request.nowUtc));
  return issues.filter((found) => found !== null);
}

/** Checks against the usable weather: now lies in it, and enough of it follows. */
export function checkAgainstWeather(
  request: WindowsRequest,
  { weather, usableEndReason }: PreparedWeather,
): Issue[] {
  const endMs = weather.startUtcMs + weather.count * HOUR_MS;
  const nowMs = typeof request.nowUtc === "string" ? Date.parse(request.nowUtc) : weather.startUtcMs;
  const ends =
    usableEndReason === null ? "" : ` (the weather is usable until ${utcLabel(endMs)}: ${usableEndReason})`;
  const usable = `the usable weather, ${utcLabel(weather.startUtcMs)} to ${utcLabel(endMs)}`;
  if (!(nowMs >= weather.startUtcMs && nowMs < endMs)) {
    return [issue("nowUtc", "out-of-range", `got ${request.nowUtc}, must lie within ${usable}${ends}`)];
  }
  const cuts =
    request.routes === undefined ||
    request.routes.some(({ route }) => SWATH_ROUTES.some((key) => key === route));
  const hoursLeft = (endMs - nowMs) / HOUR_MS;
  if (cuts && hoursLeft < LEAST_HOURS_AFTER_CUT) {
    const had = `got ${Math.floor(hoursLeft)} usable hours from ${utcLabel(nowMs)} on`;
    return [
      issue(
        "weather.hours",
        "too-short",
        `${had}${ends}, at least ${LEAST_HOURS_AFTER_CUT} must follow a cut`,
      ),
    ];
  }
  return [];
}
