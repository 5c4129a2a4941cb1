import { type Limit, limitInWords } from "../../model/limits.ts";

/** What a typed number is: the comma of many countries counts as the decimal point. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(/[\u00a0\u202f ]/g, "");
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** The limit in words with its numbers as the locale writes them: "must be above 0 and at most 30 t/ha". */
export function limitWords(limit: Limit, locale: string): string {
  if (locale === "en") return limitInWords(limit);
  const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 4, numberingSystem: "latn" });
  return limitInWords(limit).replace(/\b\d+(\.\d+)?\b/g, (number) => format.format(Number(number)));
}
