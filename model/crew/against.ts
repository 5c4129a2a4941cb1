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
  /** Of the crop against the band of the work; null = neither, or the work has none. */
  readonly crop: "too wet" | "too dry" | null;
}

/** What one member has in some hours of a work, of crop that was mown and worked as it was. */
interface Seen {
  readonly rain: boolean;
  readonly dew: boolean;
  readonly soft: boolean;
  readonly wet: boolean;
  readonly dry: boolean;
}

const SLACK_WB = 1e-6;

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
  const none: Seen = { rain, dew: false, soft: false, wet: false, dry: false };
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
  const film = Math.max(course.freeWaterMm[first] as number, course.freeWaterMm[last] as number);
  const [lowestWb, topWb] = band.bandWb;
  return {
    rain,
    dew: band.conditions.film && film > NO_FILM_MM,
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
  if (field === undefined || site === undefined) return { weather: [], crop: null };
  const lit = lightSlots(grid, site, isByDayOnly(request));
  const slotOf = (utcMs: number) => (utcMs - grid.startUtcMs) / grid.slotMs;
  const isDark = lit
    .subarray(Math.max(0, Math.floor(slotOf(span.fromUtcMs))), Math.max(0, Math.ceil(slotOf(span.toUtcMs))))
    .includes(0);
  const before = own.filter((job) => opOrder(job.op) < opOrder(op));
  const seen = members.map((member) => seenBy(field, member, op, span, before));
  const need = membersNeeded(members, request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  const tooMany = (has: (one: Seen) => boolean) => members.length - seen.filter(has).length < need;
  const weather = [
    ...(tooMany(({ rain }) => rain) ? ["rain"] : []),
    ...(tooMany(({ dew }) => dew) ? ["dew"] : []),
    ...(tooMany(({ soft }) => soft) ? ["soft ground"] : []),
    ...(isDark ? ["darkness"] : []),
  ];
  const isTooDry = 2 * seen.filter(({ dry }) => dry).length > members.length;
  return { weather, crop: tooMany(({ wet }) => wet) ? "too wet" : isTooDry ? "too dry" : null };
}

/** "baling meets rain and dew, and the crop is too wet for it": as a fault of a plan. */
export function meetsWords(op: CrewOp, { weather, crop }: Against): string {
  const work = opWord(op);
  const meets = `${work} meets ${listWords(weather)}`;
  if (crop !== null)
    return weather.length > 0
      ? `${meets}, and the crop is ${crop} for it`
      : `the crop is ${crop} for ${work} then`;
  return weather.length > 0 ? meets : `${work} ${inGeneral(op, "meets")}`;
}

/** "rain and dew stand against that hour", "the crop is too wet for it at that hour": as a reason. */
export function againstWords(op: CrewOp, { weather, crop }: Against): string {
  const stand = `${listWords(weather)} ${weather.length === 1 ? "stands" : "stand"} against that hour`;
  if (crop !== null)
    return weather.length > 0
      ? `${stand}, and the crop is ${crop} for it`
      : `the crop is ${crop} for it at that hour`;
  return weather.length > 0 ? stand : `it ${inGeneral(op, "would meet")} at that hour`;
}

/** Where no single thing stands against it, in enough members, but several together. */
function inGeneral(op: CrewOp, verb: string): string {
  return op === "mow" || op === "wrap" || op === "haul"
    ? `${verb} rain, soft ground or the dark`
    : `${verb} rain, dew, soft ground, the dark, or crop too wet or too dry for it`;
}
