import { type Limit, limitInWords, within } from "../../model/limits.ts";
import { type NumberMarks, numberMarksOf, numberText } from "../format/manner.ts";

/** Digits after the mark with which a typed number is quoted. */
const GOT_DECIMALS = 6;

/** Without the spaces and apostrophes that part thousands everywhere. */
const plainOf = (text: string) =>
  text
    .trim()
    .replace(/[\u00a0\u202f ]/g, "")
    .replace(/(?<=\d)['\u2019](?=\d{3}(?!\d))/g, "");

const otherOf = (marks: NumberMarks) => (marks.startsWith(".") ? "," : ".");

const groupsBy = (marks: NumberMarks) => (marks.length === 2 ? otherOf(marks) : null);

/** "1,500", "12,355.5", "1,00,000": thousands parted as they are written. */
function isGrouped(plain: string, marks: NumberMarks): boolean {
  const [decimal, group] = marks;
  return (
    group !== undefined &&
    new RegExp(`^[+-]?[1-9]\\d{0,2}(\\${group}\\d{2,3})*\\${group}\\d{3}(\\${decimal}\\d*)?$`).test(plain)
  );
}

/**
 * Where thousands are parted by something else, a mark that is not the reader's own is the decimal one, but for "1,000": a
 * thousand to some and one to others.
 */
function isTwofold(plain: string, marks: NumberMarks): boolean {
  return groupsBy(marks) === null && new RegExp(`^[+-]?[1-9]\\d{0,2}\\${otherOf(marks)}\\d{3}$`).test(plain);
}

function numberOf(plain: string): number | null {
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** The digits of a typed number, with a point for the decimal mark and nothing between thousands; null where it is none. */
function digitsOf(text: string, marks: NumberMarks): string | null {
  const plain = plainOf(text);
  const group = groupsBy(marks);
  if (isGrouped(plain, marks)) return plain.replaceAll(group ?? "", "").replace(",", ".");
  const isWrong = group === null ? isTwofold(plain, marks) : plain.includes(group);
  return isWrong || numberOf(plain) === null ? null : plain.replace(",", ".");
}

/**
 * What a typed number is. What parts thousands where its reader lives is never the decimal mark: "1,500" is 1500 in the
 * United States and "1,5" no number; in Germany "1.500" and "1.5" alike.
 *
 * @param marks how the one who typed it writes numbers
 * @returns null where it is none, or could be two
 */
export function readNumber(text: string, marks: NumberMarks = "."): number | null {
  const digits = digitsOf(text, marks);
  return digits === null ? null : Number(digits);
}

/** Degrees of a place: no place has thousands of them, so that either mark is the decimal one. */
export function readDegrees(text: string): number | null {
  return numberOf(plainOf(text));
}

/** Degrees as they are kept: with a point, digits as typed; what is no number stays as typed. */
export function degreesText(text: string): string {
  return readDegrees(text) === null ? text : plainOf(text).replace(",", ".");
}

/** What a number must keep to where it is typed, in the unit it is typed in. */
export interface TypedLimit {
  readonly limit: Limit;
  readonly locale: string;
}

/**
 * What is said of a text that is no number: what was got, and what to type.
 *
 * @param keeps what is offered must keep to it, where it is known: nothing is told to be typed that is then refused
 */
export function notANumber(text: string, marks: NumberMarks = ".", keeps?: TypedLimit): string {
  const plain = plainOf(text);
  const got = `Got "${text.trim()}"`;
  const [other, decimal] = [otherOf(marks), marks.startsWith(".") ? "." : ","];
  const [otherName, name] = decimal === "." ? ["comma", "point"] : ["point", "comma"];
  const typed = plain.replace(other, decimal);
  if (isTwofold(plain, marks)) {
    const shortest = typed.replace(/(\d)0+$/, "$1").replace(new RegExp(`\\${decimal}0?$`), "");
    return `${got}: is it ${plain.replace(other, "")}, or ${shortest}? Type it without the ${otherName}.`;
  }
  const meant = numberOf(plain);
  if (groupsBy(marks) !== null && plain.includes(other) && meant !== null) {
    const parts = `${got}: here a ${otherName} parts thousands, as in 1${other}500.`;
    return keeps === undefined || within(meant, keeps.limit)
      ? `${parts} Type ${typed}, with a ${name}.`
      : `${parts} With a ${name} it would be ${typed}, which ${limitWords(keeps.limit, keeps.locale)}.`;
  }
  return `${got}, must be a number in digits.`;
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
export function withPoint(text: string, marks: NumberMarks): string {
  return digitsOf(text, marks) ?? text;
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
  const marks = numberMarksOf(locale);
  const value = readNumber(text, marks);
  if (value === null) return { value, error: notANumber(text, marks, { limit, locale }) };
  const got = `Got ${gotNumber(value, locale)}`;
  if (!within(value, limit)) return { value: null, error: `${got}, ${limitWords(limit, locale)}.` };
  return whole && !Number.isInteger(value)
    ? { value: null, error: `${got}, must be a whole number.` }
    : { value };
}
