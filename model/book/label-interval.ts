import { addDays, localDayKey } from "../weather/clock.ts";
import type { IntervalBefore, SprayDoc } from "./farm-docs.ts";

/** A label's interval that is not over when the work is meant to be done. */
export interface RunningInterval {
  readonly product: string;
  readonly before: IntervalBefore;
  readonly intervalDays: number;
  /** The farm's day from which the label allows it, YYYY-MM-DD. */
  readonly firstDay: string;
}

const BEFORE_WORDS = { cutting: "cut", grazing: "graze", feeding: "feed" } as const;

/** The first day after an interval, by the days that the user entered of the label. */
export function firstDayAfter({ appliedUtc, intervalDays }: SprayDoc, timeZone: string): string {
  return addDays(localDayKey(Date.parse(appliedUtc), timeZone), intervalDays);
}

/**
 * Intervals that still run at a moment, of what was sprayed before it grew into that cut.
 *
 * @param of what is meant to be done: each label says before what its days count
 * @param grownMs when the crop left the field; what is sprayed later is not on it
 */
export function runningIntervals(
  sprays: readonly SprayDoc[] | null | undefined,
  of: readonly IntervalBefore[],
  atMs: number,
  timeZone: string,
  grownMs = atMs,
): RunningInterval[] {
  const day = localDayKey(atMs, timeZone);
  return (sprays ?? []).flatMap((spray) => {
    const { product, before, intervalDays, appliedUtc } = spray;
    const firstDay = firstDayAfter(spray, timeZone);
    const onIt = localDayKey(Date.parse(appliedUtc), timeZone) <= localDayKey(grownMs, timeZone);
    return of.includes(before) && onIt && day < firstDay ? [{ product, before, intervalDays, firstDay }] : [];
  });
}

/** "Inside a label's interval: P, 10 days before cutting, first day to cut 2026-11-29. The label decides." */
export function intervalText(running: readonly RunningInterval[]): string {
  if (running.length === 0) return "";
  const each = running.map(
    ({ product, before, intervalDays, firstDay }) =>
      `${product}, ${intervalDays} ${intervalDays === 1 ? "day" : "days"} before ${before}, first day to ${BEFORE_WORDS[before]} ${firstDay}`,
  );
  return `Inside a label's interval: ${each.join("; ")}. The label decides.`;
}
