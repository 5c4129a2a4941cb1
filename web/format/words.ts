import type { RouteKey } from "../../model/harvest/keys.ts";
import { type Manner, numberText, quantityText } from "./manner.ts";
import { PAGE_UNITS, toPage } from "./units.ts";

type Numbers = Pick<Manner, "locale">;

/** How the page says the model's keys. */
export const ROUTE_LABELS: Readonly<Record<RouteKey, string>> = {
  "dry-hay": "dry hay",
  "wrapped-bales": "wrapped bales",
  "wilted-chop": "wilted chop",
  "direct-chop": "direct chop",
  "green-chop": "green chop",
  grazing: "grazing",
};

/** Where room is short: the word that tells the route from the others. */
export const ROUTE_SHORT: Readonly<Record<RouteKey, string>> = {
  "dry-hay": "hay",
  "wrapped-bales": "wrapped",
  "wilted-chop": "wilted chop",
  "direct-chop": "direct chop",
  "green-chop": "green chop",
  grazing: "grazing",
};

/** One letter inside a vessel that has no number; the legend spells it out. */
export const ROUTE_LETTERS: Readonly<Record<RouteKey, string>> = {
  "dry-hay": "H",
  "wrapped-bales": "W",
  "wilted-chop": "C",
  "direct-chop": "D",
  "green-chop": "G",
  grazing: "Z",
};

/** From the earliest in a swath's life to the driest, the standing ones after. */
export const ROUTE_ORDER: readonly RouteKey[] = [
  "wilted-chop",
  "wrapped-bales",
  "dry-hay",
  "direct-chop",
  "green-chop",
  "grazing",
];

/** "Wrapped bales" from "wrapped bales". */
export function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "78 %" from a share of 0.78. */
export function percentText(share: number, numbers: Numbers): string {
  return `${numberText(share * 100, 0, numbers)} %`;
}

/** "78 %" from 0.78, wet basis. */
export function moisturePct(wb: number, numbers: Numbers): string {
  return percentText(wb, numbers);
}

/** "45-60 %" with an en dash from [0.45, 0.6]; the edges to half a point where they need it. */
export function bandPct(bandWb: readonly [number, number], numbers: Numbers): string {
  const edge = (wb: number) => numberText(wb * 100, 1, numbers);
  return `${edge(bandWb[0])}–${edge(bandWb[1])} %`;
}

/** From this on a decimal of a millimetre says nothing. */
const WHOLE_FROM_MM = 10;

/** "14 mm", "0.4 mm", "0.55 in"; what would round to nothing is told as less than the least that is shown. */
export function rainText(mm: number, manner: Pick<Manner, "units" | "locale">): string {
  const { unit, decimals } = PAGE_UNITS.rain[manner.units];
  const least = 10 ** -decimals;
  const shown = toPage(mm, "rain", manner.units);
  if (shown > 0 && shown < least / 2) return `under ${numberText(least, decimals, manner)} ${unit}`;
  if (manner.units === "metric" && mm >= WHOLE_FROM_MM) return `${numberText(mm, 0, manner)} ${unit}`;
  return quantityText(mm, "rain", manner);
}

/** "3.5 h". */
export function hoursText(hours: number, numbers: Numbers): string {
  return `${numberText(hours, 1, numbers)} h`;
}

/** "a, b and c". */
export function listText(parts: readonly string[]): string {
  if (parts.length < 2) return parts[0] ?? "";
  return `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
}

/** The same text with its units and chances kept on the line of their numbers; for what is shown, not for what is compared. */
export function unitsKept(text: string): string {
  return text
    .replace(/(\d) (%|mm|in|h|m|am|pm)(?![\w/])/g, "$1\u00a0$2")
    .replace(/(\d)\u00a0in 10\b/g, "$1\u00a0in\u00a010");
}
