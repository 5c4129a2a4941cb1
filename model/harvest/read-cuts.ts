import type { LearnedRateAnswer } from "../drying/answer.ts";
import type { Operation } from "../drying/operations.ts";
import type { LearnedRateRequest, ReadingRequest } from "../drying/request.ts";
import { type BentCentre, bentCentre } from "../odds/bent-centre.ts";
import { bentCut, COURSE_DRAWS, lastReadingMs } from "../odds/cut-sample.ts";
import { DEFAULT_SEED } from "../odds/drydown-odds.ts";
import type { Draw } from "../odds/sample.ts";
import { type WeatherDraws, weatherDraws } from "../odds/weather-draws.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import type { WeatherSeries } from "../weather/series.ts";
import { type BoardCut, cutThatLies, optionIdOf } from "./made-cuts.ts";
import { planOperations } from "./plan.ts";
import type { WindowsRequest } from "./request.ts";
import { defaultPlan, ROUTE_CATALOGUE } from "./routes.ts";
import type { Settled, SettledRoute, SettledTreatment } from "./settle.ts";

/** A cut with its passes as its readings leave it. */
export interface BentOption {
  /** The course in the middle of what the readings left. */
  readonly centre: BentCentre;
  /** The draws that go on, equally weighted: places in `draws`, each with the weather of the same place. */
  readonly picked: readonly number[];
  readonly draws: readonly Draw[];
  readonly weathers: WeatherDraws;
}

/** A cut of the board that something was measured on. */
export interface ReadOption {
  /** The cut as the board knew it before anything was measured on it. */
  readonly asked: BoardCut;
  /** Where a reading counts the cut was made: it lies, and no window opens before the last reading of the board that counts. */
  readonly of: BoardCut;
  readonly route: SettledRoute;
  readonly readings: readonly ReadingRequest[];
  /** What is known of its rate without its own readings: they must not count twice. */
  readonly learned: LearnedRateRequest | undefined;
  /** How many of its readings are used under the passes of its route. */
  readonly used: number;
  /** Null where no reading was used: each contradicts every draw. */
  readonly bentOf: (operations: readonly Operation[]) => BentOption | null;
}

export interface ReadOptions {
  /** By the board's rows. A measured cut that has no row here teaches the others all the same. */
  readonly byId: ReadonlyMap<string, ReadOption>;
  /** The rate of all cuts without readings of their own. */
  readonly learned: LearnedRateRequest | undefined;
  /** What the readings taught of it; null where none was used. */
  readonly taught: LearnedRateAnswer | null;
  /** Readings of cuts that this weather cannot follow, by the moment of the cut: they teach nothing here. */
  readonly unread: readonly string[];
  /** Measured cuts that have no row on the board and teach it, by the moment of the cut, UTC ms. */
  readonly aside: readonly number[];
  /** The last reading of any cut that counts, UTC ms: by then it is, whatever the question says; null where none does. */
  readonly lastUsedMs: number | null;
}

/** The passes of a route, from the treatment or the route's usual ones. */
export function planOf({ swath }: Pick<Settled, "swath">, treatment: SettledTreatment, route: SettledRoute) {
  return (
    treatment.plan?.filter(({ routes }) => routes === undefined || routes.includes(route.route)) ??
    defaultPlan(route.route, swath.crop, treatment.swath.stubbleCm, treatment.swath.coveredFraction)
  );
}

function keyOf(operations: readonly Operation[]): string {
  return operations
    .map(({ kind, atUtcMs, coveredFraction }) => `${kind}@${atUtcMs}=${coveredFraction}`)
    .join(";");
}

/** The same question gets the same answer without being worked out again. */
function kept<T>(): (key: string, make: () => T) => T {
  const known = new Map<string, T>();
  return (key, make) => {
    const found = known.get(key) ?? make();
    known.set(key, found);
    return found;
  };
}

/** The last weathers of each series: a lever that moves asks for the same again, and they take the longest. */
const WEATHERS = new WeakMap<WeatherSeries, { readonly key: string; readonly draws: WeatherDraws }>();

function weathersOf(series: WeatherSeries, prepared: PreparedWeather, ms: number | null, seed: number) {
  const key = `${ms}/${seed}`;
  const known = WEATHERS.get(series);
  if (known?.key === key) return known.draws;
  const draws = weatherDraws(series, prepared, ms, seed);
  WEATHERS.set(series, { key, draws });
  return draws;
}

type Bend = ReturnType<typeof bentCut>;

/**
 * A measured cut once a reading counts: it lies, and its windows are still to come. So does a cut of which the readings are
 * only questioned where another one's moved time past it: it can be made no more.
 */
function sinceReadings(of: BoardCut, used: number, lastUsedMs: number | null): BoardCut {
  if (lastUsedMs === null || (used === 0 && of.cut.cutUtcMs >= lastUsedMs)) return of;
  const openFromMs = Math.max(of.cut.openFromMs ?? of.cut.courseCutUtcMs, lastUsedMs);
  return { ...of, made: true, cut: { ...of.cut, openFromMs } };
}

