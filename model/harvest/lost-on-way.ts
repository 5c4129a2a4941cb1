import type { Operation } from "../drying/operations.ts";
import { DAY_MS, HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { type CutHistory, type LossStep, type LyingCourse, lyingHours, routeLosses } from "./losses/index.ts";
import { preservativeFor } from "./route-details/preservative.ts";
import type { Settled, SettledRoute, SettledTreatment } from "./settle.ts";
import type { Track } from "./spans.ts";
import { type RouteValue, type RouteValueQuestion, routeValue } from "./value/route-value.ts";

/** What a route brings in and what that is worth, for one course whose first window is known: of the forecast or a member. */
export interface Brought {
  /** Moisture as the machine takes the crop, wet basis. */
  readonly takenAtWb: number;
  /** Share of the field that is taken within the weather, 0-1; null where no daily need says how much. */
  readonly takenShare: number | null;
  /** Own hours that daily turns cost a hectare; null where the machine's hours are all. */
  readonly turnHPerHa: number | null;
  readonly steps: readonly LossStep[];
  readonly value: RouteValue;
}

/** What the money of a route is counted from, beside the losses. */
export type MoneyOf = Pick<Settled, "money" | "mowHaPerH">;

/** Days from now until a crop is cut or taken. */
export function waitDays(nowUtcMs: number, untilMs: number): number {
  return Math.max(0, untilMs - nowUtcMs) / DAY_MS;
}

/** The question about money that a route of a board asks: the same for every cut, but for what came of the crop. */
export function valueQuestion(
  { money, mowHaPerH }: MoneyOf,
  { route, package: pack, haPerH }: SettledRoute,
  came: Pick<RouteValueQuestion, "dryMatterTHa" | "steps" | "passes" | "takenAtWb"> & {
    readonly takenShare?: number;
    readonly labourHPerHa?: number;
    readonly waitDays: number;
  },
): RouteValueQuestion {
  return {
    route,
    package: pack,
    mowHaPerH,
    haPerH,
    layers: money.layers,
    // Where the band was set wetter than hay keeps, it is kept by the dose for its moisture; too wet for any: none.
    preservativeShare: route === "dry-hay" ? (preservativeFor(pack, came.takenAtWb).share ?? 0) : 0,
    people: money.people,
    waitPctPerDay: money.waitPctPerDay,
    baleDmKg: route === "wrapped-bales" ? money.wrappedBaleDmKg : money.baleDmKg,
    prices: money.prices,
    rates: money.rates,
    ...came,
  };
}

/** Moisture of a track at a moment, straight inside the hour, wet basis. */
function moistureAt({ startUtcMs, startWb, endWb, count }: Track, atMs: number): number {
  const place = Math.min(count, Math.max(0, (atMs - startUtcMs) / HOUR_MS));
  const i = Math.min(count - 1, Math.floor(place));
  if (i < 0) return startWb;
  const before = i === 0 ? startWb : (endWb[i - 1] as number);
  return before + ((endWb[i] as number) - before) * (place - i);
}

/**
 * What a swath route brings in.
 *
 * @param takenMs when the machine begins: the start of the first window
 */
export function swathBrought(
  settled: MoneyOf & Pick<Settled, "nowUtcMs">,
  weather: HourlyWeather,
  { swath }: SettledTreatment,
  route: SettledRoute,
  { course, track }: { readonly course: LyingCourse; readonly track: Track },
  operations: readonly Operation[],
  takenMs: number,
): Brought {
  const { crop, conditioning, dryMatterTHa } = swath;
  const driven = operations.filter(({ atUtcMs }) => atUtcMs <= takenMs);
  const takenAtWb = moistureAt(track, takenMs);
  const history: CutHistory = {
    crop,
    conditioning,
    yieldTHa: dryMatterTHa,
    passes: driven.map(({ kind, atUtcMs }) => ({ kind, moistureWb: moistureAt(track, atUtcMs) })),
    ...lyingHours(course, weather, track.startWb, takenMs),
    takenAtWb,
  };
  const keeping = { silo: route.store, ...settled.money.keeping[route.route] };
  const steps = routeLosses(route.route, route.package, history, keeping);
  const passes = driven.map(({ kind }) => kind);
  const value = routeValue(
    valueQuestion(settled, route, {
      dryMatterTHa,
      steps,
      passes,
      takenAtWb,
      waitDays: waitDays(settled.nowUtcMs, course.cutUtcMs),
    }),
  );
  return { takenAtWb, takenShare: 1, turnHPerHa: null, steps, value };
}

/** A daily turn of green chop or grazing: own hours on a hectare, and the share of the field that is taken. */
export interface TurnTaken {
  /** Null where the daily need was not given: then the value is that of a hectare taken. */
  readonly takenShare: number | null;
  readonly labourHPerHa: number;
}

/** What a route brings in that takes the crop as it stands: nothing is passed over, breathes or is rained on in a swath. */
export function standingBrought(
  settled: Pick<Settled, "money" | "mowHaPerH" | "nowUtcMs" | "swath">,
  route: SettledRoute,
  track: Track,
  takenMs: number,
  turn: TurnTaken | null,
): Brought {
  const { crop, conditioning, dryMatterTHa } = settled.swath;
  const takenAtWb = moistureAt(track, takenMs);
  const history: CutHistory = {
    crop,
    conditioning,
    yieldTHa: dryMatterTHa,
    passes: [],
    breathed: [],
    rained: [],
    takenAtWb,
  };
  const keeping = { silo: route.store, ...settled.money.keeping[route.route] };
  const steps = routeLosses(route.route, route.package, history, keeping);
  const value = routeValue(
    valueQuestion(settled, route, {
      dryMatterTHa,
      steps,
      passes: [],
      takenAtWb,
      waitDays: waitDays(settled.nowUtcMs, takenMs),
      takenShare: turn?.takenShare ?? 1,
      labourHPerHa: turn?.labourHPerHa ?? 0,
    }),
  );
  const takenShare = turn === null ? 1 : turn.takenShare;
  return { takenAtWb, takenShare, turnHPerHa: turn?.labourHPerHa ?? null, steps, value };
}
