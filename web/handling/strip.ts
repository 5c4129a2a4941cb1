/** A strip: rows of zones along one scale (moisture, hours, weeks, days), with marks across all of them. */

/** How a zone is drawn, and so how it reads: fitting, with care, not at all, or nothing to say. */
export type ZoneKind = "fits" | "care" | "stop" | "bare";

export interface Zone {
  readonly from: number;
  readonly to: number;
  readonly kind: ZoneKind;
  /** Printed inside where it has room. */
  readonly text?: string;
}

export interface StripRow {
  readonly name: string;
  readonly zones: readonly Zone[];
}

/** A moment or a moisture of the reader's own, across all rows. */
export interface StripMark {
  readonly at: number;
  readonly text: string;
}

export interface Scale {
  /** Value at the left and at the right edge; falling where the crop dries from left to right. */
  readonly left: number;
  readonly right: number;
  readonly ticks: readonly number[];
}

export interface PlacedZone extends Zone {
  readonly x: number;
  readonly width: number;
}

export interface Placed {
  readonly height: number;
  readonly x0: number;
  readonly rows: readonly {
    readonly name: string;
    readonly nameX: number;
    readonly nameY: number;
    readonly y: number;
    readonly zones: readonly PlacedZone[];
  }[];
  readonly ticks: readonly { readonly x: number; readonly value: number }[];
  readonly marks: readonly {
    readonly x: number;
    readonly text: string;
    readonly y: number;
    readonly anchor: "start" | "end";
  }[];
}

/** Below this names stand above their rows. */
const NARROW_PX = 560;
const NAME_PX = 190;
export const BAR_PX = 20;
const GAP_PX = 8;
const NAME_LINE_PX = 17;
const MARK_LINE_PX = 17;
const TICK_PX = 20;
const PAD_PX = 8;
/** Of a letter of 13 px, on average. */
const LETTER_PX = 6.6;

export function roomFor(text: string): number {
  return text.length * LETTER_PX + 8;
}

export interface ToldTick {
  readonly x: number;
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
}

/** The words of the ticks, the first and last inside the picture; one that would touch the one before it is left out. */
export function toldTicks(ticks: readonly { readonly x: number; readonly text: string }[]): ToldTick[] {
  const told: ToldTick[] = [];
  let until = Number.NEGATIVE_INFINITY;
  ticks.forEach(({ x, text }, i) => {
    const anchor = i === 0 ? "start" : i === ticks.length - 1 ? "end" : "middle";
    const room = roomFor(text);
    const from = anchor === "start" ? x : anchor === "end" ? x - room : x - room / 2;
    if (from < until) return;
    until = from + room;
    told.push({ x, text, anchor });
  });
  return told;
}

/** Where everything stands in a picture of this width. Pure, so that it can be tested without a page. */
export function placeStrip(
  rows: readonly StripRow[],
  marks: readonly StripMark[],
  scale: Scale,
  widthPx: number,
): Placed {
  const narrow = widthPx < NARROW_PX;
  const x0 = narrow ? PAD_PX : NAME_PX;
  const x1 = Math.max(x0 + 40, widthPx - PAD_PX);
  const { left, right } = scale;
  const [least, most] = left < right ? [left, right] : [right, left];
  const xOf = (value: number) =>
    x0 + ((Math.min(most, Math.max(least, value)) - left) / (right - left)) * (x1 - x0);
  const top = marks.length * MARK_LINE_PX + 4;
  const each = BAR_PX + GAP_PX + (narrow ? NAME_LINE_PX : 0);
  const placed = rows.map(({ name, zones }, i) => {
    const y = top + i * each + (narrow ? NAME_LINE_PX : 0);
    return {
      name,
      nameX: narrow ? x0 : x0 - 10,
      nameY: narrow ? y - 5 : y + BAR_PX / 2 + 5,
      y,
      zones: zones.map((zone) => {
        const [a, b] = [xOf(zone.from), xOf(zone.to)];
        return { ...zone, x: Math.min(a, b), width: Math.abs(b - a) };
      }),
    };
  });
  return {
    height: top + rows.length * each + TICK_PX,
    x0,
    rows: placed,
    ticks: scale.ticks.map((value) => ({ x: xOf(value), value })),
    marks: marks.map(({ at, text }, i) => {
      const x = xOf(at);
      return {
        x,
        text,
        y: 12 + i * MARK_LINE_PX,
        anchor: x + roomFor(text) > widthPx ? ("end" as const) : ("start" as const),
      };
    }),
  };
}
