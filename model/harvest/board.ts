import { runSweepCourse } from "../drying/course.ts";
import { secondOpinions } from "../drying/second-opinions.ts";
import type { Outcome } from "../limits.ts";
import { checkDraws, checkLearned } from "../odds/reading-checks.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import { prepareWeather } from "../weather/prepare.ts";
import { toldWarnings } from "../weather/warnings.ts";
import type { WindowsAnswer } from "./answer.ts";
import { atLearnedRate, bentStore } from "./bent-store.ts";
import type { BoardWarningCode } from "./board-warnings.ts";
import { type DryingStore, type DryingTools, dryingStore, type Ground, groundOf } from "./drying-store.ts";
import type { Board, FoundOption } from "./found-board.ts";
import { type HazardCalendars, hazardAnswers, hazardCalendars } from "./hazard-reasons.ts";
import type { RouteKey } from "./keys.ts";
import { checkMade, checkMadeAgainst } from "./made-checks.ts";
import { type BoardCut, boardCuts } from "./made-cuts.ts";
import { type CutMoment, type CutMoments, cutMoments } from "./options.ts";
import { type Ranked, rankPairs } from "./rank.ts";
import { type ReadOptions, readOptions } from "./read-cuts.ts";
import { readingsTold } from "./readings-told.ts";
import type { WindowsRequest } from "./request.ts";
import { checkAgainstWeather, checkRequest } from "./request-checks.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import { PLAIN_SAYING, type Saying } from "./saying.ts";
import { type Settled, settle } from "./settle.ts";
import { standingRoute } from "./standing.ts";
import { type FoundRoute, swathRoute } from "./swath-route.ts";
import { readingWarnings, waitWarnings, warningsOf } from "./warnings-of-board.ts";
import { weatherTelling } from "./weather-telling.ts";

interface Pair extends Ranked {
  readonly found: FoundRoute;
}

function swathOptions(
  settled: Settled,
  ground: Ground,
  calendars: HazardCalendars,
  tools: DryingTools,
  cuts: readonly BoardCut[],
  read: ReadOptions,
): FoundOption[] {
  const routes = settled.routes.filter(({ route }) => ROUTE_CATALOGUE[route].kind === "swath");
  const others = atLearnedRate(tools, settled.swath.crop, read.learned);
  let store: { readonly cutUtcMs: number; readonly store: DryingStore } | null = null;
  return cuts.map(({ id, cut, treatment, made }) => {
    const own = read.byId.get(id);
    // One store a cut: no course is ever shared between two cuts, and a season of courses need not be held at once.
    if (store?.cutUtcMs !== cut.cutUtcMs)
      store = { cutUtcMs: cut.cutUtcMs, store: dryingStore(settled, ground, others) };
    const drying = own ? bentStore(settled, ground, tools, own) : store.store;
    return {
      head: {
        id,
        kind: "swath" as const,
        cutUtc: utcLabel(cut.cutUtcMs),
        courseCutUtc: utcLabel(cut.courseCutUtcMs),
        treatment: treatment.id,
        ...(made ? { made } : {}),
      },
      routes: routes.map((route) => swathRoute(settled, ground, calendars, drying, cut, treatment, route)),
    };
  });
}

/** Where the routes of the read cuts opened without their readings: by the cut as it was asked, from its own first hour on. */
function openedBefore(
  settled: Settled,
  ground: Ground,
  calendars: HazardCalendars,
  tools: DryingTools,
  { byId }: ReadOptions,
): ReadonlyMap<string, string | null> {
  return new Map(
    [...byId].map(([id, { asked, route, learned }]) => {
      const store = dryingStore(settled, ground, atLearnedRate(tools, settled.swath.crop, learned));
      const found = swathRoute(settled, ground, calendars, store, asked.cut, asked.treatment, route);
      return [id, found.answer.windows[0]?.startUtc ?? null];
    }),
  );
}

function standingOptions(settled: Settled, ground: Ground, calendars: HazardCalendars): FoundOption[] {
  return settled.routes
    .filter(({ route }) => ROUTE_CATALOGUE[route].kind === "standing")
    .map((route) => ({
      head: {
        id: `standing/${route.route}`,
        kind: "standing" as const,
        cutUtc: null,
        courseCutUtc: null,
        treatment: null,
      },
      routes: [standingRoute(settled, ground, calendars, route)],
    }));
}

function pairsOf(options: readonly FoundOption[]): Pair[] {
  return options.flatMap(({ head, routes }) =>
    routes.flatMap((found) => {
      // What lies already is no choice any more.
      if (head.made) return [];
      const { firstWindow, rainedOn, daysLying, answer } = found;
      if (firstWindow === null || answer.valuePerHa === null) return [];
      return {
        found,
        optionId: head.id,
        route: answer.route,
        valuePerHa: answer.valuePerHa,
        shareKnown: answer.takenShare !== null,
        wholeArea: ROUTE_CATALOGUE[answer.route].wholeArea,
        rainedOn,
        daysLying,
        firstWindowMs: firstWindow.startMs,
        cutMs: head.cutUtc === null ? firstWindow.startMs : Date.parse(head.cutUtc),
        treatmentId: head.treatment ?? "",
      };
    }),
  );
}

function bestOf(settled: Settled, ranked: readonly Pair[]): WindowsAnswer["best"] {
  const byRoute: Partial<Record<RouteKey, string | null>> = {};
  for (const { route } of settled.routes) {
    byRoute[route] = ranked.find((pair) => pair.route === route)?.optionId ?? null;
  }
  const top = ranked[0];
  return { overall: top ? { optionId: top.optionId, route: top.route } : null, byRoute };
}

/**
 * A reading that counts moves time on for the whole board, as `nowUtc` does: no cut and no window before it can be had any
 * more. The cuts that are left, with those that were measured in their place.
 */
