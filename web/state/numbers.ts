import { type Limit, limitInWords, within } from "../../model/limits.ts";
import { type DecimalMark, decimalMarkOf, numberText } from "../format/manner.ts";

/** Digits after the mark with which a typed number is quoted. */
const GOT_DECIMALS = 6;

const plainOf = (text: string) => text.trim().replace(/[\u00a0\u202f ]/g, "");

const otherMark = (mark: DecimalMark) => (mark === "." ? "," : ".");

/**
 * "1,000" is a thousand to some and one to others, as "1.000" is where decimals have a comma. Only the mark that is the
 * reader's own decimal mark is beyond doubt before three digits.
 */
function isTwofold(plain: string, mark: DecimalMark): boolean {
  return new RegExp(`^[+-]?[1-9]\\d{0,2}\\${otherMark(mark)}\\d{3}$`).test(plain);
}

function numberOf(plain: string): number | null {
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/**
 * What a typed number is: point and comma both count as the decimal mark, unless one may part thousands.
 *
 * @param mark the decimal mark of the one who typed it
 * @returns null where it is none, or could be two
 */
export function readNumber(text: string, mark: DecimalMark = "."): number | null {
  const plain = plainOf(text);
  return isTwofold(plain, mark) ? null : numberOf(plain);
}

/** Degrees of a place: no place has thousands of them, so that either mark is the decimal one. */
export function readDegrees(text: string): number | null {
  return numberOf(plainOf(text));
}

/** Degrees as they are kept: with a point, digits as typed; what is no number stays as typed. */
export function degreesText(text: string): string {
  return readDegrees(text) === null ? text : plainOf(text).replace(",", ".");
}

/** What is said of a text that is no number. */
export function notANumber(text: string, mark: DecimalMark = "."): string {
  const plain = plainOf(text);
  if (!isTwofold(plain, mark)) return `Got "${text.trim()}", must be a number in digits.`;
  const other = otherMark(mark);
  const [thousands, decimal] = [plain.replace(other, ""), plain.replace(other, mark)];
  const name = other === "," ? "comma" : "point";
  const shortest = decimal.replace(/(\d)0+$/, "$1").replace(new RegExp(`\\${mark}0?$`), "");
  return `Got "${text.trim()}": is it ${thousands}, or ${shortest}? Type it without the ${name}.`;
}

/** A number as it stands in a field: by locale, but without grouping marks, which are for reading and not for typing. */
export function editableText(value: number, decimals: number, locale = "en"): string {
  return value.toLocaleString(locale, {
    maximumFractionDigits: decimals,
    useGrouping: false,
    numberingSystem: "latn",
  });
}

/** A typed number with a point for the decimal mark, digits as typed, so that it reads alike wherever it is sent. */
export function withPoint(text: string, mark: DecimalMark): string {
  return readNumber(text, mark) === null ? text : plainOf(text).replace(",", ".");
}

/** The limit in words with its numbers as the locale writes them: "must be above 0 and at most 30 t/ha". */
export function limitWords(limit: Limit, locale: string): string {
  if (locale === "en") return limitInWords(limit);
  const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 4, numberingSystem: "latn" });
  return limitInWords(limit).replace(/\b\d+(\.\d+)?\b/g, (number) => format.format(Number(number)));
}

/** A number that was typed, as a message quotes it. */
export function gotNumber(value: number, locale: string): string {
  return numberText(value, GOT_DECIMALS, { locale });
}

export interface LimitedRead {
  readonly value: number | null;
  readonly error?: string;
}

/**
 * A typed number inside its limit, or what is wrong with it.
 *
 * @param limit in the unit it is typed in
 * @param whole true where only whole numbers count
 */
export function readLimited(text: string, limit: Limit, locale = "en", whole = false): LimitedRead {
  if (text.trim() === "") return { value: null, error: "Empty; a number is needed." };
  const mark = decimalMarkOf(locale);
  const value = readNumber(text, mark);
  if (value === null) return { value, error: notANumber(text, mark) };
  const got = `Got ${gotNumber(value, locale)}`;
  if (!within(value, limit)) return { value: null, error: `${got}, ${limitWords(limit, locale)}.` };
  return whole && !Number.isInteger(value)
    ? { value: null, error: `${got}, must be a whole number.` }
    : { value };
}