interface Asked {
  readonly of: BoardCut;
  readonly onBoard: boolean;
  readonly route: SettledRoute;
  readonly readings: readonly ReadingRequest[];
  /** The passes that no window is waited for with: those that teach. */
  readonly passes: readonly Operation[];
}

function askedOf(request: WindowsRequest, settled: Settled, cuts: readonly BoardCut[]) {
  const routes = settled.routes.filter(({ route }) => ROUTE_CATALOGUE[route].kind === "swath");
  const unread: string[] = [];
  const asked = (request.readCuts ?? []).flatMap((one): Asked[] => {
    if (one.readings.length === 0) return [];
    const row = cuts.find(({ id }) => id === optionIdOf(settled, one));
    const of = row ?? cutThatLies(settled, one);
    const route = routes.find(({ route }) => route === one.route) ?? routes[0];
    if (of === null || route === undefined) {
      unread.push(one.cutUtc);
      return [];
    }
    const { clock, days, endUtcMs } = settled;
    const plan = planOf(settled, of.treatment, route);
    const passes = planOperations(plan, clock, of.cut, days, null, endUtcMs);
    // While the field is still being mown the swath is the fresh crop: its course begins in the middle of the mowing.
    const startUtc = utcLabel(of.cut.courseCutUtcMs);
    const readings = one.readings.map((each) =>
      Date.parse(each.atUtc) < of.cut.courseCutUtcMs ? { ...each, atUtc: startUtc } : each,
    );
    return [{ of, onBoard: row !== undefined, route, readings, passes }];
  });
  return { asked, unread };
}

/**
 * The cuts of a board that were measured. Readings teach in the order of time, each cut from what the cuts before it
 * left; a cut's own row starts from what all the others taught.
 */
export function readOptions(
  request: WindowsRequest,
  prepared: PreparedWeather,
  settled: Settled,
  cuts: readonly BoardCut[],
): ReadOptions {
  const draws = request.draws ?? COURSE_DRAWS;
  const { asked, unread } = draws === 0 ? { asked: [], unread: [] } : askedOf(request, settled, cuts);
  if (asked.length === 0)
    return { byId: new Map(), learned: request.learned, taught: null, unread, aside: [], lastUsedMs: null };
  const seed = request.seed ?? DEFAULT_SEED;
  const { weather: series } = request;
  const weathersAt = (ms: number | null) => weathersOf(series, prepared, ms, seed);
  const bends = kept<Bend>();
  const bend = (one: Asked, operations: readonly Operation[], learned: LearnedRateRequest | undefined) =>
    bends(`${one.of.id}|${keyOf(operations)}|${learned?.rateLnMean}/${learned?.rateLnSd}`, () =>
      bentCut(
        {
          series,
          prepared,
          swath: one.of.treatment.swath,
          cutUtcMs: one.of.cut.courseCutUtcMs,
          operations,
          readings: one.readings,
          learned,
          draws,
          seed,
        },
        weathersAt,
      ),
    );
  const inOrder = asked.toSorted((a, b) => lastReadingMs(a.readings) - lastReadingMs(b.readings));
  const teach = (all: readonly Asked[]): LearnedRateAnswer | null =>
    all.reduce<LearnedRateAnswer | null>((before, one) => {
      const { learned } = bend(one, one.passes, before ?? request.learned).bent;
      if (learned === null) return before;
      return { rateLnMean: learned.lnMean, rateLnSd: learned.lnSd, atUtc: utcLabel(learned.atUtcMs) };
    }, null);
  const taught = teach(inOrder);
  const known = asked.map((one) => {
    const learned = teach(inOrder.filter((other) => other !== one)) ?? request.learned;
    const { effects } = bend(one, one.passes, learned).bent;
    const usedAtMs = effects.filter(({ used }) => used).map(({ atUtc }) => Date.parse(atUtc));
    return { one, learned, usedAtMs };
  });
  const rows = known.filter(({ one }) => one.onBoard);
  const allUsedMs = known.flatMap(({ usedAtMs }) => usedAtMs);
  const lastUsedMs = allUsedMs.length === 0 ? null : Math.max(...allUsedMs);
  const byId = new Map(
    rows.map(({ one, learned, usedAtMs }): [string, ReadOption] => {
      const bentOf = (operations: readonly Operation[]): BentOption | null => {
        const { bent, sample } = bend(one, operations, learned);
        if (!bent.used) return null;
        const { weathers, draws } = sample;
        const centre = bentCentre(bent, one.of.treatment.swath, weathers, prepared.weather);
        return { centre, picked: bent.picked, draws, weathers };
      };
      const { route, readings } = one;
      const used = usedAtMs.length;
      const of = sinceReadings(one.of, used, lastUsedMs);
      return [of.id, { asked: one.of, of, route, readings, learned, used, bentOf }];
    }),
  );
  const aside = known
    .filter(({ one, usedAtMs }) => !one.onBoard && usedAtMs.length > 0)
    .map(({ one }) => one.of.cut.cutUtcMs);
  return { byId, learned: taught ?? request.learned, taught, unread, aside, lastUsedMs };
}
