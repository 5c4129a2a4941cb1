import { hourOf, MOISTURE_COLUMNS } from "../drying/course-columns.ts";
import { parametersAtRate } from "../odds/course-odds.ts";
import { withLearnedRequest } from "../odds/cut-sample.ts";
import { type Draw, drawOf, type SampleScores, swathOfDraw } from "../odds/sample.ts";
import { type Uncertainty, uncertaintyOf } from "../odds/uncertainty.ts";
import type { WeatherDraws } from "../odds/weather-draws.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { type Ground, rainBetweenMm } from "./drying-store.ts";
import type { Board } from "./found-board.ts";
import { windowsOf } from "./limited-by.ts";
import { type Brought, swathBrought } from "./lost-on-way.ts";
import {
  type BlockStore,
  knownRuns,
  type MemberRun,
  newRuns,
  type OptionRuns,
  runMember,
} from "./member-runs.ts";
import type { ReadOption } from "./read-cuts.ts";
import { HARVEST_DEFAULTS } from "./routes.ts";
import type { Settled } from "./settle.ts";
import type { Track } from "./spans.ts";
import { standingTurns } from "./standing.ts";
import type { MemberQuestion } from "./swath-route.ts";
import type { Span } from "./work-hours.ts";

/** What each draw of a board makes of a pair of cut and route. */

/** A member's course is run so far at least, h; twice as far each time while it has no window. */
const LEAST_RUN_H = 24;

/** What is the same for all pairs of a board: the sample, the weathers, and rain and soil of each. */
export interface Drawn {
  readonly board: Board;
  readonly count: number;
  readonly seed: number;
  readonly weathers: WeatherDraws;
  readonly scores: SampleScores;
  readonly groundOf: (weather: HourlyWeather, maxRainMm24h: number) => Ground;
  readonly blocks: BlockStore;
}

/** What one draw makes of one pair. */
export interface MemberOutcome {
  readonly windows: readonly Span[];
  readonly rainMm: number;
  readonly brought: Brought | null;
}

type SwathQuestion = Extract<MemberQuestion, { readonly kind: "swath" }>;
type StandingQuestion = Extract<MemberQuestion, { readonly kind: "standing" }>;

/** Soil that another draw takes as wetter carries less, unless the user said what it carries. */
function carriesMm({ request, settled }: Board, soil: Settled["swath"]["soil"]): number {
  return request.soilCarry?.maxRainMm24h === undefined
    ? HARVEST_DEFAULTS.carriesAfterMm[soil].value
    : settled.maxRainMm24h;
}

/** The uncertainty of one cut: what was learned of the rate is forgotten until it, as in the course by itself. */
function uncertaintyFor(
  { board }: Drawn,
  rates: readonly number[],
  atMs: number,
  read: ReadOption | undefined,
): Uncertainty {
  const { read: all, settled } = board;
  const learned = read === undefined ? all.learned : read.learned;
  return withLearnedRequest(uncertaintyOf(settled.swath.crop, rates), learned, atMs);
}

/** One draw of a cut in its weather, at its start. */
function memberStart(drawn: Drawn, { treatment }: SwathQuestion, draw: Draw, weather: HourlyWeather) {
  return {
    weather,
    ground: drawn.groundOf(weather, carriesMm(drawn.board, draw.soil)),
    swath: swathOfDraw(treatment.swath, draw),
    p: parametersAtRate(draw.rateFactor),
    block: drawn.blocks.take(MOISTURE_COLUMNS * weather.count),
  };
}

/** Of draws that readings picked: under other passes others are picked, so that no two plans share hours. */
const NEVER_ALIKE = { rateLnMean: Number.NaN, rateLnSd: Number.NaN } as const;

