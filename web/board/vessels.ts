import type { RouteKey } from "../../model/harvest/keys.ts";

/** A window drawn as a vessel: form says the route, its wall or filling repeats it by colour. */

export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

const r1 = (n: number) => Math.round(n * 10) / 10;

function polygon(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${r1(x)} ${r1(y)}`).join("L")}Z`;
}

/** The outline of a route's vessel inside a box. */
export function vesselPath(route: RouteKey, { x0, x1, y0, y1 }: Box): string {
  const width = x1 - x0;
  const height = y1 - y0;
  const lean = Math.min(width * 0.22, height * 0.3);
  switch (route) {
    case "dry-hay":
      return polygon([
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ]);
    case "wrapped-bales": {
      const r = r1(Math.min(width, height) / 2);
      const [a, b] = [r1(x0), r1(x1)];
      const [c, d] = [r1(y0), r1(y1)];
      return `M${a + r} ${c}H${b - r}A${r} ${r} 0 0 1 ${b} ${c + r}V${d - r}A${r} ${r} 0 0 1 ${b - r} ${d}H${a + r}A${r} ${r} 0 0 1 ${a} ${d - r}V${c + r}A${r} ${r} 0 0 1 ${a + r} ${c}Z`;
    }
    case "wilted-chop":
      return polygon([
        [x0 + lean, y0],
        [x1, y0],
        [x1 - lean, y1],
        [x0, y1],
      ]);
    case "direct-chop":
      return polygon([
        [x0, y0],
        [x1 - lean, y0],
        [x1, (y0 + y1) / 2],
        [x1 - lean, y1],
        [x0, y1],
        [x0 + lean * 0.7, (y0 + y1) / 2],
      ]);
    case "green-chop":
      return polygon([
        [x0, y0],
        [x1, y0],
        [x1 - lean, y1],
        [x0 + lean, y1],
      ]);
    case "grazing":
      return `M${r1(x0)} ${r1(y0)}V${r1(y1)}H${r1(x1)}V${r1(y0)}`;
  }
}

/** Short upright ticks along the foot of the grazing box. */
export function footTicksPath({ x0, x1, y1 }: Box): string {
  const count = Math.max(2, Math.floor((x1 - x0) / 5));
  const step = (x1 - x0) / count;
  return Array.from({ length: count - 1 }, (_, i) => `M${r1(x0 + (i + 1) * step)} ${r1(y1)}v-5`).join("");
}

/** Wall of a vessel without a chance, px: coloured all round, so that no height of filling is mistaken for a chance. */
export const WALL_PX = 3.5;

/** The number in a vessel: chance in 10, never 0 and never 10; null where no chance is stated. */
export function chanceText(chance: number | null): string | null {
  if (chance === null) return null;
  if (chance > 0.95) return ">9";
  return String(Math.max(1, Math.round(chance * 10)));
}

interface Placed {
  readonly x0: number;
  readonly x1: number;
}

/**
 * Widens what is too narrow to read or touch, about its own middle, and moves neighbours apart inside [from, to].
 * Order is kept; with too little room they touch and overlap evenly at the right end.
 */
export function spread<T extends Placed>(
  items: readonly T[],
  leastPx: number,
  gapPx: number,
  from: number,
  to: number,
): T[] {
  const sorted = [...items].sort((a, b) => a.x0 + a.x1 - (b.x0 + b.x1));
  const widened = sorted.map((item) => {
    const half = Math.max(leastPx, item.x1 - item.x0) / 2;
    const middle = Math.min(to - half, Math.max(from + half, (item.x0 + item.x1) / 2));
    return { middle, half };
  });
  for (let pass = 0; pass < 12; pass++) {
    for (let i = 1; i < widened.length; i++) {
      const left = widened[i - 1];
      const right = widened[i];
      if (!left || !right) continue;
      const overlap = left.middle + left.half + gapPx - (right.middle - right.half);
      if (overlap <= 0) continue;
      left.middle = Math.max(from + left.half, left.middle - overlap / 2);
      right.middle = Math.min(to - right.half, right.middle + overlap / 2);
    }
  }
  return sorted.map((item, i) => {
    const { middle, half } = widened[i] ?? { middle: 0, half: 0 };
    return { ...item, x0: middle - half, x1: middle + half };
  });
}

/** A place along a row that is touched. */
export interface TouchSpan {
  readonly touchX0: number;
  readonly touchX1: number;
}

/** Least side of what is touched with a thumb or a glove, px. */
export const LEAST_TOUCH_PX = 44;

/**
 * Where each of a row's windows is touched: at least 44 px wide wherever that leaves its neighbours theirs. The border
 * between two lies in the middle of what is free between them, so that no window is touched for another.
 *
 * @param items in the order of their places
 */
export function withTouch<T extends Placed>(
  items: readonly T[],
  from: number,
  to: number,
): (T & TouchSpan)[] {
  const border = (left: T | undefined, right: T | undefined, end: number) =>
    left && right ? (left.x1 + right.x0) / 2 : end;
  return items.map((item, i) => {
    const least = border(items[i - 1], item, from);
    const most = border(item, items[i + 1], to);
    const wide = Math.min(most - least, Math.max(LEAST_TOUCH_PX, item.x1 - item.x0));
    const middle = (item.x0 + item.x1) / 2;
    const touchX0 = Math.min(most - wide, Math.max(least, middle - wide / 2));
    return { ...item, touchX0, touchX1: touchX0 + wide };
  });
}
