import { choiceText } from "../../model/harvest/choice-text.ts";
import { waitList } from "../../model/harvest/hazards/hazard-words.ts";
import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../model/harvest/index.ts";
import { chancePercent, inTen } from "../../model/odds/in-ten.ts";
import { addDays, HOUR_MS, localDayKey, startOfLocalDay, utcOfLocal } from "../../model/weather/clock.ts";
import { unplannedOf, unplannedText } from "../board/unplanned.ts";
import { clockText, dayClockText, dayText, fullText, type Moment, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText, yearSaid } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import { windowTimes } from "../format/window-times.ts";
import { listText, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { moneyText } from "../routes/money-words.ts";
import { chosen, type Selection } from "../state/choice.ts";
import { inTime, reasonsOf, whyOf } from "./why.ts";

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
  /** First moment that the answer looks at, UTC. */
  readonly fromUtc: string;
  /** The weather lies behind: told as what would have been. */
  readonly past?: boolean;
  /** What the prices are in; absent or empty = no currency is named. */
  readonly currency?: string;
  /** No hour of the weather has any rain value. */
  readonly noRain?: boolean;
}

/** The same place in whose further sentences the year of the headline holds. */
function inThatYear(place: SentencePlace): SentencePlace {
  return { ...place, manner: yearSaid(place.manner) };
}

function dayClock(utc: Moment, { manner }: SentencePlace): string {
  return dayClockText(utc, manner);
}

/** The start of a route's first window as it is told. */
function startOf(route: RouteAnswer): number | null {
  const window = route.windows[0];
  return window ? windowTimes(window).startMs : null;
}

/** ", 7 in 10 for that window": the chance of a route's first window, as its vessel has it; nothing while it is not known. */
function chanceOf({ windows: [first] }: RouteAnswer, of = " for that window"): string {
  return first?.chance == null ? "" : `, ${inTen(first.chance)}${of}`;
}

