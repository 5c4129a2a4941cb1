import { PROBE_C } from "../../model/harvest/route-details/index.ts";
import { within } from "../../model/limits.ts";
import { NUMBER_MARKS } from "../format/manner.ts";
import { UNIT_SYSTEMS } from "../format/units.ts";
import type { Typed } from "../state/inputs.ts";
import { deviceStore, type TextStore } from "../theme/preferences.ts";

/** What is typed in this fold alone. It changes no answer of the board, so the device keeps it and no link carries it. */

export const OWN_FIELDS = ["wrapDelayH", "storedWeeks", "deliveredTPerH", "balePct"] as const;
export type OwnField = (typeof OWN_FIELDS)[number];

/** One probe in the stack. The day is the farm's, as its calendar writes it: "2026-07-16". */
export interface Probe {
  readonly day: string;
  readonly tempC: number;
}

export interface Handling {
  readonly texts: Readonly<Record<OwnField, Typed>>;
  readonly probes: readonly Probe[];
}

const empty: Typed = { text: "", units: "metric" };

export const NOTHING_KEPT: Handling = {
  texts: { wrapDelayH: empty, storedWeeks: empty, deliveredTPerH: empty, balePct: empty },
  probes: [],
};

const KEY = "swathclock.handling";
/** Probes of one lot that are kept: twice a day for half a year. */
export const MOST_PROBES = 400;
const LONGEST_TEXT = 40;

type Fields = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Fields => typeof value === "object" && value !== null;

function typedOf(value: unknown): Typed {
  if (!isRecord(value) || typeof value.text !== "string" || value.text.length > LONGEST_TEXT) return empty;
  const units = UNIT_SYSTEMS.find((known) => known === value.units);
  if (units === undefined) return empty;
  const marks = NUMBER_MARKS.find((known) => known === value.marks);
  return { text: value.text, units, ...(marks && { marks }) };
}

/** Whether a day is one of the calendar: "2026-02-30" is none. */
export function isDay(day: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(day)) return false;
  const ms = Date.parse(`${day}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(day);
}

function probeOf(value: unknown): Probe[] {
  if (!isRecord(value)) return [];
  const { day, tempC } = value;
  if (typeof day !== "string" || !isDay(day) || typeof tempC !== "number") return [];
  return within(tempC, PROBE_C) ? [{ day, tempC }] : [];
}

/** What this device kept. Trusts nothing that it reads. */
export function readHandling(store: TextStore | null = deviceStore()): Handling {
  let kept: unknown = null;
  try {
    kept = JSON.parse(store?.getItem(KEY) ?? "null");
  } catch {
    // What cannot be read is as nothing.
  }
  if (!isRecord(kept)) return NOTHING_KEPT;
  const texts: Fields = isRecord(kept.texts) ? kept.texts : {};
  const probes: readonly unknown[] = Array.isArray(kept.probes) ? kept.probes : [];
  return {
    texts: {
      wrapDelayH: typedOf(texts.wrapDelayH),
      storedWeeks: typedOf(texts.storedWeeks),
      deliveredTPerH: typedOf(texts.deliveredTPerH),
      balePct: typedOf(texts.balePct),
    },
    probes: probes.flatMap(probeOf).slice(-MOST_PROBES),
  };
}

/** Keeps it for the next visit; false where the device lets nothing be kept. */
export function keepHandling(handling: Handling, store: TextStore | null = deviceStore()): boolean {
  try {
    store?.setItem(KEY, JSON.stringify(handling));
    return store !== null;
  } catch {
    return false;
  }
}
