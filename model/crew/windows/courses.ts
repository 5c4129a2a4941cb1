import { HOUR_MS } from "../../weather/clock.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import type { Raking } from "./rakings.ts";
import type { SlotFrame, SlotWindow } from "./runs.ts";

/** The courses of one mowing: which stretch of fit hours each later work is done in. */

/** The window of each work; of held works, none. */
export type Course = readonly (SlotWindow | null)[];

/** What a mowing leaves to choose from, work by work in their order. */
export interface Choices {
  /** Stretches of fit hours, the preferred first; of a work that is held, at most one. */
  readonly stretches: readonly (readonly SlotWindow[])[];
  readonly isHeld: readonly boolean[];
  /** The rakings with the stretches in which their windrows are gathered; null where there is no raking to choose. */
  readonly windrows: readonly { readonly raking: Raking; readonly taken: readonly SlotWindow[] }[] | null;
  /** Places of raking and gathering among the works; -1 where there is none. */
  readonly rake: number;
  readonly gather: number;
}

/**
 * A mowing hour has so many courses at most, but for those of its rakings. Each is one more way to mow in the step model,
 * and a day of fit hours is rarely worth waiting for where five stretches came before it.
 */
const MOST_COURSES = 5;

interface Ranked {
  readonly rank: number;
  readonly spans: Course;
}

/**
 * The courses of one mowing, the preferred first: in the first stretch that is long enough of every work, once for each
 * raking, then with later stretches, so that none hides another; none where some work finds no stretch.
 */
export function coursesOf(choices: Choices, frame: SlotFrame): readonly Course[] {
  const { stretches, windrows, rake, gather } = choices;
  const ranked = (windrows ?? [null]).flatMap((windrow): Ranked[] => {
    const ofWork = stretches.map((own, i): readonly (SlotWindow | null)[] => {
      const some =
        windrow === null ? own : i === rake ? [windrow.raking] : i === gather ? windrow.taken : own;
      return some.length === 0 && choices.isHeld[i] ? [null] : some;
    });
    const later = windrow?.raking.stretch ?? 0;
    return combined(ofWork)
      .filter(({ rank, spans }) => rank === 0 || canFollow(spans, choices, frame))
      .map(({ rank, spans }) => ({ rank: rank + later, spans }));
  });
  const first = ranked.filter(({ rank }) => rank === 0);
  const others = ranked.filter(({ rank }) => rank > 0).sort((a, b) => a.rank - b.rank);
  return [...first, ...others.slice(0, Math.max(0, MOST_COURSES - first.length))].map(({ spans }) => spans);
}

/** Every choice of one stretch for each work; its rank tells how far it is from the preferred ones. */
function combined(ofWork: readonly (readonly (SlotWindow | null)[])[]): readonly Ranked[] {
  return ofWork.reduce<readonly Ranked[]>(
    (all, own) =>
      all.flatMap(({ rank, spans }) =>
        own.slice(0, MOST_COURSES).map((span, i) => ({ rank: rank + i, spans: [...spans, span] })),
      ),
    [{ rank: 0, spans: [] }],
  );
}

/** False where a work could only be done before the one that it follows, or too long after its raking. */
function canFollow(spans: Course, { isHeld, rake, gather, windrows }: Choices, frame: SlotFrame): boolean {
  let opens = 0;
  for (const [i, span] of spans.entries()) {
    if (span === null || isHeld[i]) continue;
    if (span.until <= opens) return false;
    opens = Math.max(opens, span.ready);
  }
  const [raked, taken] = windrows === null ? [null, null] : [spans[rake], spans[gather]];
  if (raked == null || taken == null) return true;
  return taken.ready <= raked.until + (CREW_DEFAULTS.baleAfterRakeH.value * HOUR_MS) / frame.slotMs;
}
