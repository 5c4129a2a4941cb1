import type { Operation } from "../../drying/operations.ts";
import { type CrewOp, isGather } from "../keys.ts";
import type { CrewFieldRequest } from "../request.ts";
import { bandOfOp } from "./band.ts";
import { type Course, coursesOf } from "./courses.ts";
import { type FieldReader, type Fit, type FitReader, fitReader, membersNeeded } from "./fit-reader.ts";
import { type KeptShares, keptWithRain } from "./kept.ts";
import type { MemberSwath } from "./member-swath.ts";
import { type Raking, rainAfter, rakingsOf } from "./rakings.ts";
import { type SlotFrame, shortSlotsOf, windowsOf } from "./runs.ts";
import { gainIn, partsOf, type UsualWindows, usualWindows } from "./usual.ts";

export interface OpWindow {
  readonly op: CrewOp;
  /** 1 where the work is possible after some mowing hour. */
  readonly open: Uint8Array;
  /** By course: the slot of the middle of the mowing, and one after the other the courses it may take; -1 where none opens. */
  readonly ready: Int32Array;
  readonly until: Int32Array;
}

export interface FieldWindows {
  readonly windows: readonly OpWindow[];
  /** By course; NaN where it opens no window for some later work. */
  readonly mowGain: Float64Array;
  /** Those of gathering as they would be if nothing was held from now on. */
  readonly usual: UsualWindows;
  readonly gatherCost: Float64Array;
  /** Courses that were followed. */
  readonly courses: number;
}

/** Slots at which the middle of a mowing may lie, ascending; none of them hangs on who works when. */
export interface MowingHours {
  /** Those that get windows. */
  readonly asked: readonly number[];
  /** Whether a slot is open to a work at all is read from these, asked or not. */
  readonly telling: readonly number[];
}

/** Works of the field that the plan has no say in: they need no window, and take the crop when they do. */
export interface HeldOps {
  readonly ops: readonly CrewOp[];
  /** Slot in which a held gathering starts; null where it is still to be planned. */
  readonly gatherStart: number | null;
  /** Tedding and raking that are held, at their own hours. */
  readonly passes: readonly Operation[];
}

const NOTHING_HELD: HeldOps = { ops: [], gatherStart: null, passes: [] };

/** How the swath is worked between mowing and gathering. */
export interface Passes {
  /** When a swath mown then would be tedded; null where the field is not tedded. */
  readonly tedAtUtcMs: (cutUtcMs: number) => number | null;
  /** Slots that a raking takes at least. */
  readonly rakeSlots: number;
}

/**
 * The windows of every mowing hour of one field: a slot is fit for a work when at least `readyShare` of the members have
 * the crop down to the band's top, without rain, dew or soft ground, and at least half have it no drier than the band. A
 * window runs from the first such slot to the first that was fit after other mowing hours but is not after
 * this one (rain in the forecast, or crop gone too dry). The window of a gathering also ends with rain on so many members,
 * since it opened, that too few were spared, whatever other mowing hours would leave.
 *
 * A field that is raked is taken from a windrow, which dries slower, and slower yet once it was rained on: its gathering
 * is read from the crop as it is raked, in each dry spell of its own (see `rakingsOf`); all else from the swath as it lies
 * before raking. Stretches of fit slots behind the first are windows of further courses (see `coursesOf`). Held works are
 * asked for no window, and held tedding and raking are reckoned with at their own hours. The window of one mowing hour is
 * the same whichever others are asked, so that a crew with more hours has every window that it had.
 *
 * A dry day more may close a window all the same: crop that dries sooner is past the tedding, or too dry to be baled or
 * chopped, before the hour at which it was to be done. No pass is left out for that: the works of a field are those asked for.
 *
 * @param reader one that other fields of the same crop and tedding may have read from; absent = one of its own
 * @param kept of all members, where windows are read from some; absent = of these
 * @param lastSlot of the days that are planned, whatever is held behind them
 * @param usually windows of gathering when nothing is held but what began before now; absent = these
 */
