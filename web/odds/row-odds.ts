import type { CutOptionAnswer, RouteAnswer } from "../../model/harvest/answer.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { WET_END } from "../board/rain-odds.ts";
import { unplannedOf, unplannedText } from "../board/unplanned.ts";
import { toldMs } from "../course/told-ms.ts";
import { shortDayClockText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage } from "../format/units.ts";
import { listText, ROUTE_LABELS, rainText, sentenceCase } from "../format/words.ts";
import { moneyText } from "../routes/money-words.ts";

/** A line of the odds of one pair: what it is of, and what is told. */
export interface OddsLineOf {
  readonly of: string;
  readonly told: string;
}

/** "1 in 10 by Fri 10:00 (46 h), half by Sat 14:00 (74 h); 1 in 10 never within this weather." */
function whenTold({ elapsedHours, neverShare }: RouteAnswer, fromMs: number, manner: Manner): string {
  const { p10, p50, p90 } = elapsedHours;
  const parts = (
    [
      ["1 in 10", p10],
      ["half", p50],
      ["9 in 10", p90],
    ] as const
  ).flatMap(([share, hours]) =>
    hours === null
      ? []
      : [
          `${share} by ${shortDayClockText(toldMs(fromMs + hours * HOUR_MS), manner)} (${numberText(hours, 0, manner)} h)`,
        ],
  );
  const never = neverShare ?? 0;
  const rest = never === 0 ? "" : `${inTen(never)} never within this weather`;
  return `${[parts.join(", "), rest].filter((part) => part !== "").join("; ")}.`;
}

/** Until when the rain on a swath is counted: where nothing comes of it the swath lies on. */
function rainOf({ neverShare }: RouteAnswer): string {
  if (neverShare === 1) return "Rain on the swath to the end of the weather";
  return `Rain on the swath until then${(neverShare ?? 0) > 0 ? ", or to the end of the weather" : ""}`;
}

/**
 * The chances of rain by amount, those that are told alike in one: "2 in 10 over 5 mm and over 10 mm". Of the amounts that
 * are under 1 in 10 the least says it of all, of those that are over 9 in 10 the most.
 */
function rainSteps({ odds }: RouteAnswer, manner: Manner): string[] {
  const alike = new Map<string, string[]>();
  for (const { aboveMm, chance } of odds?.rainChances ?? []) {
    const said = inTen(chance);
    alike.set(said, [...(alike.get(said) ?? []), `over ${rainText(aboveMm, manner)}`]);
  }
  return [...alike].map(([said, amounts]) => {
    const told = said === inTen(0) ? amounts.slice(0, 1) : said === inTen(1) ? amounts.slice(-1) : amounts;
    return `${said} ${listText(told)}`;
  });
}

/** "6 in 10 over 1 mm, 2 in 10 over 5 mm, under 1 in 10 over 10 mm; 9 in 10 stay under 6 mm." */
function rainTold(route: RouteAnswer, manner: Manner): string {
  const { p90 } = route.rainMm;
  const amount =
    p90 === null ? "" : p90 === 0 ? "; 9 in 10 stay dry" : `; ${WET_END} ${rainText(p90, manner)}`;
  return `${rainSteps(route, manner).join(", ")}${amount}.`;
}

/** "127 a hectare on average; half of the courses below -30, 1 in 10 below -210, 1 in 10 above 460." */
function valueTold({ valuePerHa, odds }: RouteAnswer, currency: string, manner: Manner): string {
  const { p10, p50, p90 } = odds?.valuePerHa ?? { p10: null, p50: null, p90: null };
  if (valuePerHa === null || p10 === null || p50 === null || p90 === null) return "";
  const money = (perHa: number) => moneyText(toPage(perHa, "perHa", manner.units), currency, manner);
  const area = manner.units === "metric" ? "a hectare" : "an acre";
  return `${money(valuePerHa)} ${area} on average; half of the courses below ${money(p50)}, 1 in 10 below ${money(p10)}, 1 in 10 above ${money(p90)}.`;
}

/**
 * What the draws say of one cut and route: when it can be brought in, the rain that it lies in until then, and what it is
 * worth; nothing without odds.
 *
 * @param fromMs from which its hours are counted, UTC ms
 */
export function rowOdds(
  route: RouteAnswer,
  standing: boolean,
  fromMs: number,
  currency: string,
  manner: Manner,
): readonly OddsLineOf[] {
  if (route.odds === undefined) return [];
  const name = ROUTE_LABELS[route.route];
  const lines = [
    { of: `${sentenceCase(name)} can begin`, told: whenTold(route, fromMs, manner) },
    ...(standing ? [] : [{ of: rainOf(route), told: rainTold(route, manner) }]),
    { of: "Worth", told: valueTold(route, currency, manner) },
  ];
  return lines.filter(({ told }) => told !== "");
}

/**
 * The routes of a cut without a window in the main forecast that may come in all the same, each with what it is worth
 * over all courses; of the chosen one that stands in a line of its own.
 */
export function unplannedOdds(
  option: CutOptionAnswer,
  chosen: RouteAnswer,
  currency: string,
  manner: Manner,
): readonly OddsLineOf[] {
  return unplannedOf(option).map(({ route, chance }) => {
    const worth = route === chosen ? "" : valueTold(route, currency, manner);
    const told = `${unplannedText(chance)}.${worth === "" ? "" : ` Worth ${worth}`}`;
    return { of: sentenceCase(ROUTE_LABELS[route.route]), told };
  });
}
