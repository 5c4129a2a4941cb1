import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import { inTen, LEAST_CHANCE, tenths } from "../../model/odds/in-ten.ts";
import { type RainDay, WET_DAY_MM } from "../../model/odds/rain-days.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import { rainText } from "../format/words.ts";
import { textWidthPx } from "./reasons.ts";

/** What an amount at the wet end is. */
export const WET_END = "9 in 10 stay under";

/** Chance and amount of rain by local day, YYYY-MM-DD; nothing without odds, or where the weather is past and known. */
export function rainOddsOf({ odds }: Pick<WindowsAnswer, "odds">): ReadonlyMap<string, RainDay> {
  const days = odds === undefined || odds.weather === "known" ? [] : odds.rainDays;
  return new Map(days.map((day) => [day.dateLocal, day]));
}

/** Air between the words of two days, px. */
const AIR_PX = 4;

/** "14 mm", "0.6 in": rounded up, so that as many stay under it. */
function roundedUp(mm: number, { units, locale }: Manner): string {
  const decimals = units === "us" ? 1 : 0;
  const step = 10 ** decimals;
  const shown = Math.ceil(step * toPage(mm, "rain", units)) / step;
  return `${numberText(shown, decimals, { locale })} ${unitName("rain", units)}`;
}

/**
 * "4 in 10, to 14 mm" under a day, the amount being what 9 in 10 stay under; in a narrower column "4 in 10", and "4" where
 * there is room for a number alone: never 0, never 10.
 */
export function rainOddsText(
  { chance, p90Mm }: RainDay,
  roomPx: number,
  alone: boolean,
  manner: Manner,
): string {
  const number = tenths(chance);
  if (alone) return number;
  const amount = `${number} in 10${UP_TO}${roundedUp(p90Mm, manner)}`;
  return mayRain(chance) && textWidthPx(amount) + AIR_PX <= roomPx ? amount : `${number} in 10`;
}

/** ", 4 in 10 for more than 1 mm, 9 in 10 stay under 14 mm". */
export function rainOddsWords({ chance, p90Mm }: RainDay, manner: Manner): string {
  const amount = mayRain(chance) ? `, ${WET_END} ${rainText(p90Mm, manner)}` : "";
  return `, ${inTen(chance)} for more than ${rainText(WET_DAY_MM, manner)}${amount}`;
}

/** What the row of chances is of: "Over 1 mm", or "Chance in 10" where the days have room for numbers alone. */
export function rainOddsTitle(alone: boolean, manner: Manner): string {
  return alone ? "Chance in 10" : `Over ${rainText(WET_DAY_MM, manner)}`;
}

/** Where the amounts of rain come from; of a station's file continued by a forecast the days that have a chance are the forecast's. */
type Source = Pick<WeatherSeries, "origin">;

const isFile = ({ origin }: Source) => origin === "upload" || origin === "archive";

const OF_FORECAST = { wide: "Forecast's rain", narrow: "Forecast" } as const;
const OF_FILE = { wide: "Rain in the file", narrow: "In file" } as const;

/**
 * What the row of amounts is of. Over chances it is the weather's own course and not the most to expect, and says so; in
 * a narrow gutter in fewer words, as the bars beside it are rain.
 */
export function rainTitle(
  overChances: boolean,
  source: Source,
  narrow: boolean,
  alone: boolean,
  manner: Manner,
): string {
  const name = overChances ? (isFile(source) ? OF_FILE : OF_FORECAST)[narrow ? "narrow" : "wide"] : "Rain";
  return alone ? `${name}, ${unitName("rain", manner.units)}` : name;
}

/** What an amount begins with, beside the chance. */
const UP_TO = ", to ";

/** For the key to the board, which explains an amount where a day shows one. */
export function rainOddsKey(source: Source, shown: readonly string[], manner: Manner): string {
  const own = isFile(source) ? "the rain of the file" : "the forecast's own rain";
  return `Along the top: ${own}, and under it the chance of more than ${rainText(WET_DAY_MM, manner)} that day, in 10${shown.some((words) => words.includes(UP_TO)) ? `; "to" is what ${WET_END}` : ""}`;
}

/** Whether a day that is told dry has a chance worth telling. */
export function mayRain(chance: number | undefined): boolean {
  return chance !== undefined && chance >= LEAST_CHANCE;
}
