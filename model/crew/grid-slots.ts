import { HARVEST_DEFAULTS } from "../harvest/routes.ts";
import { addDays, DAY_MS, HOUR_MS, localDayKey, utcOfLocal } from "../weather/clock.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { CrewPlanRequest, OffSpan } from "./request.ts";
import { type SlotFrame, weatherHour } from "./windows/runs.ts";
import type { SiteWeather } from "./windows/site-weather.ts";

/** What the slots of a grid are marked with: who is there, light, and how many members are read. */

/**
 * Swath-hours of the courses behind the mowing hours alone: past it every second, third, ... member is read. Told as if no
 * two fields shared their crop and weather. What lies until a window opens, and the windrows of raked fields, are not counted:
 * with raking 2.3 (showery weather) to 4 times as many hours are run (counted, weeks of the invented spells). At some 0.6
 * microseconds a swath-hour that is 4 to 6 s of one core, with raking 8 to 14 s.
 */
const MOST_SWATH_HOURS = 6_000_000;

export function opOfKind(kind: string): CrewOp {
  const found = (Object.keys(KIND_OF_OP) as CrewOp[]).find((op) => KIND_OF_OP[op] === kind);
  return found ?? "mow";
}

/** 1 for a slot that lies wholly in a span and in no time off. */
export function freeSlots(
  frame: SlotFrame,
  spans: readonly { readonly startMs: number; readonly endMs: number }[],
  off: readonly OffSpan[] | undefined,
): Uint8Array {
  const away = (off ?? []).map(({ fromUtc, toUtc }) => ({
    from: Date.parse(fromUtc),
    to: Date.parse(toUtc),
  }));
  return Uint8Array.from({ length: frame.count }, (_, t) => {
    const from = frame.startUtcMs + t * frame.slotMs;
    const to = from + frame.slotMs;
    if (away.some((one) => one.from < to && from < one.to)) return 0;
    return spans.some(({ startMs, endMs }) => startMs <= from && to <= endMs) ? 1 : 0;
  });
}

/** Nobody works in the dark unless the question has it so, or somebody's hours run through the night. */
export function isByDayOnly({ daylightOnly, people }: CrewPlanRequest): boolean {
  return daylightOnly ?? !people.some(({ from, to }) => to <= from);
}

export function lightSlots(frame: SlotFrame, site: SiteWeather, daylightOnly: boolean): Uint8Array {
  const { weather } = site.central;
  return Uint8Array.from({ length: frame.count }, (_, t) => {
    if (!daylightOnly) return 1;
    return weather.daylight[weatherHour(frame, weather, t)] ?? 0;
  });
}

/** A swath is tedded the morning after it was mown, at the usual hour. */
export function tedMorning(timeZone: string): (cutUtcMs: number) => number | null {
  return (cutUtcMs) => {
    const day = addDays(localDayKey(cutUtcMs, timeZone), 1);
    const at = utcOfLocal(timeZone, day, HARVEST_DEFAULTS.tedHour.value);
    return at.kind === "one" ? at.utcMs : at.kind === "twice" ? at.firstUtcMs : cutUtcMs + DAY_MS;
  };
}

/**
 * Every n-th member is read for the windows, so that they cost seconds and not minutes; neither the crew's hours nor the
 * rakings matter (see `MOST_SWATH_HOURS`).
 */
export function memberStep(
  request: CrewPlanRequest,
  sites: Readonly<Record<string, SiteWeather>>,
  frame: SlotFrame,
  nowSlot: number,
): number {
  const hours = (frame.count * frame.slotMs) / HOUR_MS;
  const work = request.fields.reduce((sum, { siteId }) => {
    const site = sites[siteId];
    if (site === undefined) return sum;
    const middles = lightSlots(frame, site, true).subarray(nowSlot);
    return sum + site.members.length * middles.reduce((all, yes) => all + yes, 0);
  }, 0);
  return Math.max(1, Math.ceil((work * hours * 0.6) / MOST_SWATH_HOURS));
}
