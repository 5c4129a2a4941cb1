import type { Limit } from "../../model/limits.ts";
import { within } from "../../model/limits.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { fromPage, type Quantity, toPage, unitName } from "../format/units.ts";
import { limitOnPage } from "../state/field-limits.ts";
import type { Typed } from "../state/inputs.ts";
import { gotNumber, limitWords, notANumber, readNumber } from "../state/numbers.ts";

/** What came of a typed number: its value in the unit of the model, or what is wrong with it; both null where it is empty. */
export interface OwnNumber {
  readonly value: number | null;
  readonly error: string | undefined;
}

type Speech = Pick<Manner, "units" | "locale">;

/** A percentage of a limit that the model keeps as a fraction. */
export function pctLimit({ min, max }: Limit): Limit {
  return { min: min * 100, max: max * 100, unit: "%" };
}

/** Reads a number that may stay empty, and says what is wrong in the units that its reader sees. */
export function readOwn(typed: Typed, quantity: Quantity | null, limit: Limit, speech: Speech): OwnNumber {
  if (typed.text.trim() === "") return { value: null, error: undefined };
  const page = readNumber(typed.text, typed.marks);
  if (page === null) return { value: null, error: notANumber(typed.text, typed.marks) };
  const value = quantity === null ? page : fromPage(page, quantity, typed.units);
  if (within(value, limit)) return { value, error: undefined };
  const { units, locale } = speech;
  const shown = quantity === null || units === typed.units ? page : toPage(value, quantity, units);
  const words = limitWords(limitOnPage(limit, quantity, units), locale);
  return { value: null, error: `Got ${gotNumber(shown, locale)}, ${words}.` };
}

/** A difference of temperatures: the offset of the scale is no part of it. */
export function degreesText(differenceC: number, manner: Speech, decimals = 0): string {
  const { units } = manner;
  const shown = toPage(differenceC, "temperature", units) - toPage(0, "temperature", units);
  return `${numberText(shown, decimals, manner)} ${unitName("temperature", units)}`;
}

/** "a point", "3 points", "1.1 points" of moisture. */
export function pointsText(points: number, decimals: number, numbers: Pick<Manner, "locale">): string {
  const shown = numberText(points, decimals, numbers);
  return shown === "1" ? "a point" : `${shown} points`;
}

/** A sentence of the model with the decimal mark of the reader: "0,5 %". */
export function inLocale(text: string, { locale }: Pick<Manner, "locale">): string {
  return text.replace(/(\d)\.(\d)/g, (_all, a: string, b: string) =>
    numberText(Number(`${a}.${b}`), 1, { locale }),
  );
}
