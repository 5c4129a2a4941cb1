import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/index.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";

/** Rows of the brief's board, and the fewest days of cutting among them where standing routes take the others. */
const ROWS_SHOWN = 5;
const LEAST_DAYS = 3;

/** The answer with the cuts of its best days alone, and how many days those are of all. */
export function bestDays(
  answer: WindowsAnswer,
  chosen: CutOptionAnswer | null,
  { zone }: Pick<Manner, "zone">,
) {
  const dayOf = ({ cutUtc }: CutOptionAnswer) => (cutUtc === null ? null : localDayKey(utcMs(cutUtc), zone));
  const rankOf = ({ routes }: CutOptionAnswer) =>
    Math.min(...routes.map(({ rank }) => rank ?? Number.POSITIVE_INFINITY));
  const wanted = chosen === null ? [] : [chosen];
  const days = [...wanted, ...answer.options.toSorted((a, b) => rankOf(a) - rankOf(b))].flatMap(
    (option) => dayOf(option) ?? [],
  );
  const all = [...new Set(days)];
  const standing = answer.options.filter(({ cutUtc }) => cutUtc === null).length;
  const shown = all.slice(0, Math.max(LEAST_DAYS, ROWS_SHOWN - standing));
  const options = answer.options.filter((option) => {
    const day = dayOf(option);
    return day === null || shown.includes(day);
  });
  return { answer: { ...answer, options }, shown: shown.length, days: all.length };
}
