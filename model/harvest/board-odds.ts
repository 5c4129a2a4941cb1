import { runSweepCourse } from "../drying/course.ts";
import { secondOpinions } from "../drying/second-opinions.ts";
import type { Outcome } from "../limits.ts";
import { MEASURED_TEXT, NO_RULE_TEXT, NO_WAIT_COST_TEXT, PART_A_DAY_TEXT } from "../odds/cost-loss.ts";
import { DEFAULT_SEED } from "../odds/drydown-odds.ts";
import { inTen } from "../odds/in-ten.ts";
import { rainChances } from "../odds/odds.ts";
import { quantileOfSorted, quantilesOrNever } from "../odds/quantiles.ts";
import { rainDays } from "../odds/rain-days.ts";
import { sampleScores } from "../odds/sample.ts";
import { FEW_MEMBERS, oddsText, weatherDraws } from "../odds/weather-draws.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { BoardOddsAnswer, PlaceAnswer, RouteAnswer, WindowsAnswer } from "./answer.ts";
import { answerOf, findBoard } from "./board.ts";
import type { BoardWarningCode } from "./board-warnings.ts";
import { type DryingTools, type Ground, groundOf } from "./drying-store.ts";
import type { Board, FoundOption } from "./found-board.ts";
import { type Lead, leadOf } from "./lead.ts";
import { type Drawn, type MemberOutcome, outcomesOf } from "./member-outcomes.ts";
import { blockStore, type OptionRuns, optionRuns } from "./member-runs.ts";
import { choiceOf, cutRuleOf, placeAnswer, placedOf } from "./odds-choice.ts";
import { leftPerHa, toldOutcome } from "./outcomes.ts";
import type { ReadOption } from "./read-cuts.ts";
import type { WindowsRequest } from "./request.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import { PLAIN_SAYING, type Saying } from "./saying.ts";
import type { FoundRoute } from "./swath-route.ts";
import { unrankedAnswer } from "./unranked.ts";
import type { Span } from "./work-hours.ts";

/** Draws of a board whose weather has no members of its own: as many as a common ensemble has. */
export const BOARD_DRAWS = 51;
/** More swath-hours than this times the draws would take many seconds: the board then comes without odds. */
const MOST_SWATH_HOURS = 12_000_000;

function overlaps(a: Span, b: Span): boolean {
  return a.startMs < b.endMs && b.startMs < a.endMs;
}

/** Above this a swath counts as rained on, mm: the first step that chances of rain are told by. */
const RAINED_ON_MM = 1;

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Of a pair that can come in and cannot be planned; null where it never comes in. */
function unplannedText(chance: number): string | null {
  return chance === 0 ? null : `No window in the main forecast; ${inTen(chance)} of its draws have one.`;
}

/** What a hectare of each pair is worth in each draw. */
type DrawnValues = Map<string, readonly number[]>;

function pairKey({ optionId, route }: Pick<PlaceAnswer, "optionId" | "route">): string {
  return `${optionId}|${route}`;
}

