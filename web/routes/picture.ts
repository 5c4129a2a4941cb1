import type { RouteRow } from "./route-rows.ts";
import type { StepGroup } from "./steps.ts";

/** One part of a route's bar, px. */
export interface Segment {
  readonly group: StepGroup | "kept";
  readonly x0: number;
  readonly x1: number;
  readonly pct: number;
}

export interface Bar {
  readonly row: RouteRow;
  /** Baseline of the name where it stands above the bar, top and foot of the bar, px. */
  readonly nameY: number;
  readonly y0: number;
  readonly y1: number;
  readonly segments: readonly Segment[];
  /** From the least to the most that is left, where members tell it, px. */
  readonly spread: readonly [number, number] | null;
}

export interface SidePicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly narrow: boolean;
  readonly x0: number;
  readonly x1: number;
  readonly bars: readonly Bar[];
  readonly ticks: readonly { readonly x: number; readonly pct: number }[];
}

const LEAST_PX = 280;
const MOST_PX = 1000;
const NARROW_BELOW_PX = 620;
const NAME_PX = 176;
const BAR_PX = 30;
const AXIS_PX = 24;

/** Bars of what is left of each tonne that stood: kept at the left, then what each step took, to 100 per cent. */
export function toSidePicture(rows: readonly RouteRow[], containerPx: number): SidePicture {
  const widthPx = Math.min(MOST_PX, Math.max(LEAST_PX, containerPx));
  const narrow = widthPx < NARROW_BELOW_PX;
  const [x0, x1] = [narrow ? 1 : NAME_PX, widthPx - 14];
  const rowPx = narrow ? 66 : 46;
  const x = (pct: number) => x0 + ((x1 - x0) * pct) / 100;
  const bars = rows.flatMap((row, i): Bar[] => {
    const y0 = AXIS_PX + i * rowPx + (narrow ? 26 : 4);
    // What is left first, then the steps from the last to the first: the eye reads backwards from the animal to the field.
    let from = row.keptFraction * 100;
    const lost = [...row.lost].reverse().map(({ group, ofStandingPct }): Segment => {
      const segment = { group, x0: x(from), x1: x(from + ofStandingPct), pct: ofStandingPct };
      from += ofStandingPct;
      return segment;
    });
    const kept: Segment = { group: "kept", x0, x1: x(row.keptFraction * 100), pct: row.keptFraction * 100 };
    const { p10, p90 } = row.lossPct ?? { p10: null, p90: null };
    return [
      {
        row,
        nameY: narrow ? y0 - 8 : y0 + BAR_PX / 2 + 5,
        y0,
        y1: y0 + BAR_PX,
        segments: [kept, ...lost.filter(({ pct }) => pct > 0)],
        spread: p10 === null || p90 === null ? null : [x(100 - p90), x(100 - p10)],
      },
    ];
  });
  return {
    widthPx,
    heightPx: AXIS_PX + rows.length * rowPx + 6,
    narrow,
    x0,
    x1,
    bars,
    ticks: (narrow ? [0, 50, 100] : [0, 25, 50, 75, 100]).map((pct) => ({ x: x(pct), pct })),
  };
}
