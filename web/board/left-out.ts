import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import { HOUR_MS, localDayKey, utcOfLocal } from "../../model/weather/clock.ts";
import { warningsOfCode } from "../../model/weather/warnings.ts";
import { clockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText } from "../format/words.ts";

/** A cut is offered when this much weather follows it, h. */
const WEATHER_AFTER_H = 24;

/** "Mowing takes 4.3 h", of the answer's own warning that cut hours were left out for it. */
function mowingTakes(answer: Pick<WindowsAnswer, "warnings" | "warningCodes">): string | null {
  const [warning] = warningsOfCode(answer, "mowing-outside-work");
  const head = warning?.split(":")[0];
  return head === undefined ? null : head.charAt(0).toLowerCase() + head.slice(1);
}

/** The cut hours that a day lacks, UTC ms, and what they are left out for. */
export interface LeftOut {
  readonly moments: readonly number[];
  /** "mowing takes 4.3 hours". */
  readonly takes: string;
}

/**
 * The cut hours of a day that were asked for and are not offered since the mowing would run past the working day. Null
 * where it lacks none, or lacks them for another reason: they are past, the clock skips them, or the weather ends.
 *
 * @param cutHours the hours asked for, of the farm's clock
 * @param fromMs the first moment a cut is offered from, UTC ms
 */
export function leftOutHours(
  answer: Pick<WindowsAnswer, "options" | "warnings" | "warningCodes" | "usableUntilUtc">,
  dayKey: string,
  cutHours: readonly number[],
  fromMs: number,
  zone: string,
): LeftOut | null {
  const takes = mowingTakes(answer);
  if (takes === null) return null;
  const lastMs = utcMs(answer.usableUntilUtc) - WEATHER_AFTER_H * HOUR_MS;
  const offered = new Set(
    answer.options.flatMap(({ cutUtc }) =>
      cutUtc !== null && localDayKey(utcMs(cutUtc), zone) === dayKey ? [utcMs(cutUtc)] : [],
    ),
  );
  const moments = cutHours.flatMap((hour) => {
    const local = utcOfLocal(zone, dayKey, hour);
    if (local.kind === "skipped") return [];
    const ms = local.kind === "one" ? local.utcMs : local.firstUtcMs;
    return offered.has(ms) || ms < fromMs || ms > lastMs ? [] : [ms];
  });
  return moments.length === 0 ? null : { moments, takes };
}

/** "No cut at 17:00: mowing takes 4.3 hours, which does not fit the working hours." */
export function leftOutWords({ moments, takes }: LeftOut, manner: Manner): string {
  const hours = listText(moments.map((ms) => clockText(ms, manner)));
  return `No cut at ${hours}: ${takes}, which does not fit the working hours.`;
}
