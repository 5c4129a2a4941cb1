import { type Grid, type GridField, type GridResource, stretchEnds } from "./grid.ts";
import type { CrewOp } from "./keys.ts";

/** The same task with one more machine like the first of its kind that can do some work, there at all hours. */
export function withMachine(grid: Grid, op: CrewOp): Grid {
  const does = (k: number) =>
    grid.fields.some(({ tasks }) => tasks.some((task) => (task.slotsOf[k] ?? 0) > 0));
  const first = grid.machines.findIndex((machine) => machine.op === op);
  const like = Math.max(
    first,
    grid.machines.findIndex((machine, k) => machine.op === op && does(k)),
  );
  if (like < 0) return grid;
  const extra: GridResource = { id: "", op, freeUntil: new Int32Array(grid.count).fill(grid.count) };
  return {
    ...grid,
    machines: [...grid.machines, extra],
    fields: grid.fields.map(
      (field): GridField => ({
        ...field,
        tasks: field.tasks.map((task) => ({
          ...task,
          slotsOf: Int32Array.from([...task.slotsOf, task.slotsOf[like] as number]),
        })),
      }),
    ),
  };
}

/** The same task in which no machine takes another along; null where none does. */
export function withoutCarts(grid: Grid): Grid | null {
  if (grid.machines.every(({ along }) => along === undefined)) return null;
  const apart = ({ along: _, ownUntil, follows: _f, freeUntil, ...one }: GridResource): GridResource => ({
    ...one,
    freeUntil: ownUntil ?? freeUntil,
  });
  return { ...grid, machines: grid.machines.map(apart) };
}

/** The same task in which the machines of a work are there at all hours. */
export function withoutTimeOff(grid: Grid, op: CrewOp): Grid {
  const freeUntil = new Int32Array(grid.count).fill(grid.count);
  return {
    ...grid,
    machines: grid.machines.map((machine) =>
      machine.op === op ? { ...machine, freeUntil, ownUntil: undefined } : machine,
    ),
  };
}

/** The same task with another machine for each of these works, and if asked another person, who are there at all hours. */
export function alwaysThere(grid: Grid, ops: readonly CrewOp[], person: boolean): Grid {
  const more = ops.reduce(withMachine, grid);
  const freeUntil = new Int32Array(grid.count).fill(grid.count);
  return person ? { ...more, people: [...more.people, { id: "", op: null, freeUntil }] } : more;
}

/** The same task with one more person, who keeps the longest hours of anybody there and takes no time off. */
export function withPerson(grid: Grid): Grid {
  const [first, ...others] = grid.people;
  if (first === undefined) return grid;
  const slots = (hours: Int32Array) => hours.reduce((sum, end, t) => sum + (end > t ? 1 : 0), 0);
  const like = others.reduce((most, one) => (slots(hoursOf(one)) > slots(hoursOf(most)) ? one : most), first);
  return { ...grid, people: [...grid.people, { id: "", op: null, freeUntil: hoursOf(like) }] };
}

/** When somebody would be there without times off. */
function hoursOf({ hoursUntil, freeUntil }: GridResource): Int32Array {
  return hoursUntil ?? freeUntil;
}

/** The same task with everybody staying an hour longer each evening (a slot where that is longer): no time off is shorter for it. */
export function withHour(grid: Grid): Grid {
  const slots = Math.max(1, Math.round(3_600_000 / grid.slotMs));
  const longer = (person: GridResource): GridResource => {
    const { freeUntil } = person;
    const hours = hoursOf(person);
    const more = Uint8Array.from(freeUntil, (end, t) => (end > t ? 1 : 0));
    hours.forEach((end, t) => {
      // Whoever is away in the last hour of the day is away in the evening.
      const isEvening = end === t + 1 && more[t] === 1;
      for (let at = end; isEvening && at < Math.min(grid.count, end + slots); at++) {
        if (person.off?.[at] === 1) break;
        more[at] = 1;
      }
    });
    return { ...person, freeUntil: stretchEnds(more) };
  };
  return { ...grid, people: grid.people.map(longer) };
}
