import { HOUR_MS } from "../../model/weather/clock.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import type { Scale } from "./calendar.ts";

/** Colour of the swath by moisture, wet basis: falls evenly in darkness from fresh green to straw. */
const COLOURS: readonly (readonly [wb: number, hex: string])[] = [
  [0.1, "#F0DEA0"],
  [0.18, "#E9D38A"],
  [0.3, "#CDBE62"],
  [0.45, "#A0AC48"],
  [0.6, "#68923A"],
  [0.78, "#2D6430"],
];

function channels(hex: string): [number, number, number] {
  const n = Number.parseInt(hex.slice(1), 16);
  return [(n >> 16) & 255, (n >> 8) & 255, n & 255];
}

/** "#rrggbb" of the ribbon at a moisture, straight between the named colours and flat beyond them. */
export function ribbonColour(moistureWb: number): string {
  for (let i = 1; i < COLOURS.length; i++) {
    const [loWb, loHex] = COLOURS[i - 1] ?? [0, ""];
    const [hiWb, hiHex] = COLOURS[i] ?? [0, ""];
    if (moistureWb > hiWb) continue;
    const share = Math.max(0, (moistureWb - loWb) / (hiWb - loWb));
    const lo = channels(loHex);
    const hi = channels(hiHex);
    const mixed = lo.map((c, k) => Math.round(c + share * ((hi[k] ?? c) - c)));
    return `#${mixed.map((c) => c.toString(16).padStart(2, "0")).join("")}`;
  }
  return "#2d6430";
}

export interface RibbonStop {
  readonly x: number;
  readonly colour: string;
}

export interface Ribbon {
  /** Filled shape down to the row's foot. */
  readonly area: string;
  /** Its top edge, which carries the pale end. */
  readonly edge: string;
  readonly x0: number;
  readonly x1: number;
  readonly stops: readonly RibbonStop[];
}

/** Thickest swath and the film of 1 mm of free water on it, as shares of the ribbon's full height. */
const FULL_WB = 0.82;
const FILM_SHARE_PER_MM = 0.12;

const r1 = (n: number) => Math.round(n * 10) / 10;

/**
 * The swath along the calendar: thickness from its water (tissue, and what lies free on it), colour from its tissue.
 *
 * @param footY y of its lower edge
 * @param fullPx thickness of a swath at cutting
 */
export function toRibbon(swath: SwathRibbon, scale: Scale, footY: number, fullPx: number): Ribbon | null {
  const { startMs, moistureWb, freeWaterMm } = swath;
  const points: { x: number; y: number; wb: number }[] = [];
  const thickness = (wb: number, filmMm: number) =>
    1.2 + fullPx * Math.min(1.15, wb / FULL_WB + FILM_SHARE_PER_MM * Math.min(2, filmMm));
  moistureWb.forEach((wb, i) => {
    const endMs = startMs + (i + 1) * HOUR_MS;
    if (endMs < scale.fromMs || endMs > scale.toMs) return;
    points.push({ x: scale.x(endMs), y: footY - thickness(wb, freeWaterMm[i] ?? 0), wb });
  });
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last || last.x <= first.x) return null;
  const x0 = Math.max(scale.x0, scale.x(startMs));
  const line = points.map(({ x, y }) => `${r1(x)} ${r1(y)}`).join("L");
  const stops = points.filter((_, i) => i % 3 === 0 || i === points.length - 1);
  return {
    area: `M${r1(x0)} ${r1(footY)}L${r1(x0)} ${r1(first.y)}L${line}L${r1(last.x)} ${r1(footY)}Z`,
    edge: `M${r1(x0)} ${r1(first.y)}L${line}`,
    x0,
    x1: last.x,
    stops: stops.map(({ x, wb }) => ({ x, colour: ribbonColour(wb) })),
  };
}
