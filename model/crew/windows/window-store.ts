import type { CrewFieldRequest } from "../request.ts";
import { bandOfOp } from "./band.ts";
import {
  type FieldWindows,
  fieldWindows,
  type HeldOps,
  type MowingHours,
  type Passes,
  readerOf,
} from "./field-windows.ts";
import type { FitReader } from "./fit-reader.ts";
import type { MemberSwath } from "./member-swath.ts";
import type { SlotFrame } from "./runs.ts";

/** Windows of the fields of one task, each field's asked once, in order: what two of them share is read once. */
export type WindowStore = (
  field: CrewFieldRequest,
  members: readonly MemberSwath[],
  hours: MowingHours,
  passes: Passes,
  held: HeldOps,
) => FieldWindows;

/** The crop of a field, its weather and its works, but for those that moisture is nothing to. */
function cropOf(field: CrewFieldRequest): string {
  const { siteId, swath, route, bandWb, package: pack, store, ops } = field;
  const works = ops.filter((op) => bandOfOp(op, field) !== null);
  return JSON.stringify([siteId, swath, route, bandWb, pack, store, works]);
}

/** Crop that lies alike after a mowing, however it is raked and taken. */
function swathOf({ siteId, swath, ops }: CrewFieldRequest): string {
  return JSON.stringify([siteId, swath, ops.includes("ted")]);
}

export function windowStore(
  fields: readonly CrewFieldRequest[],
  frame: SlotFrame,
  readyShare: number,
): WindowStore {
  const toCome = new Map<string, CrewFieldRequest[]>();
  for (const field of fields) toCome.set(swathOf(field), [...(toCome.get(swathOf(field)) ?? []), field]);
  const readers = new Map<string, Map<string, FitReader>>();
  const known = new Map<string, FieldWindows>();
  return (field, members, hours, passes, held) => {
    const swath = swathOf(field);
    const asking = toCome.get(swath) ?? [];
    const ofSwath = readers.get(swath) ?? new Map<string, FitReader>();
    const work = JSON.stringify([hours.asked, held]);
    const reader = ofSwath.get(work) ?? readerOf(asking, members, frame, hours, readyShare, passes, held);
    readers.set(swath, ofSwath.set(work, reader));
    const key = `${cropOf(field)}${work}${passes.rakeSlots}`;
    const found =
      known.get(key) ??
      fieldWindows(field, members, frame, hours, readyShare, passes, held, reader.of(field));
    known.set(key, found);
    // What a reader knows takes megabytes: it goes with the last field that could ask it.
    const left = asking.filter((_, i) => i !== asking.indexOf(field));
    toCome.set(swath, left);
    if (left.length === 0) readers.delete(swath);
    return found;
  };
}
