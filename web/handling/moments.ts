import type { DrydownAnswer } from "../../model/drying/index.ts";
import type {
  CutOptionAnswer,
  RouteAnswer,
  RouteKey,
  WindowsAnswer,
  WindowsRequest,
} from "../../model/harvest/index.ts";
import { ROUTE_CATALOGUE } from "../../model/harvest/index.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { shortDayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { moisturePct } from "../format/words.ts";
import type { Choice } from "../state/choice.ts";

/** The crop's own moisture at the moments that decide, from the course that the page shows. */

export interface Moment {
  readonly key: "cut" | "now" | "window" | "standing";
  readonly wb: number;
  readonly text: string;
}

export interface RouteOfRow {
  readonly option: CutOptionAnswer;
  readonly route: RouteAnswer;
}

/** A route of the chosen row; where the row has it not, that of its best row. Null where no row has it. */
export function routeOfRow(answer: WindowsAnswer, choice: Choice | null, route: RouteKey): RouteOfRow | null {
  const of = (option: CutOptionAnswer) => option.routes.find(({ route: key }) => key === route);
  const own = choice && of(choice.option);
  if (choice && own) return { option: choice.option, route: own };
  let best: RouteOfRow | null = null;
  for (const option of answer.options) {
    const found = of(option);
    const rank = found?.rank ?? Number.POSITIVE_INFINITY;
    if (found && (best === null || rank < (best.route.rank ?? Number.POSITIVE_INFINITY)))
      best = { option, route: found };
  }
  return best;
}

/** Moisture of the course at a moment, wet basis, straight inside its hour. Null outside the course. */
export function moistureAt(course: DrydownAnswer, initialWb: number, atMs: number): number | null {
  const { startUtc, moistureWb } = course.hours;
  const [first] = startUtc;
  if (first === undefined) return null;
  const hours = (atMs - utcMs(first)) / HOUR_MS;
  const ended = Math.floor(hours);
  if (ended < 0 || ended > moistureWb.length) return null;
  const before = ended === 0 ? initialWb : moistureWb[ended - 1];
  const after = moistureWb[ended] ?? before;
  return before === undefined || after === undefined ? null : before + (hours - ended) * (after - before);
}

/** Whose moisture is asked for: a route of a row, with its own course where that is known. */
export interface MomentsQuestion {
  readonly request: WindowsRequest;
  readonly route: RouteKey;
  readonly row: RouteOfRow | null;
  readonly course: DrydownAnswer | null;
  readonly nowMs: number;
}

/** Where the crop stands: at the cut, now where it lies now, and as its first window opens. */
export function momentsOf(question: MomentsQuestion, manner: Manner): readonly Moment[] {
  const { request, route, row, course, nowMs } = question;
  const { initialMoistureWb } = request.swath;
  const told = (wb: number) => moisturePct(wb, manner);
  if (ROUTE_CATALOGUE[route].kind === "standing") {
    const wb = request.standing?.moistureWb ?? initialMoistureWb;
    return [{ key: "standing", wb, text: `standing ${told(wb)}` }];
  }
  const moments: Moment[] = [
    { key: "cut", wb: initialMoistureWb, text: `at the cut ${told(initialMoistureWb)}` },
  ];
  const cutUtc = row?.option.courseCutUtc ?? null;
  if (row === null || course === null || cutUtc === null) return moments;
  const now = nowMs > utcMs(cutUtc) ? moistureAt(course, initialMoistureWb, nowMs) : null;
  if (now !== null) moments.push({ key: "now", wb: now, text: `now ${told(now)}` });
  const [window] = row.route.windows;
  const opens = window ? moistureAt(course, initialMoistureWb, utcMs(window.startUtc)) : null;
  if (window && opens !== null)
    moments.push({
      key: "window",
      wb: opens,
      text: `window, ${shortDayClockText(window.startUtc, manner)}: ${told(opens)}`,
    });
  return moments;
}