export function fieldWindows(
  field: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
  hours: MowingHours,
  readyShare: number,
  passes: Passes,
  held: HeldOps = NOTHING_HELD,
  reader: FieldReader = readerOf([field], members, frame, hours, readyShare, passes, held).of(field),
  kept: KeptShares = keptWithRain(field, members, frame),
  lastSlot: number = frame.count - 1,
  usually?: UsualWindows,
): FieldWindows {
  const { asked: middles, telling } = hours;
  const { rakeSlots } = passes;
  const { count, slotMs } = frame;
  const ops = opsOf(field);
  const isHeld = ops.map((op) => held.ops.includes(op));
  const need = membersNeeded(members, readyShare);
  const open = ops.map(() => new Uint8Array(count));
  const tells = new Set(telling);
  let courses = 0;

  const spreadAfter = (q: number): readonly Fit[] => {
    courses += members.length;
    const fits = reader.spread(q);
    return ops.map((op) => fits.get(op) as Fit);
  };
  const windrowAfter = (q: number, rakedAt: number): Uint8Array => {
    courses += members.length;
    const atUtcMs = frame.startUtcMs + (rakedAt + rakeSlots / 2) * slotMs;
    return reader.raked(q, atUtcMs, ops[gather] as CrewOp).fit;
  };
  const mark = (q: number, i: number, flags: Uint8Array) => {
    const some = open[i] as Uint8Array;
    if (tells.has(q)) for (let t = 0; t < count; t++) if (flags[t] === 1) some[t] = 1;
  };
  const every = ops.map((_, i) => i);
  const all = [...new Set([...middles, ...telling])].sort((a, b) => a - b);
  const spread = new Map(all.map((q) => [q, spreadAfter(q)]));
  for (const [q, fits] of spread) for (const i of every) mark(q, i, (fits[i] as Fit).fit);

  const shortSlots = shortSlotsOf(slotMs);
  const gather = ops.findIndex(isGather);
  const rake = ops.indexOf("rake");
  const isRaked = rake >= 0 && rake < gather && !isHeld[rake] && !isHeld[gather];
  const none = new Uint8Array(count);
  if (isRaked) open[gather]?.fill(0);
  const windrows = all.flatMap((q) => {
    if (!isRaked) return [];
    return rakingsOf(frame, members, need, {
      raking: { fit: spread.get(q)?.[rake]?.fit ?? none, open: open[rake] as Uint8Array },
      swath: spread.get(q)?.[gather] ?? { fit: none, dry: none },
      rakeSlots,
      windrow: (slot) => windrowAfter(q, slot),
    }).map((raking) => ({ q, raking }));
  });
  for (const { q, raking } of windrows) mark(q, gather, raking.fit);

  const rainSince = new Map<number, number>();
  const rainAt = (from: number) => {
    const at = rainSince.get(from) ?? rainAfter(frame, members, need, from);
    rainSince.set(from, at);
    return at;
  };

  const stretchesAfter = (q: number, i: number) => {
    const runs = windowsOf(
      spread.get(q)?.[i]?.fit,
      open[i] as Uint8Array,
      shortSlots,
      0,
      i === gather ? rainAt : undefined,
    );
    return isHeld[i] ? runs.slice(0, 1) : runs;
  };
  const takenFrom = ({ fit, ready }: Raking) =>
    windowsOf(fit, open[gather] as Uint8Array, shortSlots, ready + 1, rainAt);
  const whole = middles.flatMap((q) => {
    const own = windrows.filter((one) => one.q === q);
    const choices = {
      stretches: every.map((i) => stretchesAfter(q, i)),
      isHeld,
      windrows: isRaked ? own.map(({ raking }) => ({ raking, taken: takenFrom(raking) })) : null,
      rake,
      gather,
    };
    return coursesOf(choices, frame).map((spans, place) => ({ q, place, spans }));
  });
  const usual = usually ?? usualWindows(gatheringOf(whole, gather, count, rainAt), kept, count, lastSlot);
  const gainAt = gainIn(usual, kept, count);
  const found = middles.flatMap((q) =>
    whole
      .filter((course) => course.q === q)
      .flatMap(({ spans }) => {
        const taken = spans[gather];
        if (taken == null) return [spans];
        return partsOf(taken, (slot) => gainAt(q, slot)).map((part) =>
          spans.map((span, i) => (i === gather ? part : span)),
        );
      })
      .map((spans, place) => ({ q, place, spans })),
  );

  const ways = found.reduce((most, { place }) => Math.max(most, place + 1), 1);
  const windows = ops.map((op, i): OpWindow => {
    const ready = new Int32Array(ways * count).fill(-1);
    const until = new Int32Array(ways * count).fill(-1);
    for (const { q, place, spans } of found) {
      ready[place * count + q] = spans[i]?.ready ?? -1;
      until[place * count + q] = spans[i]?.until ?? -1;
    }
    return { op, open: open[i] as Uint8Array, ready, until };
  });
  const { gatherCost } = kept;
  const mowGain = new Float64Array(ways * count).fill(Number.NaN);
  for (const { q, place, spans } of found) {
    const taken = held.gatherStart ?? spans[gather]?.ready ?? null;
    if (taken === null) mowGain[place * count + q] = 1;
    else if (taken > q) mowGain[place * count + q] = gainAt(q, taken);
  }
  return { windows, mowGain, usual, gatherCost, courses };
}