/** The pair with its odds in place of what the main forecast alone could not say, and its value in each draw. */
function withOdds(
  drawn: Drawn,
  found: FoundRoute,
  runs: OptionRuns,
  read?: ReadOption,
): { readonly found: FoundRoute; readonly values: readonly number[] } {
  const { question, answer } = found;
  const { settled } = drawn.board;
  const outcomes = outcomesOf(drawn, question, runs, read);
  const fromMs = question.kind === "swath" ? question.cut.courseCutUtcMs : settled.nowUtcMs;
  const share = (of: (outcome: MemberOutcome) => boolean) => outcomes.filter(of).length / outcomes.length;
  const chance = share(({ windows }) => windows.length > 0);
  const rains = outcomes.map(({ rainMm }) => rainMm);
  const left = leftPerHa(answer.route, settled.money);
  const brought = outcomes.map((outcome) => outcome.brought);
  const told = toldOutcome(question.central, brought, left);
  const values = brought.map((one) => one?.value.valuePerHa ?? left);
  const worth = brought.flatMap((one) => (one === null ? [] : [one.value.valuePerHa]));
  const inTime = outcomes.map(
    ({ windows, rainMm }) => windows.length > 0 && (question.kind === "standing" || rainMm <= RAINED_ON_MM),
  );
  const odds: RouteAnswer["odds"] & object = {
    chance,
    text: question.windows.length > 0 ? null : unplannedText(chance),
    rainChances: rainChances(rains),
    valuePerHa: question.central === null && chance === 0 ? null : quantilesOrNever(values),
    broughtPerHa: mean(worth),
    leftPerHa: left,
    beforeRain: {
      chance: inTime.filter(Boolean).length / inTime.length,
      valuePerHa: mean(values.filter((_, i) => inTime[i])),
      elsePerHa: mean(values.filter((_, i) => !inTime[i])),
    },
  };
  const route: FoundRoute = {
    ...found,
    answer: {
      ...answer,
      windows: answer.windows.map((window, k) => {
        const span = question.windows[k];
        return span
          ? { ...window, chance: share((one) => one.windows.some((own) => overlaps(own, span))) }
          : window;
      }),
      elapsedHours: quantilesOrNever(
        outcomes.map(({ windows }) => (windows[0] ? (windows[0].startMs - fromMs) / HOUR_MS : null)),
      ),
      neverShare: 1 - chance,
      rainMm: {
        mean: rains.reduce((sum, mm) => sum + mm, 0) / rains.length,
        p90: quantileOfSorted(Float64Array.from(rains).sort(), 0.9),
      },
      ...told,
      odds,
    },
  };
  return { found: route, values };
}

function drawnLead(
  values: DrawnValues,
  first: Pick<PlaceAnswer, "optionId" | "route">,
  other: Pick<PlaceAnswer, "optionId" | "route">,
  members: number,
): Lead | null {
  const [ofFirst, ofOther] = [values.get(pairKey(first)), values.get(pairKey(other))];
  return ofFirst && ofOther ? leadOf(ofFirst, ofOther, members) : null;
}

function boardOdds(drawn: Drawn, answer: WindowsAnswer, values: DrawnValues): BoardOddsAnswer {
  const { board, weathers, count, seed } = drawn;
  const { clock, endUtcMs, nowUtcMs } = board.settled;
  const placed = placedOf(board, answer);
  const first = placed[0];
  const second = placed.find((one) => first && (one.route !== first.route || one.day !== first.day));
  const leadOver = (other: PlaceAnswer) => (first ? drawnLead(values, first, other, weathers.members) : null);
  const lead = second ? leadOver(second) : null;
  // Of what was measured no rule tells when to cut: it lies.
  const uncut = placed.filter(({ optionId }) => !board.read.byId.has(optionId));
  const best = board.settled.routes.flatMap(({ route }) => uncut.find((one) => one.route === route) ?? []);
  return {
    draws: count,
    seed,
    weather: weathers.kind,
    members: weathers.members,
    leftOut: weathers.leftOut,
    text: oddsText(weathers, count),
    rainDays: rainDays(
      Array.from({ length: count }, (_, i) => weathers.of(i)),
      nowUtcMs,
      endUtcMs,
      clock.zone,
    ),
    first: first ? placeAnswer(first) : null,
    runnerUp: second ? placeAnswer(second) : null,
    lead,
    asGood: placed
      .filter((one) => one !== first && leadOver(one)?.equal)
      .map(({ optionId, route }) => ({ optionId, route })),
    ...choiceOf(first, second, lead, board.settled),
    ...unrankedAnswer(board, answer, first, leadOver),
    cutRules: best.flatMap((place) => cutRuleOf(board, place)),
  };
}

function drawnOf(board: Board): Drawn | null {
  const { request, prepared, settled } = board;
  const seed = request.seed ?? DEFAULT_SEED;
  if (request.draws === 0) return null;
  const nowMs = settled.nowUtcMs;
  const weathers = weatherDraws(request.weather, prepared, nowMs, seed);
  const { members } = weathers;
  const asked = request.draws ?? BOARD_DRAWS;
  // Few members are gone through several times, each time with another draw, and all alike.
  const count =
    members >= FEW_MEMBERS ? members : members === 0 ? asked : Math.ceil(asked / members) * members;
  const grounds = new WeakMap<HourlyWeather, Map<number, Ground>>();
  return {
    board,
    count,
    seed,
    weathers,
    scores: sampleScores(count, seed),
    groundOf: (weather, maxRainMm24h) => {
      const known = grounds.get(weather) ?? new Map<number, Ground>();
      const ground = known.get(maxRainMm24h) ?? groundOf(weather, maxRainMm24h);
      grounds.set(weather, known.set(maxRainMm24h, ground));
      return ground;
    },
    blocks: blockStore(),
  };
}

