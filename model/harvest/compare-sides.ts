import type { OperationKind } from "../drying/keys.ts";
import { DAY_MS, localDayKey } from "../weather/clock.ts";
import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "./answer.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";
import {
  type LossStep,
  lossTotal,
  type QualityLost,
  qualityLost,
  routeLosses,
  withSpread,
} from "./losses/index.ts";
import { valueQuestion, waitDays } from "./lost-on-way.ts";
import type { WindowsRequest } from "./request.ts";
import { type SettledRoute, settleMowing, settleRoutes } from "./settle.ts";
import { type SettledMoney, settleMoney } from "./settle-money.ts";
import { type Compared, SHARE_UNKNOWN } from "./value/compare.ts";
import { type RouteValue, type RouteValueQuestion, routeValue } from "./value/route-value.ts";

/** The rows of a comparison, from a question and its answer alone: no course is run again. */

export interface ComparedRoute extends Compared {
  readonly optionId: string;
  readonly package: PackageKey;
  readonly store: StoreKey;
  /** Layers of film; null where nothing is wrapped. */
  readonly layers: number | null;
  readonly takenAtWb: number;
  readonly lossPct: RouteAnswer["lossPct"];
  /** Each step with the spread of what was measured or believed, and where it comes from. */
  readonly lossSteps: readonly LossStep[];
  /** The whole with every step at its low or its high end at once: wider than is likely. */
  readonly lossRangePct: { readonly low: number; readonly high: number };
  readonly quality: QualityLost;
  /** What every number of the row rests on; null where nothing needs to be said. */
  readonly note: string | null;
  /** Of the main forecast; `valuePerHa` beside it is the expected one, over members where there are any. */
  readonly value: RouteValue;
}

/** Which cut option stands for a route; null = none. */
export type OptionOf = (route: RouteKey) => string | null;

/** A row with the question about money that made it: what the levers move. */
export interface Side {
  readonly row: ComparedRoute;
  readonly ask: RouteValueQuestion;
  readonly crop: WindowsRequest["swath"]["crop"];
  readonly conditioning: WindowsRequest["swath"]["conditioning"];
}

/** An hour of a warm wet swath and a shower: every step of a route, so that its spread and source can be read. */
const ANY_HISTORY = {
  passes: [],
  breathed: [{ swathTempC: 20, moistureWb: 0.6 }],
  rained: [{ rainMm: 5, moistureWb: 0.5 }],
} as const;

/** Local midnights between the cut and the machine; null for a standing route. */
function daysLying(option: CutOptionAnswer, answer: RouteAnswer, timeZone: string): number | null {
  const taken = answer.windows[0];
  if (option.courseCutUtc === null || taken === undefined) return null;
  const dayOf = (utc: string) => Date.parse(localDayKey(Date.parse(utc), timeZone));
  return Math.round((dayOf(taken.startUtc) - dayOf(option.courseCutUtc)) / DAY_MS);
}

function sideOf(
  request: WindowsRequest,
  fromUtc: string | undefined,
  money: SettledMoney,
  settled: SettledRoute,
  option: CutOptionAnswer,
  answer: RouteAnswer,
): Side | null {
  const { takenAtWb, windows } = answer;
  const first = windows[0];
  if (takenAtWb === null || answer.lossSteps === null || first === undefined) return null;
  const { swath, weather } = request;
  const treatment = request.treatments?.find(({ id }) => id === option.treatment);
  const conditioning = treatment?.conditioning ?? swath.conditioning;
  const keeping = { silo: settled.store, ...money.keeping[settled.route] };
  const history = { crop: swath.crop, conditioning, takenAtWb, ...ANY_HISTORY };
  const lossSteps = withSpread(
    answer.lossSteps,
    routeLosses(settled.route, settled.package, history, keeping),
  );
  const nowMs = Date.parse(fromUtc ?? request.nowUtc ?? weather.hours.startUtc[0] ?? "");
  const passes: OperationKind[] = answer.operations
    .filter(({ atUtc }) => Date.parse(atUtc) <= Date.parse(first.startUtc))
    .map(({ kind }) => kind);
  const ask = valueQuestion({ money, mowHaPerH: settleMowing(request) }, settled, {
    dryMatterTHa: swath.dryMatterTHa,
    steps: lossSteps,
    passes,
    takenAtWb,
    takenShare: answer.takenShare ?? 1,
    labourHPerHa: answer.turnHPerHa ?? 0,
    waitDays: waitDays(nowMs, Date.parse(option.courseCutUtc ?? first.startUtc)),
  });
  const value = routeValue(ask);
  const { lowPct, highPct } = lossTotal(lossSteps);
  const row: ComparedRoute = {
    route: answer.route,
    optionId: option.id,
    package: settled.package,
    store: settled.store,
    layers: answer.route === "wrapped-bales" ? money.layers : null,
    takenAtWb,
    lossPct: answer.lossPct,
    lossSteps,
    lossRangePct: { low: lowPct, high: highPct },
    quality: qualityLost(swath.crop, lossSteps),
    takenShare: answer.takenShare,
    note: answer.takenShare === null ? SHARE_UNKNOWN : null,
    keptFraction: value.keptFraction,
    daysLying: daysLying(option, answer, weather.site.timeZone),
    rainedOn: first.rainedOn,
    valuePerHa: answer.valuePerHa,
    value,
  };
  return { row, ask, crop: swath.crop, conditioning };
}

/** The routes that their option brings in. */
export function sidesOf(request: WindowsRequest, answer: WindowsAnswer, optionOf: OptionOf): Side[] {
  const money = settleMoney(request);
  return settleRoutes(request).flatMap((settled) => {
    const id = optionOf(settled.route);
    const option = answer.options.find((one) => one.id === id);
    const route = option?.routes.find((one) => one.route === settled.route);
    const side =
      option && route ? sideOf(request, answer.readings?.fromUtc, money, settled, option, route) : null;
    return side === null ? [] : [side];
  });
}
