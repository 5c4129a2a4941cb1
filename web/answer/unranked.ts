import { unrankedWords } from "../../model/harvest/choice-text.ts";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { dayClockText } from "../format/farm-time.ts";
import { toPage } from "../format/units.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import { moneyText } from "../routes/money-words.ts";
import type { SentencePlace } from "./sentence.ts";

/** What is worth more on average than the best that can be planned, in the page's units and clock; empty where nothing is. */
export function unrankedSentence(
  { odds, options }: WindowsAnswer,
  { manner, currency = "", past }: SentencePlace,
): string {
  const found = odds?.unranked;
  if (found === undefined || past) return "";
  const cutUtc = options.find(({ id }) => id === found.optionId)?.cutUtc ?? null;
  const cut = cutUtc === null ? "leave it standing" : `cut ${dayClockText(cutUtc, manner)}`;
  return unrankedWords(
    { ...found, firstPerHa: odds?.first?.valuePerHa ?? null },
    {
      cut: `${cut}, ${ROUTE_LABELS[found.route]}`,
      money: (perHa) => moneyText(toPage(perHa, "perHa", manner.units), currency, manner),
      area: manner.units === "metric" ? "a hectare" : "an acre",
    },
  );
}
