import type { RouteKey } from "../../model/harvest/keys.ts";

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

/** "78 %" from 0.78, wet basis. */
export function moisturePct(wb: number): string {
  return `${Math.round(wb * 100)} %`;
}

/** "45-60 %" with an en dash from [0.45, 0.6]; the edges to half a point where they need it. */
export function bandPct(bandWb: readonly [number, number]): string {
  const edge = (wb: number) => String(Math.round(wb * 1000) / 10);
  return `${edge(bandWb[0])}–${edge(bandWb[1])} %`;
}

/** "14 mm", "0.4 mm". */
export function rainText(mm: number): string {
  return `${mm < 10 ? Math.round(mm * 10) / 10 : Math.round(mm)} mm`;
}

/** "3.5 h". */
export function hoursText(hours: number): string {
  return `${Math.round(hours * 10) / 10} h`;
}

/** "a, b and c". */
export function listText(parts: readonly string[]): string {
  if (parts.length < 2) return parts[0] ?? "";
  return `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
}

/** The same text with its units kept on the line of their numbers; for what is shown, not for what is compared. */
export function unitsKept(text: string): string {
  return text.replace(/(\d) (%|mm|h|m)(?![\w/])/g, "$1\u00a0$2");
}
