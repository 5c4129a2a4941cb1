import type { BuiltCrew } from "./build-grid.ts";
import {
  type GridField,
  type GridJob,
  type GridResource,
  type GridTask,
  slotUtcMs,
  travelOf,
} from "./grid.ts";
import { fits, machineFits, type Schedule, scheduleOf } from "./heuristic/schedule.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { Cause, Reason } from "./reason.ts";
import type { CrewJobAnswer } from "./request.ts";
import { fieldName, kindWord, spanTime, spokenClock } from "./words.ts";

/** Who is missing at an hour that was promised: away, or at other fields. */

interface Slots {
  readonly start: number;
  readonly end: number;
}

/** A promised visit of a field: its work, by whom, and its slots. */
export interface PromisedHour extends Slots {
  readonly task: number;
  readonly before: CrewJobAnswer;
}

/** The machine that was to do it is gone or off, and no other is there, or nobody works through it: whatever the plan. */
export function whoIsOff(
  built: BuiltCrew,
  f: number,
  { task, before, start, end }: PromisedHour,
): Reason | null {
  const { grid } = built;
  const { tasks } = grid.fields[f] as GridField;
  const { slotsOf } = tasks[task] as GridTask;
  const isThere = (k: number) => {
    const slots = slotsOf[k] as number;
    return slots > 0 && (grid.machines[k]?.freeUntil[start] as number) >= start + slots;
  };
  if (!grid.machines.some((_, k) => isThere(k))) {
    const off = machineIsOff(built, f, { task, before, start, end });
    if (off !== null) return off;
  }
  return nobodyWorks(built, { start, end });
}

/** The machine that was to do it is gone or off at that hour. */
export function machineIsOff(
  built: BuiltCrew,
  f: number,
  { task, before, start, end }: PromisedHour,
): Reason | null {
  const { grid } = built;
  const word = machineWord(built, f, task);
  const machine = grid.machines.findIndex(({ id }) => id === before.machineId);
  if (machine < 0) return { why: `the ${word} that was to do it is gone` };
  const { freeUntil, ownUntil = freeUntil } = grid.machines[machine] as GridResource;
  if ((freeUntil[start] as number) >= end) return null;
  const who = (ownUntil[start] as number) >= end ? `a cart of the ${word}` : `the ${word}`;
  return { why: `${who} is off at that hour`, customerWhy: `the ${word} is not there then` };
}

function nobodyWorks({ grid }: BuiltCrew, { start, end }: Slots): Reason | null {
  const until = (t: number) => Math.max(t, ...grid.people.map(({ freeUntil }) => freeUntil[t] as number));
  if (until(start) >= end) return null;
  const isCrewed = Array.from({ length: end - start }, (_, i) => until(start + i) > start + i);
  const why = isCrewed[0]
    ? "nobody stays to its end at that hour"
    : isCrewed.includes(true)
      ? "nobody works yet at that hour"
      : "nobody works at that hour";
  return { why, customerWhy: "nobody is free then" };
}

/**
 * The machine or everybody at work is at other fields, or on the drive; null where some machine and somebody have time.
 */
export function whoIsTaken(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
): Cause | null {
  const { grid } = built;
  const { site, tasks } = grid.fields[f] as GridField;
  const { slotsOf } = tasks[hour.task] as GridTask;
  const { start, end } = hour;
  const busy = scheduleOf(
    grid,
    jobs.filter((job) => job.field !== f),
  );
  const hasTime = grid.machines.some((machine, k) => {
    const to = start + (slotsOf[k] as number);
    const isThere = to > start && (machine.freeUntil[start] as number) >= to;
    return isThere && machineFits(grid, busy, k, start, to, site);
  });
  return hasTime
    ? everybodyIsTaken(built, jobs, busy, f, { start, end })
    : machineIsTaken(built, jobs, f, hour);
}

/** The machine that was to do it is at another field then, or on the drive. */
export function machineIsTaken(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  { task, before, start, end }: PromisedHour,
): Cause | null {
  const { grid, request } = built;
  const word = machineWord(built, f, task);
  const machine = grid.machines.findIndex(({ id }) => id === before.machineId);
  const along = (k: number) => grid.machines[k]?.along ?? [];
  const others = jobs.filter((job) => job.machine === machine && job.field !== f);
  // A chopper waits for carts that haul, and hauling for a cart that is behind a chopper.
  const withCart = jobs.filter(
    (job) =>
      job.field !== f && (along(machine).includes(job.machine) || along(job.machine).includes(machine)),
  );
  const meets = (job: GridJob) => job.start < end && start < job.end;
  const drives = isInWay(built, f, { start, end });
  const own = others.find(meets) ?? others.find(drives);
  const other = own ?? withCart.find(meets) ?? withCart.find(drives);
  const at = other === undefined ? undefined : request.fields[other.field];
  if (other === undefined || at === undefined) return null;
  const way = meets(other) ? "" : " or on its way";
  const who = own === undefined && along(machine).length > 0 ? `a cart of the ${word}` : `the ${word}`;
  return {
    why: `${who} is at ${fieldName(at)}${way} then`,
    customerWhy: `the ${word} is needed elsewhere then`,
    of: [other],
  };
}

