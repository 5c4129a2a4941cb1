import { shuffledOrder } from "../../odds/random.ts";
import type { Grid, GridField, GridJob } from "../grid.ts";
import { leftValue, planValue } from "../value.ts";
import { fieldHours, type Tried } from "./hours.ts";
import {
  bestPlace,
  firstPlace,
  type MowChoice,
  mowChoices,
  type Placed,
  removeField,
  takePlace,
} from "./insert.ts";
import { promisesKept } from "./promises.ts";
import { fixedSchedule } from "./schedule.ts";

export interface Found {
  readonly jobs: readonly GridJob[];
  readonly value: number;
  /** True where it was stopped before its counted work was done. */
  readonly stopped: boolean;
}

export interface Effort {
  /** Rounds of taking fields out and putting them back. */
  readonly rounds: number;
  /** It also ends once so many places have been tried; absent = however many. */
  readonly places?: number | undefined;
  readonly random: () => number;
  /** Asked between rounds; true ends the search with what there is. */
  readonly stop: () => boolean;
  /** No plan brings more: reached, the search ends. */
  readonly enough?: number | undefined;
  /** A plan to begin with, by fields; absent = built from nothing. */
  readonly start?: readonly (Placed | null)[] | undefined;
}

/** Not so much of the value that a round may lose and still be gone on from, falling to none: about half of a field. */
const FIRST_HEAT = 0.03;

/** So often a field is put back at mowing hours taken by chance: its own best hour may stand in the way of two others. */
const ELSEWHERE = 0.5;
/** So much less, at most, an hour may then count than it promises. */
const SHAKE = 0.2;
/** So often what was left standing is tried in a random order and not by worth. */
const ANY_ORDER = 0.5;
/** Fields taken out in one round, fewest and most. */
const FEWEST_TAKEN = 2;
const MOST_TAKEN = 7;

/**
 * A first plan by best insertion in order of worth per slot, then rounds in which some fields are taken out and put back
 * in another order and at other mowing hours (ruin and recreate). Every plan it holds can be carried out, with the true drives. The same random
 * numbers, rounds and places give the same plan.
 */
export function searchPlan(grid: Grid, effort: Effort): Found {
  const { random, stop } = effort;
  const count = grid.fields.length;
  const tried: Tried = { places: 0 };
  const most = effort.places ?? Number.POSITIVE_INFINITY;
  const choices = grid.fields.map((_, f) => mowChoices(grid, f));
  const open = grid.fields.map((_, f) => fieldHours(grid, f));
  const schedule = fixedSchedule(grid);
  const now: (Placed | null)[] = grid.fields.map(() => null);
  const worthOf = (f: number, placed: Placed | null) =>
    placed?.value ?? leftValue(grid.fields[f] as GridField);
  const put = (f: number, placed: Placed | null) => {
    now[f] = placed;
    if (placed !== null) takePlace(grid, schedule, placed);
  };
  const place = (f: number, hours: readonly MowChoice[]) =>
    bestPlace(grid, schedule, f, hours, tried, open[f]);
  const insert = (f: number) => put(f, place(f, choices[f] ?? []));
  const insertSomewhere = (f: number) => {
    const all = choices[f] ?? [];
    const some = random() < ELSEWHERE ? shaken(all, random) : null;
    put(
      f,
      (some === null ? null : firstPlace(grid, schedule, f, some, tried, open[f] ?? [])) ?? place(f, all),
    );
  };

  const byWorth = grid.fields
    .map((field, f) => ({ f, rank: field.worth / Math.max(1, leastSlots(field)) }))
    .sort((a, b) => b.rank - a.rank || a.f - b.f)
    .map(({ f }) => f);
  const start = effort.start;
  if (start !== undefined) for (let f = 0; f < count; f++) put(f, start[f] ?? null);
  for (const f of byWorth) if (now[f] === null) insert(f);

  const total = () => now.reduce((sum, placed, f) => sum + worthOf(f, placed), 0);
  let value = total();
  let best = { value, plan: [...now] };
  let stopped = false;
  const enough = effort.enough ?? Number.POSITIVE_INFINITY;
  for (let round = 0; round < effort.rounds && tried.places < most; round++) {
    if (best.value >= enough - 1e-9) break;
    stopped = stop();
    if (stopped) break;
    const done = Math.max(round / effort.rounds, tried.places / most);
    const heat = FIRST_HEAT * (1 - done) ** 2 * Math.abs(best.value);
    const taken = fieldsToTake(grid, now, random);
    const kept = [...now];
    for (const f of taken) {
      if (now[f] !== null) removeField(grid, schedule, f);
      now[f] = null;
    }
    for (const f of taken) insertSomewhere(f);
    // What was left standing gets another chance in what has become free.
    const others = random() < ANY_ORDER ? shuffledOrder(count, random) : byWorth;
    for (const f of others) if (now[f] === null && !taken.includes(f)) insert(f);
    const reached = total();
    if (reached > best.value + 1e-9) best = { value: reached, plan: [...now] };
    if (reached >= value - heat * random()) {
      value = reached;
      continue;
    }
    for (let f = 0; f < count; f++) if (now[f] !== null && now[f] !== kept[f]) removeField(grid, schedule, f);
    for (let f = 0; f < count; f++) {
      if (kept[f] === now[f]) continue;
      now[f] = kept[f] ?? null;
      const back = now[f];
      if (back != null) takePlace(grid, schedule, back);
    }
  }
  const jobs = promisesKept(
    grid,
    best.plan.flatMap((placed) => placed?.jobs ?? []),
  );
  return { jobs, value: Math.max(best.value, planValue(grid, jobs)), stopped };
}

/** The mowing hours in another order: each counts for less by chance. */
function shaken(choices: readonly MowChoice[], random: () => number): readonly MowChoice[] {
  const most = SHAKE * random() ** 2;
  return choices
    .map((choice) => ({ choice, rank: choice.hope * (1 - most * random()) }))
    .sort((a, b) => b.rank - a.rank)
    .map(({ choice }) => choice);
}

function leastSlots(field: GridField): number {
  return field.tasks.reduce((sum, { slotsOf }) => {
    const some = [...slotsOf].filter((slots) => slots > 0);
    return sum + (some.length === 0 ? 0 : Math.min(...some));
  }, 0);
}

/** Some fields: those near one of them in time more often than others, in a random order. */
function fieldsToTake(grid: Grid, now: readonly (Placed | null)[], random: () => number): number[] {
  const count = grid.fields.length;
  const most = Math.min(count, FEWEST_TAKEN + Math.floor(random() * (MOST_TAKEN - FEWEST_TAKEN + 1)));
  const seed = Math.floor(random() * count);
  const at = now[seed]?.jobs[0]?.start ?? random() * grid.count;
  const near = shuffledOrder(count, random)
    .map((f) => ({
      f,
      away: Math.abs((now[f]?.jobs[0]?.start ?? random() * grid.count) - at) * (0.3 + random()),
    }))
    .sort((a, b) => a.away - b.away)
    .slice(0, most)
    .map(({ f }) => f);
  const order = shuffledOrder(near.length, random);
  return order.map((i) => near[i] as number);
}
