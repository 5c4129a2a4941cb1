import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import { inTen } from "../../model/odds/cost-loss.ts";
import { WET_DAY_MM } from "../../model/odds/rain-days.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import { rainText } from "../format/words.ts";
import { chanceText } from "./vessels.ts";

/** Below this a chance in ten is told as under one: forecasts are never that sure, 0-1. */
const LEAST = 0.05;

/** Chance of rain by local day, YYYY-MM-DD; nothing without odds, or where the weather is past and known. */
export function rainOddsOf({ odds }: Pick<WindowsAnswer, "odds">): ReadonlyMap<string, number> {
  const days = odds === undefined || odds.weather === "known" ? [] : odds.rainDays;
  return new Map(days.map(({ dateLocal, chance }) => [dateLocal, chance]));
}

/** "4 in 10" under a day, or "4" where its column has room for a number alone: never 0, never 10. */
export function rainOddsText(chance: number, alone: boolean): string {
  const number = chance < LEAST ? "<1" : (chanceText(chance) ?? "");
  return alone ? number : `${number} in 10`;
}

/** ", 4 in 10 for more than 1 mm". */
export function rainOddsWords(chance: number, manner: Manner): string {
  const told = inTen(Math.min(1 - LEAST, Math.max(LEAST / 2, chance)));
  return `, ${told} for more than ${rainText(WET_DAY_MM, manner)}`;
}

/** What the row of chances is of: "Over 1 mm", or "Chance in 10" where the days have room for numbers alone. */
export function rainOddsTitle(alone: boolean, manner: Manner): string {
  return alone ? "Chance in 10" : `Over ${rainText(WET_DAY_MM, manner)}`;
}

/**
 * What the row of amounts is of. Over chances it is the forecast's middle and not the most to expect, and says so; in a
 * narrow gutter in one word, as the bars beside it are rain.
 */
export function rainTitle(overChances: boolean, narrow: boolean, alone: boolean, manner: Manner): string {
  const name = overChances ? (narrow ? "Forecast" : "Forecast's rain") : "Rain";
  return alone ? `${name}, ${unitName("rain", manner.units)}` : name;
}

/** For the key to the board. */
export function rainOddsKey(manner: Manner): string {
  return `Along the top: the forecast's own rain, and under it the chance of more than ${rainText(WET_DAY_MM, manner)} that day, in 10`;
}

/** Whether a day that is told dry has a chance worth telling. */
export function mayRain(chance: number | undefined): boolean {
  return chance !== undefined && chance >= LEAST;
}
