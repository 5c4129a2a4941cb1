import type { DrydownAnswer } from "../../model/drying/answer.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { clockText, dayClockText, utcMs } from "../format/farm-time.ts";
import { bandPct, listText, moisturePct } from "../format/words.ts";
import type { CourseInput } from "./to-course.ts";

/**
 * When a moisture is first reached, in an hour-by-hour course: UTC ms, straight inside the hour; null where never.
 * A course that starts at or below it has reached it at its start.
 */
export function reachedMs(
  hours: { readonly startUtc: readonly string[]; readonly moistureWb: readonly number[] },
  targetWb: number,
): number | null {
  const at = hours.moistureWb.findIndex((wb) => wb <= targetWb);
  if (at < 0) return null;
  const startMs = utcMs(hours.startUtc[at] ?? "");
  const before = hours.moistureWb[at - 1];
  const after = hours.moistureWb[at] ?? targetWb;
  if (before === undefined || before <= after) return startMs + HOUR_MS;
  return startMs + ((before - targetWb) / (before - after)) * HOUR_MS;
}

/** Where a course's own target of that moisture says when, use it; else read it off the hours. */
function modelReachedMs(course: DrydownAnswer, targetWb: number): number | null {
  const target = course.targets.find((each) => Math.abs(each.targetWb - targetWb) < 1e-9);
  if (target) return target.reached ? utcMs(target.reachedUtc) : null;
  return reachedMs(course.hours, targetWb);
}

/** Latest less earliest of the model and the second opinions in reaching a moisture, h; null where fewer than two reach it. */
export function opinionSpreadH(course: DrydownAnswer, targetWb: number): number | null {
  const times = [
    modelReachedMs(course, targetWb),
    ...course.secondOpinions.map(({ hours }) => reachedMs(hours, targetWb)),
  ];
  const known = times.filter((ms) => ms !== null);
  return known.length < 2 ? null : (Math.max(...known) - Math.min(...known)) / HOUR_MS;
}

/** The course in a sentence or three, and its heading. */
export function courseSentence({ course, option, routes, manner, initialMoistureWb }: CourseInput): {
  readonly sentence: string;
  readonly heading: string;
} {
  const cut = option.cutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc;
  const middle = option.courseCutUtc ?? cut;
  const mowing = utcMs(middle) === utcMs(cut) ? "" : `, middle of the mowing ${clockText(middle, manner)},`;
  const first = course.hours.moistureWb[0];
  const start =
    initialMoistureWb !== undefined
      ? ` at ${moisturePct(initialMoistureWb, manner)}`
      : first === undefined
        ? ""
        : ` with ${moisturePct(first, manner)} left after the first hour`;
  const byWettest = [...routes].sort((a, b) => b.bandWb[1] - a.bandWb[1]);
  const reached: string[] = [];
  const never: string[] = [];
  for (const { label, bandWb } of byWettest) {
    const ms = modelReachedMs(course, bandWb[1]);
    const name = `${label.charAt(0).toLowerCase()}${label.slice(1)} (${bandPct(bandWb, manner)})`;
    if (ms === null) never.push(name);
    else reached.push(`${name} ${dayClockText(ms, manner)}`);
  }
  const spreads = routes.map(({ bandWb }) => opinionSpreadH(course, bandWb[1])).filter((h) => h !== null);
  const sentences = [`Cut ${dayClockText(cut, manner)}${mowing}${start}.`];
  if (reached.length > 0) sentences.push(`Reaches ${listText(reached)}.`);
  if (never.length > 0) sentences.push(`Does not come down to ${listText(never)} in this forecast.`);
  if (spreads.length > 0)
    sentences.push(`Second opinions differ by up to ${Math.round(Math.max(...spreads))} h.`);
  return { sentence: sentences.join(" "), heading: `Course of the swath cut ${dayClockText(cut, manner)}` };
}
