import { tzOffset } from "@date-fns/tz";

/** The farm's clock: local days and hours of UTC moments, in an explicit IANA zone, whatever the machine's own zone. */

export const MINUTE_MS = 60_000;
export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;

/** A moment as the farm's clock shows it. */
export interface LocalParts {
  /** Local calendar day, YYYY-MM-DD. */
  readonly dayKey: string;
  readonly year: number;
  /** 1-12. */
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  /** Local hour of the day with its fraction, 0 up to but not including 24. */
  readonly hourFloat: number;
  /** 0 = Sunday ... 6 = Saturday. */
  readonly weekday: number;
}

/** The UTC moment of a local clock reading: there is one, none (the clock jumped over it), or it comes twice. */
export type LocalMoment =
  | { readonly kind: "one"; readonly utcMs: number }
  | { readonly kind: "skipped" }
  | { readonly kind: "twice"; readonly firstUtcMs: number; readonly secondUtcMs: number };

const knownZones = new Set<string>();

/** True for an IANA zone name that this runtime knows. Bare offsets such as "+05:30" are not names of a place. */
export function isKnownTimeZone(zone: string): boolean {
  if (typeof zone !== "string" || !/^[A-Za-z]/.test(zone)) return false;
  if (knownZones.has(zone)) return true;
  try {
    new Intl.DateTimeFormat("en-US", { timeZone: zone });
  } catch {
    return false;
  }
  knownZones.add(zone);
  return true;
}

/**
 * What the zone's clock is ahead of UTC at that moment, ms (negative west of Greenwich).
 *
 * @throws RangeError for an unknown zone or a time that is not finite
 */
export function localOffsetMs(zone: string, utcMs: number): number {
  if (!isKnownTimeZone(zone)) throw new RangeError(`localOffsetMs: unknown time zone, got "${zone}"`);
  if (!Number.isFinite(utcMs)) throw new RangeError(`localOffsetMs: utcMs must be finite, got ${utcMs}`);
  return tzOffset(zone, new Date(utcMs)) * MINUTE_MS;
}

/** The zone's offset at the start of each hour of a series, ms; the fast way when many hours are asked about. */
export function localOffsetsMs(zone: string, startUtcMs: number, count: number): Float64Array {
  const offsets = new Float64Array(count);
  const block = 24;
  let before = count > 0 ? localOffsetMs(zone, startUtcMs) : 0;
  for (let from = 0; from < count; from += block) {
    const to = Math.min(count, from + block);
    const after = localOffsetMs(zone, startUtcMs + to * HOUR_MS);
    if (before === after) {
      offsets.fill(before, from, to);
    } else {
      for (let i = from; i < to; i++) offsets[i] = localOffsetMs(zone, startUtcMs + i * HOUR_MS);
    }
    before = after;
  }
  return offsets;
}

/** The parts of a moment when the zone's offset at that moment is already at hand. */
export function localPartsAt(utcMs: number, offsetMs: number): LocalParts {
  const local = new Date(utcMs + offsetMs);
  const hour = local.getUTCHours();
  const minute = local.getUTCMinutes();
  const dayMs = local.getTime() - Math.floor(local.getTime() / DAY_MS) * DAY_MS;
  return {
    dayKey: local.toISOString().slice(0, 10),
    year: local.getUTCFullYear(),
    month: local.getUTCMonth() + 1,
    day: local.getUTCDate(),
    hour,
    minute,
    hourFloat: dayMs / HOUR_MS,
    weekday: local.getUTCDay(),
  };
}

/** A UTC moment as the clock of the zone shows it. */
export function localParts(utcMs: number, zone: string): LocalParts {
  return localPartsAt(utcMs, localOffsetMs(zone, utcMs));
}

/** The local calendar day of a moment, YYYY-MM-DD. */
export function localDayKey(utcMs: number, zone: string): string {
  return localParts(utcMs, zone).dayKey;
}

const DAY_KEY = /^(\d{4})-(\d{2})-(\d{2})$/;

