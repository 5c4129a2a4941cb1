import { inTen } from "../odds/in-ten.ts";
import type { CrewCaution } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { cartCautions } from "./cart-clashes.ts";
import { lagMsOf } from "./grid-field.ts";
import { heldAhead } from "./held-in-vain.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { scheduleOf } from "./heuristic/schedule.ts";
import { type CrewOp, isGather } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import type { FieldReplay } from "./replay.ts";
import { gridJobs, jobLabels, rulesOf } from "./rules-of.ts";
import { type PlanFault, planFaults } from "./validity.ts";
import { dayTime, fieldName, hoursWord, listWords, opWord, spokenClock } from "./words.ts";

/** What should be looked at in work that the plan has no say in: held hours are kept, but not in silence. */

const TOLD: readonly PlanFault["code"][] = ["window", "weather", "lag", "hours"];

export function cautionsOf(
  built: BuiltCrew,
  jobs: readonly CrewJob[],
  replay: readonly FieldReplay[],
  /** Fields that the plan does not finish. */
  left: readonly string[],
): CrewCaution[] {
  return [
    ...notBegunCautions(built),
    ...brokeOffCautions(built),
    ...heldCautions(built, jobs, replay),
    ...cartCautions(built, jobs),
    ...windrowCautions(built, jobs),
    ...left.flatMap((fieldId) => mownCautions(built, jobs, fieldId)),
    ...left.flatMap((fieldId) => inVainCautions(built, fieldId)),
  ];
}

function named(built: BuiltCrew, fieldId: string): string {
  const field = built.request.fields.find(({ id }) => id === fieldId);
  return field === undefined ? fieldId : fieldName(field);
}

function machineName({ request }: BuiltCrew, machineId: string): string {
  return request.machines.find(({ id }) => id === machineId)?.name ?? machineId;
}

function notBegunCautions(built: BuiltCrew): CrewCaution[] {
  const clock = spokenClock(built);
  return built.notBegun.map(({ fieldId, op, machineId, startUtcMs, path }) => ({
    fieldId,
    op,
    code: "not-begun",
    path,
    text: `${named(built, fieldId)}: ${opWord(op)} was due ${dayTime(startUtcMs, clock)}, but ${machineName(built, machineId)} was away: it counts as not begun. If it is done, hold it at the hours at which it was done.`,
  }));
}

function brokeOffCautions(built: BuiltCrew): CrewCaution[] {
  return built.placed.flatMap(({ asked, brokeOff, path }): CrewCaution[] => {
    if (brokeOff === null) return [];
    const { fieldId, op, machineId } = asked;
    const at = dayTime(brokeOff.atUtcMs, spokenClock(built));
    return [
      {
        fieldId,
        op,
        code: "broken-off",
        path,
        text: `${named(built, fieldId)}: ${opWord(op)} is not finished, ${machineName(built, machineId)} was away from ${at} with ${hoursWord(brokeOff.leftMs)} of it to do. Plan the rest as a field of its own, and hold there what is done.`,
      },
    ];
  });
}

/** A raking that is done or held stands as it is: that what gathers its windrow comes too late for it is said. */
function windrowCautions(built: BuiltCrew, jobs: readonly CrewJob[]): CrewCaution[] {
  const lagMs = lagMsOf("bale", true) ?? Number.POSITIVE_INFINITY;
  const clock = spokenClock(built);
  return built.placed.flatMap(({ asked, moments, path }): CrewCaution[] => {
    const { fieldId } = asked;
    const gather = jobs.find((job) => job.fieldId === fieldId && isGather(job.op as CrewOp));
    if (asked.op !== "rake" || gather === undefined || gather.startUtcMs < built.nowUtcMs) return [];
    const lateMs = gather.startUtcMs - moments.toUtcMs;
    if (lateMs <= lagMs) return [];
    const op = gather.op as CrewOp;
    const text = `${named(built, fieldId)}: ${opWord(op)} ${dayTime(gather.startUtcMs, clock)} comes ${hoursWord(lateMs)} after the raking of ${dayTime(moments.fromUtcMs, clock)}, more than ${hoursWord(lagMs)}: a windrow dries no further and wets through.`;
    return [{ fieldId, op, code: "windrow", path, text }];
  });
}

/** The mowing of a field that is mown or held to be, and its first work that is not; null where there is none of either. */
function mownOf(built: BuiltCrew, fieldId: string) {
  const mow = built.placed.find(({ asked }) => asked.fieldId === fieldId && asked.op === "mow");
  const open = built.request.fields
    .find(({ id }) => id === fieldId)
    ?.ops.find((op) => !built.placed.some(({ asked }) => asked.fieldId === fieldId && asked.op === op));
  return mow === undefined || open === undefined ? null : { mow, open };
}

