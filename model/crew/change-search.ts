import { seededRandom } from "../odds/random.ts";
import { once } from "../once.ts";
import { placeAlone } from "./alone.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import type { Grid, GridJob } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { ROUTE_COURSES } from "./left-help.ts";
import type { GridPlan } from "./solve-grid.ts";
import { withToldWindows } from "./told-windows.ts";
import { jobsOfField, placesOf } from "./value.ts";

/** What a change of the crew or of one field would bring: the plan searched on in the changed task, and as long in its own. */

/** Rounds of a search that only tells whether a change helps, and of one that tells how much. */
const QUICK_ROUNDS = 40;
const LONGER_ROUNDS = 160;
/** So many are searched longer at once: each takes four times as long. */
const MOST_LONGER = 8;
/** A smaller share of the value is no help worth naming. */
const LEAST_GAIN = 0.001;

/** A changed task, and how the change is told. */
export interface CrewVariant extends Omit<HelpfulChange, "gain" | "proved" | "text"> {
  readonly built: BuiltCrew;
  /** The sentence with the gain as it is told: "120 more in value". */
  readonly told: (jobs: readonly GridJob[], worth: string) => string;
}

/** The same with the best plan found in it from the one there is. */
export interface Tried extends CrewVariant {
  readonly jobs: readonly GridJob[];
  /** By the objective, over the plan searched as long without it. */
  readonly gain: number;
}

/** Changes tried one after the other, those that help and those that were tried in vain. */
export interface ChangeSearch {
  /** A gain of no more than this is none. */
  readonly least: number;
  attempt(change: CrewVariant): void;
  /** What the best of them brings, as far as a quick search tells; 0 where none helps. */
  most(): number;
  /** So many that help most, the first searched longer: a quick search tells too little of what it brings. */
  best(count: number): readonly Tried[];
  /** Those that helped are found no more. */
  forget(): void;
  /** Those that were tried in vain are searched longer, those of one field first, so many at most. */
  longer(): void;
  /** What the longer search finds without any change. */
  without(): number;
}

export function changeSearch(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  { value, bound }: Pick<GridPlan, "value" | "bound">,
  stop: () => boolean,
): ChangeSearch {
  const found = (grid: Grid, from: readonly GridJob[], rounds: number, enough?: number) =>
    searchPlan(grid, { rounds, random: seededRandom(1), stop, start: placesOf(grid, from), enough });
  // What a plan searched longer would bring without any change is no help of the change.
  const plain = (rounds: number) => once(() => Math.max(value, found(built.grid, jobs, rounds, bound).value));
  const [quickly, without] = [plain(QUICK_ROUNDS), plain(LONGER_ROUNDS)];
  const least = LEAST_GAIN * Math.max(1, Math.abs(value));
  const quick = (change: CrewVariant): Tried => {
    let [of, best] = [change.built, found(change.built.grid, jobs, QUICK_ROUNDS)];
    // Whoever is there at other hours may find hours that the windows of the plan know nothing of; so may a field of
    // another route beside the others.
    const mayNeed = change.kind !== "machine" && !stop();
    const told = mayNeed ? toldAnew(change.built, best.jobs, change.fieldId, stop) : null;
    if (told !== null) {
      const more = found(told.grid, best.jobs, QUICK_ROUNDS);
      if (more.value > best.value) [of, best] = [told, more];
    }
    return { ...change, built: of, jobs: best.jobs, gain: best.value - quickly() };
  };
  const searchedLonger = (tried: Tried): Tried => {
    const best = found(tried.built.grid, tried.jobs, LONGER_ROUNDS);
    return { ...tried, jobs: best.jobs, gain: best.value - without() };
  };
  let helpful: Tried[] = [];
  let vain: Tried[] = [];
  const sort = (tried: Tried) => (tried.gain > least ? helpful : vain).push(tried);
  return {
    least,
    attempt: (change) => {
      sort(quick(change));
    },
    most: () => helpful.reduce((most, { gain }) => Math.max(most, gain), 0),
    best: (count) =>
      [...helpful]
        .sort((a, b) => b.gain - a.gain)
        .slice(0, count)
        .map((tried, i) => (i > 0 || stop() ? tried : searchedLonger(tried)))
        .filter(({ gain }) => gain > least),
    forget: () => {
      helpful = [];
    },
    longer: () => {
      const ofField = vain.filter(({ fieldId }) => fieldId !== null);
      const again = [...ofField, ...vain.filter(({ fieldId }) => fieldId === null)].slice(0, MOST_LONGER);
      vain = [];
      for (const tried of again) if (!stop()) sort(searchedLonger(tried));
    },
    without,
  };
}

/**
 * The changed task with windows from the replay: for one field that is still left in it, or, where the change is of the whole
 * crew, for those that are left and find no place even by themselves. Null where nobody needs any.
 */
function toldAnew(
  changed: BuiltCrew,
  jobs: readonly GridJob[],
  fieldId: string | null,
  stop: () => boolean,
): BuiltCrew | null {
  const { grid } = changed;
  const only = [...grid.fields.entries()].flatMap(([f, field]) => {
    if (jobsOfField(field, f, jobs) !== null) return [];
    // A field that needed them to find a place by itself has them.
    if (fieldId !== null) return field.id === fieldId && !changed.told.includes(fieldId) ? [f] : [];
    return placeAlone(grid, f) === null ? [f] : [];
  });
  if (only.length === 0) return null;
  const options = fieldId === null ? { only } : { only, courses: ROUTE_COURSES };
  return withToldWindows({ ...changed, told: [] }, jobs, [], stop, options);
}
