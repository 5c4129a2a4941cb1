import type { Operation } from "../../drying/operations.ts";
import { lyingHours, rainLoss, respirationLoss } from "../../harvest/losses/index.ts";
import { fitStretches } from "../../harvest/spans.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import { type CrewOp, isGather } from "../keys.ts";
import type { CrewFieldRequest } from "../request.ts";
import { bandOfOp } from "./band.ts";
import type { MemberSwath } from "./member-swath.ts";

/** The slots that windows are told in. */
export interface SlotFrame {
  readonly startUtcMs: number;
  readonly slotMs: number;
  readonly count: number;
}

export interface OpWindow {
  readonly op: CrewOp;
  /** 1 where the work is possible after some mowing hour. */
  readonly open: Uint8Array;
  /** By the slot of the middle of the mowing; -1 where none opens. */
  readonly ready: Int32Array;
  readonly until: Int32Array;
}

export interface FieldWindows {
  readonly windows: readonly OpWindow[];
  /** NaN where a mowing opens no window for some later work. */
  readonly mowGain: Float64Array;
  readonly gatherCost: Float64Array;
  /** Courses that were followed. */
  readonly courses: number;
}

/** A window shorter than this is passed over where a longer one follows, h. */
const SHORT_H = 3;

/** Slots at which the middle of a mowing may lie, ascending; none of them hangs on who works when. */
export interface MowingHours {
  /** Those that get windows. */
  readonly asked: readonly number[];
  /** Whether a slot is open to a work at all is read from these, some of those asked. */
  readonly telling: readonly number[];
}

/** Works of the field that the plan has no say in: they need no window, and take the crop when they do. */
export interface HeldOps {
  readonly ops: readonly CrewOp[];
  /** Slot in which a held gathering starts; null where it is still to be planned. */
  readonly gatherStart: number | null;
}

function slotOf(frame: SlotFrame, utcMs: number): number {
  return (utcMs - frame.startUtcMs) / frame.slotMs;
}

/**
 * The windows of every mowing hour of one field: a slot is fit for a work when at least `readyShare` of the members have
 * the crop down to the band's top, without rain, dew or soft ground, and at least half have it no drier than the band. A
 * window runs from the first such slot to the first that was fit after other mowing hours but is not after
 * this one (rain in the forecast, or crop gone too dry).
 *
 * A field that is raked is taken from a windrow, which dries slower: its gathering is read from the crop raked in the first
 * hour fit for it, all else from the swath as it lies before raking. Held works are asked for no window. The window of one
 * mowing hour is the same whichever others are asked, so that a crew with more hours has every window that it had.
 *
 * @param tedAtUtcMs when a swath mown then would be tedded; null where the field is not tedded
 */
