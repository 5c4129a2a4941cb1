import { placesAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, type GridTask, slotUtcMs } from "./grid.ts";
import { type Hour, machineFor } from "./heuristic/hours.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { personFor, type Schedule, scheduleOf } from "./heuristic/schedule.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { Reason } from "./reason.ts";
import { withMachine, withoutCarts, withPerson } from "./variants.ts";
import { awayAndTaken, type IfThere, NO_MACHINE, NOBODY } from "./who-is-away.ts";
import { kindWord, opWord, spanTime, spokenClock } from "./words.ts";

/** Fields that could be done by themselves, and that other fields keep out of the plan. */

/** For a customer, where the cause is the planner's own to mend. */
export const NO_TIME = "no time was found for it in these days";

function finds(grid: Grid, schedule: Schedule, f: number): boolean {
  return bestPlace(grid, schedule, f, mowChoices(grid, f)) !== null;
}

/** A field as if no visit were promised and nothing were due. */
export function withoutCosts(grid: Grid, f: number): Grid {
  const free = (field: GridField): GridField => ({
    ...field,
    moveCost: 0,
    lateCost: new Float64Array(field.lateCost.length),
  });
  return { ...grid, fields: grid.fields.map((field, at) => (at === f ? free(field) : field)) };
}

/** Why a field that has a place by itself has none beside the others, the first reason that is true. */
export function whyTaken(built: BuiltCrew, jobs: readonly GridJob[], f: number, ifThere: IfThere): Reason {
  const { grid } = built;
  const { site, tasks } = grid.fields[f] as GridField;
  const schedule = scheduleOf(grid, jobs);
  if (finds(grid, schedule, f)) {
    return { why: "no plan was found that brings more with it", customerWhy: NO_TIME };
  }
  if (finds(withoutCosts(grid, f), schedule, f)) {
    const why = "serving it would cost more in moved visits or lateness than it brings";
    return { why, customerWhy: NO_TIME };
  }
  const places = placesAlone(grid, f);
  const hasMachine =
    (task: GridTask) =>
    ({ start, end }: Hour) =>
      machineFor(grid, schedule, task, start, end, site) >= 0;
  const hasSomebody = ({ start, end }: Hour) => personFor(grid, schedule, start, end, site) >= 0;
  const open = tasks.flatMap((task, i) => (task.fixed === null ? [{ task, hours: places[i] ?? [] }] : []));
  const away = open.find(({ task }) => ifThere(task.op).has(f));
  if (away !== undefined) {
    return awayAndTaken(built, f, away.task.op, !away.hours.some(hasMachine(away.task)));
  }
  const apart = withoutCarts(grid);
  if (apart !== null && finds(apart, scheduleOf(apart, jobs), f)) {
    return {
      why: "the carts are taken by other fields when they would be needed here",
      customerWhy: NO_MACHINE,
    };
  }
  const short = open.filter(({ task }) => {
    const more = withMachine(grid, task.op);
    return finds(more, scheduleOf(more, jobs), f);
  });
  const machineOf = ({ op }: GridTask) => kindWord(KIND_OF_OP[op]);
  const taken = short.find(({ task, hours }) => !hours.some(hasMachine(task)));
  if (taken !== undefined) {
    const when = possibleAt(built, taken.task, taken.hours);
    const why = `the ${machineOf(taken.task)} is taken by fields that bring more when ${when}`;
    return { why, customerWhy: NO_MACHINE };
  }
  const crew = withPerson(grid);
  const isCrewShort = finds(crew, scheduleOf(crew, jobs), f);
  const busy = open.find(({ hours }) => !hours.some(hasSomebody));
  if (busy !== undefined && isCrewShort) {
    const why = `everybody is at fields that bring more when ${possibleAt(built, busy.task, busy.hours)}`;
    return { why, customerWhy: NOBODY };
  }
  // Each of its works has hours, but not one after the other.
  const [first] = short;
  const one = first !== undefined ? machineOf(first.task) : isCrewShort ? "person" : null;
  const why =
    one === null
      ? "no place was found for it beside the other fields of the plan"
      : `it would take one more ${one} beside the other fields of the plan`;
  return { why, customerWhy: NO_TIME };
}

/** "baling is possible (Fri 3 Jul 14:00 to 20:00)", of the first stretch of several. */
function possibleAt(built: BuiltCrew, { op }: GridTask, hours: readonly Hour[]): string {
  const { grid } = built;
  const [first] = hours;
  if (first === undefined) return `${opWord(op)} is possible`;
  let { end } = first;
  for (const hour of hours) if (hour.start <= end) end = Math.max(end, hour.end);
  const span = spanTime(slotUtcMs(grid, first.start), slotUtcMs(grid, end), spokenClock(built));
  const isOne = hours.every((hour) => hour.end <= end);
  return `${opWord(op)} is possible (${isOne ? "" : "first "}${span})`;
}
