import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { RouteAnswer, WhyAnswer, WindowLimit } from "./answer.ts";
import type { Ground } from "./drying-store.ts";
import { rainBetweenMm, soilWithoutRainFrom } from "./drying-store.ts";
import {
  type HazardCalendars,
  hazardReasons,
  hazardsDuring,
  outsideWaits,
  routeHazards,
  waitLimit,
  waitLimitWords,
} from "./hazard-reasons.ts";
import { firstAtOrBelow, limitedBy, type Need, windowsOf } from "./limited-by.ts";
import { type Brought, standingBrought, type TurnTaken } from "./lost-on-way.ts";
import { toldOutcome } from "./outcomes.ts";
import { HARVEST_DEFAULTS, ROUTE_CATALOGUE } from "./routes.ts";
import type { Settled, SettledRoute } from "./settle.ts";
import { holds, spanHours, type Track } from "./spans.ts";
import { centralHours, type FoundRoute } from "./swath-route.ts";
import { limitWords, type Told, windowWords } from "./why.ts";
import type { Teller } from "./words.ts";
import { edgeWords, numberWords, whenWords } from "./words.ts";
import type { Span } from "./work-hours.ts";

/** Green chop and grazing go by the day: how much of a day is needed, and for how many days the field lasts. */
export interface DailyTurn {
  readonly hours: number;
  readonly days: number;
}

/** Moisture of the standing crop as a straight fall from now on; never below 0. Rain and dew on it are left out. */
function standingTrack(settled: Settled, ground: Ground): Track {
  const { weather, nowUtcMs, standing } = settled;
  const first = Math.floor((nowUtcMs - weather.startUtcMs) / HOUR_MS);
  const startUtcMs = weather.startUtcMs + first * HOUR_MS;
  const count = weather.count - first;
  const endWb = new Float64Array(count);
  const perMs = standing.dryDownPointsPerDay / 100 / (24 * HOUR_MS);
  const wbAt = (utcMs: number) => Math.max(0, standing.moistureWb - perMs * (utcMs - nowUtcMs));
  for (let i = 0; i < count; i++) endWb[i] = wbAt(startUtcMs + (i + 1) * HOUR_MS);
  return {
    startUtcMs,
    fromUtcMs: nowUtcMs,
    count,
    startWb: wbAt(startUtcMs),
    endWb,
    startFilmMm: 0,
    endFilmMm: null,
    rainMm: weather.rainMm.subarray(first),
    soilFit: ground.soilFit.subarray(first),
  };
}

/** What a day's need takes of the machine and of the field. Grazing needs no machine: an hour's turn-out at least. */
export function dailyTurn(settled: Settled, haPerH: number | null): DailyTurn {
  const { standing, areaHa, swath } = settled;
  const least = HARVEST_DEFAULTS.leastTurnHours.value;
  if (standing.dailyNeedKgDm === null) return { hours: least, days: Number.POSITIVE_INFINITY };
  const cropKgDm = areaHa * swath.dryMatterTHa * 1000;
  const needHa = Math.min(areaHa, standing.dailyNeedKgDm / (swath.dryMatterTHa * 1000));
  return {
    hours: haPerH === null ? least : Math.max(least, needHa / haPerH),
    days: Math.ceil(cropKgDm / standing.dailyNeedKgDm - 1e-9),
  };
}

/**
 * What the turns within the weather take of the field, and the own hours that they cost a hectare. Where the need was not
 * given, nobody knows the share: the value is that of a hectare taken.
 */
function turnTaken({ standing, areaHa, swath }: Settled, turn: DailyTurn, turns: number): TurnTaken {
  if (standing.dailyNeedKgDm === null) return { takenShare: null, labourHPerHa: 0 };
  const turnHa = Math.min(areaHa, standing.dailyNeedKgDm / (swath.dryMatterTHa * 1000));
  return { takenShare: Math.min(1, (turns * turnHa) / areaHa), labourHPerHa: turn.hours / turnHa };
}

