import { CREW_DEFAULTS } from "./defaults.ts";
import { courseOf, type Grid, type GridField, type GridJob } from "./grid.ts";
import { type FieldHours, fieldHours, freeHours } from "./heuristic/hours.ts";
import { bestPlace, type MowChoice, mowChoices, removeField } from "./heuristic/insert.ts";
import { scheduleOf } from "./heuristic/schedule.ts";
import { servedValue } from "./value.ts";

/** Mowing hours that a field is put back at, and after each of them later hours of gathering beside the earliest. */
const MOWINGS_TRIED = 12;
const LATER_TRIED = 2;
/** Chains of works that a field may be judged in, at most. */
export const CHAINS_TRIED = MOWINGS_TRIED * (1 + LATER_TRIED);
/** So much later a gathering is tried, slots. */
const LATER_SLOTS = 24;

/**
 * The works of a field put back at other mowing hours, beside all other fields as they stand: each chain can be carried
 * out, and counts at most `givenForChance` of the field less than it does now.
 *
 * @param jobs the whole plan
 * @param own the field's works in it, in the order of its tasks
 */
export function otherMowings(
  grid: Grid,
  f: number,
  jobs: readonly GridJob[],
  own: readonly GridJob[],
): readonly (readonly GridJob[])[] {
  const field = grid.fields[f] as GridField;
  const least = servedValue(field, own) - CREW_DEFAULTS.givenForChance.value * field.worth;
  const [mow, course] = [own[0], courseOf(field, own)];
  const isOther = (one: MowChoice) =>
    one.start !== mow?.start || one.end !== mow.end || one.course !== course;
  const choices = mowChoices(grid, f)
    .filter((one) => one.hope >= least && isOther(one))
    .sort((a, b) => a.start - b.start || a.course - b.course);
  if (choices.length === 0) return [];
  const schedule = scheduleOf(grid, jobs);
  removeField(grid, schedule, f);
  const tried = { places: 0 };
  const free = freeHours(grid, schedule, f, fieldHours(grid, f), tried);
  if (free === null) return [];
  const chainIn = (choice: MowChoice, hours: FieldHours) => {
    const placed = bestPlace(grid, schedule, f, [choice], tried, hours);
    return placed === null || placed.value < least ? [] : [placed.jobs];
  };
  return spread(choices, MOWINGS_TRIED).flatMap((choice) => {
    const found = chainIn(choice, free);
    const at = found[0]?.[field.gather]?.start;
    if (at === undefined) return found;
    const gatherings = free[field.gather] ?? [];
    const later = gatherings.filter(({ start }) => start > at && start < at + LATER_SLOTS);
    const chains = spread(later, LATER_TRIED).flatMap(({ start: from }) =>
      chainIn(
        choice,
        free.map((list, i) => (i === field.gather ? list.filter(({ start }) => start >= from) : list)),
      ),
    );
    return [...found, ...chains];
  });
}

/** Some of a list, evenly from its end. */
export function spread<T>(list: readonly T[], most: number): readonly T[] {
  const step = Math.max(1, Math.ceil(list.length / most));
  return list.filter((_, i) => (list.length - 1 - i) % step === 0);
}
