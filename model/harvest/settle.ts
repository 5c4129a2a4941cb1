import type { SwathRequest } from "../drying/request.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { defaultBand } from "./bands.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";
import { ROUTES } from "./keys.ts";
import { MOWER, typicalRateHaPerH } from "./machines.ts";
import type { PlanStep, RouteRequest, TreatmentRequest, WindowsRequest, WorkHours } from "./request.ts";
import { defaultPackage, HARVEST_DEFAULTS, ROUTE_CATALOGUE, typicalMachine, usualRoutes } from "./routes.ts";
import { PLAIN_SAYING, type Saying } from "./saying.ts";
import { moneyAssumptions, type SettledMoney, settleMoney, siloAsked } from "./settle-money.ts";
import { areaRateWords, numberWords, rainWords, readingWords } from "./words.ts";
import type { FarmClock, Span } from "./work-hours.ts";
import { farmClock, workSpans } from "./work-hours.ts";

/** A route with every default filled in. */
export interface SettledRoute {
  readonly route: RouteKey;
  readonly package: PackageKey;
  readonly store: StoreKey;
  /** Null where the crop is taken fresh. */
  readonly bandWb: readonly [number, number] | null;
  /** Null for grazing, which needs no machine. */
  readonly haPerH: number | null;
}

export interface SettledTreatment {
  readonly id: string;
  readonly swath: SwathRequest;
  /** Undefined = each route's default. */
  readonly plan: readonly PlanStep[] | undefined;
}

/** The question with every default filled in, in an order that does not depend on the request's. */
export interface Settled {
  readonly weather: HourlyWeather;
  readonly endUtcMs: number;
  readonly clock: FarmClock;
  /** The working days over the weather, and a day more. */
  readonly days: readonly Span[];
  readonly nowUtcMs: number;
  readonly areaHa: number;
  readonly swath: SwathRequest;
  readonly treatments: readonly SettledTreatment[];
  readonly routes: readonly SettledRoute[];
  readonly cutHours: readonly number[];
  readonly mowHours: number;
  readonly mowHaPerH: number;
  readonly maxRainMm24h: number;
  readonly standing: {
    readonly moistureWb: number;
    readonly dryDownPointsPerDay: number;
    /** Slowest and fastest fall that is told; the same twice where the rate was given. */
    readonly dryDownRange: readonly [number, number];
    readonly dailyNeedKgDm: number | null;
  };
  readonly money: SettledMoney;
  readonly hazards: { readonly drought: boolean | null; readonly regrowthCm: number | null };
  readonly assumptions: readonly string[];
  readonly saying: Saying;
}

/** Where the request names no treatment: the swath as it was described. */
export const ONLY_TREATMENT_ID = "swath";

/** What was assumed, and how it is written. */
interface Notes {
  readonly saying: Saying;
  readonly lines: string[];
}

function percent(fraction: number, saying: Saying): string {
  return numberWords(Math.round(fraction * 1000) / 10, saying);
}

type RouteQuestion = Pick<WindowsRequest, "swath" | "stores">;

function settleRoute(asked: RouteRequest, request: RouteQuestion, notes: Notes): SettledRoute {
  const { crop, dryMatterTHa, initialMoistureWb } = request.swath;
  const entry = ROUTE_CATALOGUE[asked.route];
  const pack = asked.package ?? (asked.route === "dry-hay" ? defaultPackage(crop) : "round");
  const store = asked.store ?? siloAsked(request, asked.route) ?? HARVEST_DEFAULTS.store.value;
  const usual = defaultBand(asked.route, crop, pack, store);
  const bandWb = asked.bandWb ?? usual?.bandWb ?? null;
  if (asked.bandWb === undefined && usual !== null) {
    const [lo, hi] = usual.bandWb;
    notes.lines.push(
      `${entry.label}: moisture ${percent(lo, notes.saying)}-${percent(hi, notes.saying)} % (${usual.source}).`,
    );
  }
  const machine = typicalMachine(asked.route, pack);
  const enteringWb = entry.kind === "swath" ? (bandWb?.[1] ?? initialMoistureWb) : initialMoistureWb;
  const haPerH = asked.haPerH ?? (machine && typicalRateHaPerH(machine, dryMatterTHa / (1 - enteringWb)));
  if (asked.haPerH === undefined && haPerH !== null && machine !== null) {
    notes.lines.push(
      `${entry.label}: ${areaRateWords(haPerH, notes.saying)}, a typical ${machine.label.toLowerCase()} (from memory).`,
    );
  }
  return { route: asked.route, package: pack, store, bandWb, haPerH };
}

