import { clockWords, MONTHS } from "../harvest/words.ts";
import { localDayKey, localParts } from "../weather/clock.ts";
import { type CrewOp, type MachineKind, OP_WORDS } from "./keys.ts";
import type { CrewFieldRequest } from "./request.ts";

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;

/** How moments are said: on the farm's clock, of 24 hours or of 12. */
export interface SpokenClock {
  readonly timeZone: string;
  readonly hour12: boolean;
  /** A moment of another year is said with it; absent = years are not said. */
  readonly thisYear?: number | undefined;
}

export function spokenClock(built: {
  readonly timeZone: string;
  readonly request: { readonly hour12?: boolean | undefined };
}): SpokenClock {
  return { timeZone: built.timeZone, hour12: built.request.hour12 ?? false };
}

function timeOfDay(utcMs: number, { timeZone, hour12 }: SpokenClock): string {
  const { hour, minute } = localParts(utcMs, timeZone);
  return clockWords({ hour12 }, hour, minute);
}

/** "Tue 14 Jul 15:00" on the farm's clock; of 12 hours, "Tue 14 Jul 3 pm". A plan may look past the week. */
export function dayTime(utcMs: number, clock: SpokenClock): string {
  const { weekday, day, month, year } = localParts(utcMs, clock.timeZone);
  const inYear = clock.thisYear === undefined || clock.thisYear === year ? "" : ` ${year}`;
  return `${DAYS[weekday] ?? ""} ${day} ${MONTHS[month - 1] ?? ""}${inYear} ${timeOfDay(utcMs, clock)}`;
}

/** "Tue 14 Jul 15:00 to 17:00", with both days where they differ. */
export function spanTime(fromMs: number, toMs: number, clock: SpokenClock): string {
  const sameDay = localDayKey(fromMs, clock.timeZone) === localDayKey(toMs, clock.timeZone);
  return `${dayTime(fromMs, clock)} to ${sameDay ? timeOfDay(toMs, clock) : dayTime(toMs, clock)}`;
}

/** "a, b and c". */
export function listWords(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}

/** Of a long list as many as one reads. */
const MOST_NAMES = 5;

/** "a, b and c", of a long list "a, b, c, d, e and 12 others". */
export function someWords(parts: readonly string[]): string {
  if (parts.length <= MOST_NAMES + 1) return listWords(parts);
  return listWords([...parts.slice(0, MOST_NAMES), `${parts.length - MOST_NAMES} others`]);
}

export function fieldName(field: Pick<CrewFieldRequest, "id" | "name">): string {
  return field.name ?? field.id;
}

export function opWord(op: CrewOp): string {
  return OP_WORDS[op];
}

const KIND_WORDS: Readonly<Record<MachineKind, string>> = {
  mower: "mower",
  tedder: "tedder",
  rake: "rake",
  baler: "baler",
  chopper: "chopper",
  wrapper: "wrapper",
  cart: "cart",
};

export function kindWord(kind: MachineKind): string {
  return KIND_WORDS[kind];
}

/** "moves from Tue 14 Jul 15:00 to Wed 15 Jul 13:00", "on Tue 14 Jul 15:00 takes 3 h instead of 2 h and is done by Ann instead of Bo". */
export function changeWords(
  from: string,
  to: string,
  { takes, who }: { readonly takes?: string | undefined; readonly who?: string | undefined },
): string {
  const more = [
    ...(takes === undefined ? [] : [`takes ${takes}`]),
    ...(who === undefined ? [] : [`is done ${who}`]),
  ];
  return from === to
    ? `on ${from} ${more.join(" and ")}`
    : [`moves from ${from} to ${to}`, ...more].join(", ");
}

/** "2 h", "1.5 h", "20 min". */
export function hoursWord(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  return minutes < 60 ? `${minutes} min` : `${Math.round(minutes / 6) / 10} h`;
}
