import type { SweepCourse } from "../drying/course.ts";
import { NO_FILM_MM } from "../harvest/spans.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { isByDayOnly, lightSlots } from "./grid-slots.ts";
import { type CrewOp, opOrder } from "./keys.ts";
import type { CrewJob, Span } from "./problem.ts";
import { passesOf } from "./replay.ts";
import type { CrewFieldRequest } from "./request.ts";
import { hourAt } from "./taken-dry.ts";
import { bandOfOp } from "./windows/band.ts";
import { membersNeeded } from "./windows/fit-reader.ts";
import type { MemberSwath } from "./windows/member-swath.ts";
import { listWords, opWord } from "./words.ts";

/** What keeps a work from some hours of a field, whatever machine and crew. */
export interface Against {
  /** "rain", "dew", "soft ground", "darkness": as many as there are. */
  readonly weather: readonly string[];
  /** True where the water on the crop fell as rain, in those hours or since it was last dry; that is no dew. */
  readonly wetFromRain: boolean;
  /** Of the crop against the band of the work; null = neither, or the work has none. */
  readonly crop: "too wet" | "too dry" | null;
}

/** What one member has in some hours of a work, of crop that was mown and worked as it was. */
interface Seen {
  readonly rain: boolean;
  /** Where the water on the crop comes from; null = it bears none. */
  readonly film: "rain" | "dew" | null;
  readonly soft: boolean;
  readonly wet: boolean;
  readonly dry: boolean;
}

const SLACK_WB = 1e-6;

/** Where the water on the crop at the end of an hour of a course comes from: rain, if any fell since the crop was last dry. */
function filmAt({ weather }: MemberSwath, course: SweepCourse, hour: number): Seen["film"] {
  const { freeWaterMm, startUtcMs } = course;
  const offset = Math.round((startUtcMs - weather.startUtcMs) / HOUR_MS);
  const isWet = (at: number) => at >= 0 && (freeWaterMm[at] as number) > NO_FILM_MM;
  for (let at = hour; isWet(at); at--) if ((weather.rainMm[offset + at] ?? 0) > 0) return "rain";
  return isWet(hour) ? "dew" : null;
}

function seenBy(
  field: CrewFieldRequest,
  member: MemberSwath,
  op: CrewOp,
  { fromUtcMs, toUtcMs }: Span,
  before: readonly CrewJob[],
): Seen {
  const { weather } = member;
  const mow = before.find((job) => job.op === "mow");
  const cutUtcMs = mow === undefined ? fromUtcMs : (mow.startUtcMs + mow.endUtcMs) / 2;
  const [firstH, endH] = [fromUtcMs, toUtcMs].map((utcMs) => (utcMs - weather.startUtcMs) / HOUR_MS);
  const rain = weather.rainMm.subarray(Math.floor(firstH ?? 0), Math.ceil(endH ?? 0)).some((mm) => mm > 0);
  const none: Seen = { rain, film: null, soft: false, wet: false, dry: false };
  const band = bandOfOp(op, field);
  // Wrapping and hauling need no ground that carries, and crop mown before its weather has no course.
  if ((band === null && op !== "mow") || cutUtcMs < weather.startUtcMs) return none;
  const course = member.course(cutUtcMs, passesOf(before), toUtcMs);
  const [first, last] = [hourAt(course, fromUtcMs), hourAt(course, toUtcMs)];
  const from = op === "mow" ? 0 : first + 1;
  const soft = member
    .track(course)
    .soilFit.subarray(from, Math.max(from, last) + 1)
    .includes(0);
  if (band === null || mow === undefined) return { ...none, soft };
  const ends = [course.moistureWb[first] as number, course.moistureWb[last] as number];
  const films = [filmAt(member, course, first), filmAt(member, course, last)];
  const [lowestWb, topWb] = band.bandWb;
  return {
    rain,
    film: !band.conditions.film ? null : films.includes("rain") ? "rain" : (films[1] ?? films[0] ?? null),
    soft,
    wet: Math.max(...ends) > topWb + SLACK_WB,
    dry: Math.min(...ends) < lowestWb - SLACK_WB,
  };
}

