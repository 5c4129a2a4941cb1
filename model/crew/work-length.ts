import { MINUTE_MS } from "../weather/clock.ts";
import type { CrewPlanAnswer } from "./answer.ts";
import type { CartShare } from "./carts.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { CrewJobAnswer, CrewMachineRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import { heldSlots } from "./work-slots.ts";

type Work = Pick<CrewJobAnswer, "fieldId" | "op">;

/** The machines of a crew that are of the kind which a work takes. */
export function machinesFor(machines: readonly CrewMachineRequest[], { op }: Pick<Work, "op">) {
  return machines.filter(({ kind }) => kind === KIND_OF_OP[op]);
}

/**
 * How long a work takes with another machine of its kind, in whole slots as the plan reckons, ms; null where field or machine
 * is not of the question.
 *
 * @param plan the plan that the work is of: its carts are behind the choppers that it says
 */
export function workMs(
  { fields, machines }: Pick<CrewPlanRequest, "fields" | "machines">,
  { carts, slotMin }: Pick<CrewPlanAnswer, "carts" | "slotMin">,
  { fieldId, op }: Work,
  machineId: string,
): number | null {
  const field = fields.find(({ id }) => id === fieldId);
  const machine = machinesFor(machines, { op }).find(({ id }) => id === machineId);
  if (field === undefined || machine === undefined) return null;
  const behind = new Map(
    Object.entries(carts ?? {}).map(([id, own]) => [id, machines.filter((one) => own.includes(one.id))]),
  );
  const share: CartShare = { behind: machines.some(({ kind }) => kind === "cart") ? behind : null };
  return heldSlots(op, field, machine, routeBand(field)[1], slotMin, share) * slotMin * MINUTE_MS;
}
