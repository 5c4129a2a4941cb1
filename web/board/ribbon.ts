import { HOUR_MS } from "../../model/weather/clock.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import type { Scale } from "./calendar.ts";

type Channels = readonly [red: number, green: number, blue: number];
type Colour = readonly [wb: number, channels: Channels];

/** Colour of the swath by moisture, wet basis: falls evenly in darkness from fresh green to straw. */
const COLOURS: readonly Colour[] = [
  [0.1, [0xf0, 0xde, 0xa0]],
  [0.18, [0xe9, 0xd3, 0x8a]],
  [0.3, [0xcd, 0xbe, 0x62]],
  [0.45, [0xa0, 0xac, 0x48]],
  [0.6, [0x68, 0x92, 0x3a]],
  [0.78, [0x2d, 0x64, 0x30]],
];

/** Red, green and blue of the ribbon at a moisture, 0-255, straight between the named colours and flat beyond them. */
function channelsAt(moistureWb: number): Channels {
  for (let i = 1; i < COLOURS.length; i++) {
    const [loWb, lo] = COLOURS[i - 1] as Colour;
    const [hiWb, hi] = COLOURS[i] as Colour;
    if (moistureWb > hiWb) continue;
    return mixed(lo, hi, Math.max(0, (moistureWb - loWb) / (hiWb - loWb)));
  }
  return (COLOURS.at(-1) as Colour)[1];
}

function mixed(a: Channels, b: Channels, share: number): Channels {
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), a[2] + share * (b[2] - a[2])];
}

/** "#rrggbb" of the ribbon at a moisture. */
export function ribbonColour(moistureWb: number): string {
  const hex = (channel: number) => Math.round(channel).toString(16).padStart(2, "0");
  return `#${channelsAt(moistureWb).map(hex).join("")}`;
}

/** A colour this far from the drawn one is not seen as another, of 255 in any channel. */
const UNSEEN = 10;

/**
 * The hours between which the colour runs straight, near enough: a few colours a day, and one for a week without a change,
 * are drawn much sooner than one an hour.
 */
function bends(points: readonly { readonly x: number; readonly wb: number }[]): number[] {
  const colours = points.map(({ wb }) => channelsAt(wb));
  const kept = [0];
  let from = 0;
  // Slopes of each channel at which a line from the last kept hour passes all hours since, unseen.
  const least = [0, 0, 0];
  const most = [0, 0, 0];
  const anew = () => {
    least.fill(Number.NEGATIVE_INFINITY);
    most.fill(Number.POSITIVE_INFINITY);
  };
  anew();
  for (let to = 1; to < points.length; to++) {
    for (let k = 0; k < 3; k++) {
      const slope = slopeOf(points, colours, from, to, k, 0);
      if (slope >= (least[k] as number) && slope <= (most[k] as number)) continue;
      from = to - 1;
      kept.push(from);
      anew();
      break;
    }
    for (let k = 0; k < 3; k++) {
      least[k] = Math.max(least[k] as number, slopeOf(points, colours, from, to, k, -UNSEEN));
      most[k] = Math.min(most[k] as number, slopeOf(points, colours, from, to, k, UNSEEN));
    }
  }
  return [...kept, points.length - 1];
}

/** Slope of a channel's line from one hour to a colour aside of another's. */
function slopeOf(
  points: readonly { readonly x: number }[],
  colours: readonly Channels[],
  from: number,
  to: number,
  channel: number,
  aside: number,
): number {
  const rise = (colours[to]?.[channel] ?? 0) + aside - (colours[from]?.[channel] ?? 0);
  return rise / ((points[to]?.x ?? 0) - (points[from]?.x ?? 0));
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
  return {
    area: `M${r1(x0)} ${r1(footY)}L${r1(x0)} ${r1(first.y)}L${line}L${r1(last.x)} ${r1(footY)}Z`,
    edge: `M${r1(x0)} ${r1(first.y)}L${line}`,
    x0,
    x1: last.x,
    stops: bends(points).flatMap((i) => {
      const point = points[i];
      return point ? [{ x: point.x, colour: ribbonColour(point.wb) }] : [];
    }),
  };
}
