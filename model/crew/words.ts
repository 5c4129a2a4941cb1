import { localParts } from "../weather/clock.ts";
import { type CrewOp, type MachineKind, OP_WORDS } from "./keys.ts";
import type { CrewFieldRequest } from "./request.ts";

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;
const two = (value: number) => String(value).padStart(2, "0");

/** "Tue 15:00" on the farm's clock. */
export function dayTime(utcMs: number, timeZone: string): string {
  const { weekday, hour, minute } = localParts(utcMs, timeZone);
  return `${DAYS[weekday] ?? ""} ${two(hour)}:${two(minute)}`;
}

/** "15:00" on the farm's clock. */
export function clockTime(utcMs: number, timeZone: string): string {
  return dayTime(utcMs, timeZone).slice(4);
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
