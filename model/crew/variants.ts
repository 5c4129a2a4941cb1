import { type Grid, type GridField, type GridResource, stretchEnds } from "./grid.ts";
import type { CrewOp } from "./keys.ts";

/** The same task with one more machine like the first of its kind, there at all hours. */
export function withMachine(grid: Grid, op: CrewOp): Grid {
  const like = grid.machines.findIndex((machine) => machine.op === op);
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

/** The same task in which the machines of a work are there at all hours. */
export function withoutTimeOff(grid: Grid, op: CrewOp): Grid {
  const freeUntil = new Int32Array(grid.count).fill(grid.count);
  return {
    ...grid,
    machines: grid.machines.map((machine) => (machine.op === op ? { ...machine, freeUntil } : machine)),
  };
}

/** The same task with another machine for each of these works, and if asked another person, who are there at all hours. */
export function alwaysThere(grid: Grid, ops: readonly CrewOp[], person: boolean): Grid {
  const more = ops.reduce(withMachine, grid);
  const freeUntil = new Int32Array(grid.count).fill(grid.count);
  return person ? { ...more, people: [...more.people, { id: "", op: null, freeUntil }] } : more;
}

/** The same task with one more person, who keeps the hours of the first. */
export function withPerson(grid: Grid): Grid {
  const like = grid.people[0];
  return like === undefined ? grid : { ...grid, people: [...grid.people, { ...like, id: "" }] };
}

/** The same task with everybody staying an hour longer (a slot where that is longer). */
export function withHour(grid: Grid): Grid {
  const slots = Math.max(1, Math.round(3_600_000 / grid.slotMs));
  const longer = ({ id, op, freeUntil }: GridResource): GridResource => {
    const flags = Uint8Array.from(freeUntil, (end, t) => (end > t ? 1 : 0));
    const more = Uint8Array.from(flags);
    flags.forEach((free, t) => {
      if (free === 1 && flags[t + 1] === 0) more.fill(1, t + 1, Math.min(grid.count, t + 1 + slots));
    });
    return { id, op, freeUntil: stretchEnds(more) };
  };
  return { ...grid, people: grid.people.map(longer) };
}
