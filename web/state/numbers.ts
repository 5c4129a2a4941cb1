import { type Limit, limitInWords } from "../../model/limits.ts";

const plainOf = (text: string) => text.trim().replace(/[\u00a0\u202f ]/g, "");

/** "1,000" is a thousand to some and one to others. */
function isTwofold(plain: string): boolean {
  return /^[+-]?[1-9]\d{0,2},\d{3}$/.test(plain);
}

/** What a typed number is: the comma of many countries counts as the decimal point, unless it may part thousands. */
export function readNumber(text: string): number | null {
  const plain = plainOf(text);
  if (isTwofold(plain) || !/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** What is said of a text that is no number. */
export function notANumber(text: string): string {
  const plain = plainOf(text);
  if (!isTwofold(plain)) return `Got "${text.trim()}", must be a number in digits.`;
  const [thousands, decimal] = [plain.replace(",", ""), plain.replace(",", ".")];
  return `Got "${text.trim()}", must be a number without a comma between thousands: ${thousands} or ${decimal}?`;
}

/** The limit in words with its numbers as the locale writes them: "must be above 0 and at most 30 t/ha". */
export function limitWords(limit: Limit, locale: string): string {
  if (locale === "en") return limitInWords(limit);
  const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 4, numberingSystem: "latn" });
  return limitInWords(limit).replace(/\b\d+(\.\d+)?\b/g, (number) => format.format(Number(number)));
}
