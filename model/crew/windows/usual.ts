import type { KeptShares } from "./kept.ts";
import type { SlotWindow } from "./runs.ts";

/**
 * How the hours of a field are counted, whichever of its works are held and whoever found them: by its usual windows, those
 * that gathering has when nothing is held but what began before now.
 */
export interface UsualWindows {
  /** By course, as the windows of a work are told; -1 where none opens. */
  readonly ready: Int32Array;
  readonly until: Int32Array;
  /** The slot in which rain ends what lies ready from the opening of each on. */
  readonly rained: Int32Array;
  /** The share kept of crop that is taken in the worst hour of them, in the days that are planned; 1 where there are none. */
  readonly least: number;
}

/** The share kept of crop mown in `q` and taken from a slot on is what this gives, less the rain on ready crop until then. */
export type GainAt = (q: number, slot: number) => number;

/**
 * In a usual window: what lying leaves until crop of that mowing lies ready in the same dry spell, in whichever windrow, and
 * the rain until then. Other hours are the replay's own, or a person's: what lying leaves until then, but no more than the
 * worst hour of usual windows keeps, so that who keeps to those, with an hour or a machine more, loses nothing by it.
 *
 * @param count slots of the grid
 */
export function gainIn(
  { ready, until, rained, least }: UsualWindows,
  kept: KeptShares,
  count: number,
): GainAt {
  return (q, slot) => {
    let isUsual = false;
    let from = slot;
    for (let course = q; course < ready.length; course += count) {
      const opens = ready[course] as number;
      if (opens < 0 || opens > slot) continue;
      if (slot < (until[course] as number)) isUsual = true;
      if (slot < (rained[course] as number)) from = Math.min(from, opens);
    }
    return isUsual
      ? kept.until(q, from) + (kept.gatherCost[from] as number)
      : Math.min(least, kept.until(q, slot)) + (kept.gatherCost[slot] as number);
  };
}

/**
 * @param count slots of the grid
 * @param lastSlot of the days that are planned, whatever is held behind them
 */
export function usualWindows(
  windows: Omit<UsualWindows, "least">,
  kept: KeptShares,
  count: number,
  lastSlot: number,
): UsualWindows {
  const { ready, until } = windows;
  const gainAt = gainIn({ ...windows, least: 1 }, kept, count);
  const least = ready.reduce((most, opens, course) => {
    if (opens < 0 || opens > lastSlot) return most;
    const last = Math.min(lastSlot, (until[course] as number) - 1);
    return Math.min(most, gainAt(course % count, last) - (kept.gatherCost[last] as number));
  }, 1);
  return { ...windows, least };
}

/** A window with one more beginning wherever the gain changes: work that begins in one part of it may end in another. */
export function partsOf(
  { ready, until }: SlotWindow,
  gainAt: (slot: number) => number,
): readonly SlotWindow[] {
  const parts: SlotWindow[] = [];
  for (let slot = ready; slot < until; slot++) {
    if (slot === ready || Math.abs(gainAt(slot) - gainAt(slot - 1)) > 1e-12)
      parts.push({ ready: slot, until });
  }
  return parts;
}
