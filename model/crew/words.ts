import { clockWords } from "../harvest/words.ts";
import { localParts } from "../weather/clock.ts";
import { type CrewOp, type MachineKind, OP_WORDS } from "./keys.ts";
import type { CrewFieldRequest } from "./request.ts";

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;

/** How moments are said: on the farm's clock, of 24 hours or of 12. */
export interface SpokenClock {
  readonly timeZone: string;
  readonly hour12: boolean;
}

export function spokenClock(built: {
  readonly timeZone: string;
  readonly request: { readonly hour12?: boolean | undefined };
}): SpokenClock {
  return { timeZone: built.timeZone, hour12: built.request.hour12 ?? false };
}

/** "Tue 15:00" on the farm's clock; of 12 hours, "Tue 3 pm". */
export function dayTime(utcMs: number, { timeZone, hour12 }: SpokenClock): string {
  const { weekday, hour, minute } = localParts(utcMs, timeZone);
  return `${DAYS[weekday] ?? ""} ${clockWords({ hour12 }, hour, minute)}`;
}

/** "Tue 15:00-17:00", with both days where they differ. */
export function spanTime(fromMs: number, toMs: number, clock: SpokenClock): string {
  const [from, to] = [dayTime(fromMs, clock), dayTime(toMs, clock)];
  return `${from}-${to.slice(0, 3) === from.slice(0, 3) ? to.slice(4) : to}`;
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

/** "2 h", "1.5 h", "20 min". */
export function hoursWord(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  return minutes < 60 ? `${minutes} min` : `${Math.round(minutes / 6) / 10} h`;
}