function movedOn(
  asked: Settled,
  cuts: readonly BoardCut[],
  read: ReadOptions,
): { readonly settled: Settled; readonly cuts: readonly BoardCut[] } {
  const nowUtcMs = Math.max(asked.nowUtcMs, read.lastUsedMs ?? asked.nowUtcMs);
  const isAhead = ({ cutUtcMs }: CutMoment) => cutUtcMs >= nowUtcMs;
  return {
    settled: { ...asked, nowUtcMs },
    cuts: cuts.flatMap((cut): BoardCut[] => {
      const own = read.byId.get(cut.id);
      if (own) return [own.of];
      if (!cut.made) return isAhead(cut.cut) ? [cut] : [];
      return [
        { ...cut, cut: { ...cut.cut, openFromMs: Math.max(cut.cut.openFromMs ?? nowUtcMs, nowUtcMs) } },
      ];
    }),
  };
}

/** The moments that a cut can be offered at from now on; none where no route of the board is cut. */
function momentsOf({ routes, weather, days, cutHours, nowUtcMs, mowHours }: Settled): CutMoments {
  return routes.some(({ route }) => ROUTE_CATALOGUE[route].kind === "swath")
    ? cutMoments(weather, days, cutHours, nowUtcMs, mowHours)
    : { moments: [], outsideWork: 0 };
}

function boardOf(
  request: WindowsRequest,
  prepared: PreparedWeather,
  tools: DryingTools,
  saying: Saying,
): Board {
  const first = settle(request, prepared.weather, saying);
  const ground = groundOf(prepared.weather, first.maxRainMm24h);
  const calendars = hazardCalendars(first);
  const cutsAsked = first.routes.some(({ route }) => ROUTE_CATALOGUE[route].kind === "swath");
  const { cuts: asked, leftOut } = boardCuts(
    first,
    momentsOf(first).moments,
    cutsAsked ? request.madeCuts : [],
  );
  const read = readOptions(request, prepared, first, asked);
  // First, so that whoever keeps the courses of the board keeps those that its rows are read from.
  const before = openedBefore(first, ground, calendars, tools, read);
  const { settled, cuts } = movedOn(first, asked, read);
  const offered = momentsOf(settled);
  const options = [
    ...swathOptions(settled, ground, calendars, tools, cuts, read),
    ...standingOptions(settled, ground, calendars),
  ];
  return {
    read,
    leftOut,
    before,
    request,
    prepared,
    settled,
    calendars,
    options,
    cuts: { offered: offered.moments.length, outsideWork: offered.outsideWork },
  };
}

/** The answer of a board whose pairs are ranked by what they are worth: by the main forecast, or by the odds. */
export function answerOf(board: Board, found: readonly FoundOption[] = board.options): WindowsAnswer {
  const { request, prepared, settled, calendars, cuts, read, before, leftOut } = board;
  const ranked = rankPairs(pairsOf(found));
  const rankOf = new Map(ranked.map((pair, i) => [pair.found, i + 1]));
  const options = found.map(({ head, routes }) => ({
    ...head,
    routes: routes.map((route) => ({ ...route.answer, rank: rankOf.get(route) ?? null })),
  }));
  return {
    options,
    best: bestOf(settled, ranked),
    counts: { options: found.length, members: request.weather.members?.length ?? 0 },
    ...(read.byId.size > 0 || read.aside.length > 0
      ? { readings: readingsTold(request, settled, read, options, before) }
      : {}),
    ...(leftOut.length > 0 ? { madeLeftOut: leftOut } : {}),
    hazards: hazardAnswers(calendars),
    usableUntilUtc: utcLabel(prepared.usableUntilUtcMs),
    assumptions: [...prepared.assumptions, ...settled.assumptions],
    ...toldWarnings<BoardWarningCode>([
      ...waitWarnings(ranked[0]?.found.answer),
      ...readingWarnings(board),
      ...prepared.warnings,
      ...warningsOf(settled, cuts),
    ]),
  };
}

/** The board before it is answered, for the odds: see `findWindowsWith`. */
export function findBoard(
  tools: DryingTools,
  request: WindowsRequest,
  saying: Saying = PLAIN_SAYING,
): Outcome<Board> {
  const asked = [
    ...checkRequest(request),
    ...checkMade(request),
    ...checkLearned(request.learned, request.weather, request.nowUtc),
    ...checkDraws(request.draws),
  ];
  const prepared = prepareWeather(request.weather, weatherTelling(saying, request.weather.site.timeZone));
  if (!prepared.ok) return { ok: false, issues: [...asked, ...prepared.issues] };
  const against = () => [
    ...checkAgainstWeather(request, prepared.value),
    ...checkMadeAgainst(request, prepared.value),
  ];
  const issues = asked.length > 0 ? asked : against();
  if (issues.length > 0) return { ok: false, issues };
  return { ok: true, value: boardOf(request, prepared.value, tools, saying) };
}

/** As `findWindows`, with the drying model handed in. */
export function findWindowsWith(
  tools: DryingTools,
  request: WindowsRequest,
  saying: Saying = PLAIN_SAYING,
): Outcome<WindowsAnswer> {
  const board = findBoard(tools, request, saying);
  return board.ok ? { ok: true, value: answerOf(board.value) } : board;
}

/**
 * Every cut option against every route by the main forecast alone, without odds: see `findWindowsWithOdds`.
 *
 * @param saying how the texts are written; absent = 24-hour clock, metric, times to the minute
 */
export function findWindows(request: WindowsRequest, saying: Saying = PLAIN_SAYING): Outcome<WindowsAnswer> {
  return findWindowsWith({ course: runSweepCourse, opinions: secondOpinions }, request, saying);
}