/** The first fit span of each working day, for as many days as the field feeds. */
function oneADay(windows: readonly Span[], days: readonly Span[], most: number): Span[] {
  const turns: Span[] = [];
  for (const day of days) {
    const turn = windows.find((window) => window.startMs >= day.startMs && window.endMs <= day.endMs);
    if (turn && turns.length < most) turns.push(turn);
  }
  return turns;
}

/** The same crop without the rain from now on; null where none falls. */
function rainlessTrack(track: Track, ground: Ground, settled: Settled): (() => Track) | null {
  const first = ground.soilFit.length - track.count;
  const rains = (ground.rainBefore[settled.weather.count] as number) > (ground.rainBefore[first] as number);
  if (!rains) return null;
  return () => ({
    ...track,
    rainMm: new Float64Array(track.count),
    soilFit: soilWithoutRainFrom(ground, first),
  });
}

function reasonFor(track: Track, need: Need, withoutRain: (() => Track) | null): WindowLimit {
  const lastWb = track.count === 0 ? track.startWb : (track.endWb[track.count - 1] as number);
  if (lastWb > need.bandWb[1]) return "standing-too-wet";
  return limitedBy(track, need, { withoutRain, equilibriumWb: null });
}

/**
 * Days in which a standing crop dries by itself to the wettest that a store takes; 0 where it is there, null where it does
 * not dry. Rain and dew on it are left out.
 *
 * @example daysToBand(0.734, 0.68, 0.6) // 9
 */
export function daysToBand(moistureWb: number, topWb: number, pointsPerDay: number): number | null {
  const points = Math.max(0, (moistureWb - topWb) * 100);
  return points === 0 ? 0 : pointsPerDay > 0 ? points / pointsPerDay : null;
}

/** Hours from now at which the crop comes down to the band's top, by the fastest and the slowest fall. */
function bandHours(settled: Settled, bandWb: readonly [number, number] | null): RouteAnswer["opinionHours"] {
  if (bandWb === null) return { earliest: null, latest: null };
  const { moistureWb, dryDownRange } = settled.standing;
  const hours = (rate: number) => {
    const days = daysToBand(moistureWb, bandWb[1], rate);
    return days === null ? null : days * 24;
  };
  return { earliest: hours(dryDownRange[1]), latest: hours(dryDownRange[0]) };
}

function dayCountWords(days: number): string {
  const whole = Math.max(1, Math.round(days));
  return whole === 1 ? "a day" : `${whole} days`;
}

function comesIntoBand(
  settled: Settled,
  teller: Teller,
  track: Track,
  bandWb: readonly [number, number],
): WhyAnswer | null {
  const [footWb, topWb] = bandWb;
  const { saying } = settled;
  const { moistureWb, dryDownPointsPerDay } = settled.standing;
  const days = daysToBand(moistureWb, topWb, dryDownPointsPerDay);
  if (days === null) return null;
  const atMs = firstAtOrBelow(track, topWb);
  const top = edgeWords(topWb, saying);
  const about = `in band in about ${dayCountWords(days)} unless it rains`;
  const when =
    days === 0
      ? `The standing crop is at ${edgeWords(moistureWb, saying)} now`
      : atMs === null
        ? `The standing crop comes down to ${top} after this weather: ${about}`
        : `The standing crop comes down to ${top} on ${whenWords(teller, atMs)}: ${about}`;
  const text = `${when}; the store takes ${edgeWords(footWb, saying)} to ${edgeWords(topWb, saying)}. It is counted to lose ${numberWords(dryDownPointsPerDay, saying)} points a day: measure it.`;
  return {
    code: "standing-moisture",
    atUtc: atMs === null ? null : utcLabel(atMs),
    moistureWb: Math.min(moistureWb, topWb),
    text,
  };
}

