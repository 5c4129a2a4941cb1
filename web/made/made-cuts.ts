import type { ReadingRequest } from "../../model/drying/index.ts";
import { SWATH_ROUTES } from "../../model/harvest/keys.ts";
import { HARVEST_COUNTS } from "../../model/harvest/limits.ts";
import type { CutRequest, ReadCutRequest, RouteRequest } from "../../model/harvest/request.ts";
import { readLocal, writeLocal } from "../reading/local.ts";
import { cutOfRow, LIES_AT_MOST_MS, learnedKey, type Reading, weatherKey } from "../reading/readings.ts";
import type { Inputs } from "../state/inputs.ts";
import type { WeatherSource } from "../weather/source.ts";

/** A cut that was made and lies: its row stays on the board when the clock has passed it. */
export interface MadeCut {
  readonly cutUtc: string;
  /** The place, and the field and crop, by which it is found again. */
  readonly weather: string;
  readonly field: string;
  /** When it was said, UTC ms. */
  readonly keptMs: number;
}

const MADE_KEY = "swathclock-made";

interface Where {
  readonly source: WeatherSource;
  readonly inputs: Inputs;
}

/** The cuts of one field and crop in one weather. */
export function madeOf(made: readonly MadeCut[], { source, inputs }: Where): readonly MadeCut[] {
  const weather = weatherKey(source);
  const field = learnedKey(inputs.fieldName, inputs.crop);
  return made.filter((one) => one.weather === weather && one.field === field);
}

const isSame = (a: MadeCut, b: MadeCut) =>
  a.weather === b.weather && a.field === b.field && Date.parse(a.cutUtc) === Date.parse(b.cutUtc);

function cutAt({ source, inputs }: Where, cutUtc: string, keptMs: number): MadeCut {
  return { cutUtc, weather: weatherKey(source), field: learnedKey(inputs.fieldName, inputs.crop), keptMs };
}

/** With others beside them; the same cut is there once, as it was. */
export function joinMade(made: readonly MadeCut[], others: readonly MadeCut[]): readonly MadeCut[] {
  return [...made, ...others.filter((other) => !made.some((one) => isSame(one, other)))];
}

/** With one cut more; the same cut is there once, as it is said now. */
export function withMade(
  made: readonly MadeCut[],
  where: Where,
  cutUtc: string,
  keptMs: number,
): readonly MadeCut[] {
  return [...withoutMade(made, where, cutUtc), cutAt(where, cutUtc, keptMs)];
}

export function withoutMade(made: readonly MadeCut[], where: Where, cutUtc: string): readonly MadeCut[] {
  const gone = cutAt(where, cutUtc, 0);
  return made.filter((one) => !isSame(one, gone));
}

function isMade(value: unknown): value is MadeCut {
  const one = value as Partial<MadeCut> | null;
  return (
    typeof one?.cutUtc === "string" &&
    Number.isFinite(Date.parse(one.cutUtc)) &&
    typeof one.weather === "string" &&
    typeof one.field === "string" &&
    typeof one.keptMs === "number"
  );
}

/** The cuts of the last days that this device keeps. */
export function readMade(nowMs: number): readonly MadeCut[] {
  const kept = readLocal(MADE_KEY);
  return Array.isArray(kept)
    ? kept.filter(isMade).filter(({ keptMs }) => nowMs - keptMs < LIES_AT_MOST_MS)
    : [];
}

export function keepMade(made: readonly MadeCut[]): void {
  writeLocal(MADE_KEY, made);
}

/** A reading as it is asked with: by its place one is told from the same once more. */
function placed({ request, place }: Reading): ReadingRequest {
  return place === "" ? request : { ...request, place: place.slice(0, 200) };
}

/** What the board's question says of cuts that lie and were measured; the latest where there are more than it takes. */
export function cutsThatLie(
  made: readonly MadeCut[],
  readings: readonly Reading[],
  where: Where,
  routes: readonly RouteRequest[] = [],
): { readonly madeCuts?: readonly CutRequest[]; readonly readCuts?: readonly ReadCutRequest[] } {
  const madeCuts = madeOf(made, where)
    .toSorted((a, b) => a.keptMs - b.keptMs)
    .slice(-HARVEST_COUNTS.madeCuts)
    .map(({ cutUtc }) => ({ cutUtc }));
  const weather = weatherKey(where.source);
  const field = learnedKey(where.inputs.fieldName, where.inputs.crop);
  const byRow = new Map<string, ReadCutRequest>();
  for (const one of readings) {
    if (one.weather !== weather || one.field !== field) continue;
    const known = byRow.get(one.optionId);
    const asked = routes.some(({ route }) => route === one.route);
    const route = SWATH_ROUTES.find((key) => key === one.route);
    byRow.set(one.optionId, {
      cutUtc: cutOfRow(one.optionId),
      ...(asked && route !== undefined ? { route } : {}),
      readings: [...(known?.readings ?? []), placed(one)].slice(-HARVEST_COUNTS.readings),
    });
  }
  const readCuts = [...byRow.values()].slice(-HARVEST_COUNTS.readCuts);
  return {
    ...(madeCuts.length > 0 ? { madeCuts } : {}),
    ...(readCuts.length > 0 ? { readCuts } : {}),
  };
}