/**
 * What so many members have in those hours that too few are left for the work. Windows reckon with usual hours of tedding
 * and raking, this with those of the field's own works: it may find nothing where a window is closed.
 *
 * @param own works of the field, as far as they are known
 */
export function standsAgainst(
  built: BuiltCrew,
  fieldId: string,
  op: CrewOp,
  span: Span,
  own: readonly CrewJob[],
): Against {
  const { grid, request, sites } = built;
  const f = request.fields.findIndex(({ id }) => id === fieldId);
  const [field, members] = [request.fields[f], built.members[f] ?? []];
  const site = sites[field?.siteId ?? ""];
  if (field === undefined || site === undefined) return { weather: [], wetFromRain: false, crop: null };
  const lit = lightSlots(grid, site, isByDayOnly(request));
  const slotOf = (utcMs: number) => (utcMs - grid.startUtcMs) / grid.slotMs;
  const isDark = lit
    .subarray(Math.max(0, Math.floor(slotOf(span.fromUtcMs))), Math.max(0, Math.ceil(slotOf(span.toUtcMs))))
    .includes(0);
  const before = own.filter((job) => opOrder(job.op) < opOrder(op));
  const seen = members.map((member) => seenBy(field, member, op, span, before));
  const need = membersNeeded(members, request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  const tooMany = (has: (one: Seen) => boolean) => members.length - seen.filter(has).length < need;
  // Enough members are wet: of dew or of rain, whichever alone would do, or what more of them have.
  const wetOf = (from: Seen["film"]) => seen.filter(({ film }) => film === from).length;
  const isWet = tooMany(({ film }) => film !== null);
  const isOf = (from: "rain" | "dew", other: "rain" | "dew") =>
    isWet && (tooMany(({ film }) => film === from) || wetOf(from) > wetOf(other));
  const wetFromRain = isOf("rain", "dew") || (isWet && wetOf("rain") === wetOf("dew"));
  const weather = [
    ...(tooMany(({ rain }) => rain) ? ["rain"] : []),
    ...(isOf("dew", "rain") ? ["dew"] : []),
    ...(tooMany(({ soft }) => soft) ? ["soft ground"] : []),
    ...(isDark ? ["darkness"] : []),
  ];
  const isTooDry = 2 * seen.filter(({ dry }) => dry).length > members.length;
  return { weather, wetFromRain, crop: tooMany(({ wet }) => wet) ? "too wet" : isTooDry ? "too dry" : null };
}

/** "the crop is wet from rain and too wet for it": what the crop is, for a work; null = nothing is known against it. */
function cropWords({ weather, wetFromRain, crop }: Against, work: string): string | null {
  const isTold = wetFromRain && !weather.includes("rain");
  const is = [...(isTold ? ["wet from rain"] : []), ...(crop === null ? [] : [`${crop} for ${work}`])];
  return is.length === 0 ? null : `the crop is ${listWords(is)}`;
}

/** "baling meets rain and dew, and the crop is too wet for it": as a fault of a plan. */
export function meetsWords(op: CrewOp, against: Against): string {
  const { weather } = against;
  const work = opWord(op);
  if (weather.length === 0) {
    const crop = cropWords(against, work);
    return crop === null ? `${work} ${inGeneral(op, "meets")}` : `${crop} then`;
  }
  const crop = cropWords(against, "it");
  return `${work} meets ${listWords(weather)}${crop === null ? "" : `, and ${crop}`}`;
}

/** "rain and dew stand against that hour", "the crop is too wet for it at that hour": as a reason. */
export function againstWords(op: CrewOp, against: Against): string {
  const { weather } = against;
  const crop = cropWords(against, "it");
  if (weather.length === 0) {
    return `${crop ?? `it ${inGeneral(op, "would meet")}`} at that hour`;
  }
  const stand = `${listWords(weather)} ${weather.length === 1 ? "stands" : "stand"} against that hour`;
  return `${stand}${crop === null ? "" : `, and ${crop}`}`;
}

/** Where no single thing stands against it, in enough members, but several together. */
function inGeneral(op: CrewOp, verb: string): string {
  return op === "mow" || op === "wrap" || op === "haul"
    ? `${verb} rain, soft ground or the dark`
    : `${verb} rain, dew, soft ground, the dark, or crop too wet or too dry for it`;
}
