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

interface Placed {
  readonly x0: number;
  readonly x1: number;
}

/** What is drawn where, and how far its middle may be moved to make room. */
export interface Movable extends Placed {
  /** Absent = as far as the row reaches. */
  readonly stay?: Placed;
}

/** A window that gives way to its neighbour keeps this much: its number and the walls, px. */
const LEAST_BESIDE_PX = 10;

/**
 * Widens what is too narrow to read or touch, about its own middle, and moves neighbours apart inside [from, to], no
 * further than each may be moved: where that is too little they give up their edges to one another. Order is kept.
 */
export function spread<T extends Movable>(
  items: readonly T[],
  leastPx: number,
  gapPx: number,
  from: number,
  to: number,
): T[] {
  const sorted = [...items].sort((a, b) => a.x0 + a.x1 - (b.x0 + b.x1));
  const widened = sorted.map(({ x0, x1, stay = { x0: from, x1: to } }) => {
    const half = Math.max(leastPx, x1 - x0) / 2;
    const most = Math.min(to - half, stay.x1);
    const least = Math.min(Math.max(from + half, stay.x0), most);
    return { middle: Math.min(most, Math.max(least, (x0 + x1) / 2)), half, least, most };
  });
  for (let pass = 0; pass < 12; pass++) {
    for (let i = 1; i < widened.length; i++) {
      const left = widened[i - 1];
      const right = widened[i];
      if (!left || !right) continue;
      const apart = left.half + gapPx + right.half;
      const overlap = left.middle + apart - right.middle;
      if (overlap <= 0) continue;
      left.middle = Math.max(left.least, left.middle - overlap / 2);
      right.middle = Math.min(right.most, Math.max(right.middle, left.middle + apart));
    }
  }
  const placed = widened.map(({ middle, half }) => ({ x0: middle - half, x1: middle + half }));
  for (let i = 1; i < placed.length; i++) {
    const left = placed[i - 1];
    const right = placed[i];
    if (!left || !right || left.x1 + gapPx <= right.x0) continue;
    const least = left.x0 + LEAST_BESIDE_PX + gapPx / 2;
    const most = right.x1 - LEAST_BESIDE_PX - gapPx / 2;
    // With no room for both the later one is drawn over.
    if (least > most) continue;
    const border = Math.min(most, Math.max(least, (left.x1 + right.x0) / 2));
    left.x1 = Math.min(left.x1, border - gapPx / 2);
    right.x0 = Math.max(right.x0, border + gapPx / 2);
  }
  return sorted.map((item, i) => ({ ...item, ...placed[i] }));
}

/** A place along a row that is touched. */
export interface TouchSpan {
  readonly touchX0: number;
  readonly touchX1: number;
}

/** Least side of what is touched with a thumb or a glove, px. */
export const LEAST_TOUCH_PX = 44;
/** A window between two others takes this much, as long as each of them keeps three quarters of what is drawn of it. */
const LEAST_BETWEEN_PX = 34;

/**
 * Where each of a row's windows is touched: at least 44 px wide wherever that leaves its neighbours theirs. The border
 * between two lies in the middle of what is free between them, unless a window between two others would be too narrow.
 *
 * @param items in the order of their places
 */
export function withTouch<T extends Placed>(
  items: readonly T[],
  from: number,
  to: number,
): (T & TouchSpan)[] {
  const half = (item: T) => (item.x1 - item.x0) / 2;
  const between = (i: number) => i > 0 && i < items.length - 1;
  const freeTo = (left: T, right: T) => (left.x1 + right.x0) / 2;
  /** What a window between two others lacks on each side, px. */
  const lack = (i: number) => {
    const [left, item, right] = [items[i - 1], items[i], items[i + 1]];
    if (!left || !item || !right) return 0;
    return Math.max(0, LEAST_BETWEEN_PX - (freeTo(item, right) - freeTo(left, item))) / 2;
  };
  /** Border between an item and the one before it. */
  const borderBefore = (i: number, end: number) => {
    const [left, right] = [items[i - 1], items[i]];
    if (!left || !right) return end;
    const free = freeTo(left, right);
    if (between(i) === between(i - 1)) return free;
    return between(i)
      ? free - Math.min(lack(i), half(left) / 2)
      : free + Math.min(lack(i - 1), half(right) / 2);
  };
  return items.map((item, i) => {
    const least = borderBefore(i, from);
    const most = borderBefore(i + 1, to);
    const wide = Math.min(most - least, Math.max(LEAST_TOUCH_PX, item.x1 - item.x0));
    const middle = (item.x0 + item.x1) / 2;
    const touchX0 = Math.min(most - wide, Math.max(least, middle - wide / 2));
    return { ...item, touchX0, touchX1: touchX0 + wide };
  });
}