/** Whether a work elsewhere, or the drive between the two, leaves no time for these hours of a field. */
function isInWay({ grid }: BuiltCrew, f: number, { start, end }: Slots): (job: GridJob) => boolean {
  const site = grid.fields[f]?.site ?? 0;
  return (job) => {
    const drive = travelOf(grid, grid.fields[job.field]?.site ?? 0, site);
    return job.end + drive > start && end + drive > job.start;
  };
}

function everybodyIsTaken(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  busy: Schedule,
  f: number,
  hour: Slots,
): Cause | null {
  const { grid } = built;
  const { start, end } = hour;
  const { site } = grid.fields[f] as GridField;
  const atWork = grid.people.flatMap(({ freeUntil }, p) => ((freeUntil[start] as number) >= end ? [p] : []));
  if (atWork.some((p) => fits(grid, busy.taken.people[p], start, end, site))) return null;
  const isThere = isInWay(built, f, hour);
  const elsewhere = atWork.map((p) =>
    jobs.filter((job) => job.person === p && job.field !== f && isThere(job)),
  );
  if (atWork.length === 0 || elsewhere.some((works) => works.length === 0)) return null;
  return {
    why: "everybody at work is at other fields or on the way then",
    customerWhy: "nobody is free then",
    of: elsewhere.flat(),
  };
}

/** The first of both. */
export function whoIsAway(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  promised: PromisedHour,
): Cause | null {
  return whoIsOff(built, f, promised) ?? whoIsTaken(built, jobs, f, promised);
}

function machineWord({ grid }: BuiltCrew, f: number, task: number): string {
  return kindWord(KIND_OF_OP[grid.fields[f]?.tasks[task]?.op ?? "mow"]);
}

const WAS_TO_BE: Readonly<Record<CrewOp, string>> = {
  mow: "it was to be mown",
  ted: "its crop was to be tedded",
  rake: "its crop was to be raked",
  bale: "its crop was to be baled",
  chop: "its crop was to be chopped",
  wrap: "its bales were to be wrapped",
  haul: "its bales were to be hauled",
};

/** Why a work moves with a later one that has lost its machine or its people: "the baler is away when its crop was to be baled, ...". */
export function laterIsOff(built: BuiltCrew, f: number, later: PromisedHour): Reason | null {
  const off = whoIsOff(built, f, later);
  if (off === null) return null;
  const { grid, request } = built;
  const { task, before, start, end } = later;
  const when = WAS_TO_BE[grid.fields[f]?.tasks[task]?.op ?? "bale"];
  const word = machineWord(built, f, task);
  const machine = request.machines.find(({ id }) => id === before.machineId);
  const customerWhy = `the ${word} is not there when ${when}`;
  if (machine === undefined) return { why: `the ${word} with which ${when} is gone`, customerWhy };
  const [fromMs, toMs] = [slotUtcMs(grid, start), slotUtcMs(grid, end)];
  const away = (machine.offUtc ?? [])
    .map(({ fromUtc, toUtc }) => ({ from: Date.parse(fromUtc), to: Date.parse(toUtc) }))
    .find(({ from, to }) => from < toMs && fromMs < to);
  if (away === undefined) {
    const why = off.why.replace("its end", "the end").replace(/ at that hour$/, ` when ${when}`);
    return { why, customerWhy: `nobody is free when ${when}` };
  }
  const span = spanTime(away.from, away.to, spokenClock(built));
  return { why: `the ${word} is away when ${when}, ${span}`, customerWhy };
}

/** The same where they are at other fields. */
export function laterIsTaken(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  later: PromisedHour,
): Cause | null {
  const taken = whoIsTaken(built, jobs, f, later);
  if (taken === null) return null;
  const when = `when ${WAS_TO_BE[built.grid.fields[f]?.tasks[later.task]?.op ?? "bale"]}`;
  const then = ({ why, customerWhy, of }: Cause): Cause => ({
    of,
    why: why.replace(/ then$/, ` ${when}`),
    customerWhy: customerWhy?.replace(/ then$/, ` ${when}`),
  });
  return then(taken);
}