/** Mown crop, or crop whose mowing is held, that nothing brings in. */
function mownCautions(built: BuiltCrew, jobs: readonly CrewJob[], fieldId: string): CrewCaution[] {
  const mown = mownOf(built, fieldId);
  if (mown === null) return [];
  const { mow, open } = mown;
  const name = named(built, fieldId);
  const { path } = mow;
  const at = dayTime(mow.moments.fromUtcMs, spokenClock(built));
  if (mow.moments.fromUtcMs >= built.nowUtcMs) {
    const text = `${name}: mowing is held at ${at}, but ${opWord(open)} finds no place after it: it would lie mown. Do not mow it, or free a machine for it.`;
    return [{ fieldId, op: "mow", code: "would-lie", path, text }];
  }
  const standing = insteadNames(built, jobs, fieldId);
  if (standing.length === 0) return [];
  const one = standing.length === 1;
  const text = `${name} lies mown since ${at} and is given up, while ${listWords(standing)} ${one ? "is" : "are"} still to be mown: without ${one ? "that field" : "one of them"} it could be brought in. The plan's value counts mown crop no higher than standing crop; raise its priority if it should come first.`;
  return [{ fieldId, op: open, code: "given-up", path, text }];
}

/** Of fields that lie mown and are given up for standing ones: that no other crew is asked for to bring them in. */
export function givenUpWords(built: BuiltCrew, jobs: readonly CrewJob[], left: readonly string[]): string[] {
  return left.flatMap((fieldId): string[] => {
    const mown = mownOf(built, fieldId);
    const isAhead = (mown?.mow.moments.fromUtcMs ?? built.nowUtcMs) >= built.nowUtcMs;
    const standing = isAhead ? [] : insteadNames(built, jobs, fieldId);
    if (standing.length === 0) return [];
    const which = standing.length === 1 ? listWords(standing) : `one of ${listWords(standing)}`;
    return [
      `With this crew ${named(built, fieldId)}, which lies mown, could be brought in instead of ${which}: raise the priority of what lies mown.`,
    ];
  });
}

/** Work held on a field that is not made ready for it: its machine and driver stand there for nothing. */
function inVainCautions(built: BuiltCrew, fieldId: string): CrewCaution[] {
  const f = built.grid.fields.findIndex(({ id }) => id === fieldId);
  return heldAhead(built, f).map(({ op, fromUtcMs, undone, path }) => {
    const at = dayTime(fromUtcMs, spokenClock(built));
    const text = `${named(built, fieldId)}: ${opWord(op)} is held at ${at}, but ${listWords(undone.map(opWord))} before it ${undone.length === 1 ? "is" : "are"} not planned: machine and driver would wait there for nothing. Free them, or hold what is done before it.`;
    return { fieldId, op, code: "held-in-vain", path, text };
  });
}

/** The names of fields that stand still and are to be mown, of which any alone would leave room for the one that lies mown. */
function insteadNames(built: BuiltCrew, jobs: readonly CrewJob[], fieldId: string): string[] {
  const { grid } = built;
  const f = grid.fields.findIndex(({ id }) => id === fieldId);
  const choices = mowChoices(grid, f);
  const inGrid = gridJobs(built, jobs.map(jobLabels));
  return grid.fields.flatMap(({ id, tasks }, g) => {
    const isPlanned = inGrid.some((job) => job.field === g && job.task === 0);
    if (g === f || tasks[0]?.fixed !== null || !isPlanned) return [];
    const others = scheduleOf(
      grid,
      inGrid.filter((job) => job.field !== g),
    );
    return bestPlace(grid, others, f, choices) === null ? [] : [named(built, id)];
  });
}

/** Held work still to come that the plan itself would not do at that hour, or that takes the crop wet. */
function heldCautions(
  built: BuiltCrew,
  jobs: readonly CrewJob[],
  replay: readonly FieldReplay[],
): CrewCaution[] {
  const rules = rulesOf(built);
  const clock = spokenClock(built);
  const faults = planFaults({ ...rules, isFixed: () => false }, jobs);
  return built.placed.flatMap(({ asked, path, moments }): CrewCaution[] => {
    const { fieldId, op } = asked;
    if (moments.fromUtcMs < built.nowUtcMs) return [];
    const own = faults
      .filter((fault) => fault.fieldId === fieldId && fault.op === op && TOLD.includes(fault.code))
      .map(({ code, text }) => ({
        fieldId,
        op,
        code: code as CrewCaution["code"],
        path,
        text: `${text}: it is held there all the same.`,
      }));
    const told = op === "bale" || op === "chop" ? replay.find((one) => one.fieldId === fieldId) : undefined;
    if (told?.atRisk !== true) return own;
    const dry =
      told.chanceDry === null
        ? "in this weather the crop is too wet for it"
        : `the chance that the crop is dry enough for it is ${inTen(told.chanceDry)}`;
    const text = `${named(built, fieldId)}: ${opWord(op)} is held at ${dayTime(moments.fromUtcMs, clock)}, and ${dry}.`;
    return [...own, { fieldId, op, code: "wet", path, text }];
  });
}