function settleTreatments(request: WindowsRequest): SettledTreatment[] {
  const { swath } = request;
  if (request.treatments === undefined) return [{ id: ONLY_TREATMENT_ID, swath, plan: undefined }];
  const settle = (treatment: TreatmentRequest): SettledTreatment => ({
    id: treatment.id,
    swath: {
      ...swath,
      conditioning: treatment.conditioning,
      coveredFraction: treatment.coveredFraction,
      stubbleCm: treatment.stubbleCm,
    },
    plan: treatment.plan,
  });
  return request.treatments.map(settle).sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

function settleWork(request: WindowsRequest, notes: Notes): WorkHours {
  if (request.workHours) return request.workHours;
  const { from, to } = HARVEST_DEFAULTS.workHours.value;
  notes.lines.push(
    `Working hours ${readingWords(from, notes.saying)}-${readingWords(to, notes.saying)} (assumed).`,
  );
  return { from, to };
}

function settleStanding(
  request: WindowsRequest,
  asked: readonly SettledRoute[],
  notes: Notes,
): Settled["standing"] {
  const standing = request.standing;
  const chopped = asked.some((route) => route.route === "direct-chop");
  if (chopped && standing === undefined) {
    notes.lines.push("Standing moisture was not given: the moisture at cutting stands for it. Measure it.");
  }
  const rate = standing?.dryDownPointsPerDay ?? HARVEST_DEFAULTS.dryDownPointsPerDay.value;
  if (chopped && standing?.dryDownPointsPerDay === undefined) {
    notes.lines.push(
      `The standing crop loses ${numberWords(rate, notes.saying)} points of moisture a day (${HARVEST_DEFAULTS.dryDownPointsPerDay.source}).`,
    );
  }
  const fresh = asked.some((route) => !ROUTE_CATALOGUE[route.route].wholeArea);
  if (fresh && standing?.dailyNeedKgDm === undefined) {
    notes.lines.push("The daily need was not given: a turn of one hour a day counts as enough.");
  }
  return {
    moistureWb: standing?.moistureWb ?? request.swath.initialMoistureWb,
    dryDownPointsPerDay: rate,
    dryDownRange:
      standing?.dryDownPointsPerDay === undefined ? HARVEST_DEFAULTS.dryDownRangePerDay.value : [rate, rate],
    dailyNeedKgDm: standing?.dailyNeedKgDm ?? null,
  };
}

function settledRoutes(
  request: RouteQuestion & Pick<WindowsRequest, "routes">,
  notes: Notes,
): SettledRoute[] {
  const asked: readonly RouteRequest[] =
    request.routes ?? usualRoutes(request.swath.crop).map((route) => ({ route }));
  return [...asked]
    .sort((a, b) => ROUTES.indexOf(a.route) - ROUTES.indexOf(b.route))
    .map((route) => settleRoute(route, request, notes));
}

/** The routes of a request with their defaults filled in, where nobody asks which those were. */
export function settleRoutes(request: RouteQuestion & Pick<WindowsRequest, "routes">): SettledRoute[] {
  return settledRoutes(request, { saying: PLAIN_SAYING, lines: [] });
}

/** Mowing rate of a request, ha/h. */
export function settleMowing({ mowHaPerH }: Pick<WindowsRequest, "mowHaPerH">): number {
  return mowHaPerH ?? typicalRateHaPerH(MOWER, 1);
}

/** Fills in every default and says which. The request has passed its checks. */
export function settle(request: WindowsRequest, weather: HourlyWeather, saying: Saying): Settled {
  const assumptions: string[] = [];
  const notes: Notes = { saying, lines: assumptions };
  const work = settleWork(request, notes);
  const routes = settledRoutes(request, notes);
  const money = settleMoney(request);
  const mowHaPerH = settleMowing(request);
  if (request.mowHaPerH === undefined) {
    assumptions.push(
      `Mowing ${areaRateWords(mowHaPerH, saying)}, a typical disc mower-conditioner (from memory).`,
    );
  }
  const endUtcMs = weather.startUtcMs + weather.count * HOUR_MS;
  const { timeZone } = weather.site;
  const dayMs = 24 * HOUR_MS;
  const maxRainMm24h =
    request.soilCarry?.maxRainMm24h ?? HARVEST_DEFAULTS.carriesAfterMm[request.swath.soil].value;
  if (request.soilCarry?.maxRainMm24h === undefined) {
    assumptions.push(
      `Soil carries machines while no more than ${rainWords(maxRainMm24h, saying)} fell in the last 24 h (from memory).`,
    );
  }
  assumptions.push(...moneyAssumptions(request, routes, money, saying));
  return {
    weather,
    endUtcMs,
    clock: farmClock(timeZone, weather.startUtcMs - 2 * dayMs, endUtcMs + 2 * dayMs),
    days: workSpans(timeZone, work, weather.startUtcMs, endUtcMs + dayMs),
    nowUtcMs: request.nowUtc ? Date.parse(request.nowUtc) : weather.startUtcMs,
    areaHa: request.field.areaHa,
    swath: request.swath,
    treatments: settleTreatments(request),
    routes,
    cutHours: request.cutHours ?? HARVEST_DEFAULTS.cutHours.value,
    mowHaPerH,
    mowHours: request.field.areaHa / mowHaPerH,
    maxRainMm24h,
    standing: settleStanding(request, routes, notes),
    money,
    hazards: {
      drought: request.hazards?.drought ?? null,
      regrowthCm: request.hazards?.regrowthCm ?? null,
    },
    assumptions,
    saying,
  };
}
