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

/** "EUR 512 a ha", "$207 an ac". */
export function moneyPer(
  value: number,
  quantity: "perT" | "perHa",
  currency: string,
  manner: Pick<Manner, "units" | "locale">,
): string {
  return `${moneyText(toPage(value, quantity, manner.units), currency, manner)} ${unitName(quantity, manner.units)}`;
}
