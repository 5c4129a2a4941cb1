import { inTen } from "../odds/in-ten.ts";
import { MINUTE_MS } from "../weather/clock.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { heldPasses } from "./fixed-work.ts";
import { slotUtcMs } from "./grid.ts";
import { passesOf } from "./grid-field.ts";
import type { CrewOp } from "./keys.ts";
import type { CrewFieldRequest } from "./request.ts";
import { bandOfOp } from "./windows/band.ts";
import { fieldWindows } from "./windows/field-windows.ts";
import { type MemberSwath, memberSwaths } from "./windows/member-swath.ts";
import { hasChance, type SiteWeather } from "./windows/site-weather.ts";
import { dayTime, opWord, spokenClock } from "./words.ts";

/** Members whose courses tell why no window opens. */
const ASKED = 5;
/** A day that dries the crop less than this no longer dries it, wet basis. */
const LEAST_FALL_WB = 0.01;
const DAY_H = 24;
const HALF = 0.5;
const percent = (share: number) => `${Math.round(100 * share)} %`;

/**
 * Why no mowing hour opens a window for a work, the first that is true: rain (without it the crop would be dry enough in
 * these days), the weather's end (it is still drying then), air too damp to dry it, or a band that it passes in a hurry.
 *
 * @param cutSlot slot of the middle of the first mowing there may be
 */
export function whyNoWindow(built: BuiltCrew, f: number, op: CrewOp, cutSlot: number): string {
  const { grid, request, sites } = built;
  const field = request.fields[f];
  const site = sites[field?.siteId ?? ""];
  const asked = field === undefined ? null : bandOfOp(op, field);
  const work = opWord(op);
  if (field === undefined || site === undefined || asked === null) return `no window opens for ${work}`;
  const topWb = asked.bandWb[1];
  const cutUtcMs = slotUtcMs(grid, cutSlot);
  const endUtcMs = slotUtcMs(grid, grid.count);
  const clock = spokenClock(built);
  const lowest = (members: readonly MemberSwath[]) =>
    sampled(members).map((member) => lowestByDay(member, cutUtcMs, endUtcMs));
  const share = (of: readonly (readonly number[])[]) =>
    of.filter((days) => Math.min(...days) <= topWb).length / Math.max(1, of.length);
  const need = request.readyShare ?? CREW_DEFAULTS.readyShare.value;
  const asItIs = lowest(built.members[f] ?? []);
  const rainMs = rainFrom(site, cutUtcMs, endUtcMs, need);
  const rained = (before: string) => {
    const at = dayTime(rainMs ?? cutUtcMs, clock);
    const when = hasChance(site) ? `rain may come from ${at} on,` : `rain comes ${at},`;
    return `${when} before ${before} ${work}`;
  };
  const dry = memberSwaths(withoutRain(site), field.swath, 0, request.seed ?? 1, new Map());
  if (share(asItIs) >= need) {
    // The swath gets dry enough, but not what is made of it in the time that rain leaves.
    return rainMs !== null && opensAfter(built, f, op, sampled(dry), cutSlot)
      ? rained("there has been time for")
      : `the crop is fit for ${work} too briefly, or only while wet or on soft ground`;
  }
  const unrained = lowest(dry);
  // Rain is to blame only where it fell, and the crop would have dried without it.
  if (rainMs !== null && share(unrained) >= HALF && share(unrained) > share(asItIs)) {
    return rained("it is dry enough for");
  }
  if (share(asItIs) >= HALF) {
    // As told in tens, a share just short of what is needed may read like it.
    const chance = inTen(share(asItIs));
    const short = chance === inTen(need) ? "just under " : "";
    return `the chance that it is dry enough for ${work} is ${short}${chance}, ${inTen(need)} is needed`;
  }
  const falling = unrained.filter((days) => stillFalls(days)).length;
  const driest = percent(median(unrained.map((days) => Math.min(...days))));
  const needed = `${driest} by then, ${percent(topWb)} is needed`;
  return 2 * falling >= unrained.length
    ? `${endOfSight(built)}, before it is dry enough for ${work} (${needed})`
    : `the air of these days does not dry it enough for ${work} (${needed.replace("by then", "at the driest")})`;
}

