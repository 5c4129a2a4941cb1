import { placeAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import type { Grid, GridField, GridTask } from "./grid.ts";
import type { CrewOp } from "./keys.ts";
import { alwaysThere } from "./variants.ts";

/** Work that is held for a later hour while what must come before it is not done. */
export interface HeldAhead {
  readonly op: CrewOp;
  readonly fromUtcMs: number;
  /** Works before it that are neither done nor held. */
  readonly undone: readonly CrewOp[];
  readonly path: string;
}

export function heldAhead({ grid, placed, nowUtcMs }: BuiltCrew, f: number): HeldAhead[] {
  const field = grid.fields[f] as GridField;
  return field.tasks.flatMap(({ op }, i): HeldAhead[] => {
    const held = placed.find(({ asked }) => asked.fieldId === field.id && asked.op === op);
    const undone = field.tasks.slice(0, i).filter(({ fixed }) => fixed === null);
    if (held === undefined || held.moments.fromUtcMs < nowUtcMs || undone.length === 0) return [];
    return [
      { op, fromUtcMs: held.moments.fromUtcMs, undone: undone.map((task) => task.op), path: held.path },
    ];
  });
}

/** The held work without which the field could be done, or would fail for want of machines and people alone; else null. */
export function heldInTheWay(built: BuiltCrew, f: number): HeldAhead | null {
  const ahead = heldAhead(built, f);
  const [first] = ahead;
  if (first === undefined) return null;
  const { grid } = built;
  const free = (task: GridTask): GridTask =>
    ahead.some(({ op }) => op === task.op) ? { ...task, fixed: null } : task;
  const fields = grid.fields.map((field, at) =>
    at === f ? { ...field, tasks: field.tasks.map(free) } : field,
  );
  const freed: Grid = { ...grid, fields };
  const all = (of: Grid) => {
    const open = (of.fields[f] as GridField).tasks.filter(({ fixed }) => fixed === null);
    return alwaysThere(
      of,
      open.map(({ op }) => op),
      true,
    );
  };
  const inTheWay = (way: (of: Grid) => Grid) =>
    placeAlone(way(grid), f) === null && placeAlone(way(freed), f) !== null;
  return inTheWay((of) => of) || inTheWay(all) ? first : null;
}
