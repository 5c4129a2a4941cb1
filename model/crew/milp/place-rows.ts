import { type Grid, travelOf } from "../grid.ts";
import type { Pool, User } from "./capacity-rows.ts";
import { addUnderWay } from "./columns.ts";
import { addTerm, type MilpBuilder, type Terms } from "./milp.ts";

/**
 * Rows that know of drives: within one slot more than the shortest drive between two places, nobody works at both. So in
 * each such stretch of slots a column tells how many of a pool are at a place, no fewer than work there in any of its
 * slots, and together they are no more than there are. Without these rows a machine may work at one place and in the
 * next slot at another; with them the model's bound was the true optimum where it had been some percent above it.
 */

/** A column of presence, and what it may not be below: sums of the terms and a number. */
export interface Presence {
  readonly col: number;
  readonly least: readonly { readonly terms: Terms; readonly held: number }[];
}

/** More columns than this cost the solver more than the drives are worth. */
const MOST_PRESENCES = 4000;

/** For each site the group of sites that it belongs to: inside a group somebody needs no slot for some drive. */
function groupsOf(grid: Grid): readonly number[] {
  const group = grid.siteIds.map((_, i) => i);
  for (let i = 0; i < group.length; i++) {
    for (let j = 0; j < i; j++) {
      if (Math.min(travelOf(grid, i, j), travelOf(grid, j, i)) > 0) continue;
      const [from, to] = [group[i] as number, group[j] as number];
      group.forEach((one, k) => {
        if (one === from) group[k] = to;
      });
    }
  }
  return group;
}

function shortestDrive(grid: Grid, group: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const i of group.keys()) {
    for (const j of group.keys()) if (group[i] !== group[j]) least = Math.min(least, travelOf(grid, i, j));
  }
  return least;
}

export function placeRows(grid: Grid, pools: readonly Pool[], builder: MilpBuilder): readonly Presence[] {
  const group = groupsOf(grid);
  const drive = shortestDrive(grid, group);
  if (!Number.isFinite(drive)) return [];
  const presences: Presence[] = [];
  for (const pool of pools) {
    const users = new Map<number, User[]>();
    for (const user of pool.users) {
      const place = group[user.site] as number;
      users.set(place, [...(users.get(place) ?? []), user]);
    }
    for (let t = grid.nowSlot; t < grid.count && presences.length < MOST_PRESENCES; t++) {
      presences.push(...stretchRows(pool, users, group, t, Math.min(grid.count - 1, t + drive), builder));
    }
  }
  return presences;
}

/** The rows of one stretch of slots, both ends among them. */
function stretchRows(
  pool: Pool,
  users: ReadonlyMap<number, readonly User[]>,
  group: readonly number[],
  from: number,
  to: number,
  builder: MilpBuilder,
): readonly Presence[] {
  const { list, takes } = pool;
  const slots = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const isThen = ({ start, end }: { readonly start: number; readonly end: number }) =>
    start <= to && end > from;
  // Whoever is held at two places without time between them is counted at both: held work is not judged.
  const most = list.reduce((sum, { freeUntil, fixed }) => {
    const held = new Set(fixed.filter(isThen).map(({ site }) => group[site])).size;
    return sum + Math.max(held, slots.some((t) => (freeUntil[t] as number) > t) ? 1 : 0);
  }, 0);
  const heldAt = (place: number, t: number) =>
    list.filter(({ fixed }) =>
      fixed.some(({ site, start, end }) => group[site] === place && start <= t && t < end),
    ).length;
  const sum: Terms = new Map();
  const found: { readonly terms: Terms; readonly held: number }[][] = [];
  let held = 0;
  let places = 0;
  for (const [place, own] of users) {
    const [only] = own;
    if (own.length === 1 && only !== undefined && only.task.fixed === null) {
      // A single work is there throughout: its own columns tell.
      if (addUnderWay(sum, only.task, takes, from, to) > 0) places++;
      continue;
    }
    const least = slots.map((t) => {
      const terms: Terms = new Map();
      for (const { task } of own) addUnderWay(terms, task, takes, t, t);
      return { terms, held: heldAt(place, t) };
    });
    if (least.some(({ terms }) => terms.size > 0)) {
      found.push(least.filter(({ terms, held: some }) => terms.size > 0 || some > 0));
      places++;
    } else {
      held += Math.max(...least.map((one) => one.held));
      if (least.some((one) => one.held > 0)) places++;
    }
  }
  if (found.length === 0 && sum.size === 0) return [];
  if (places < 2) return [];
  const presences = found.map((least): Presence => {
    const col = builder.column(0, most, false);
    for (const { terms, held: some } of least) {
      const row: Terms = new Map(terms);
      addTerm(row, col, -1);
      builder.row(Number.NEGATIVE_INFINITY, -some, row);
    }
    addTerm(sum, col, 1);
    return { col, least };
  });
  builder.row(Number.NEGATIVE_INFINITY, most - held, sum);
  return presences;
}
