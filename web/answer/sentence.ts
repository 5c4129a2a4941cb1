import type { CutOptionAnswer, RouteAnswer, WindowLimit, WindowsAnswer } from "../../model/harvest/index.ts";
import { addDays, HOUR_MS, localDayKey, startOfLocalDay, utcOfLocal } from "../../model/weather/clock.ts";
import { clockText, dayDateText, dayText, type Moment, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { windowTimes } from "../format/window-times.ts";
import { listText, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { chosen, type Selection } from "../state/choice.ts";

/** The answer in words, from the largest type to the smallest. Each part may be empty but the first. */
export interface AnswerSentence {
  readonly headline: string;
  /** What can be brought in, and when. */
  readonly promise: string;
  /** What decides it, and what would change it. */
  readonly why: string;
  /** The best cut of another day; where another row is looked at, the best of all. */
  readonly runnerUp: string;
  /** How far the estimates lie apart, always a range of hours. */
  readonly opinions: string;
}

export interface SentencePlace {
  readonly fieldName: string;
  readonly manner: Manner;
  /** First moment that the answer looks at, UTC: a weekday alone is enough within six days of it. */
  readonly fromUtc: string;
}

const DAYS_BY_NAME_ALONE = 6;
const DAY_MS = 86_400_000;

/** "Thursday", or "Thursday 25 Jun" where the weekday alone would leave two. */
function day(utc: Moment, { manner, fromUtc }: SentencePlace): string {
  const near = utcMs(utc) - utcMs(fromUtc) < DAYS_BY_NAME_ALONE * DAY_MS;
  return near ? dayText(utc, manner) : dayDateText(utc, manner);
}

function dayClock(utc: Moment, place: SentencePlace): string {
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

/** The start of a route's first window as it is told. */
function startOf(route: RouteAnswer): number | null {
  const window = route.windows[0];
  return window ? windowTimes(window).startMs : null;
}

/** "Wrapped bales Friday from 13:00; dry hay not before Sunday, after rain": the first to the hour, later days by name. */
function promiseOf(option: CutOptionAnswer, place: SentencePlace): string {
  const { manner } = place;
  let lastDay = "";
  const parts = inTime(option).flatMap((route) => {
    const startMs = startOf(route);
    if (startMs === null) return [];
    const label = ROUTE_LABELS[route.route];
    const wet = route.windows[0]?.rainedOn ? ", after rain" : "";
    const name = day(startMs, place);
    const when =
      lastDay === ""
        ? `${name} from ${clockText(startMs, manner)}`
        : lastDay === name
          ? `from ${clockText(startMs, manner)}`
          : `not before ${name}`;
    lastDay = name;
    return [`${label} ${when}${wet}`];
  });
  const without = option.routes.filter(({ windows }) => windows.length === 0);
  if (without.length > 0)
    parts.push(`no time for ${without.map(({ route }) => ROUTE_LABELS[route]).join(" or ")}`);
  return `${sentenceCase(parts.join("; "))}.`;
}

/** What keeps a route without a time, and what would give it one: no more than follows from the reason itself. */
const CHANGES: Readonly<Record<WindowLimit, string>> = {
  "standing-too-wet": "More days of standing would change it.",
  rain: "A drier forecast may change it.",
  "air-too-humid": "Drier air may change it.",
  "over-dry": "A faster machine or part of the field may change it.",
  dew: "Wind or a drier night may change it.",
  "soil-too-wet": "Dry days before it may change it.",
  "working-hours": "Longer working hours may change it.",
  "too-few-hours": "A faster machine or part of the field may change it.",
  "slow-drying": "A wider swath or conditioning may change it.",
  "forecast-too-short": "A longer forecast would tell.",
};

const HELP_IS_SAID = /What would change it|work through the night|bale part of the field/;

/** The reason that keeps the next route away or late, and what would change that. */
function whyOf(option: CutOptionAnswer, first: RouteAnswer | null): string {
  const others = inTime(option).filter((route) => route !== first);
  const wet = others.find(({ windows }) => windows[0]?.rainedOn);
  const rain = wet?.why.find(({ code }) => code === "rain-on-swath");
  if (wet && rain) return `${rain.text} Without it ${ROUTE_LABELS[wet.route]} could come sooner.`;
  const without = others.find(({ windows, why }) => windows.length === 0 && why.length > 0);
  if (without) {
    const text = without.why[0]?.text ?? "";
    // The model's own reason may already say what would help.
    const change =
      without.limitedBy === null || HELP_IS_SAID.test(text) ? "" : ` ${CHANGES[without.limitedBy]}`;
    return `${sentenceCase(ROUTE_LABELS[without.route])}: ${text}${change}`;
  }
  const told = first?.why.find(({ code }) => !["window", "estimates", "caution"].includes(code));
  return told?.text ?? "No rain reaches the swath before these times. Rain before them would change it.";
}

/** "dry hay 54 to 71 h": rounded outward, so that the range is never told narrower than it is. */
function opinionOf(
  { route, opinionHours: { earliest, latest } }: RouteAnswer,
  manner: Manner,
): string | null {
  if (earliest === null) return null;
  const whole = (hours: number) => numberText(hours, 0, manner);
  const label = ROUTE_LABELS[route];
  if (latest === null)
    return `${label} ${whole(Math.floor(earliest))} h or more (not every estimate within this weather)`;
  return `${label} ${whole(Math.floor(earliest))} to ${whole(Math.ceil(latest))} h`;
}

function opinionsOf(option: CutOptionAnswer, { manner }: SentencePlace): string {
  if (option.kind !== "swath") return "";
  const parts = inTime(option).flatMap((route) => opinionOf(route, manner) ?? []);
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
      headline: `Leave ${place.fieldName} standing. Next look ${dayClock(nextLookMs(answer, place), place)}.`,
      promise: "No cut in this weather leaves a time for any of the routes.",
      why: reasonsOf(answer, choice?.option ?? null),
      runnerUp: "",
      opinions: choice ? opinionsOf(choice.option, place) : "",
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
    runnerUp: isBest ? runnerUpOf(answer, option, place) : bestInWords(answer, place),
    opinions: opinionsOf(option, place),
  };
}

function headlineOf({ cutUtc }: CutOptionAnswer, isBest: boolean, place: SentencePlace): string {
  if (cutUtc === null)
    return isBest ? `Take ${place.fieldName} standing.` : `If ${place.fieldName} is taken standing:`;
  return isBest
    ? `Cut ${place.fieldName} ${dayClock(cutUtc, place)}.`
    : `If ${place.fieldName} is cut ${dayClock(cutUtc, place)}:`;
}

/** "cut Sunday 17:00, wilted chop Monday from 10:55". */
function cutInWords(option: CutOptionAnswer, route: RouteAnswer, place: SentencePlace): string {
  const cut = option.cutUtc === null ? "leave it standing" : `cut ${dayClock(option.cutUtc, place)}`;
  const startMs = startOf(route);
  if (startMs === null) return cut;
  const wet = route.windows[0]?.rainedOn ? ", after rain" : "";
  const from = `${day(startMs, place)} from ${clockText(startMs, place.manner)}`;
  return `${cut}, ${ROUTE_LABELS[route.route]} ${from}${wet}`;
}

/** The pair of best rank whose cut is on another day than the best: another hour of the same day is no other plan. */
function runnerUpOf(answer: WindowsAnswer, best: CutOptionAnswer, place: SentencePlace): string {
  const { zone } = place.manner;
  const dayOf = ({ cutUtc }: CutOptionAnswer) => cutUtc && localDayKey(utcMs(cutUtc), zone);
  const [next] = answer.options
    .filter((option) => option.id !== best.id && dayOf(option) !== dayOf(best))
    .flatMap((option) => option.routes.map((route) => ({ option, route, rank: route.rank })))
    .filter(({ rank }) => rank !== null)
    .sort((a, b) => (a.rank ?? 0) - (b.rank ?? 0));
  return next ? `Runner-up: ${cutInWords(next.option, next.route, place)}.` : "";
}

/** Said where another row is looked at. */
function bestInWords(answer: WindowsAnswer, place: SentencePlace): string {
  const pair = answer.best.overall;
  const option = answer.options.find(({ id }) => id === pair?.optionId);
  const route = option?.routes.find((each) => each.route === pair?.route);
  return option && route ? `Best: ${cutInWords(option, route, place)}.` : "";
}

const FIRST_LOOK_H = 9;

/** When to look again: the first cut hour of the next day, or 9 in the morning where none is offered. */
function nextLookMs(answer: WindowsAnswer, { manner: { zone }, fromUtc }: SentencePlace): number {
  const fromMs = utcMs(fromUtc);
  const today = localDayKey(fromMs, zone);
  const tomorrow = startOfLocalDay(zone, addDays(today, 1));
  const cuts = answer.options.flatMap(({ cutUtc }) => (cutUtc === null ? [] : [utcMs(cutUtc)]));
  const next = cuts.filter((ms) => ms >= tomorrow).sort((a, b) => a - b)[0];
  if (next !== undefined) return next;
  const morning = utcOfLocal(zone, localDayKey(tomorrow, zone), FIRST_LOOK_H);
  return morning.kind === "one" ? morning.utcMs : tomorrow + FIRST_LOOK_H * HOUR_MS;
}
