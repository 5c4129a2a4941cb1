import type { CutOptionAnswer, RouteAnswer, WindowLimit, WindowsAnswer } from "../../model/harvest/index.ts";
import { utcMs } from "../format/farm-time.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";

/** What decides an answer, and what would change it, in a line. */

function firstStart(route: RouteAnswer): number {
  const window = route.windows[0];
  return window ? utcMs(window.startUtc) : Number.POSITIVE_INFINITY;
}

/** The routes in the order in which their time comes; those without one last. */
export function inTime(option: CutOptionAnswer): RouteAnswer[] {
  return [...option.routes].sort((a, b) => {
    const [first, second] = [firstStart(a), firstStart(b)];
    return first === second ? 0 : first - second;
  });
}

/** What keeps a route without a time, and what would give it one: no more than follows from the reason itself. */
const CHANGES: Readonly<Record<WindowLimit, string>> = {
  "standing-too-wet": "More days of standing would change it.",
  rain: "Drier weather may change it.",
  "air-too-humid": "Drier air may change it.",
  "over-dry": "A faster machine or part of the field may change it.",
  dew: "Wind or a drier night may change it.",
  "soil-too-wet": "Dry days before it may change it.",
  "working-hours": "Longer working hours may change it.",
  "too-few-hours": "A faster machine or part of the field may change it.",
  "slow-drying": "A wider swath or conditioning may change it.",
  "forecast-too-short": "Weather that reaches farther would tell.",
};

/** Told elsewhere: the window itself, how far the estimates lie apart, and what stands among the cautions. */
const TOLD_ELSEWHERE: readonly string[] = ["window", "estimates", "caution"];

function reasonOf({ why }: RouteAnswer): string | null {
  return why.find(({ code }) => !TOLD_ELSEWHERE.includes(code))?.text ?? null;
}

/** The board's line and its table have the whole of a long reason. */
function firstSentence(text: string): string {
  return /^.*?\.(?=\s|$)/.exec(text)?.[0] ?? text;
}

/** Longest reason that still reads as one line of an answer, characters. */
const SHORT_REASON = 150;

/** What the weather was like: behind nothing can be changed, and without rain values none is told of. */
export interface WhyPlace {
  readonly past?: boolean;
  readonly noRain?: boolean;
}

/** A route without a time: its reason, and what may change it. */
function withoutTime(route: RouteAnswer, { past }: WhyPlace): string | null {
  const text = reasonOf(route);
  if (text === null) return null;
  const change = route.limitedBy === null || past ? "" : ` ${CHANGES[route.limitedBy]}`;
  const short = text.length <= SHORT_REASON ? text : firstSentence(text);
  return `${sentenceCase(ROUTE_LABELS[route.route])}: ${short}${change}`;
}

/** The reason that keeps the next route away or late, and what would change that. */
export function whyOf(option: CutOptionAnswer, first: RouteAnswer | null, place: WhyPlace = {}): string {
  const others = inTime(option).filter((route) => route !== first);
  const wet = others.find(({ windows }) => windows[0]?.rainedOn);
  const rain = wet?.why.find(({ code }) => code === "rain-on-swath");
  if (wet && rain) return `${rain.text} Without it ${ROUTE_LABELS[wet.route]} could come sooner.`;
  const missed = others.find(({ windows, why }) => windows.length === 0 && why.length > 0);
  const told = (missed && withoutTime(missed, place)) ?? (first && reasonOf(first));
  if (told) return told;
  if (option.kind === "standing")
    return place.past
      ? "Nothing lay in a swath."
      : "Nothing lies in a swath. Wet ground or rain at that hour would change it.";
  if (place.noRain) return "";
  return place.past
    ? "No rain reached the swath before these times."
    : "No rain reaches the swath before these times. Rain before them would change it.";
}

/** Why nothing has a time: the reasons of the row that was looked at, else the warnings of the board. */
export function reasonsOf(answer: WindowsAnswer, option: CutOptionAnswer | null): string {
  if (option === null) return answer.warnings[0] ?? "There is no cut to offer in this weather.";
  return option.routes
    .flatMap((route) => {
      const text = reasonOf(route);
      return text === null ? [] : [`${sentenceCase(ROUTE_LABELS[route.route])}: ${firstSentence(text)}`];
    })
    .join(" ");
}
