import { freeSlots } from "../../model/crew/grid-slots.ts";
import type { CrewJobAnswer, CrewPersonRequest } from "../../model/crew/index.ts";
import { workSpans } from "../../model/harvest/work-hours.ts";
import type { Scale, Span } from "../board/calendar.ts";
import { farmDays, utcMs } from "../format/farm-time.ts";

/** Quarter hours in a row with the same people. */
interface PeopleStep {
  readonly fromMs: number;
  readonly toMs: number;
  /** In their hours and not away. */
  readonly there: number;
  /** With a work, outside their hours too. */
  readonly busy: number;
}

const QUARTER_MS = 15 * 60_000;

/** How many people have work against how many there are, quarter hour by quarter hour; those with nobody are left out. */
function peopleSteps(
  people: readonly CrewPersonRequest[],
  jobs: readonly CrewJobAnswer[],
  zone: string,
  fromMs: number,
  toMs: number,
): PeopleStep[] {
  const count = Math.ceil((toMs - fromMs) / QUARTER_MS);
  const frame = { startUtcMs: fromMs, slotMs: QUARTER_MS, count };
  const there = people.map((person) =>
    freeSlots(frame, workSpans(zone, person, fromMs, toMs), person.offUtc),
  );
  const spans = jobs.map(({ personId, startUtc, endUtc }) => ({
    personId,
    fromMs: utcMs(startUtc),
    toMs: utcMs(endUtc),
  }));
  const steps: { fromMs: number; toMs: number; there: number; busy: number }[] = [];
  for (let t = 0; t < count; t++) {
    const at = fromMs + t * QUARTER_MS;
    const next = Math.min(toMs, at + QUARTER_MS);
    const free = there.reduce((sum, slots) => sum + (slots[t] ?? 0), 0);
    const busy = new Set(
      spans.filter((one) => one.fromMs < next && at < one.toMs).map(({ personId }) => personId),
    ).size;
    const last = steps.at(-1);
    if (free === 0 && busy === 0) continue;
    if (last?.toMs === at && last.there === free && last.busy === busy) last.toMs = next;
    else steps.push({ fromMs: at, toMs: next, there: free, busy });
  }
  return steps;
}

/** Those of the list who have no work in the plan. */
function idlePeople(people: readonly CrewPersonRequest[], jobs: readonly CrewJobAnswer[]): string[] {
  return people
    .filter(({ id }) => !jobs.some(({ personId }) => personId === id))
    .map(({ id, name }) => name || id);
}

/** A stretch of the people's row: its two heights as shares of the row. */
export interface PeopleBar extends Span {
  readonly there: number;
  readonly busy: number;
}

export interface PeopleRow {
  readonly y: number;
  readonly heightPx: number;
  readonly bars: readonly PeopleBar[];
  /** Of each day: how many have work at once and how many are there, at most. */
  readonly most: readonly (Span & { readonly busy: number; readonly there: number })[];
  readonly idle: readonly string[];
}

/** The people's row of the chart. */
export function peopleRow(
  people: readonly CrewPersonRequest[],
  jobs: readonly CrewJobAnswer[],
  zone: string,
  scale: Scale,
): Omit<PeopleRow, "y" | "heightPx"> {
  const steps = peopleSteps(people, jobs, zone, scale.fromMs, scale.toMs);
  const all = Math.max(1, ...steps.map(({ there, busy }) => Math.max(there, busy)));
  return {
    bars: steps.map(({ fromMs, toMs, there, busy }) => ({
      x0: scale.x(fromMs),
      x1: scale.x(toMs),
      there: there / all,
      busy: busy / all,
    })),
    most: farmDays(scale.fromMs, scale.toMs, zone).flatMap(({ startMs, endMs }) => {
      const own = steps.filter(({ fromMs, toMs }) => fromMs < endMs && toMs > startMs);
      const busy = Math.max(0, ...own.map((step) => step.busy));
      const there = Math.max(0, ...own.map((step) => step.there));
      return busy + there === 0 ? [] : [{ x0: scale.x(startMs), x1: scale.x(endMs), busy, there }];
    }),
    idle: idlePeople(people, jobs),
  };
}