/** Hours of all swaths of the board from their cuts on. */
function swathHours({ options, settled }: Board): number {
  return options.reduce((sum, { head, routes }) => {
    if (head.courseCutUtc === null) return sum;
    return sum + (routes.length * (settled.endUtcMs - Date.parse(head.courseCutUtc))) / HOUR_MS;
  }, 0);
}

/** How far the odds are: whoever drains the steps may stop between two, and tell. */
export interface OddsProgress {
  readonly done: number;
  readonly of: number;
}

function withWarning(answer: WindowsAnswer, code: BoardWarningCode, text: string): WindowsAnswer {
  const { warnings, warningCodes } = answer;
  return { ...answer, warnings: [...warnings, text], warningCodes: [...warningCodes, code] };
}

/**
 * The odds of a board, option by option: every cut, route and treatment through every member, each with one draw of what
 * the model may be wrong about. Members keep the passes of the main forecast. The same seed gives the same answer.
 *
 * @returns the answer with its odds, pairs ranked by expected value
 */
export function* oddsSteps(board: Board): Generator<OddsProgress, WindowsAnswer, void> {
  const drawn = drawnOf(board);
  if (drawn === null) return answerOf(board);
  if (swathHours(board) * drawn.count > MOST_SWATH_HOURS) {
    const plain = answerOf(board);
    const warning = `Odds are left out: ${Math.round(swathHours(board))} hours of swaths times ${drawn.count} draws would take too long. Ask for fewer days, cut hours or treatments.`;
    return withWarning(plain, "odds-left-out", warning);
  }
  const found: FoundOption[] = [];
  const values: DrawnValues = new Map();
  for (const { head, routes } of board.options) {
    drawn.blocks.free();
    const runs = optionRuns(
      routes.flatMap(({ question }) => (question.kind === "swath" ? [question.operations] : [])),
    );
    const own = routes.map((route) => {
      const one = withOdds(drawn, route, runs, board.read.byId.get(head.id));
      values.set(pairKey({ optionId: head.id, route: route.answer.route }), one.values);
      return one.found;
    });
    found.push({ head, routes: own });
    yield { done: found.length, of: board.options.length };
  }
  const answer = answerOf(board, found);
  const odds = boardOdds(drawn, answer, values);
  const { cutRule } = board.request;
  // Asked for and not told is never passed over.
  const unruled = cutRule !== undefined && odds.first !== null && odds.cutRules.length === 0;
  const partly = answer.options.every(({ routes }) =>
    routes.every(({ route }) => !ROUTE_CATALOGUE[route].wholeArea),
  );
  const whyNot = board.read.byId.has(odds.first?.optionId ?? "")
    ? MEASURED_TEXT
    : partly
      ? PART_A_DAY_TEXT
      : NO_RULE_TEXT;
  const why = cutRule?.waitingPerHa === undefined ? NO_WAIT_COST_TEXT : whyNot;
  const told = { ...answer, odds };
  return unruled ? withWarning(told, "no-cut-rule", why) : told;
}

/** The answer of a board with its odds, at once. */
export function answerWithOdds(board: Board): WindowsAnswer {
  const steps = oddsSteps(board);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Every cut option against every route with its odds: what /api/windows and the command line answer. */
export function findWindowsWithOdds(
  request: WindowsRequest,
  saying: Saying = PLAIN_SAYING,
  tools: DryingTools = { course: runSweepCourse, opinions: secondOpinions },
): Outcome<WindowsAnswer> {
  const board = findBoard(tools, request, saying);
  return board.ok ? { ok: true, value: answerWithOdds(board.value) } : board;
}
