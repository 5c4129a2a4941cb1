import type { MoistureCourse } from "../../drying/course.ts";
import { hourOf } from "../../drying/course-columns.ts";
import { runOn } from "../../drying/course-run.ts";
import type { Operation } from "../../drying/operations.ts";
import { type RunTrail, runAlong, stateBefore } from "../../drying/run-trail.ts";
import { fitStretches, hoursOfTrack, type Track } from "../../harvest/spans.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import type { CrewOp } from "../keys.ts";
import type { CrewFieldRequest } from "../request.ts";
import { bandOfOp } from "./band.ts";
import { keptUntil } from "./hazards.ts";
import { type MemberSwath, moistureBlock } from "./member-swath.ts";
import { countSlots, type SlotFrame } from "./runs.ts";

/** Slots in which the crop is dry enough for a work, and those in which it is besides not too dry for it. */
export interface Fit {
  readonly dry: Uint8Array;
  readonly fit: Uint8Array;
}

/** How many members have the crop dry enough in a slot, and how many no drier than the band. */
interface Tally {
  readonly ready: Uint16Array;
  readonly inBand: Uint16Array;
}

/** What one mowing leaves, as it lies before any raking that is still to be chosen. */
interface Mown {
  readonly fits: ReadonlyMap<CrewOp, Fit>;
  readonly tallies: ReadonlyMap<CrewOp, Tally>;
  /** By member; none where nothing is raked. */
  readonly trails: readonly RunTrail[];
}

/**
 * The slots fit for the works of one crop, and what lying takes of it, mowing by mowing, each read once. Fields of the same
 * crop, weather and passes may read from the same one, however long their rakings take.
 */
export interface FitReader {
  /** By work, after a mowing in the middle of slot `q`, of the crop as it lies before raking. */
  spread(q: number): ReadonlyMap<CrewOp, Fit>;
  /** For one work, of crop mown in `q` and raked at a moment. */
  raked(q: number, atUtcMs: number, op: CrewOp): Fit;
  /** Expected share that is kept of crop mown in `q` until a slot starts, of these slots at least. */
  kept(q: number, readies: readonly number[]): ReadonlyMap<number, number>;
}

/** What a reader is asked; fields that share one differ in none of it. */
export interface FitQuestion {
  readonly field: CrewFieldRequest;
  readonly members: readonly MemberSwath[];
  readonly frame: SlotFrame;
  readonly readyShare: number;
  /** Works with a band of moisture. */
  readonly ops: readonly CrewOp[];
  /** Tedding and raking after a mowing in `q`, in order, but for a raking that is still to be chosen. */
  readonly passesAfter: (q: number) => readonly Operation[];
}

/** Members of which a slot must be told, for it to be fit. */
export function membersNeeded(members: readonly MemberSwath[], readyShare: number): number {
  return Math.max(1, Math.ceil(readyShare * members.length - 1e-9));
}

