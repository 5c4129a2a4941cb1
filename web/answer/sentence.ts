import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../model/harvest/index.ts";
import { clockText, dayClockText, dayDateText, dayText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { chosen, type Selection } from "../state/choice.ts";

/** The answer in words, from the largest type to the smallest. Each part may be empty but the first. */
export interface AnswerSentence {
  readonly headline: string;
  /** What can be brought in, and when. */
  readonly promise: string;
  /** What decides it. */
  readonly why: string;
  /** How far the estimates lie apart, always a range of hours. */
  readonly opinions: string;
}

export interface SentencePlace {
  readonly fieldName: string;
  readonly manner: Manner;
  /** First moment of the weather, UTC: a weekday alone is enough within six days of it. */
  readonly fromUtc: string;
}

const DAYS_BY_NAME_ALONE = 6;
const DAY_MS = 86_400_000;

/** "Thursday", or "Thursday 25 Jun" where the weekday alone would leave two. */
function day(utc: string, { manner, fromUtc }: SentencePlace): string {
  const near = utcMs(utc) - utcMs(fromUtc) < DAYS_BY_NAME_ALONE * DAY_MS;
  return near ? dayText(utc, manner) : dayDateText(utc, manner);
}

function dayClock(utc: string, place: SentencePlace): string {
  return `${day(utc, place)} ${clockText(utc, place.manner)}`;
}

function firstStart(route: RouteAnswer): number {
  const window = route.windows[0];
  return window ? utcMs(window.startUtc) : Number.POSITIVE_INFINITY;
}

/** The routes in the order in which their time comes; those without one last. */
function inTime(option: CutOptionAnswer): RouteAnswer[] {
  return [...option.routes].sort((a, b) => {
    const [first, second] = [firstStart(a), firstStart(b)];
    return first === second ? 0 : first - second;
  });
}

function promiseOf(option: CutOptionAnswer, place: SentencePlace): string {
  const parts = inTime(option).flatMap((route, i) => {
    const window = route.windows[0];
    if (!window) return [];
    const label = ROUTE_LABELS[route.route];
    const wet = window.rainedOn ? ", after rain" : "";
    const when =
      i === 0
        ? `${day(window.startUtc, place)} from ${clockText(window.startUtc, place.manner)}`
        : `not before ${dayClock(window.startUtc, place)}`;
    return [`${label} ${when}${wet}`];
  });
  const without = option.routes.filter(({ windows }) => windows.length === 0);
  if (without.length > 0)
    parts.push(`no time for ${without.map(({ route }) => ROUTE_LABELS[route]).join(" or ")}`);
  return `${sentenceCase(parts.join("; "))}.`;
}

/** The reason that keeps the next route away or late: the rain that falls on it, or what leaves it without a time. */
function whyOf(option: CutOptionAnswer, first: RouteAnswer | null): string {
  const others = inTime(option).filter((route) => route !== first);
  const wet = others.find(({ windows }) => windows[0]?.rainedOn);
  const rain = wet?.why.find(({ code }) => code === "rain-on-swath");
  if (rain) return rain.text;
  const without = others.find(({ windows, why }) => windows.length === 0 && why.length > 0);
  if (without) return `${sentenceCase(ROUTE_LABELS[without.route])}: ${without.why[0]?.text ?? ""}`;
  const told = first?.why.find(({ code }) => code !== "window" && code !== "estimates");
  return told?.text ?? "No rain reaches the swath before these times.";
}

/** "dry hay 54 to 71 h": rounded outward, so that the range is never told narrower than it is. */
function opinionOf({ route, opinionHours: { earliest, latest } }: RouteAnswer): string | null {
  if (earliest === null) return null;
  const label = ROUTE_LABELS[route];
  if (latest === null)
    return `${label} ${Math.floor(earliest)} h or more (not every estimate within this weather)`;
  return `${label} ${Math.floor(earliest)} to ${Math.ceil(latest)} h`;
}

function opinionsOf(option: CutOptionAnswer): string {
  if (option.kind !== "swath") return "";
  const parts = inTime(option).flatMap((route) => opinionOf(route) ?? []);
  if (parts.length === 0) return "";
  return `Dry enough for ${listText(parts)} after cutting, by the model and two published methods.`;
}

/** Why nothing has a time: the reasons of the row that was looked at, else the warnings of the board. */
function reasonsOf(answer: WindowsAnswer, option: CutOptionAnswer | null): string {
  if (option === null) return answer.warnings[0] ?? "There is no cut to offer in this weather.";
  return option.routes
    .flatMap(({ route, why }) => (why[0] ? [`${sentenceCase(ROUTE_LABELS[route])}: ${why[0].text}`] : []))
    .join(" ");
}

/** The answer as the farmer hears it: which day to cut, what can be brought in when, and why. */
export function toAnswerSentence(
  answer: WindowsAnswer,
  selection: Selection | null,
  place: SentencePlace,
): AnswerSentence {
  const choice = chosen(answer, selection);
  const best = answer.best.overall;
  if (best === null) {
    return {
      headline: `Leave ${place.fieldName} standing.`,
      promise: "No cut in this weather leaves a time for any of the routes.",
      why: reasonsOf(answer, choice?.option ?? null),
      opinions: choice ? opinionsOf(choice.option) : "",
    };
  }
  if (choice === null) throw new RangeError("toAnswerSentence: answer.best must be one of its options");
  const { option, route } = choice;
  const isBest = option.id === best.optionId;
  const none = option.routes.every(({ windows }) => windows.length === 0);
  return {
    headline: headlineOf(option, isBest, place),
    promise: none ? "No route has a time from this cut." : promiseOf(option, place),
    why: none ? reasonsOf(answer, option) : whyOf(option, route),
    opinions: opinionsOf(option),
  };
}

function headlineOf({ cutUtc }: CutOptionAnswer, isBest: boolean, place: SentencePlace): string {
  if (cutUtc === null)
    return isBest ? `Take ${place.fieldName} standing.` : `If ${place.fieldName} is taken standing:`;
  return isBest
    ? `Cut ${place.fieldName} ${dayClock(cutUtc, place)}.`
    : `If ${place.fieldName} is cut ${dayClock(cutUtc, place)}:`;
}

/** Said beside a row that is not the best: which one is. */
export function bestInWords(answer: WindowsAnswer, { manner }: SentencePlace): string | null {
  const option = answer.options.find(({ id }) => id === answer.best.overall?.optionId);
  if (!option) return null;
  return option.cutUtc === null ? "Best: taken standing" : `Best: cut ${dayClockText(option.cutUtc, manner)}`;
}