function runsOf(
  drawn: Drawn,
  question: SwathQuestion,
  option: OptionRuns,
  read: ReadOption | undefined,
): readonly MemberRun[] {
  const { cut, operations, treatment } = question;
  const known = knownRuns(option, operations);
  if (known) return known;
  const { weather } = drawn.board.settled;
  const cutUtcMs = cut.courseCutUtcMs;
  const startUtcMs = weather.startUtcMs + hourOf(weather, cutUtcMs) * HOUR_MS;
  const at = { cutUtcMs, startUtcMs };
  const bent = read?.bentOf(operations) ?? null;
  if (bent !== null) {
    const { picked, draws, weathers } = bent;
    return newRuns(option, operations, NEVER_ALIKE, at, picked.length, (i) => {
      const k = picked[i] as number;
      return memberStart(drawn, question, draws[k] as Draw, weathers.of(k));
    });
  }
  const uncertainty = uncertaintyFor(drawn, question.opinionRates(), cutUtcMs, read);
  const { scores, weathers, count } = drawn;
  return newRuns(option, operations, uncertainty, at, count, (i) =>
    memberStart(drawn, question, drawOf(scores, treatment.swath, uncertainty, i), weathers.of(i)),
  );
}

/** What a route makes of a member's course, which is run only as far as the answer needs. */
function swathOutcome({ board }: Drawn, question: SwathQuestion, one: MemberRun): MemberOutcome {
  const { settled } = board;
  const { cut, treatment, route, operations, need } = question;
  const { run, swath, weather, ground, whole } = one;
  const { course } = run;
  const lastMs = question.windows.at(-1)?.endMs ?? 0;
  // Past the end of the last window asked for by as much as a window needs: one that begins before it is seen whole.
  const lastHour = Math.ceil((lastMs - course.startUtcMs) / HOUR_MS + need.hours);
  runMember(one, Math.max(LEAST_RUN_H, lastHour));
  // What is on the crop at the cut is read from the first hour, which is run only now.
  const startFilmMm = swath.freeWaterMm ?? course.freeWaterMm[0] ?? 0;
  const trackNow = (): Track => ({ ...whole, startFilmMm, count: run.done });
  let track = trackNow();
  let windows = windowsOf(track, need);
  while (windows.length === 0 && run.done < course.count) {
    runMember(one, 2 * run.done);
    track = trackNow();
    windows = windowsOf(track, need);
  }
  const window = windows[0];
  const untilMs = window?.startMs ?? settled.endUtcMs;
  return {
    windows,
    rainMm: rainBetweenMm(weather, ground, cut.courseCutUtcMs, untilMs),
    brought: window
      ? swathBrought(
          settled,
          weather,
          { ...treatment, swath },
          route,
          { course, track },
          operations,
          window.startMs,
        )
      : null,
  };
}

/**
 * A standing crop in a member's weather; the rate at which it dries by itself has the draw's factor, of the model's own
 * spread about the rate that is told: what swaths taught is of cut crop lying in the sun and air, not of a standing one.
 */
function standingOutcome(
  drawn: Drawn,
  { route }: StandingQuestion,
  uncertainty: Uncertainty,
  i: number,
): MemberOutcome {
  const { settled, calendars } = drawn.board;
  const draw = drawOf(drawn.scores, settled.swath, uncertainty, i);
  const weather = drawn.weathers.of(i);
  const ground = drawn.groundOf(weather, carriesMm(drawn.board, draw.soil));
  const { standing } = settled;
  const mine: Settled = {
    ...settled,
    weather,
    swath: swathOfDraw(settled.swath, draw),
    standing: {
      ...standing,
      moistureWb: Math.min(
        1,
        Math.max(0, standing.moistureWb + draw.initialMoistureWb - settled.swath.initialMoistureWb),
      ),
      dryDownPointsPerDay: standing.dryDownPointsPerDay * draw.rateFactor,
    },
  };
  const { windows, brought } = standingTurns(mine, ground, calendars, route);
  return {
    windows,
    rainMm: rainBetweenMm(weather, ground, settled.nowUtcMs, windows[0]?.startMs ?? settled.endUtcMs),
    brought,
  };
}

export function outcomesOf(
  drawn: Drawn,
  question: MemberQuestion,
  runs: OptionRuns,
  read: ReadOption | undefined,
): MemberOutcome[] {
  if (question.kind === "swath")
    return runsOf(drawn, question, runs, read).map((one) => swathOutcome(drawn, question, one));
  const uncertainty = uncertaintyOf(drawn.board.settled.swath.crop);
  return Array.from({ length: drawn.count }, (_, i) => standingOutcome(drawn, question, uncertainty, i));
}
