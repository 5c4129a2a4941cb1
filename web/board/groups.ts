import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/answer.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import { bestOpen } from "../state/choice.ts";

/** The cut options of one local day: its best in front, the other cut hours behind it in time order. */
export interface DayGroup {
  readonly dayKey: string;
  readonly best: CutOptionAnswer;
  readonly others: readonly CutOptionAnswer[];
}

export interface Groups {
  /** Cuts that lie already, in the order of time: each a row of its own. */
  readonly made: readonly CutOptionAnswer[];
  readonly days: readonly DayGroup[];
  readonly standing: readonly CutOptionAnswer[];
}

function rankOf(option: CutOptionAnswer): number {
  return bestOpen(option)?.rank ?? Number.POSITIVE_INFINITY;
}

/** The lower rank; between options without a window the one offered first. */
function better(a: CutOptionAnswer, b: CutOptionAnswer): CutOptionAnswer {
  return rankOf(b) < rankOf(a) ? b : a;
}

/** One option a cut time: where several treatments share it, the best of them. */
function bestOfEachCut(options: readonly CutOptionAnswer[]): CutOptionAnswer[] {
  const byCut = new Map<string, CutOptionAnswer>();
  for (const option of options) {
    if (option.cutUtc === null || option.made) continue;
    const known = byCut.get(option.cutUtc);
    byCut.set(option.cutUtc, known ? better(known, option) : option);
  }
  return [...byCut.values()].sort((a, b) => utcMs(a.cutUtc ?? "") - utcMs(b.cutUtc ?? ""));
}

/** Rows in time order by local day; standing routes apart. A chosen option that its cut time's best hides takes its place. */
export function groupOptions(answer: WindowsAnswer, zone: string, chosenId: string | null): Groups {
  const chosen = answer.options.find(({ id }) => id === chosenId);
  const swaths = bestOfEachCut(answer.options).map((option) =>
    chosen?.cutUtc != null && !chosen.made && option.cutUtc === chosen.cutUtc ? chosen : option,
  );
  const byDay = new Map<string, CutOptionAnswer[]>();
  for (const option of swaths) {
    const day = localDayKey(utcMs(option.cutUtc ?? ""), zone);
    byDay.set(day, [...(byDay.get(day) ?? []), option]);
  }
  const days = [...byDay].flatMap(([dayKey, options]) => {
    const [first, ...rest] = options;
    if (!first) return [];
    const best = rest.reduce(better, first);
    return [{ dayKey, best, others: options.filter((option) => option !== best) }];
  });
  const made = answer.options.filter((option) => option.made);
  return { made, days, standing: answer.options.filter(({ kind }) => kind === "standing") };
}