export function fieldWindows(
  field: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
  { asked: middles, telling }: MowingHours,
  readyShare: number,
  tedAtUtcMs: (cutUtcMs: number) => number | null,
  held: HeldOps = { ops: [], gatherStart: null },
): FieldWindows {
  const { count, slotMs } = frame;
  const ops = field.ops.slice(1).filter((op) => bandOfOp(op, field) !== null);
  const isHeld = ops.map((op) => held.ops.includes(op));
  const need = Math.max(1, Math.ceil(readyShare * members.length - 1e-9));
  const half = Math.ceil(members.length / 2);
  const fit = ops.map(() => new Map<number, Uint8Array>());
  const open = ops.map(() => new Uint8Array(count));
  const tells = new Set(telling);
  let courses = 0;

  const fitAfter = (q: number, rakedAt: number | null, wanted: readonly number[]) => {
    const cutUtcMs = frame.startUtcMs + q * slotMs;
    const tedMs = tedAtUtcMs(cutUtcMs);
    const passes: Operation[] =
      tedMs === null ? [] : [{ kind: "ted", atUtcMs: tedMs, coveredFraction: null }];
    if (rakedAt !== null) {
      const atUtcMs = frame.startUtcMs + (rakedAt + 0.5) * slotMs;
      passes.push({ kind: "rake", atUtcMs, coveredFraction: null });
      passes.sort((one, other) => one.atUtcMs - other.atUtcMs);
    }
    const ready = ops.map(() => new Uint16Array(count));
    const inBand = ops.map(() => new Uint16Array(count));
    for (const member of members) {
      const track = member.track(member.course(cutUtcMs, passes));
      courses++;
      for (const i of wanted) {
        const op = ops[i] as CrewOp;
        const asked = bandOfOp(op, field);
        if (asked === null) continue;
        const { bandWb, conditions } = asked;
        const afterMs = op === "ted" ? cutUtcMs + CREW_DEFAULTS.tedAfterMowH.value * HOUR_MS : cutUtcMs;
        const tally = (band: readonly [number, number], into: Uint16Array | undefined) =>
          countSlots(frame, fitStretches(track, band, conditions), afterMs, into);
        tally([0, bandWb[1]], ready[i]);
        tally(bandWb, inBand[i]);
      }
    }
    for (const i of wanted) {
      const flags = Uint8Array.from({ length: count }, (_t, t) =>
        (ready[i]?.[t] ?? 0) >= need && (inBand[i]?.[t] ?? 0) >= half ? 1 : 0,
      );
      fit[i]?.set(q, flags);
      if (!tells.has(q)) continue;
      const some = open[i] as Uint8Array;
      for (let t = 0; t < count; t++) if (flags[t] === 1) some[t] = 1;
    }
  };
  const every = ops.map((_, i) => i);
  for (const q of middles) fitAfter(q, null, every);

  const shortSlots = shortSlotsOf(slotMs);
  const gather = ops.findIndex(isGather);
  const rake = ops.indexOf("rake");
  if (rake >= 0 && rake < gather && !isHeld[rake] && !isHeld[gather]) {
    // A windrow dries slower than the swath: when it is taken is read from the crop raked as soon as it may be.
    const spread = new Map(fit[gather]);
    const wasOpen = Uint8Array.from(open[gather] as Uint8Array);
    fit[gather]?.clear();
    open[gather]?.fill(0);
    for (const q of middles) {
      const raked = windowOf(fit[rake]?.get(q), open[rake] as Uint8Array, shortSlots);
      const ever = windowOf(spread.get(q), wasOpen, shortSlots);
      if (raked !== null && ever !== null) fitAfter(q, raked.ready, [gather]);
    }
  }
  const found = middles.flatMap((q) => {
    const spans = ops.map((_, i) => windowOf(fit[i]?.get(q), open[i] as Uint8Array, shortSlots));
    return spans.every((span, i) => span !== null || isHeld[i]) ? [{ q, spans }] : [];
  });

  const windows = ops.map((op, i): OpWindow => {
    const ready = new Int32Array(count).fill(-1);
    const until = new Int32Array(count).fill(-1);
    for (const { q, spans } of found) {
      ready[q] = spans[i]?.ready ?? -1;
      until[q] = spans[i]?.until ?? -1;
    }
    return { op, open: open[i] as Uint8Array, ready, until };
  });
  const gatherCost = rainHazard(field, members, frame);
  const mowGain = new Float64Array(count).fill(Number.NaN);
  for (const { q, spans } of found) {
    const ready = held.gatherStart ?? (gather < 0 ? null : (spans[gather]?.ready ?? null));
    if (ready === null) mowGain[q] = 1;
    else if (ready > q)
      mowGain[q] = keptUntil(field, members, frame, q, ready) + (gatherCost[ready] as number);
  }
  return { windows, mowGain, gatherCost, courses };
}

/** Adds one to every slot that lies wholly in a stretch, from a moment on. */
function countSlots(
  frame: SlotFrame,
  stretches: readonly { readonly startMs: number; readonly endMs: number }[],
  afterMs: number,
  into: Uint16Array | undefined,
): void {
  if (into === undefined) return;
  for (const { startMs, endMs } of stretches) {
    const first = Math.max(0, Math.ceil(slotOf(frame, Math.max(startMs, afterMs)) - 1e-9));
    const end = Math.min(frame.count, Math.floor(slotOf(frame, endMs) + 1e-9));
    for (let t = first; t < end; t++) into[t] = (into[t] as number) + 1;
  }
}