/** The windows of gathering of some courses. */
function gatheringOf(
  courses: readonly { readonly q: number; readonly place: number; readonly spans: Course }[],
  gather: number,
  count: number,
  rainAt: (slot: number) => number,
) {
  const ways = courses.reduce((most, { place }) => Math.max(most, place + 1), 1);
  const none = () => new Int32Array(ways * count).fill(-1);
  const [ready, until, rained] = [none(), none(), none()];
  for (const { q, place, spans } of courses) {
    const span = spans[gather];
    if (span == null) continue;
    ready[place * count + q] = span.ready;
    until[place * count + q] = span.until;
    rained[place * count + q] = rainAt(span.ready);
  }
  return { ready, until, rained };
}

/** Works after the mowing that moisture is something to. */
function opsOf(field: CrewFieldRequest): readonly CrewOp[] {
  return field.ops.slice(1).filter((op) => bandOfOp(op, field) !== null);
}

/**
 * Reads the slots of fields that differ in their areas, routes and rakings alone.
 *
 * @param plain reads what nothing held was done to; absent = nobody has
 */
export function readerOf(
  fields: readonly CrewFieldRequest[],
  members: readonly MemberSwath[],
  frame: SlotFrame,
  { asked }: MowingHours,
  readyShare: number,
  { tedAtUtcMs }: Passes,
  held: HeldOps = NOTHING_HELD,
  plain?: FitReader,
): FitReader {
  const asks = new Set(asked);
  const passesAfter = (q: number) => {
    const cutUtcMs = frame.startUtcMs + q * frame.slotMs;
    // What is held was done to the crop that is asked about; crop mown at another hour is worked at its own.
    return passesOf(cutUtcMs, tedAtUtcMs(cutUtcMs), asks.has(q) ? held.passes : []);
  };
  const own = fitReader({ fields, members, frame, readyShare, passesAfter });
  if (plain === undefined) return own;
  return {
    of: (field) => {
      const [held, others] = [own.of(field), plain.of(field)];
      const after = (q: number) => (asks.has(q) ? held : others);
      return { spread: (q) => after(q).spread(q), raked: (q, atUtcMs, op) => after(q).raked(q, atUtcMs, op) };
    },
  };
}

/** Tedding and raking after a cut, in order: those that are held at their hours, else tedding at its usual one. */
function passesOf(cutUtcMs: number, tedMs: number | null, held: readonly Operation[]): Operation[] {
  const passes = held.filter(({ atUtcMs }) => atUtcMs > cutUtcMs);
  const isTedHeld = held.some(({ kind }) => kind === "ted");
  if (tedMs !== null && !isTedHeld) passes.push({ kind: "ted", atUtcMs: tedMs, coveredFraction: null });
  return passes.sort((one, other) => one.atUtcMs - other.atUtcMs);
}
