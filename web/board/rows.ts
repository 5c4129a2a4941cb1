import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { tenths } from "../../model/odds/in-ten.ts";
import {
  briefDayClockText,
  clockText,
  dayClockText,
  dayDateText,
  shortDayDateText,
  utcMs,
} from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage } from "../format/units.ts";
import { windowTimes } from "../format/window-times.ts";
import { ROUTE_LABELS, ROUTE_LETTERS, ROUTE_ORDER, ROUTE_SHORT, sentenceCase } from "../format/words.ts";
import { bestOpen } from "../state/choice.ts";
import type { Scale } from "./calendar.ts";
import { type HazardShade, hazardSentence, hazardShades } from "./hazard-shades.ts";
import { type PlacedReason, placeReason, reasonWordings, textWidthPx } from "./reasons.ts";
import { type Ribbon, toRibbon } from "./ribbon.ts";
import type { RowContext } from "./row-context.ts";
import { type BoardVessel, vesselsOf } from "./row-vessels.ts";
import { rowReasons, rowSentence } from "./sentences.ts";
import { unplannedOf } from "./unplanned.ts";
import type { Box } from "./vessels.ts";

export interface Unfold {
  readonly dayKey: string;
  readonly count: number;
  readonly expanded: boolean;
  readonly label: string;
}

/** What the row of rank 1 says, whichever row is looked at. */
export const BEST_WORD = "best";

export interface BoardRow extends Box {
  readonly optionId: string;
  /** False for a cut hour that was asked for and is left out: it can be looked at, not chosen. */
  readonly offered: boolean;
  readonly kind: "day" | "folded" | "standing" | "made";
  /** "Thu 16" on a day's first row, a route's name on a standing one, else "". */
  readonly label: string;
  /** "09:00", or "" where nothing is cut. */
  readonly hour: string;
  readonly cutX: number | null;
  readonly ribbon: Ribbon | null;
  readonly vessels: readonly BoardVessel[];
  /** Waits and cautions that the row lies in. */
  readonly shades: readonly HazardShade[];
  readonly reason: PlacedReason | null;
  /** A window may come later than the forecast reaches. */
  readonly forecastEnds: boolean;
  /** Windows lie beyond the days shown. */
  readonly moreLater: boolean;
  readonly best: boolean;
  /** What is said under the day: "best", or "lies" of a cut that was made; "" of all others. */
  readonly mark: string;
  readonly chosen: boolean;
  readonly route: RouteKey | null;
  /** "Wrapped" and "Fri 18:00", or what is said where nothing is done. */
  readonly doneRoute: string;
  readonly doneBy: string;
  /** Both in a few characters: "W Fri 18:00", "W Fr 26 18:00". */
  readonly doneShort: string;
  /** "129/ha": what it is expected to bring after losses and work, by which rows are ranked; "" where nothing is done. */
  readonly worth: string;
  /** What the right end of the row says of days and hours that are not in view, where there is room. */
  readonly arrow: string;
  readonly sentence: string;
  readonly more: readonly string[];
  readonly unfold: Unfold | null;
}

/** The blade of the cut mark on a tall row: windows stand under it, on their time though the mark is near. */
const BLADE_PX = 16;

function labelsOf(option: CutOptionAnswer, kind: BoardRow["kind"], { manner }: RowContext) {
  if (option.cutUtc === null) {
    const route = option.routes[0]?.route;
    return { label: "Standing", hour: route ? ROUTE_SHORT[route] : "" };
  }
  return {
    label: kind === "day" || kind === "made" ? shortDayDateText(option.cutUtc, manner) : "",
    hour: clockText(option.cutUtc, manner),
  };
}

function worthText(valuePerHa: number | null, manner: Manner): string {
  if (valuePerHa === null) return "";
  const { units } = manner;
  return `${numberText(toPage(valuePerHa, "perHa", units), 0, manner)}/${units === "metric" ? "ha" : "ac"}`;
}

/** Of a row without a window: the likeliest of what may come in all the same, though no hour can be told. */
export function unplannedDone(option: CutOptionAnswer): ReturnType<typeof doneOf> {
  const [likely] = unplannedOf(option);
  if (!likely) return { doneRoute: "No window", doneBy: "", doneShort: "no window", worth: "" };
  const { route } = likely.route;
  const chance = `${tenths(likely.chance)} in 10`;
  return {
    doneRoute: sentenceCase(ROUTE_SHORT[route]),
    doneBy: `${chance}, no hour`,
    doneShort: `${ROUTE_LETTERS[route]} ${chance}`,
    worth: "",
  };
}