function dayKeyToMs(where: string, dayKey: string): number {
  const match = DAY_KEY.exec(dayKey);
  const ms = match ? Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3])) : Number.NaN;
  if (!Number.isFinite(ms) || new Date(ms).toISOString().slice(0, 10) !== dayKey) {
    throw new RangeError(`${where}: dayKey must be a calendar day YYYY-MM-DD, got "${dayKey}"`);
  }
  return ms;
}

/** The calendar day n days later (earlier for negative n). Calendar days know no clock changes. */
export function addDays(dayKey: string, n: number): string {
  return new Date(dayKeyToMs("addDays", dayKey) + n * DAY_MS).toISOString().slice(0, 10);
}

/**
 * The UTC moment at which the zone's clock shows this hour of this local day.
 *
 * @param hour 0-24; 24 is the next midnight
 * @param minute 0-59
 */
export function utcOfLocal(zone: string, dayKey: string, hour: number, minute = 0): LocalMoment {
  if (!(hour >= 0 && hour <= 24)) throw new RangeError(`utcOfLocal: hour must be in [0, 24], got ${hour}`);
  if (!(minute >= 0 && minute < 60))
    throw new RangeError(`utcOfLocal: minute must be in [0, 60), got ${minute}`);
  const wallMs = dayKeyToMs("utcOfLocal", dayKey) + hour * HOUR_MS + minute * MINUTE_MS;
  // No zone changes its clock twice within two days, so the offsets a day either side are the only two possible.
  const early = wallMs - localOffsetMs(zone, wallMs - DAY_MS);
  const late = wallMs - localOffsetMs(zone, wallMs + DAY_MS);
  const shows = (utcMs: number) => utcMs + localOffsetMs(zone, utcMs) === wallMs;
  const earlyShows = shows(early);
  if (early === late) return earlyShows ? { kind: "one", utcMs: early } : { kind: "skipped" };
  const lateShows = shows(late);
  if (earlyShows && lateShows) {
    return { kind: "twice", firstUtcMs: Math.min(early, late), secondUtcMs: Math.max(early, late) };
  }
  if (earlyShows) return { kind: "one", utcMs: early };
  return lateShows ? { kind: "one", utcMs: late } : { kind: "skipped" };
}

/** Yesterday to five days ahead: seven days with seven names. */
const NAMED_ALONE = { from: -1, to: 5 } as const;

/** Whether the name of its weekday says which day is meant, so many calendar days after the day that the reader counts from. */
export function isNamedAlone(daysAhead: number): boolean {
  return daysAhead >= NAMED_ALONE.from && daysAhead <= NAMED_ALONE.to;
}

/** Calendar days from one to the other, both YYYY-MM-DD; negative where the other is earlier. */
export function daysBetween(fromDayKey: string, toDayKey: string): number {
  return (dayKeyToMs("daysBetween", toDayKey) - dayKeyToMs("daysBetween", fromDayKey)) / DAY_MS;
}

/** The local days that the half-open span [fromUtcMs, toUtcMs) touches, in order. */
export function localDays(fromUtcMs: number, toUtcMs: number, zone: string): string[] {
  if (!(toUtcMs > fromUtcMs)) return [];
  const last = localDayKey(toUtcMs - 1, zone);
  const days: string[] = [];
  for (let day = localDayKey(fromUtcMs, zone); day <= last; day = addDays(day, 1)) days.push(day);
  return days;
}

/**
 * First moment of a local day. Where the clock jumps over midnight the day begins at the jump;
 * where midnight comes twice it begins the first time.
 */
export function startOfLocalDay(zone: string, dayKey: string): number {
  const midnight = utcOfLocal(zone, dayKey, 0);
  if (midnight.kind === "one") return midnight.utcMs;
  if (midnight.kind === "twice") return midnight.firstUtcMs;
  // The offset of the day before, applied to the skipped midnight, is exactly the moment of the jump.
  const wallMs = dayKeyToMs("startOfLocalDay", dayKey);
  return wallMs - localOffsetMs(zone, wallMs - DAY_MS);
}