/** When a standing route can be taken, and what that brings in. */
interface Turns {
  readonly need: Need;
  readonly track: Track;
  /** Windows by moisture, soil and hours alone, and those that the waits leave. */
  readonly fit: readonly Span[];
  readonly windows: readonly Span[];
  readonly brought: Brought | null;
}

/** The turns of a standing route in one weather: of the main forecast, or of a member. */
export function standingTurns(
  settled: Settled,
  ground: Ground,
  calendars: HazardCalendars,
  route: SettledRoute,
): Turns {
  const { days, areaHa } = settled;
  const entry = ROUTE_CATALOGUE[route.route];
  const turn = entry.wholeArea ? null : dailyTurn(settled, route.haPerH);
  const hours = turn?.hours ?? areaHa / (route.haPerH ?? areaHa);
  const need: Need = { bandWb: route.bandWb ?? [0, 1], hours, days };
  const track = standingTrack(settled, ground);
  const fit = windowsOf(track, need);
  const calendar = calendars.get(route.route) ?? [];
  // What is taken fresh waits out rain after drought, frost and short new growth; nothing that follows makes it less.
  const outside = turn === null ? fit : outsideWaits(fit, calendar).filter((span) => holds(span, hours));
  const windows = turn === null ? fit : oneADay(outside, days, turn.days);
  const first = windows[0];
  const taken = turn && turnTaken(settled, turn, windows.length);
  const brought = first ? standingBrought(settled, route, track, first.startMs, taken) : null;
  return { need, track, fit, windows, brought };
}

/** One standing route: the crop is not laid down, its own moisture, the soil and the day's need decide. */
export function standingRoute(
  settled: Settled,
  ground: Ground,
  calendars: HazardCalendars,
  route: SettledRoute,
): FoundRoute {
  const { weather, clock, nowUtcMs, endUtcMs } = settled;
  const entry = ROUTE_CATALOGUE[route.route];
  const calendar = calendars.get(route.route) ?? [];
  const { need, track, fit, windows, brought } = standingTurns(settled, ground, calendars, route);
  const first = windows[0] ?? null;
  const teller = { clock, sinceMs: nowUtcMs, saying: settled.saying };
  const told: Told = {
    teller,
    entry,
    track,
    need,
    equilibriumWb: null,
    withoutRain: rainlessTrack(track, ground, settled),
    endUtcMs,
    maxRainMm24h: settled.maxRainMm24h,
  };
  const waited = first === null && fit.length > 0;
  const limit =
    first !== null ? null : waited ? waitLimit(calendar) : reasonFor(track, need, told.withoutRain);
  const hazards = hazardsDuring(calendar, first ?? { startMs: nowUtcMs, endMs: endUtcMs });
  const why: (WhyAnswer | null)[] = [
    { code: "caution", atUtc: null, moistureWb: null, text: entry.caution },
    first === null ? null : windowWords(told, first, null),
    limit === null ? null : waited ? waitLimitWords(limit) : limitWords(told, limit),
    route.bandWb === null ? null : comesIntoBand(settled, teller, track, route.bandWb),
    ...hazardReasons(teller, hazards, endUtcMs),
  ];
  return {
    question: { kind: "standing", route, windows, central: brought },
    answer: {
      route: route.route,
      operations: [],
      windows: windows.map((window) => ({
        startUtc: utcLabel(window.startMs),
        endUtc: utcLabel(window.endMs),
        workHours: spanHours(window),
        chance: null,
        rainedOn: false,
      })),
      limitedBy: limit,
      elapsedHours: centralHours(first, nowUtcMs),
      opinionHours: bandHours(settled, route.bandWb),
      neverShare: null,
      rainMm: { mean: rainBetweenMm(weather, ground, nowUtcMs, first?.endMs ?? endUtcMs), p90: null },
      ...toldOutcome(brought),
      hazards: routeHazards(hazards),
      why: why.filter((reason) => reason !== null),
    },
    firstWindow: first,
    rainedOn: false,
    daysLying: 0,
  };
}