export function fitReader({ field, members, frame, readyShare, ops, passesAfter }: FitQuestion): FitReader {
  const { startUtcMs, slotMs, count } = frame;
  const slotUtcMs = (slot: number) => startUtcMs + slot * slotMs;
  const need = membersNeeded(members, readyShare);
  const half = Math.ceil(members.length / 2);
  const block = moistureBlock(members);
  const bands = new Map(ops.map((op) => [op, bandOfOp(op, field)]));
  const emptyTally = (): Tally => ({ ready: new Uint16Array(count), inBand: new Uint16Array(count) });

  /** Hours of a course until the last slot has ended: it is run no further. */
  const hoursOf = (course: MoistureCourse) =>
    Math.max(0, Math.min(course.count, Math.ceil((slotUtcMs(count) - course.startUtcMs) / HOUR_MS)));

  const countFit = (op: CrewOp, track: Track, fromUtcMs: number, { ready, inBand }: Tally) => {
    const band = bands.get(op);
    if (band == null) return;
    const afterH = op === "ted" ? CREW_DEFAULTS.tedAfterMowH.value : 0;
    const afterMs = Math.max(fromUtcMs, track.fromUtcMs + afterH * HOUR_MS);
    countSlots(frame, fitStretches(track, [0, band.bandWb[1]], band.conditions), afterMs, ready);
    countSlots(frame, fitStretches(track, band.bandWb, band.conditions), afterMs, inBand);
  };

  const fitOf = ({ ready, inBand }: Tally): Fit => {
    const [dry, fit] = [new Uint8Array(count), new Uint8Array(count)];
    for (let t = 0; t < count; t++) {
      if ((ready[t] as number) < need) continue;
      dry[t] = 1;
      if ((inBand[t] as number) >= half) fit[t] = 1;
    }
    return { dry, fit };
  };

  const mow = (q: number): Mown => {
    const cutUtcMs = slotUtcMs(q);
    const passes = passesAfter(q);
    const tallies = new Map(ops.map((op) => [op, emptyTally()]));
    const trails: RunTrail[] = [];
    for (const member of members) {
      const run = member.run(block, cutUtcMs, passes, null);
      const hours = hoursOf(run.course);
      if (ops.includes("rake")) trails.push(runAlong(run, hours));
      else runOn(run, hours);
      const track = hoursOfTrack(member.track(run.course), 0, hours);
      for (const [op, tally] of tallies) countFit(op, track, cutUtcMs, tally);
    }
    return { fits: new Map([...tallies].map(([op, tally]) => [op, fitOf(tally)])), tallies, trails };
  };

  const mown = new Map<number, Mown>();
  const mownIn = (q: number): Mown => {
    const found = mown.get(q) ?? mow(q);
    mown.set(q, found);
    return found;
  };

  /** Until shortly before the raking the crop lies as it lay: what is known of that stands, and the runs go on from there. */
  const rake = (q: number, atUtcMs: number, op: CrewOp): Fit => {
    const cutUtcMs = slotUtcMs(q);
    const raking: Operation = { kind: "rake", atUtcMs, coveredFraction: null };
    const passes = [...passesAfter(q), raking].sort((one, other) => one.atUtcMs - other.atUtcMs);
    const { tallies, trails } = mownIn(q);
    // The hour of the raking begins after this slot has, whatever hours a weather counts in.
    const firstSlot = Math.max(0, Math.floor((atUtcMs - HOUR_MS - startUtcMs) / slotMs));
    const fromUtcMs = slotUtcMs(firstSlot);
    const tally = emptyTally();
    tally.ready.set(tallies.get(op)?.ready.subarray(0, firstSlot) ?? []);
    tally.inBand.set(tallies.get(op)?.inBand.subarray(0, firstSlot) ?? []);
    members.forEach((member, i) => {
      const trail = trails[i];
      const hour = hourOf(member.weather, fromUtcMs) - hourOf(member.weather, cutUtcMs);
      const state = trail === undefined ? null : stateBefore(trail, hour);
      const run = member.run(block, cutUtcMs, passes, state);
      const hours = hoursOf(run.course);
      runOn(run, hours);
      const track = hoursOfTrack(member.track(run.course), state?.done ?? 0, hours);
      countFit(op, track, fromUtcMs, tally);
    });
    return fitOf(tally);
  };
  const raked = new Map<string, Fit>();
  const kept = new Map<number, Map<number, number>>();

  return {
    spread: (q) => mownIn(q).fits,
    raked: (q, atUtcMs, op) => {
      const key = `${q}|${atUtcMs}|${op}`;
      const found = raked.get(key) ?? rake(q, atUtcMs, op);
      raked.set(key, found);
      return found;
    },
    kept: (q, readies) => {
      const known = kept.get(q) ?? new Map<number, number>();
      kept.set(q, known);
      const asked = [...new Set(readies)].filter((ready) => !known.has(ready));
      const shares = keptUntil(field, members, frame, q, asked);
      asked.forEach((ready, i) => {
        known.set(ready, shares[i] as number);
      });
      return known;
    },
  };
}
