import { hoursForArea } from "../harvest/capacity.ts";
import type { CartShare } from "./carts.ts";
import type { CrewOp } from "./keys.ts";
import { carriedHaPerH, usualRate } from "./rates.ts";
import type { CrewFieldRequest, CrewMachineRequest } from "./request.ts";

/**
 * Whole slots that a machine needs on a field, travel apart; 0 where it cannot do the work. Chopped crop leaves the field as
 * it is cut: a chopper works no faster than its own carts carry, and not at all where all carts of the crew follow others.
 */
export function slotsFor(
  op: CrewOp,
  field: CrewFieldRequest,
  machine: CrewMachineRequest,
  topWb: number,
  slotMin: number,
  { behind }: CartShare,
): number {
  const carts = behind?.get(machine.id) ?? [];
  if (op === "chop" && behind !== null && carts.length === 0) return 0;
  return slotsByRate(op, field, machine, topWb, slotMin, behind === null ? undefined : carts);
}

/** The same for work that is held and keeps its machine, wherever the carts are shared out to. */
export function heldSlots(
  op: CrewOp,
  field: CrewFieldRequest,
  machine: CrewMachineRequest,
  topWb: number,
  slotMin: number,
  share: CartShare,
): number {
  return (
    slotsFor(op, field, machine, topWb, slotMin, share) || slotsByRate(op, field, machine, topWb, slotMin)
  );
}

/** The same at the rate of the machine, where it chops with these carts behind it; absent = as many as it needs. */
export function slotsByRate(
  op: CrewOp,
  field: CrewFieldRequest,
  machine: CrewMachineRequest,
  topWb: number,
  slotMin: number,
  carts?: readonly CrewMachineRequest[],
): number {
  const own = field.haPerH?.[op] ?? machine.haPerH ?? usualRate(op, field, topWb);
  const haPerH = op === "chop" && carts !== undefined ? Math.min(own, carriedHaPerH(carts)) : own;
  return Math.max(1, Math.ceil((hoursForArea(field.areaHa, haPerH) * 60) / slotMin - 1e-9));
}
