import { MINUTE_MS } from "../weather/clock.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_CHOICES } from "./defaults.ts";
import { type GridJob, travelOf } from "./grid.ts";
import { machineIsOff, machineIsTaken } from "./hour-lost.ts";
import { AROUND, type Reason } from "./reason.ts";
import type { CrewJobAnswer } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import { fieldName } from "./words.ts";
import { heldSlots } from "./work-slots.ts";

/** Of a visit that the question itself holds as it is. */
const HELD_SO: Reason = { why: "it is held so", customerWhy: "that was agreed on" };

/** Why a visit keeps its hour and takes longer or shorter, or is done by others: the machine, the person, then the work itself. */
export function whyOtherwise(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  before: CrewJobAnswer,
): Reason {
  const { grid } = built;
  const now = jobs.find((job) => job.field === f && job.task === task);
  if (now === undefined) return AROUND;
  const asked = built.placed.find(
    (held) => held.asked.fieldId === before.fieldId && held.asked.op === before.op,
  )?.asked;
  const isSame = (id: string, kind: "machines" | "people", k: number) => grid[kind][k]?.id === id;
  if (!isSame(before.machineId, "machines", now.machine)) {
    if (asked !== undefined) return HELD_SO;
    const hour = { task, before, start: now.start, end: now.end };
    return machineIsOff(built, f, hour) ?? machineIsTaken(built, jobs, f, hour) ?? AROUND;
  }
  if (!isSame(before.personId, "people", now.person)) {
    if (asked?.personId != null) return HELD_SO;
    const where = whereIsPerson(built, jobs, f, before, now);
    return asked !== undefined && where === AROUND ? { why: "it is held without saying by whom" } : where;
  }
  return asked?.endUtc ? HELD_SO : whyOtherLength(built, before);
}

/**
 * The plan before tells neither its slots nor areas and rates: that only the slots are others is said where all lengths of
 * it are whole ones of those slots, and those of the field what it takes in them today.
 */
function whyOtherLength({ request, carts }: BuiltCrew, { fieldId, op }: CrewJobAnswer): Reason {
  const slotMin = request.slotMin ?? CREW_CHOICES.slotMin.value;
  const otherMin = slotMin === 60 ? 30 : 60;
  const field = request.fields.find(({ id }) => id === fieldId);
  const isOfOtherSlots = (job: CrewJobAnswer) => {
    const slots = (Date.parse(job.endUtc) - Date.parse(job.startUtc)) / (otherMin * MINUTE_MS);
    const machine = request.machines.find(({ id }) => id === job.machineId);
    return field === undefined || job.fieldId !== fieldId || machine === undefined
      ? Number.isInteger(slots)
      : slots === heldSlots(job.op, field, machine, routeBand(field)[1], otherMin, carts);
  };
  if (request.previous?.jobs.every(isOfOtherSlots)) {
    return { why: `it is reckoned in ${slotMin === 60 ? "whole" : "half"} hours now` };
  }
  return op === "chop" && carts.behind !== null
    ? { why: "it is reckoned by its area, the chopper's rate and its carts as they are now" }
    : { why: "it is reckoned by its area and the machine's rate as they are now" };
}

function whereIsPerson(
  { grid, request }: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  before: CrewJobAnswer,
  { start, end }: GridJob,
): Reason {
  const person = grid.people.findIndex(({ id }) => id === before.personId);
  const name =
    request.people[person]?.name ?? request.previous?.names?.people?.[before.personId] ?? before.personId;
  const elsewhere: Reason["customerWhy"] = "somebody else is free then";
  if (person < 0) return { why: `${name} is not in the crew any more`, customerWhy: elsewhere };
  if ((grid.people[person]?.freeUntil[start] as number) < end) {
    return { why: `${name} is not at work throughout`, customerWhy: elsewhere };
  }
  const site = grid.fields[f]?.site ?? 0;
  const other = jobs.find((job) => {
    const drive = travelOf(grid, grid.fields[job.field]?.site ?? 0, site);
    return job.person === person && job.field !== f && job.end + drive > start && end + drive > job.start;
  });
  const at = other === undefined ? undefined : request.fields[other.field];
  return at === undefined
    ? AROUND
    : { why: `${name} is at ${fieldName(at)} or on the way then`, customerWhy: elsewhere };
}
