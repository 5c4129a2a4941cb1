import type { Operation } from "../drying/operations.ts";
import { opinionRates } from "../odds/opinion-rates.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { RouteAnswer, WhyAnswer, WindowAnswer } from "./answer.ts";
import { isCoarse } from "./bands.ts";
import type { Drying, DryingStore, Ground } from "./drying-store.ts";
import { rainBetweenMm } from "./drying-store.ts";
import { type HazardCalendars, hazardReasons, mowingHazards, routeHazards } from "./hazard-reasons.ts";
import { firstAtOrBelow, limitedBy, type Need, windowsOf } from "./limited-by.ts";
import { type Brought, swathBrought } from "./lost-on-way.ts";
import type { CutMoment } from "./options.ts";
import { toldOutcome } from "./outcomes.ts";
import {
  daysAfterSteps,
  earliestBeforeWindowMs,
  operationAnswers,
  planOperations,
  waitsForWindow,
} from "./plan.ts";
import { planOf } from "./read-cuts.ts";
import { preservativeFor } from "./route-details/preservative.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Saying } from "./saying.ts";
import type { Settled, SettledRoute, SettledTreatment } from "./settle.ts";
import { spanHours, type Track } from "./spans.ts";
import {
  filmBeforeWindow,
  firstBelowMs,
  limitWords,
  rainOnSwath,
  rangeWords,
  stemsAndLeaves,
  type Told,
  windowWords,
} from "./why.ts";
import { percentWords, withMark } from "./words.ts";
import { daysFrom, type Span } from "./work-hours.ts";

/** What a member of the forecast is asked about this pair: the same cut, passes and need in its own weather. */
export type MemberQuestion =
  | {
      readonly kind: "swath";
      readonly cut: CutMoment;
      readonly treatment: SettledTreatment;
      readonly route: SettledRoute;
      readonly operations: readonly Operation[];
      readonly need: Need;
      readonly windows: readonly Span[];
      readonly central: Brought | null;
      /** Rate of each second opinion over the course's. */
      readonly opinionRates: () => readonly number[];
    }
  | {
      readonly kind: "standing";
      readonly route: SettledRoute;
      readonly windows: readonly Span[];
      readonly central: Brought | null;
    };

/** A route's answer before it is ranked, and what ranking and the odds need of it. */
export interface FoundRoute {
  readonly question: MemberQuestion;
  readonly answer: Omit<RouteAnswer, "rank">;
  readonly firstWindow: Span | null;
  readonly rainedOn: boolean;
  readonly daysLying: number;
}

const NO_QUANTILES = { p10: null, p25: null, p50: null, p75: null, p90: null } as const;

/** The central forecast alone: one number, no odds. */
export function centralHours(firstWindow: Span | null, fromMs: number): RouteAnswer["elapsedHours"] {
  return { ...NO_QUANTILES, p50: firstWindow === null ? null : (firstWindow.startMs - fromMs) / HOUR_MS };
}

interface SettledCourse {
  readonly operations: Operation[];
  readonly drying: Drying;
  readonly need: Need;
  readonly windows: Span[];
  /** Start of the window that the waiting steps were placed by; null where none waits, or no window is found. */
  readonly waitedForMs: number | null;
}

/** The passes and the course they give: a step that waits for a window is placed once one is found without it. */
function settleCourse(
  settled: Settled,
  store: DryingStore,
  cut: CutMoment,
  treatment: SettledTreatment,
  route: SettledRoute,
  asked: Need,
): SettledCourse {
  const { clock, days, endUtcMs } = settled;
  const plan = planOf(settled, treatment, route);
  const place = (windowStartMs: number | null): SettledCourse => {
    const operations = planOperations(plan, clock, cut, days, windowStartMs, endUtcMs);
    const drying = store.of(cut.courseCutUtcMs, treatment, operations);
    const left =
      windowStartMs === null ? days : daysAfterSteps(plan, clock, cut, days, windowStartMs, endUtcMs);
    const need = { ...asked, days: daysFrom(left, cut.openFromMs) };
    return { operations, drying, need, windows: windowsOf(drying.track, need), waitedForMs: windowStartMs };
  };
  const first = place(null);
  const found = first.windows[0];
  return found && waitsForWindow(plan) ? place(found.startMs) : first;
}

/** Hours from the cut at which each estimate first comes down to the band's top. */
function opinionsOf(drying: Drying, topWb: number) {
  const tracks: Track[] = [drying.track, ...drying.opinions()];
  const hours: number[] = [];
  for (const track of tracks) {
    const atMs = firstAtOrBelow(track, topWb);
    if (atMs !== null) hours.push((atMs - track.fromUtcMs) / HOUR_MS);
  }
  const earliest = hours.length > 0 ? Math.min(...hours) : null;
  const latest = hours.length === tracks.length ? Math.max(...hours) : null;
  return { hours: { earliest, latest }, reached: hours.length, asked: tracks.length };
}