/** What stands in the right column: the best route of the row and when its window closes. */
export function doneOf(
  option: CutOptionAnswer,
  manner: Manner,
): Pick<BoardRow, "doneRoute" | "doneBy" | "doneShort" | "worth"> {
  const route = bestOpen(option);
  const window = route?.windows[0];
  if (!route || !window) return unplannedDone(option);
  const { endMs } = windowTimes(window);
  const doneBy = briefDayClockText(endMs, manner);
  return {
    doneRoute: sentenceCase(ROUTE_SHORT[route.route]),
    doneBy,
    doneShort: `${ROUTE_LETTERS[route.route]} ${briefDayClockText(endMs, manner, 2)}`,
    worth: worthText(route.valuePerHa, manner),
  };
}

/** The arrow's words, or nothing where a window or the cut mark stands in its place. */
function arrowOf(words: string, scale: Scale, vessels: readonly BoardVessel[], cutX: number | null): string {
  const from = scale.x1 - 8 - textWidthPx(words);
  return vessels.some(({ x1 }) => x1 > from) || (cutX !== null && cutX > from - 8) ? "" : words;
}

export function toRow(
  option: CutOptionAnswer,
  kind: BoardRow["kind"],
  y0: number,
  y1: number,
  unfold: { readonly dayKey: string; readonly count: number; readonly expanded: boolean } | null,
  context: RowContext,
): BoardRow {
  const { scale, manner, ribbons, answer, chosen, narrow } = context;
  const best = answer.best.overall?.optionId === option.id;
  const foot = y1 - 3;
  const cutMs = option.cutUtc === null ? null : utcMs(option.cutUtc);
  const cutX = cutMs !== null && cutMs >= scale.fromMs && cutMs <= scale.toMs ? scale.x(cutMs) : null;
  const course = ribbons[option.id];
  const ribbon = course ? toRibbon(course, scale, foot, narrow ? 13 : 9) : null;
  const ribbonPx = option.kind === "standing" ? 3 : narrow ? 16 : 12;
  const hasWindow = option.routes.some(({ windows }) => windows.length > 0);
  const vessels = vesselsOf(option, y0 + (narrow ? BLADE_PX : 4), foot - ribbonPx, context);
  const wordings = reasonWordings(option);
  const forecastEnds = option.routes.some(({ limitedBy }) => limitedBy === "forecast-too-short");
  const moreLater = option.routes.some(
    ({ windows: [first] }) => first && utcMs(first.startUtc) >= scale.toMs,
  );
  const date = option.cutUtc === null ? "" : dayDateText(option.cutUtc, manner);
  return {
    optionId: option.id,
    offered: true,
    kind,
    ...labelsOf(option, kind, context),
    x0: 0,
    x1: context.widthPx,
    y0,
    y1,
    cutX,
    ribbon,
    vessels,
    shades: hazardShades(answer, option, scale),
    reason: hasWindow ? null : placeReason(wordings, cutX ?? scale.x0, scale.x0, scale.x1, narrow ? 3 : 1),
    forecastEnds,
    moreLater,
    arrow: arrowOf(moreLater ? "later →" : forecastEnds ? "→" : "", scale, vessels, cutX),
    best,
    mark: best ? BEST_WORD : option.made ? "lies" : "",
    chosen: chosen?.optionId === option.id,
    route: bestOpen(option)?.route ?? null,
    ...doneOf(option, manner),
    sentence:
      `${rowSentence(option, best, manner, context.doubted)} ${hazardSentence(answer, option, manner)}`.trim(),
    more: rowReasons(answer, option, manner, context.crop),
    unfold:
      unfold && unfold.count > 0
        ? {
            ...unfold,
            label: `${unfold.expanded ? "Hide" : "Show"} ${unfold.count} other cut ${unfold.count === 1 ? "hour" : "hours"} of ${date}`,
          }
        : null,
  };
}

/** A cut hour that was asked for and is not offered, with its reason where its windows would be. */
export function leftOutRow(ms: number, takes: string, y0: number, y1: number, context: RowContext): BoardRow {
  const { scale, manner, narrow } = context;
  const cutUtc = new Date(ms).toISOString();
  const nothing = { cutUtc, courseCutUtc: null, treatment: null, routes: [] };
  const row = toRow({ id: `left-out/${cutUtc}`, kind: "swath", ...nothing }, "folded", y0, y1, null, context);
  const wordings = [`Not offered: ${takes}, past the working day`, "mowing past the working day"];
  return {
    ...row,
    offered: false,
    reason: placeReason(wordings, row.cutX ?? scale.x0, scale.x0, scale.x1, narrow ? 3 : 1),
    doneRoute: "Not offered",
    doneShort: "not offered",
    sentence: `No cut ${dayClockText(ms, manner)}: ${takes}, which does not fit the working hours.`,
    more: [],
  };
}

/** The routes that a board is about, in the order of the legend. */
export function routesShown(answer: WindowsAnswer): { readonly route: RouteKey; readonly label: string }[] {
  const asked = new Set(answer.options.flatMap(({ routes }) => routes.map(({ route }) => route)));
  return ROUTE_ORDER.filter((route) => asked.has(route)).map((route) => ({
    route,
    label: sentenceCase(ROUTE_LABELS[route]),
  }));
}
