import type { RouteKey } from "../../model/harvest/index.ts";
import type { Turn } from "../../model/harvest/value/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { type Quantity, toPage, unitName } from "../format/units.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";

const RATE_WORDS: Readonly<Record<string, readonly [string, Quantity | null, string]>> = {
  mowPerHa: ["mowing", "perHa", ""],
  balePerBale: ["baling", null, "a bale"],
  wrapPerBale: ["wrapping", null, "a bale"],
  filmPerBale: ["film", null, "a bale"],
  chopPerHa: ["chopping", "perHa", ""],
  fillPerHa: ["hauling, filling and packing", "perHa", ""],
  labourPerH: ["own labour", null, "an hour"],
};

function told(key: string): readonly [what: string, quantity: Quantity | null, unit: string] | null {
  const [kind = "", name = ""] = key.split(".");
  const route = ROUTE_LABELS[name as RouteKey];
  if (kind === "prices") return [`the price of ${route}`, "perT", ""];
  if (kind === "storagePct") return [`what ${route} loses in store`, null, "%"];
  if (kind === "moreRainMm") return [`more rain on the swath for ${route}`, "rain", ""];
  if (kind === "swath") return ["the yield", "dryMatterYield", ""];
  return RATE_WORDS[name] ?? null;
}

/** "Dry hay would lead if the price of dry hay rose from 220 to 247 a tonne." */
export function turnSentence(turn: Turn, manner: Pick<Manner, "units" | "locale">): string | null {
  const { key, from, to, leader } = turn;
  const words = told(key);
  if (words === null) return null;
  const [what, quantity, plain] = words;
  const shown = (value: number) =>
    numberText(quantity === null ? value : toPage(value, quantity, manner.units), value < 20 ? 1 : 0, manner);
  const unit = quantity === null ? plain : unitName(quantity, manner.units);
  const who = sentenceCase(ROUTE_LABELS[leader as RouteKey] ?? leader);
  if (key.startsWith("moreRainMm")) return `${who} would lead with ${shown(to)} ${unit} ${what}.`;
  return `${who} would lead if ${what} went from ${shown(from)} to ${shown(to)} ${unit}.`;
}
