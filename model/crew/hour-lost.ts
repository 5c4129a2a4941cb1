import type { BuiltCrew } from "./build-grid.ts";
import { type GridField, type GridJob, type GridResource, slotUtcMs, travelOf } from "./grid.ts";
import { fits, scheduleOf } from "./heuristic/schedule.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { Reason } from "./reason.ts";
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

/** The machine that was to do it is gone or off, or nobody works: whatever the plan. */
export function whoIsOff(
  built: BuiltCrew,
  f: number,
  { task, before, start, end }: PromisedHour,
): Reason | null {
  const { grid } = built;
  const word = machineWord(built, f, task);
  const machine = grid.machines.findIndex(({ id }) => id === before.machineId);
  if (machine < 0) return { why: `the ${word} that was to do it is gone` };
  const { freeUntil, ownUntil = freeUntil } = grid.machines[machine] as GridResource;
  if ((freeUntil[start] as number) < end && (ownUntil[start] as number) >= end) {
    return { why: `a cart of the ${word} is off at that hour`, customerWhy: `the ${word} is not there then` };
  }
  if ((freeUntil[start] as number) < end) {
    return { why: `the ${word} is off at that hour`, customerWhy: `the ${word} is not there then` };
  }
  const atWork = grid.people.some(({ freeUntil }) => (freeUntil[start] as number) >= end);
  return atWork ? null : { why: "nobody works at that hour", customerWhy: "nobody is free then" };
}

/** The machine or everybody at work is at other fields, or on the drive. */
export function whoIsTaken(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  { task, before, start, end }: PromisedHour,
): Reason | null {
  const { grid, request } = built;
  const { site } = grid.fields[f] as GridField;
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
  const drives = (job: GridJob) => {
    const drive = travelOf(grid, grid.fields[job.field]?.site ?? 0, site);
    return job.end + drive > start && end + drive > job.start;
  };
  const own = others.find(meets) ?? others.find(drives);
  const other = own ?? withCart.find(meets) ?? withCart.find(drives);
  const at = other === undefined ? undefined : request.fields[other.field];
  if (other !== undefined && at !== undefined) {
    const way = meets(other) ? "" : " or on its way";
    const who = own === undefined && along(machine).length > 0 ? `a cart of the ${word}` : `the ${word}`;
    return {
      why: `${who} is at ${fieldName(at)}${way} then`,
      customerWhy: `the ${word} is needed elsewhere then`,
    };
  }
  const busy = scheduleOf(
    grid,
    jobs.filter((job) => job.field !== f),
  );
  const some = grid.people.some(
    ({ freeUntil }, p) =>
      (freeUntil[start] as number) >= end && fits(grid, busy.taken.people[p], start, end, site),
  );
  return some
    ? null
    : { why: "everybody at work is at other fields then", customerWhy: "nobody is free then" };
}

/** The first of both. */
export function whoIsAway(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  promised: PromisedHour,
): Reason | null {
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
    return { why: `nobody works when ${when}`, customerWhy: `nobody is free when ${when}` };
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
): Reason | null {
  const taken = whoIsTaken(built, jobs, f, later);
  if (taken === null) return null;
  const when = `when ${WAS_TO_BE[built.grid.fields[f]?.tasks[later.task]?.op ?? "bale"]}`;
  const then = ({ why, customerWhy }: Reason): Reason => ({
    why: why.replace(/ then$/, ` ${when}`),
    customerWhy: customerWhy?.replace(/ then$/, ` ${when}`),
  });
  return then(taken);
}