/** Hay that is baled wetter than it keeps, where the band was set so: the dose that was counted, or that none is known. */
function wetHay(saying: Saying, { route, package: pack }: SettledRoute, takenAtWb: number): WhyAnswer | null {
  if (route !== "dry-hay") return null;
  const advice = preservativeFor(pack, takenAtWb);
  if (advice.share === 0) return null;
  const text = `At ${percentWords(takenAtWb)} hay does not keep by itself. ${withMark(advice.text, saying)}`;
  return { code: "preservative", atUtc: null, moistureWb: takenAtWb, text };
}

/** One swath route of one cut with one treatment. */
export function swathRoute(
  settled: Settled,
  ground: Ground,
  calendars: HazardCalendars,
  store: DryingStore,
  cut: CutMoment,
  treatment: SettledTreatment,
  route: SettledRoute,
): FoundRoute {
  const { weather, clock, days, areaHa, endUtcMs } = settled;
  const asked: Need = { bandWb: route.bandWb ?? [0, 1], hours: areaHa / (route.haPerH ?? areaHa), days };
  const { operations, drying, need, windows, waitedForMs } = settleCourse(
    settled,
    store,
    cut,
    treatment,
    route,
    asked,
  );
  const { track, course } = drying;
  const fromMs = cut.courseCutUtcMs;
  const first = windows[0] ?? null;

  const told: Told = {
    teller: { clock, sinceMs: settled.nowUtcMs, saying: settled.saying },
    entry: ROUTE_CATALOGUE[route.route],
    track,
    need,
    equilibriumWb: course.equilibriumWb,
    withoutRain: drying.withoutRain,
    endUtcMs,
    maxRainMm24h: settled.maxRainMm24h,
  };
  const limit =
    first === null
      ? limitedBy(track, need, { withoutRain: drying.withoutRain, equilibriumWb: course.equilibriumWb })
      : null;
  // Rain tells nothing about a band that was left on the dry side before it fell.
  const matters = first?.startMs ?? (limit === "over-dry" ? firstBelowMs(track, need.bandWb[0]) : endUtcMs);
  const opinions = opinionsOf(drying, need.bandWb[1]);
  const rainUntilMm = (untilMs: number) => rainBetweenMm(weather, ground, fromMs, untilMs);
  const { latest } = opinions.hours;
  const lastMs = latest === null ? endUtcMs : fromMs + latest * HOUR_MS;
  const brought =
    first && swathBrought(settled, weather, treatment, route, drying, operations, first.startMs);
  const hazards = mowingHazards(calendars, route, cut.cutUtcMs, settled.mowHours);
  const why: (WhyAnswer | null)[] = [
    first === null ? null : windowWords(told, first, fromMs),
    limit === null ? null : limitWords(told, limit),
    ...(drying.withoutRain === null ? [] : rainOnSwath(told, matters)),
    first === null ? null : filmBeforeWindow(told, first),
    first === null || route.route !== "wilted-chop" || !isCoarse(treatment.swath.crop)
      ? null
      : stemsAndLeaves(course, first.startMs),
    rangeWords(
      settled.saying,
      need.bandWb[1],
      opinions.hours,
      opinions.reached,
      opinions.asked,
      rainUntilMm(lastMs) > 0,
    ),
    brought === null ? null : wetHay(settled.saying, route, brought.takenAtWb),
    ...hazardReasons(told.teller, hazards, endUtcMs),
  ];
  const answers: WindowAnswer[] = windows.map((window) => ({
    startUtc: utcLabel(window.startMs),
    endUtc: utcLabel(window.endMs),
    workHours: spanHours(window),
    chance: null,
    rainedOn: rainUntilMm(window.startMs) > 0,
  }));
  return {
    question: {
      kind: "swath",
      cut,
      treatment,
      route,
      operations,
      need,
      windows,
      central: brought,
      opinionRates: () =>
        opinionRates(
          course,
          drying.opinions().map(({ endWb }) => ({ moistureWb: endWb })),
          track.startWb,
          weather,
        ),
    },
    answer: {
      route: route.route,
      operations: operationAnswers(operations, treatment.swath.coveredFraction),
      ...(waitedForMs === null
        ? {}
        : {
            beforeWindow: {
              windowUtc: utcLabel(waitedForMs),
              earliestUtc: utcLabel(earliestBeforeWindowMs(cut, days, waitedForMs)),
            },
          }),
      windows: answers,
      limitedBy: limit,
      elapsedHours: centralHours(first, fromMs),
      opinionHours: opinions.hours,
      neverShare: null,
      rainMm: { mean: rainUntilMm(first?.endMs ?? endUtcMs), p90: null },
      ...toldOutcome(brought),
      hazards: routeHazards(hazards),
      why: why.filter((reason) => reason !== null),
    },
    firstWindow: first,
    rainedOn: answers[0]?.rainedOn ?? false,
    daysLying: first === null ? 0 : clock.dayNumberAt(first.startMs) - clock.dayNumberAt(fromMs),
  };
}
