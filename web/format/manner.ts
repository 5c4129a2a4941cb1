import type { Saying } from "../../model/harvest/index.ts";
import { PAGE_UNITS, type Quantity, toPage, toStep, type Units } from "./units.ts";

/** How the page speaks: units, clock and numbers, always in the farm's time zone. */
export interface Manner {
  readonly units: Units;
  /** "1:30 pm" instead of "13:30". */
  readonly hour12: boolean;
  /** BCP 47 tag by which numbers are written; the words are English everywhere. */
  readonly locale: string;
  /** IANA zone of the farm, never of the browser. */
  readonly zone: string;
  /** Dates of any other year carry theirs; absent for invented weather, which has no year of its own. */
  readonly thisYear?: number | undefined;
  /**
   * The farm's day that the reader counts from, YYYY-MM-DD: today, or the first of invented weather. Days near it go by their
   * name, all others by date. Null = no day is near, as of weather that is past; absent = no other week of the year is in sight.
   */
  readonly nearDay?: string | null | undefined;
}

/**
 * The manner once the year has been said: of weather in another year the answer's headline and the board's heading say it,
 * and nothing of the same answer says it again. What is of other days, as the book, keeps its years.
 */
export function yearSaid(manner: Manner): Manner {
  return manner.thisYear === undefined ? manner : { ...manner, thisYear: undefined };
}

/** The page tells times to this many minutes, windows rounded inward: nobody starts a baler at 12:53. */
export const TIMES_TO_MIN = 5;

const DIGITS_KEPT = 6;
const formats = new Map<string, Intl.NumberFormat>();

function formatOf(locale: string, decimals: number): Intl.NumberFormat {
  const key = `${locale} ${decimals}`;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.NumberFormat(locale, { maximumFractionDigits: decimals });
  formats.set(key, made);
  return made;
}

/** A number for reading, by locale: at most `decimals` decimals and no trailing zeros. */
export function numberText(value: number, decimals: number, { locale }: Pick<Manner, "locale">): string {
  // Through a few digits, so that 0.30000000000000004 is 0.3; and never "-0".
  const plain = Number(value.toFixed(DIGITS_KEPT));
  return formatOf(locale, decimals).format(
    plain === 0 || Math.abs(plain) < 0.5 * 10 ** -decimals ? 0 : plain,
  );
}

/** What parts whole numbers from decimals. */
export type DecimalMark = "." | ",";

/** The decimal mark of a locale, as numbers are written and read by it. */
export function decimalMarkOf(locale: string): DecimalMark {
  return numberText(0.5, 1, { locale }).includes(",") ? "," : ".";
}

/** "6.4 ha", "15.8 ac" from a value of the model. */
export function quantityText(
  value: number,
  quantity: Quantity,
  manner: Pick<Manner, "units" | "locale">,
): string {
  const { unit, decimals } = PAGE_UNITS[quantity][manner.units];
  return `${numberText(toPage(value, quantity, manner.units), decimals, manner)} ${unit}`;
}

/** A value of the model as a person would set it: "3 in" of 8 cm. */
export function steppedText(
  value: number,
  quantity: Quantity,
  manner: Pick<Manner, "units" | "locale">,
): string {
  const { units } = manner;
  const page = toPage(value, quantity, units);
  return `${numberText(units === "metric" ? page : toStep(page, quantity, units), 2, manner)} ${PAGE_UNITS[quantity][units].unit}`;
}

const clocks = new Map<string, boolean>();

/** Whether the clock of a locale counts to 12. */
export function hour12Of(locale: string): boolean {
  const known = clocks.get(locale);
  if (known !== undefined) return known;
  // With a zone given: finding the device's own takes the browser longer than all else here.
  const { hourCycle } = new Intl.DateTimeFormat(locale, {
    hour: "numeric",
    timeZone: "UTC",
  }).resolvedOptions();
  const hour12 = hourCycle === "h12" || hourCycle === "h11";
  clocks.set(locale, hour12);
  return hour12;
}

/**
 * How numbers are typed: the decimal mark, then what parts thousands where that is the other of the two. `","` and `"."`
 * group by something else, as by a space, or come from the page itself.
 */
export const NUMBER_MARKS = [".,", ",.", ".", ","] as const;
export type NumberMarks = (typeof NUMBER_MARKS)[number];

/** How numbers are typed in a locale: ".," in en-US, ",." in de, "," in fr. */
export function numberMarksOf(locale: string): NumberMarks {
  const grouped = numberText(1e6, 0, { locale });
  if (decimalMarkOf(locale) === ".") return grouped.includes(",") ? ".," : ".";
  return grouped.includes(".") ? ",." : ",";
}

/** How the model is to write its reasons, so that they read as the rest of the page does. */
export function sayingOf({ units, hour12, locale }: Omit<Manner, "zone">): Saying {
  return { units, hour12, decimalMark: decimalMarkOf(locale), stepMin: TIMES_TO_MIN };
}
