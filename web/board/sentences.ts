import type {
  CutOptionAnswer,
  RouteAnswer,
  WindowAnswer,
  WindowsAnswer,
} from "../../model/harvest/answer.ts";
import { dayClockText, spanText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { hoursText, ROUTE_LABELS, rainText, sentenceCase } from "../format/words.ts";
import { reasonWordings } from "./reasons.ts";

/** How many different hours of cutting were looked at. */
export function cutTimes(answer: WindowsAnswer): number {
  return new Set(answer.options.flatMap(({ cutUtc }) => (cutUtc === null ? [] : [cutUtc]))).size;
}

/** The route of an option with the lowest rank, null where none has a window. */
export function bestRoute(option: CutOptionAnswer): RouteAnswer | null {
  let best: RouteAnswer | null = null;
  for (const route of option.routes) {
    if (route.rank !== null && (best?.rank == null || route.rank < best.rank)) best = route;
  }
  return best;
}

/** "cut Thursday 09:00" or "leave it standing". */
function cutWords(option: CutOptionAnswer, manner: Manner): string {
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
      ? "No cut time can be offered in this forecast."
      : `None of ${times} cut ${times === 1 ? "time" : "times"} has a window in this forecast.`;
  }
  const span = spanText(window.startUtc, window.endUtc, manner);
  return `${among}: ${cutWords(option, manner)}, ${ROUTE_LABELS[overall.route]} ${span}${window.rainedOn ? ", after rain" : ""}.`;
}

/** "Wrapped bales, Friday 13:00 to 18:00, 5 h to work in, 8 in 10, after rain". */
export function windowSentence(route: RouteAnswer, window: WindowAnswer, manner: Manner): string {
  const parts = [sentenceCase(ROUTE_LABELS[route.route]), spanText(window.startUtc, window.endUtc, manner)];
  parts.push(`${hoursText(window.workHours, manner)} to work in`);
  if (window.chance !== null) parts.push(`${Math.round(window.chance * 10)} in 10`);
  if (window.rainedOn)
    parts.push(route.rainMm.mean > 0 ? `after rain (${rainText(route.rainMm.mean, manner)})` : "after rain");
  return parts.join(", ");
}

/** What a row says when it is heard. */
export function rowSentence(option: CutOptionAnswer, best: boolean, manner: Manner): string {
  const cut = sentenceCase(cutWords(option, manner));
  const route = bestRoute(option);
  const window = route?.windows[0];
  const head = best ? `${cut}, the best` : cut;
  if (!route || !window) return `${head}. ${sentenceCase(reasonWordings(option)[0] ?? "No window")}.`;
  const others = option.routes.filter((other) => other !== route && other.windows.length > 0);
  const also = others.map((other) => {
    const first = other.windows[0];
    return `${ROUTE_LABELS[other.route]} ${first ? spanText(first.startUtc, first.endUtc, manner) : ""}`;
  });
  const rest = also.length > 0 ? ` Also ${also.join("; ")}.` : "";
  return `${head}. ${windowSentence(route, window, manner)}.${rest}`;
}