/** "Wrapped bales Friday from 13:00, 7 in 10 for that window; dry hay not before Sunday, after rain, 3 in 10": the first to the hour, later days by name. */
function promiseOf(option: CutOptionAnswer, place: SentencePlace): string {
  const { manner } = place;
  let lastDay = "";
  const parts = inTime(option).flatMap((route) => {
    const startMs = startOf(route);
    if (startMs === null) return [];
    const label = ROUTE_LABELS[route.route];
    const wet = route.windows[0]?.rainedOn ? ", after rain" : "";
    const name = dayText(startMs, manner);
    const when =
      lastDay === ""
        ? `${name} from ${clockText(startMs, manner)}`
        : lastDay === name
          ? `from ${clockText(startMs, manner)}`
          : `not before ${name}`;
    // Of what the chances are is said once.
    const chance = lastDay === "" ? chanceOf(route) : chanceOf(route, "");
    lastDay = name;
    return [`${label} ${when}${wet}${chance}`];
  });
  const likely = place.past ? [] : unplannedOf(option);
  const without = option.routes.filter(
    (route) => route.windows.length === 0 && !likely.some((one) => one.route === route),
  );
  for (const { route, chance } of likely)
    parts.push(
      `no time for ${ROUTE_LABELS[route.route]} in the main forecast, ${inTen(chance)} of its courses`,
    );
  if (without.length > 0)
    parts.push(`no time for ${without.map(({ route }) => ROUTE_LABELS[route]).join(" or ")}`);
  const told = parts.join("; ");
  return place.past ? `It would have given ${told}.` : `${sentenceCase(told)}.`;
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

function opinionsOf(option: CutOptionAnswer, { manner, fromUtc }: SentencePlace): string {
  if (option.kind !== "swath") return "";
  // Of a cut that lies, what was estimated for a time that is past says nothing any more.
  const goneH =
    option.made && option.courseCutUtc !== null
      ? (utcMs(fromUtc) - utcMs(option.courseCutUtc)) / HOUR_MS
      : Number.NEGATIVE_INFINITY;
  const ahead = inTime(option).filter(({ opinionHours: { earliest } }) => (earliest ?? goneH) >= goneH);
  const parts = ahead.flatMap((route) => opinionOf(route, manner) ?? []);
  if (parts.length === 0) return "";
  return `Dry enough for ${listText(parts)} after cutting, by the model and two published methods.`;
}

/** The answer as the farmer hears it: which day to cut, what can be brought in when, and why. */
export function toAnswerSentence(
  answer: WindowsAnswer,
  selection: Selection | null,
  place: SentencePlace,
): AnswerSentence {
  const choice = chosen(answer, selection);
  const best = answer.best.overall;
  const dry = place.noRain ? `${NO_RAIN} ` : "";
  if (best === null && !choice?.option.made) {
    return {
      headline: place.past
        ? `${sentenceCase(place.fieldName)} would have been left standing.`
        : `Leave ${place.fieldName} standing. Next look ${dayClock(nextLookMs(answer, place), place)}.`,
      promise: place.past
        ? "No cut in this weather left a time for any of the routes."
        : "No cut in this weather leaves a time for any of the routes.",
      why: `${dry}${reasonsOf(answer, choice?.option ?? null)}`,
      runnerUp: "",
      opinions: choice ? opinionsOf(choice.option, place) : "",
    };
  }
  if (choice === null) throw new RangeError("toAnswerSentence: answer.best must be one of its options");
  const { option, route } = choice;
  const isBest = option.id === best?.optionId;
  const none = option.routes.every(({ windows }) => windows.length === 0);
  const then = inThatYear(place);
  const why = none ? reasonsOf(answer, option) : whyOf(option, route, then);
  const wait = isBest && waitsByCosts(answer, place);
  return {
    headline: wait ? `By your costs: wait with ${place.fieldName}.` : headlineOf(option, isBest, place),
    promise: `${wait ? `${bestCutOf(option, then)} ` : ""}${none ? noTimeOf(option, then) : promiseOf(option, then)}`,
    why: `${waitOf(answer, route ? [route] : option.routes, option.kind === "swath" ? "This cut" : "It", then)} ${dry}${why}`.trim(),
    runnerUp: isBest ? runnerUpOf(answer, option, then) : bestInWords(answer, then),
    opinions: opinionsOf(option, place),
  };
}

/** Whether what waiting and rain cost says not to take the first place: its own rule, and nothing that lies or is past. */
function waitsByCosts({ best: { overall }, odds }: WindowsAnswer, { past }: SentencePlace): boolean {
  if (past) return false;
  const rule = odds?.cutRules.find(
    ({ route, optionId }) => route === overall?.route && optionId === overall.optionId,
  );
  return rule?.cut === false;
}

/** Said where the headline does not name the cut. */
function bestCutOf({ cutUtc }: CutOptionAnswer, place: SentencePlace): string {
  return cutUtc === null ? "Best: taken standing." : `Best cut: ${dayClock(cutUtc, place)}.`;
}

/** "It lies in a wait: nitrate after rain on a dry crop, until Sunday 28 Jun 21:00."; "" where it lies in none. */
function waitOf(
  answer: WindowsAnswer,
  routes: readonly RouteAnswer[],
  what: "This cut" | "It",
  place: SentencePlace,
): string {
  const waits = waitList(
    routes.flatMap(({ hazards }) => hazards),
    answer.usableUntilUtc,
    (untilUtc) => fullText(untilUtc, place.manner),
  );
  if (waits === "") return "";
  return `${what} ${place.past ? "would have lain" : "lies"} in a wait: ${waits}.`;
}

/** Said of weather without any rain value, before all reasons: every time below rests on it. */
const NO_RAIN = "Rain is not in this weather and is taken as dry; any rain would change these times.";

function headlineOf({ cutUtc, made }: CutOptionAnswer, isBest: boolean, place: SentencePlace): string {
  if (made && cutUtc !== null)
    return `${sentenceCase(place.fieldName)} lies since ${dayClock(cutUtc, place)}:`;
  if (place.past) {
    const name = sentenceCase(place.fieldName);
    if (cutUtc === null)
      return isBest
        ? `${name} would have been taken standing.`
        : `If ${place.fieldName} had been taken standing:`;
    return isBest
      ? `${name} would have been cut ${dayClock(cutUtc, place)}.`
      : `If ${place.fieldName} had been cut ${dayClock(cutUtc, place)}:`;
  }
  if (cutUtc === null)
    return isBest ? `Take ${place.fieldName} standing.` : `If ${place.fieldName} is taken standing:`;
  return isBest
    ? `Cut ${place.fieldName} ${dayClock(cutUtc, place)}.`
    : `If ${place.fieldName} is cut ${dayClock(cutUtc, place)}:`;
}

function noTimeOf(option: CutOptionAnswer, { past }: SentencePlace): string {
  const { kind } = option;
  if (past) return kind === "standing" ? "It had no time." : "No route had a time from this cut.";
  const [likely] = unplannedOf(option);
  if (likely) return `${sentenceCase(ROUTE_LABELS[likely.route.route])}: ${unplannedText(likely.chance)}.`;
  return kind === "standing" ? "It has no time in this weather." : "No route has a time from this cut.";
}

/** "cut Sunday 17:00, wilted chop Monday from 10:55". */
function cutInWords(
  option: CutOptionAnswer,
  route: RouteAnswer,
  place: SentencePlace,
  chance = chanceOf(route),
): string {
  const cut = option.cutUtc === null ? "leave it standing" : `cut ${dayClock(option.cutUtc, place)}`;
  const startMs = startOf(route);
  if (startMs === null) return cut;
  const wet = route.windows[0]?.rainedOn ? ", after rain" : "";
  const from = `${dayText(startMs, place.manner)} from ${clockText(startMs, place.manner)}`;
  return `${cut}, ${ROUTE_LABELS[route.route]} ${from}${wet}${chance}`;
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
  if (!next) return "";
  const told = `Runner-up: ${cutInWords(next.option, next.route, place)}.`;
  return `${told} ${waitOf(answer, [next.route], "It", place)}`.trim();
}

/** Said where another row is looked at. */
function bestInWords(answer: WindowsAnswer, place: SentencePlace): string {
  const pair = answer.best.overall;
  const option = answer.options.find(({ id }) => id === pair?.optionId);
  const route = option?.routes.find((each) => each.route === pair?.route);
  if (!option || !route) return "";
  return `Best: ${cutInWords(option, route, place)}. ${waitOf(answer, [route], "It", place)}`.trim();
}

/** The choice in the page's units and clock, the runner-up with its window and its chance; empty without odds. */
export function toChoiceSentence(answer: WindowsAnswer, place: SentencePlace): string {
  const { odds } = answer;
  if (!odds?.first || !odds.runnerUp) return "";
  const { first, runnerUp, lead, turnsAtChance } = odds;
  const option = answer.options.find(({ id }) => id === runnerUp.optionId);
  const route = option?.routes.find((each) => each.route === runnerUp.route);
  if (!option || !route) return "";
  const { currency = "", manner } = place;
  const { units } = manner;
  return choiceText(
    { first, runnerUp, lead, turnsAtChance },
    {
      cut: cutInWords(option, route, place),
      wait: waitOf(answer, [route], "It", inThatYear(place)),
      route: ROUTE_LABELS[first.route],
      money: (perHa) => moneyText(toPage(perHa, "perHa", units), currency, manner),
      area: unitName("perHa", units),
      // Where a choice turns is finer than tenths can tell.
      percent: chancePercent,
    },
  );
}

const FIRST_LOOK_H = 9;

/** When to look again: the first cut hour of the next day, or 9 in the morning where none is offered. */
function nextLookMs(answer: WindowsAnswer, { manner: { zone }, fromUtc }: SentencePlace): number {
  const fromMs = utcMs(fromUtc);
  const today = localDayKey(fromMs, zone);
  const tomorrow = startOfLocalDay(zone, addDays(today, 1));
  const cuts = answer.options.flatMap(({ cutUtc, made }) => (cutUtc === null || made ? [] : [utcMs(cutUtc)]));
  const next = cuts.filter((ms) => ms >= tomorrow).sort((a, b) => a - b)[0];
  if (next !== undefined) return next;
  const morning = utcOfLocal(zone, localDayKey(tomorrow, zone), FIRST_LOOK_H);
  return morning.kind === "one" ? morning.utcMs : tomorrow + FIRST_LOOK_H * HOUR_MS;
}
