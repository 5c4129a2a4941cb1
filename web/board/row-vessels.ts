import type { CutOptionAnswer, WindowAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { tenths } from "../../model/odds/in-ten.ts";
import { addDays, DAY_MS, localDayKey, startOfLocalDay } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { ROUTE_ORDER } from "../format/words.ts";
import { hasLater } from "../state/choice.ts";
import type { Scale, Span } from "./calendar.ts";
import type { RowContext } from "./row-context.ts";
import { windowReasons, windowSentence } from "./sentences.ts";
import { type Box, spread, type TouchSpan, withTouch } from "./vessels.ts";

export interface BoardVessel extends Box, TouchSpan {
  readonly key: string;
  readonly route: RouteKey;
  readonly chance: number | null;
  readonly rainedOn: boolean;
  /** The route's first window on this cut; later ones are drawn lower. */
  readonly first: boolean;
  /** Its number stands in it: in the first always, in a later one where there is room. */
  readonly labelled: boolean;
  /** The window that makes this option the best of all. */
  readonly best: boolean;
  readonly chosen: boolean;
  /** Start of a later window as the answer writes it; null = it is the route's first. */
  readonly laterUtc: string | null;
  readonly startMs: number;
  readonly sentence: string;
  /** Reasons and cautions, told under the sentence. */
  readonly more: readonly string[];
}

/** A letter with air on both sides, px. */
const LEAST_VESSEL_PX = 19;
/** Room for a figure in a later window, and for a second one beside it, px. */
const LATER_LABEL_PX = 14;
const CHARACTER_PX = 8;
/** What a later window leaves free over it, so that it is seen to be one: share of a first one's height, with its number and without. */
const LATER_DROP = { labelled: 0.32, bare: 0.5 } as const;
/** A window is moved for its neighbours no further than still covers its time but for this much, px. */
const MOVES_PX = 3;

/** Where the middle of a window may be drawn: on its own days, and near enough that what is drawn covers its time. */
function stayOf(
  { startUtc, endUtc }: Pick<WindowAnswer, "startUtc" | "endUtc">,
  leastPx: number,
  scale: Scale,
  { zone }: Manner,
): Span {
  const [from, to] = [Math.max(scale.x0, scale.x(startUtc)), Math.min(scale.x1, scale.x(endUtc))];
  const middle = (from + to) / 2;
  const half = Math.max(leastPx, to - from) / 2;
  const mayMove = half - (to - from) / 2 + MOVES_PX;
  const dayAfter = addDays(localDayKey(utcMs(endUtc) - 1, zone), 1);
  const days = {
    x0: scale.x(startOfLocalDay(zone, localDayKey(utcMs(startUtc), zone))),
    x1: scale.x(startOfLocalDay(zone, dayAfter)),
  };
  return {
    x0: Math.min(scale.x1 - half, Math.max(days.x0, middle - mayMove)),
    x1: Math.max(scale.x0 + half, Math.min(days.x1, middle + mayMove)),
  };
}

/** The windows of a cut where they are drawn: each on its own days, as near its time as its neighbours leave it. */
export function vesselsOf(
  option: CutOptionAnswer,
  top: number,
  foot: number,
  context: RowContext,
): BoardVessel[] {
  const { scale, answer, narrow, manner, chosen, crop, widthPx, doubted } = context;
  const overall = answer.best.overall;
  // Where days are drawn close a window is narrower, so that it stays on its day.
  const dayPx = ((scale.x1 - scale.x0) / (scale.toMs - scale.fromMs)) * DAY_MS;
  const least = Math.min(narrow ? 34 : 26, Math.max(LEAST_VESSEL_PX, dayPx * 0.75));
  const leastLater = LATER_LABEL_PX;
  const all = ROUTE_ORDER.flatMap((key) => {
    const route = option.routes.find((each) => each.route === key);
    const ofChoice = chosen?.optionId === option.id && chosen.route === key;
    const laterChosen = ofChoice && chosen.windowUtc !== undefined && hasLater(route, chosen.windowUtc);
    return (route?.windows ?? []).flatMap((window, i) => {
      if (!route || utcMs(window.endUtc) <= scale.fromMs || utcMs(window.startUtc) >= scale.toMs) return [];
      if (window.chance !== null && window.chance < 0.05) return [];
      const first = i === 0;
      const ofBest = overall?.optionId === option.id && overall.route === key && first;
      return {
        key: `${key}/${window.startUtc}`,
        route: key,
        chance: window.chance,
        rainedOn: window.rainedOn,
        first,
        best: ofBest,
        chosen: ofChoice && (laterChosen ? window.startUtc === chosen.windowUtc : first),
        laterUtc: first ? null : window.startUtc,
        startMs: utcMs(window.startUtc),
        sentence: windowSentence(route, window, manner, doubted),
        more: first ? windowReasons(route, crop) : ["A later window of the same cut."],
        x0: Math.max(scale.x0, scale.x(window.startUtc)),
        x1: Math.min(scale.x1, scale.x(window.endUtc)),
        stay: stayOf(window, first ? least : leastLater, scale, manner),
        labelled: first,
        y0: top,
        y1: foot,
      };
    });
  });
  const wide = all.filter(({ first }) => first);
  const room = wide.reduce((sum, { x0, x1 }) => sum + Math.max(least, x1 - x0) + 2, 0);
  // No window is drawn before its cut, unless the right edge leaves no other place.
  const cutX = option.cutUtc === null ? scale.x0 : scale.x(option.cutUtc);
  const from = Math.max(scale.x0, Math.min(cutX + (narrow ? 0 : 8), scale.x1 - room));
  const firsts = spread(wide, least, 2, from, scale.x1);
  const laters = spread(
    all.filter(({ first }) => !first),
    leastLater,
    1,
    scale.x0,
    scale.x1,
  )
    .filter((later) => !firsts.some((first) => later.x0 < first.x1 + 1 && later.x1 > first.x0 - 1))
    .map((later) => {
      const characters = later.chance === null ? 1 : tenths(later.chance).length;
      const labelled = later.x1 - later.x0 >= LATER_LABEL_PX + (characters - 1) * CHARACTER_PX;
      const drop = labelled ? LATER_DROP.labelled : LATER_DROP.bare;
      return { ...later, labelled, y0: top + (foot - top) * drop };
    });
  const placed = [...firsts, ...laters].sort((a, b) => a.x0 - b.x0);
  return withTouch(placed, scale.x0, widthPx);
}
