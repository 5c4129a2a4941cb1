import { type Manner, numberText } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";

/** "EUR 512", "512" where no currency is named. */
export function moneyText(
  value: number,
  currency: string,
  manner: Pick<Manner, "locale">,
  decimals = 0,
): string {
  const number = numberText(value, decimals, manner);
  return currency === "" ? number : `${currency} ${number}`;
}

/** "EUR 512 a hectare", "$207 an acre". */
export function moneyPer(
  value: number,
  quantity: "perT" | "perHa",
  currency: string,
  manner: Pick<Manner, "units" | "locale">,
): string {
  return `${moneyText(toPage(value, quantity, manner.units), currency, manner)} ${unitName(quantity, manner.units)}`;
}

/** A default as people would say it: "200" of 199.58, "15.5" of 15.53, "1.28". */
export function usualText(value: number, manner: Pick<Manner, "locale">): string {
  if (value >= 100) return numberText(Math.round(value / 5) * 5, 0, manner);
  if (value >= 20) return numberText(value, 0, manner);
  return numberText(value, value >= 5 ? 1 : 2, manner);
}
