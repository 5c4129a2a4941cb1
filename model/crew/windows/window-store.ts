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
import { type KeptShares, keptWithRain } from "./kept.ts";
import type { MemberSwath } from "./member-swath.ts";
import type { SlotFrame } from "./runs.ts";
import type { UsualWindows } from "./usual.ts";

/**
 * Windows of the fields of one task, each field's asked once, in order: what two of them share is read once.
 *
 * @param read the members that windows are read from
 * @param all those that tell what is kept
 * @param before the mowing hours that there would be, and what would be held, if nothing was held from now on; null = as it is
 */
export type WindowStore = (
  field: CrewFieldRequest,
  read: readonly MemberSwath[],
  all: readonly MemberSwath[],
  hours: MowingHours,
  passes: Passes,
  held: HeldOps,
  before: { readonly hours: MowingHours; readonly held: HeldOps } | null,
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
  lastSlot: number = frame.count - 1,
): WindowStore {
  const toCome = new Map<string, CrewFieldRequest[]>();
  for (const field of fields) toCome.set(swathOf(field), [...(toCome.get(swathOf(field)) ?? []), field]);
  const readers = new Map<string, Map<string, FitReader>>();
  const shares = new Map<string, KeptShares>();
  const known = new Map<string, FieldWindows>();
  return (field, read, all, hours, passes, held, before) => {
    const swath = swathOf(field);
    const asking = toCome.get(swath) ?? [];
    const kept = shares.get(swath) ?? keptWithRain(field, all, frame);
    shares.set(swath, kept);
    const ofSwath = readers.get(swath) ?? new Map<string, FitReader>();
    readers.set(swath, ofSwath);
    const readerFor = (asked: MowingHours, works: HeldOps): FitReader => {
      const isPlain = works.passes.length === 0;
      const key = isPlain ? "" : JSON.stringify([asked.asked, works.passes]);
      const plain = isPlain ? undefined : readerFor(asked, { ...works, passes: [] });
      const reader =
        ofSwath.get(key) ?? readerOf(asking, read, frame, asked, readyShare, passes, works, plain);
      ofSwath.set(key, reader);
      return reader;
    };
    const windowsWith = (asked: MowingHours, works: HeldOps, usual?: UsualWindows): FieldWindows => {
      const question = [cropOf(field), asked, works, passes.rakeSlots, usual === undefined ? null : before];
      const key = JSON.stringify(question);
      const reader = readerFor(asked, works).of(field);
      const found =
        known.get(key) ??
        fieldWindows(field, read, frame, asked, readyShare, passes, works, reader, kept, lastSlot, usual);
      known.set(key, found);
      return found;
    };
    const usual = before === null ? undefined : windowsWith(before.hours, before.held).usual;
    const found = windowsWith(hours, held, usual);
    // What a reader knows takes megabytes: it goes with the last field that could ask it.
    const left = asking.filter((_, i) => i !== asking.indexOf(field));
    toCome.set(swath, left);
    if (left.length === 0) {
      readers.delete(swath);
      shares.delete(swath);
    }
    return found;
  };
}
