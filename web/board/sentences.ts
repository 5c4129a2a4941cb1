import type { CropKey } from "../../model/drying/keys.ts";
import type {
  CutOptionAnswer,
  RouteAnswer,
  WindowAnswer,
  WindowsAnswer,
} from "../../model/harvest/answer.ts";
import { SHATTER_FROM_PCT } from "../../model/harvest/losses/passes.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { ROUTE_CAUTIONS, routeCaution } from "../cautions/cautions.ts";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { toldWorkHours, windowSpanText } from "../format/window-times.ts";
import { hoursText, ROUTE_LABELS, rainText, sentenceCase } from "../format/words.ts";
import { bestOpen } from "../state/choice.ts";
import { hazardTexts } from "./hazard-shades.ts";
import { reasonWordings } from "./reasons.ts";
import { unplannedReasons } from "./unplanned.ts";

/** How many different hours of cutting were looked at. */
function cutTimes(answer: WindowsAnswer): number {
  return new Set(answer.options.flatMap(({ cutUtc, made }) => (cutUtc === null || made ? [] : [cutUtc])))
    .size;
}

/** "cut Thursday 09:00", "lying since Monday 14:00" or "leave it standing". */
function cutWords(option: CutOptionAnswer, manner: Manner): string {
  if (option.made && option.cutUtc !== null) return `lying since ${dayClockText(option.cutUtc, manner)}`;
  return option.cutUtc === null ? "leave it standing" : `cut ${dayClockText(option.cutUtc, manner)}`;
}

/** The result of the board in one sentence. */
export function boardSentence(answer: WindowsAnswer, manner: Manner): string {
  const times = cutTimes(answer);
  const among = times === 0 ? "Best" : `Best of ${times} cut ${times === 1 ? "time" : "times"}`;
  const { overall } = answer.best;
  const option = overall && answer.options.find(({ id }) => id === overall.optionId);
  const window = option?.routes.find(({ route }) => route === overall?.route)?.windows[0];
  if (!overall || !option || !window) {
    return times === 0
      ? "No cut time can be offered in this weather."
      : `None of ${times} cut ${times === 1 ? "time" : "times"} has a window in this weather.`;
  }
  const span = windowSpanText(window, manner);
  return `${among}: ${cutWords(option, manner)}, ${ROUTE_LABELS[overall.route]} ${span}${window.rainedOn ? ", after rain" : ""}.`;
}

/** " (8 mm)", or " (8 mm on average over the chances)" once they are counted. */
function rainBefore({ rainMm: { mean }, odds }: RouteAnswer, manner: Manner): string {
  if (!(mean > 0)) return "";
  return ` (${rainText(mean, manner)}${odds === undefined ? "" : " on average over the chances"})`;
}

/**
 * "Wrapped bales, Friday 13:00 to 18:00, 5 h to work in, 8 in 10 for this window, after rain".
 *
 * @param doubted the forecast is old: "8 in 10?"
 */
export function windowSentence(
  route: RouteAnswer,
  window: WindowAnswer,
  manner: Manner,
  doubted = false,
): string {
  const parts = [sentenceCase(ROUTE_LABELS[route.route]), windowSpanText(window, manner)];
  parts.push(`${hoursText(toldWorkHours(window), manner)} to work in`);
  if (window.chance !== null) parts.push(`${inTen(window.chance)}${doubted ? "?" : ""} for this window`);
  if (window.rainedOn) parts.push(`after rain${rainBefore(route, manner)}`);
  return parts.join(", ");
}

/** Told elsewhere already: the window itself, and how far the estimates lie apart. */
const NOT_REPEATED: readonly string[] = ["window", "estimates", "caution"];

/** "Tedding that dry shatters about 16 % of the dry matter, leaf first." for each pass that costs more than a little. */
function shatterReasons({ lossSteps }: RouteAnswer): string[] {
  return (lossSteps ?? []).flatMap(({ step, pct }) =>
    (step === "ted" || step === "rake") && pct >= SHATTER_FROM_PCT.value
      ? [
          `${step === "ted" ? "Tedding" : "Raking"} that dry shatters about ${Math.round(pct)} % of the dry matter, leaf first.`,
        ]
      : [],
  );
}

/** What decides a route, in the model's words, and what is to be minded before taking it. */
export function windowReasons(route: RouteAnswer, crop?: CropKey): readonly string[] {
  const { title, orders } =
    crop === undefined ? ROUTE_CAUTIONS[route.route] : routeCaution(route.route, crop);
  return [
    ...shatterReasons(route),
    ...route.why.filter(({ code }) => !NOT_REPEATED.includes(code)).map(({ text }) => text),
    `${title}: ${orders.join(" ")}`,
  ];
}

/** The cut nearest in time that has a window, in words; null where none has. */
function nearestInWords(answer: WindowsAnswer, option: CutOptionAnswer, manner: Manner): string | null {
  if (option.cutUtc === null) return null;
  const fromMs = utcMs(option.cutUtc);
  const away = ({ cutUtc }: CutOptionAnswer) => Math.abs(utcMs(cutUtc ?? "") - fromMs);
  const [nearest] = answer.options
    .filter((other) => other.cutUtc !== null && !other.made && bestOpen(other) !== null)
    .sort((a, b) => away(a) - away(b));
  const route = nearest && bestOpen(nearest);
  const window = route?.windows[0];
  if (!nearest?.cutUtc || !route || !window) return null;
  return `Nearest cut with a window: ${dayClockText(nearest.cutUtc, manner)}, ${ROUTE_LABELS[route.route]} ${windowSpanText(window, manner)}.`;
}

/** What stands behind a row: its best route's reasons, or why each of its routes has no window and what is nearest. */
export function rowReasons(
  answer: WindowsAnswer,
  option: CutOptionAnswer,
  manner: Manner,
  crop?: CropKey,
): readonly string[] {
  const best = bestOpen(option);
  const unplanned = unplannedReasons(option);
  if (best) return [...windowReasons(best, crop), ...unplanned];
  const nearest = nearestInWords(answer, option, manner);
  return [
    ...unplanned,
    ...option.routes.flatMap(({ route, why }) => {
      const first = why.find(({ code }) => !NOT_REPEATED.includes(code));
      return first ? [`${sentenceCase(ROUTE_LABELS[route])}: ${first.text}`] : [];
    }),
    ...hazardTexts(option),
    ...(nearest === null ? [] : [nearest]),
  ];
}

/** What a row says when it is heard. */
export function rowSentence(option: CutOptionAnswer, best: boolean, manner: Manner, doubted = false): string {
  const cut = sentenceCase(cutWords(option, manner));
  const route = bestOpen(option);
  const window = route?.windows[0];
  const head = best ? `${cut}, the best` : cut;
  if (!route || !window) return `${head}. ${sentenceCase(reasonWordings(option)[0] ?? "No window")}.`;
  const others = option.routes.filter((other) => other !== route && other.windows.length > 0);
  const also = others.map((other) => {
    const first = other.windows[0];
    return `${ROUTE_LABELS[other.route]} ${first ? windowSpanText(first, manner) : ""}`;
  });
  const rest = also.length > 0 ? ` Also ${also.join("; ")}.` : "";
  return `${head}. ${windowSentence(route, window, manner, doubted)}.${rest}`;
}