interface Run {
  readonly ready: number;
  readonly until: number;
  readonly slots: number;
}

/** Windows of fewer slots are passed over where a longer one follows. */
export function shortSlotsOf(slotMs: number): number {
  return Math.ceil((SHORT_H * HOUR_MS) / slotMs);
}

/** The first long enough run of fit slots, gaps passed over in which no mowing hour would do; the longest where none is. */
export function windowOf(
  fit: Uint8Array | undefined,
  open: Uint8Array,
  shortSlots: number,
): { readonly ready: number; readonly until: number } | null {
  if (fit === undefined) return null;
  let best = null as Run | null;
  let run = null as Run | null;
  for (let t = 0; t <= fit.length; t++) {
    if (t < fit.length && open[t] === 0) continue;
    if (t < fit.length && fit[t] === 1) {
      run = { ready: run?.ready ?? t, until: t + 1, slots: (run?.slots ?? 0) + 1 };
      continue;
    }
    if (run !== null && (best === null || run.slots > best.slots)) best = run;
    if (best !== null && best.slots >= shortSlots) return best;
    run = null;
  }
  return best;
}

/** Expected share of the crop that is kept from mowing to the opening of the window: respiration and rain. */
function keptUntil(
  { swath }: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
  q: number,
  ready: number,
): number {
  const cutUtcMs = frame.startUtcMs + q * frame.slotMs;
  const readyMs = frame.startUtcMs + ready * frame.slotMs;
  // Every member counts the same; a dozen of them tell a mean as well as fifty.
  const step = Math.max(1, Math.floor(members.length / 12));
  let sum = 0;
  let told = 0;
  for (let i = 0; i < members.length; i += step) {
    const member = members[i] as MemberSwath;
    const course = member.course(cutUtcMs, []);
    const { breathed, rained } = lyingHours(course, member.weather, member.swath.initialMoistureWb, readyMs);
    const rain = rainLoss(swath.crop, swath.conditioning, rained).pct / 100;
    sum += (1 - respirationLoss(breathed).pct / 100) * (1 - rain);
    told++;
  }
  return sum / told;
}

/** Share lost by the start of each slot to rain on crop that lies ready, from the first slot on: it only ever rises. */
function rainHazard(
  { swath }: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
): Float64Array {
  const lost = new Float64Array(frame.count);
  const slotH = frame.slotMs / HOUR_MS;
  let kept = 1;
  for (let t = 0; t < frame.count; t++) {
    lost[t] = 1 - kept;
    let sum = 0;
    for (const { weather } of members) {
      const hour = Math.floor((frame.startUtcMs + t * frame.slotMs - weather.startUtcMs) / HOUR_MS);
      const rainMm = (weather.rainMm[hour] ?? 0) * slotH;
      if (rainMm > 0) {
        const moistureWb = CREW_DEFAULTS.dryHazardWb.value;
        sum += rainLoss(swath.crop, swath.conditioning, [{ rainMm, moistureWb }]).pct / 100;
      }
    }
    kept *= 1 - sum / members.length;
  }
  return lost;
}

/** Slots in which at least `readyShare` of the members have no rain, and soil that carries where that is asked. */
export function drySlots(
  members: readonly MemberSwath[],
  frame: SlotFrame,
  readyShare: number,
  maxRainMm24h: number | null,
): Uint8Array {
  const need = Math.max(1, Math.ceil(readyShare * members.length - 1e-9));
  return Uint8Array.from({ length: frame.count }, (_, t) => {
    let yes = 0;
    for (const { weather } of members) {
      const hour = Math.floor((frame.startUtcMs + t * frame.slotMs - weather.startUtcMs) / HOUR_MS);
      if ((weather.rainMm[hour] ?? 1) > 0) continue;
      let before = 0;
      if (maxRainMm24h !== null) {
        for (let i = Math.max(0, hour - 24); i < hour; i++) before += weather.rainMm[i] as number;
      }
      if (maxRainMm24h === null || before <= maxRainMm24h + 1e-9) yes++;
    }
    return yes >= need ? 1 : 0;
  });
}