/** ", before rain that may come from Thu 2 Jul 19:00 on" of a window that rain ends; else nothing. */
export function rainWords(built: BuiltCrew, f: number, endSlot: number): string {
  const { grid, request, sites } = built;
  const site = sites[request.fields[f]?.siteId ?? ""];
  const endMs = slotUtcMs(grid, endSlot);
  const need = request.readyShare ?? CREW_DEFAULTS.readyShare.value;
  const rainMs = site === undefined ? null : rainFrom(site, endMs, endMs + grid.slotMs, need);
  if (site === undefined || rainMs === null) return "";
  const at = dayTime(rainMs, spokenClock(built));
  return hasChance(site) ? `, before rain that may come from ${at} on` : `, before the rain of ${at}`;
}

/** What ends the days that are looked at, and when. */
export function endOfSight(built: BuiltCrew): string {
  const { grid, sites } = built;
  const endUtcMs = slotUtcMs(grid, grid.count);
  const weatherTo = Math.min(...Object.values(sites).map(({ central }) => central.usableUntilUtcMs));
  const what = endUtcMs + grid.slotMs > weatherTo ? "the weather ends" : "the plan looks no further than";
  return `${what} ${dayTime(endUtcMs, spokenClock(built))}`;
}

function sampled<T>(members: readonly T[]): T[] {
  const step = Math.max(1, Math.floor(members.length / ASKED));
  return members.filter((_, i) => i % step === 0);
}

/** Lowest moisture of each 24 h from the cut on, wet basis. */
function lowestByDay(member: MemberSwath, cutUtcMs: number, endUtcMs: number): number[] {
  const { moistureWb, startUtcMs, count } = member.course(cutUtcMs, []);
  const hours = Math.min(count, Math.max(1, Math.floor((endUtcMs - startUtcMs) / 3_600_000)));
  const days: number[] = [];
  for (let from = 0; from < hours; from += DAY_H) {
    days.push(Math.min(...moistureWb.subarray(from, Math.min(hours, from + DAY_H))));
  }
  return days;
}

function stillFalls(days: readonly number[]): boolean {
  const [last, before] = [days.at(-1), days.at(-2)];
  if (last === undefined || before === undefined) return true;
  // The last day may be a part of one, without its dry hours.
  const third = days.at(-3);
  return before - last > LEAST_FALL_WB || (third !== undefined && third - before > LEAST_FALL_WB);
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}

/** Whether a mowing opens a window for a work in the weather of these members. */
function opensAfter(
  { grid, request, placed, timeZone }: BuiltCrew,
  f: number,
  op: CrewOp,
  members: readonly MemberSwath[],
  cutSlot: number,
): boolean {
  const field = request.fields[f] as CrewFieldRequest;
  const held = placed.filter(({ asked }) => asked.fieldId === field.id);
  const { windows } = fieldWindows(
    field,
    members,
    grid,
    { asked: [cutSlot], telling: [cutSlot] },
    request.readyShare ?? CREW_DEFAULTS.readyShare.value,
    passesOf(field, request, grid.slotMs / MINUTE_MS, timeZone),
    { ops: held.map(({ asked }) => asked.op), gatherStart: null, passes: heldPasses(held) },
  );
  return windows.find((one) => one.op === op)?.ready.some((slot) => slot >= 0) === true;
}

function withoutRain(site: SiteWeather): SiteWeather {
  const members = site.members.map((weather) => ({
    ...weather,
    rainMm: new Float64Array(weather.rainMm.length),
  }));
  return { ...site, members };
}

/** The hour by which too many members have had rain since the cut. */
function rainFrom(site: SiteWeather, cutUtcMs: number, endUtcMs: number, need: number): number | null {
  const { members } = site;
  const wet = new Set<number>();
  for (let ms = cutUtcMs; ms < endUtcMs; ms += 3_600_000) {
    members.forEach(({ startUtcMs, rainMm }, i) => {
      if ((rainMm[Math.floor((ms - startUtcMs) / 3_600_000)] ?? 0) > 0) wet.add(i);
    });
    if (members.length - wet.size < need * members.length - 1e-9) return ms;
  }
  return null;
}
