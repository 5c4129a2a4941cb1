import { DAY_MS, HOUR_MS, MINUTE_MS } from "../weather/clock.ts";
import type { CartShare } from "./carts.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { type GridField, type GridFixed, type GridTask, stretchEnds } from "./grid.ts";
import { tedMorning } from "./grid-slots.ts";
import { type CrewOp, isGather, KIND_OF_OP } from "./keys.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import type { FieldWindows, Passes } from "./windows/field-windows.ts";
import type { SlotFrame } from "./windows/runs.ts";
import { slotsByRate, slotsFor } from "./work-slots.ts";

/** Windows of a field that cannot be finished by any plan: its work broke off in the middle. */
export function neverServed(found: FieldWindows): FieldWindows {
  return { ...found, mowGain: found.mowGain.map(() => Number.NaN) };
}

/** Windows of a field mown before the weather begins: what it lost is not reckoned, all of it counts as kept. */
export function unreckoned(found: FieldWindows, mownAt: number, gatherStart: number | null): FieldWindows {
  const mowGain = Float64Array.from(found.mowGain);
  mowGain[mownAt] = 1 + (gatherStart === null ? 0 : (found.gatherCost[gatherStart] ?? 0));
  return { ...found, mowGain };
}

/** One field with its works, windows and worth in the slots of the grid. */
export function gridField(
  field: CrewFieldRequest,
  request: CrewPlanRequest,
  carts: CartShare,
  frame: SlotFrame,
  siteIds: readonly string[],
  found: FieldWindows,
  open: { readonly mowOpen: Uint8Array; readonly light: Uint8Array; readonly dry: Uint8Array },
  fixedOf: (op: CrewOp) => GridFixed | null,
  nowUtcMs: number,
): GridField {
  const [, topWb] = routeBand(field);
  const worth = field.areaHa * field.valuePerHa * (field.priority ?? 1);
  const slotMin = frame.slotMs / MINUTE_MS;
  const both = (a: Uint8Array, b: Uint8Array) =>
    stretchEnds(a.map((yes, t) => (yes === 1 && b[t] === 1 ? 1 : 0)));
  const raked = field.ops.includes("rake") && fixedOf("rake") === null;
  const tasks = field.ops.map((op, i): GridTask => {
    const window = found.windows.find((one) => one.op === op);
    const before = request.previous?.jobs.find((job) => job.fieldId === field.id && job.op === op);
    const beforeMs = before === undefined ? Number.NaN : Date.parse(before.startUtc);
    const opBefore = field.ops[i - 1];
    return {
      op,
      slotsOf: Int32Array.from(request.machines, (machine) =>
        machine.kind === KIND_OF_OP[op] ? slotsFor(op, field, machine, topWb, slotMin, carts) : 0,
      ),
      openUntil: op === "mow" ? stretchEnds(open.mowOpen) : both(window?.open ?? open.dry, open.light),
      ready: window?.ready ?? null,
      until: window?.until ?? null,
      lagSlots: lagSlots(frame, lagMsOf(op, raked), opBefore === undefined ? null : fixedOf(opBefore)),
      fixed: fixedOf(op),
      before: beforeMs >= nowUtcMs ? Math.round((beforeMs - frame.startUtcMs) / frame.slotMs) : null,
    };
  });
  const perDay = field.latenessPerDay ?? CREW_DEFAULTS.latenessShareADay.value * worth;
  const dueMs = field.dueUtc ? Date.parse(field.dueUtc) : Number.POSITIVE_INFINITY;
  const last = tasks.at(-1)?.fixed?.moments;
  const lateCost = Float64Array.from({ length: frame.count + 1 }, (_, e) => {
    // Work that is held ends when it ends.
    const lateMs = (last?.toUtcMs ?? frame.startUtcMs + e * frame.slotMs) - dueMs;
    return lateMs > 0 ? (perDay * lateMs) / DAY_MS : 0;
  });
  return {
    id: field.id,
    site: siteIds.indexOf(field.siteId),
    worth,
    tasks,
    gather: field.ops.findIndex(isGather),
    mowGain: found.mowGain,
    gatherCost: found.gatherCost,
    lateCost,
    moveCost: (request.moveCostShare ?? CREW_DEFAULTS.moveCostShare.value) * worth,
  };
}

/** Tedding at its usual hour, and how long a raking takes with the fastest rake. */
export function passesOf(
  field: CrewFieldRequest,
  { machines }: CrewPlanRequest,
  slotMin: number,
  timeZone: string,
): Passes {
  const slots = machines
    .filter(({ kind }) => kind === "rake")
    .map((machine) => slotsByRate("rake", field, machine, routeBand(field)[1], slotMin));
  return {
    tedAtUtcMs: field.ops.includes("ted") ? tedMorning(timeZone) : () => null,
    rakeSlots: slots.length === 0 ? 1 : Math.min(...slots),
  };
}

/** How long after the work before it a work may start, ms; null = any time. `raked` = with a raking still to come. */
export function lagMsOf(op: CrewOp, raked: boolean): number | null {
  const hours =
    raked && isGather(op)
      ? CREW_DEFAULTS.baleAfterRakeH.value
      : op === "wrap"
        ? CREW_DEFAULTS.wrapWithinH.value
        : op === "haul"
          ? CREW_DEFAULTS.haulWithinH.value
          : null;
  return hours === null ? null : hours * HOUR_MS;
}

/** The same in slots after the last slot of the work before, whose true end may lie inside that slot. */
function lagSlots(frame: SlotFrame, lagMs: number | null, before: GridFixed | null): number | null {
  if (lagMs === null) return null;
  if (before?.moments === undefined) return Math.floor(lagMs / frame.slotMs);
  return Math.floor((before.moments.toUtcMs + lagMs - frame.startUtcMs) / frame.slotMs) - before.end;
}
