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
import { bandOfOp, type OpBand } from "./band.ts";
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

/** A work with its band: of fields that share a reader, those with the same key are read once. */
interface BandedWork extends OpBand {
  readonly op: CrewOp;
  readonly key: string;
}

/** What one mowing leaves, as it lies before any raking that is still to be chosen; by the key of a work. */
interface Mown {
  readonly fits: ReadonlyMap<string, Fit>;
  readonly tallies: ReadonlyMap<string, Tally>;
  /** By member; none where nothing is raked. */
  readonly trails: readonly RunTrail[];
}

/**
 * The slots fit for the works of one crop, mowing by mowing, each read once. Fields of the same crop, weather and tedding may
 * read from the same one, by whatever route, and however long their rakings take.
 */
export interface FitReader {
  /** What one of its fields asks. */
  of(field: CrewFieldRequest): FieldReader;
}

/** The same for one field. */
export interface FieldReader {
  /** By work, after a mowing in the middle of slot `q`, of the crop as it lies before raking. */
  spread(q: number): ReadonlyMap<CrewOp, Fit>;
  /** For one work, of crop mown in `q` and raked at a moment. */
  raked(q: number, atUtcMs: number, op: CrewOp): Fit;
}

/** What a reader is asked. */
export interface FitQuestion {
  /** All that will ask it, of one crop. */
  readonly fields: readonly CrewFieldRequest[];
  readonly members: readonly MemberSwath[];
  readonly frame: SlotFrame;
  readonly readyShare: number;
  /** Tedding and raking after a mowing in `q`, in order, but for a raking that is still to be chosen. */
  readonly passesAfter: (q: number) => readonly Operation[];
}

/** Members of which a slot must be told, for it to be fit. */
export function membersNeeded(members: readonly MemberSwath[], readyShare: number): number {
  return Math.max(1, Math.ceil(readyShare * members.length - 1e-9));
}

/** Works of a field that moisture is something to, after the mowing. */
function worksOf(field: CrewFieldRequest): readonly BandedWork[] {
  return field.ops.slice(1).flatMap((op): BandedWork[] => {
    const band = bandOfOp(op, field);
    return band === null ? [] : [{ ...band, op, key: JSON.stringify([op === "ted", band]) }];
  });
}

export function fitReader({ fields, members, frame, readyShare, passesAfter }: FitQuestion): FitReader {
  const { startUtcMs, slotMs, count } = frame;
  const slotUtcMs = (slot: number) => startUtcMs + slot * slotMs;
  const need = membersNeeded(members, readyShare);
  const half = Math.ceil(members.length / 2);
  const block = moistureBlock(members);
  const works = new Map(fields.flatMap(worksOf).map((work) => [work.key, work]));
  const isRaked = [...works.values()].some(({ op }) => op === "rake");
  const emptyTally = (): Tally => ({ ready: new Uint16Array(count), inBand: new Uint16Array(count) });

  /** Hours of a course until the last slot has ended: it is run no further. */
  const hoursOf = (course: MoistureCourse) =>
    Math.max(0, Math.min(course.count, Math.ceil((slotUtcMs(count) - course.startUtcMs) / HOUR_MS)));

  const countFit = (work: BandedWork, track: Track, fromUtcMs: number, { ready, inBand }: Tally) => {
    const { op, bandWb, conditions } = work;
    const afterH = op === "ted" ? CREW_DEFAULTS.tedAfterMowH.value : 0;
    const afterMs = Math.max(fromUtcMs, track.fromUtcMs + afterH * HOUR_MS);
    countSlots(frame, fitStretches(track, [0, bandWb[1]], conditions), afterMs, ready);
    countSlots(frame, fitStretches(track, bandWb, conditions), afterMs, inBand);
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
    const tallies = new Map([...works.keys()].map((key) => [key, emptyTally()]));
    const trails: RunTrail[] = [];
    for (const member of members) {
      const run = member.run(block, cutUtcMs, passes, null);
      const hours = hoursOf(run.course);
      if (isRaked) trails.push(runAlong(run, hours));
      else runOn(run, hours);
      const track = hoursOfTrack(member.track(run.course), 0, hours);
      for (const [key, work] of works) countFit(work, track, cutUtcMs, tallies.get(key) as Tally);
    }
    return { fits: new Map([...tallies].map(([key, tally]) => [key, fitOf(tally)])), tallies, trails };
  };

  const mown = new Map<number, Mown>();
  const mownIn = (q: number): Mown => {
    const found = mown.get(q) ?? mow(q);
    mown.set(q, found);
    return found;
  };

  /** Until shortly before the raking the crop lies as it lay: what is known of that stands, and the runs go on from there. */
  const rake = (q: number, atUtcMs: number, work: BandedWork): Fit => {
    const cutUtcMs = slotUtcMs(q);
    const raking: Operation = { kind: "rake", atUtcMs, coveredFraction: null };
    const passes = [...passesAfter(q), raking].sort((one, other) => one.atUtcMs - other.atUtcMs);
    const { tallies, trails } = mownIn(q);
    // The hour of the raking begins after this slot has, whatever hours a weather counts in.
    const firstSlot = Math.max(0, Math.floor((atUtcMs - HOUR_MS - startUtcMs) / slotMs));
    const fromUtcMs = slotUtcMs(firstSlot);
    const tally = emptyTally();
    tally.ready.set(tallies.get(work.key)?.ready.subarray(0, firstSlot) ?? []);
    tally.inBand.set(tallies.get(work.key)?.inBand.subarray(0, firstSlot) ?? []);
    members.forEach((member, i) => {
      const trail = trails[i];
      const hour = hourOf(member.weather, fromUtcMs) - hourOf(member.weather, cutUtcMs);
      const state = trail === undefined ? null : stateBefore(trail, hour);
      const run = member.run(block, cutUtcMs, passes, state);
      const hours = hoursOf(run.course);
      runOn(run, hours);
      const track = hoursOfTrack(member.track(run.course), state?.done ?? 0, hours);
      countFit(work, track, fromUtcMs, tally);
    });
    return fitOf(tally);
  };
  const raked = new Map<string, Fit>();
  const rakedIn = (q: number, atUtcMs: number, work: BandedWork): Fit => {
    const key = `${q}|${atUtcMs}|${work.key}`;
    const found = raked.get(key) ?? rake(q, atUtcMs, work);
    raked.set(key, found);
    return found;
  };

  return {
    of: (field) => {
      const own = new Map(worksOf(field).map((work) => [work.op, work]));
      return {
        spread: (q) => {
          const { fits } = mownIn(q);
          return new Map([...own].map(([op, { key }]) => [op, fits.get(key) as Fit]));
        },
        raked: (q, atUtcMs, op) => rakedIn(q, atUtcMs, own.get(op) as BandedWork),
      };
    },
  };
}
