import type { CrewFieldRequest } from "../request.ts";
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

/** The crop of a field, its weather and its works. */
function cropOf({ siteId, swath, route, bandWb, package: pack, store, ops }: CrewFieldRequest): string {
  return JSON.stringify([siteId, swath, route, bandWb, pack, store, ops]);
}

export function windowStore(
  fields: readonly CrewFieldRequest[],
  frame: SlotFrame,
  readyShare: number,
): WindowStore {
  const toCome = new Map<string, number>();
  for (const field of fields) toCome.set(cropOf(field), (toCome.get(cropOf(field)) ?? 0) + 1);
  const readers = new Map<string, Map<string, FitReader>>();
  const known = new Map<string, FieldWindows>();
  return (field, members, hours, passes, held) => {
    const crop = cropOf(field);
    const ofCrop = readers.get(crop) ?? new Map<string, FitReader>();
    const work = JSON.stringify([hours.asked, held]);
    const reader = ofCrop.get(work) ?? readerOf(field, members, frame, hours, readyShare, passes, held);
    readers.set(crop, ofCrop.set(work, reader));
    const key = `${crop}${work}${passes.rakeSlots}`;
    const found =
      known.get(key) ?? fieldWindows(field, members, frame, hours, readyShare, passes, held, reader);
    known.set(key, found);
    // What a reader knows takes megabytes: it goes with the last field that could ask it.
    const left = (toCome.get(crop) ?? 0) - 1;
    toCome.set(crop, left);
    if (left <= 0) readers.delete(crop);
    return found;
  };
}
