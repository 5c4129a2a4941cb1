import { type Grid, type GridResource, type GridTask, leastDrive } from "../grid.ts";
import { addUnderWay, type Mode, machinePools, type TaskColumns } from "./columns.ts";
import type { MilpBuilder, Terms } from "./milp.ts";

/** Rows over all fields: no more works at once than there are machines of a pool, and people. */

/** A work that needs somebody of a pool. */
export interface User {
  readonly task: TaskColumns;
  readonly field: number;
  readonly site: number;
  readonly op: GridTask["op"];
}

/** Machines of one kind and rate, or the crew: who they are, what they do and when. */
export interface Pool {
  readonly list: readonly PoolMember[];
  readonly users: readonly User[];
  /** How many of the list a work takes; 0 where it needs none. */
  readonly takes: (mode: Mode) => number;
}

interface PoolMember {
  readonly freeUntil: Int32Array;
  readonly fixed: readonly {
    readonly start: number;
    readonly end: number;
    readonly field: number;
    readonly site: number;
  }[];
}

/** Every pool of machines, and behind them the crew. */
export function poolsOf(grid: Grid, columns: readonly TaskColumns[][]): readonly Pool[] {
  const all = columns.flatMap((tasks, field) =>
    tasks.map((task, i): User => {
      const { site, tasks: works } = grid.fields[field] as Grid["fields"][number];
      return { task, field, site, op: works[i]?.op as GridTask["op"] };
    }),
  );
  const isAlong = (machine: number, k: number) => grid.machines[machine]?.along?.includes(k) === true;
  const members = (list: readonly GridResource[], who: "machine" | "person", which: readonly number[]) => {
    const isWith = (held: number, k: number) => held === k || (who === "machine" && isAlong(held, k));
    return which.map(
      (k): PoolMember => ({
        freeUntil: (list[k] as GridResource).freeUntil,
        fixed: all.flatMap(({ task: { fixed }, field, site }) =>
          fixed !== null && isWith(fixed[who], k)
            ? [{ start: fixed.start, end: fixed.end, field, site }]
            : [],
        ),
      }),
    );
  };
  const machines = machinePools(grid).map((pool): Pool => {
    const takes = ({ machines }: Mode) => {
      const [first] = machines as readonly [number];
      return first === pool[0] ? 1 : pool.filter((k) => isAlong(first, k)).length;
    };
    return {
      list: members(grid.machines, "machine", pool),
      users: all.filter(({ task }) => task.modes.some((mode) => takes(mode) > 0)),
      takes,
    };
  });
  const everybody = grid.people.map((_, p) => p);
  return [...machines, { list: members(grid.people, "person", everybody), users: all, takes: () => 1 }];
}

export function capacityRows(grid: Grid, pools: readonly Pool[], builder: MilpBuilder): void {
  for (const pool of pools) {
    rowsOver(
      grid,
      pool,
      () => 0,
      (t) => freeAt(pool, t),
      builder,
    );
  }
  // With the shortest drive behind each work; the crew may stay where the next work is of the same field.
  for (const pool of pools.slice(0, -1)) {
    const tailAt = (field: number, op: GridTask["op"]) => leastDrive(grid, field, (task) => task.op === op);
    const tailOf = ({ field, op }: User) => tailAt(field, op);
    const op = pool.users[0]?.op;
    // What another machine takes along too may go a shorter way, to that one's work, or stay for a work of the same field.
    if (op === undefined || grid.machines.some((one) => one.op === op && one.follows === true)) continue;
    if (!pool.users.some((user) => tailOf(user) > 0)) continue;
    const free = (t: number) =>
      pool.list.filter(
        ({ fixed }) => !fixed.some(({ start, end, field }) => start <= t && t < end + tailAt(field, op)),
      ).length;
    rowsOver(grid, pool, tailOf, free, builder);
  }
}

/** Members that are there in a slot and not held by fixed work, which needs no hours. */
function freeAt({ list }: Pool, t: number): number {
  return list.filter(
    ({ freeUntil, fixed }) =>
      (freeUntil[t] as number) > t && !fixed.some(({ start, end }) => start <= t && t < end),
  ).length;
}

/** One row for every slot in which something may start or someone leaves. */
function rowsOver(
  grid: Grid,
  { users, takes }: Pool,
  tailOf: (user: User) => number,
  capacityAt: (t: number) => number,
  builder: MilpBuilder,
): void {
  const matters = new Set<number>();
  for (const { task } of users)
    for (const mode of task.modes) if (takes(mode) > 0) for (const t of mode.starts) matters.add(t);
  for (let t = 1; t < grid.count; t++) if (capacityAt(t) < capacityAt(t - 1)) matters.add(t);
  for (const t of [...matters].sort((a, b) => a - b)) {
    const terms: Terms = new Map();
    let most = 0;
    for (const user of users) most += addUnderWay(terms, user.task, takes, t - tailOf(user), t);
    const free = capacityAt(t);
    if (most > free) builder.row(Number.NEGATIVE_INFINITY, free, terms);
  }
}
