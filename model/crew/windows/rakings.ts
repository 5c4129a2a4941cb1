import type { MemberSwath } from "./member-swath.ts";
import { type SlotFrame, type SlotWindow, shortSlotsOf, weatherHour, windowOf, windowsOf } from "./runs.ts";

/** A raking in one dry spell: from when until when it may be made, and when what it leaves is fit to be taken. */
export interface Raking extends SlotWindow {
  readonly fit: Uint8Array;
  /** 0 of those that begin in the first hours fit for raking of their spell, 1 and so on of those in later ones. */
  readonly stretch: number;
}

/** Slots fit for a work after one mowing, and those that are after some mowing. */
interface Fitness {
  readonly fit: Uint8Array;
  readonly open: Uint8Array;
}

interface Swath {
  readonly raking: Fitness;
  /** Dry enough to be taken as it lies, before any raking, and not too dry. */
  readonly swath: { readonly dry: Uint8Array; readonly fit: Uint8Array };
  /** Fit to be taken of crop whose raking starts in a slot. */
  readonly windrow: (rakedAt: number) => Uint8Array;
  /** Slots that a raking takes at least. */
  readonly rakeSlots: number;
}

/** Dry spells behind one mowing that are looked at, and later rakings in each. */
const MOST_SPELLS = 4;
const MOST_LATER = 3;

/**
 * The rakings of one mowing that the plan may choose among, in order: one or more for each dry spell in which the crop
 * gets fit to be taken. A windrow counts as made in the first hour of the spell that is fit for raking; whoever rakes later
 * has drier crop than was reckoned with. Where hours that are fit after other mowings alone part those of a spell, each
 * later stretch of them has a windrow of its own. For each day on which the swath itself would be fit clearly earlier than that
 * windrow, raking may also begin shortly before the swath is fit. A spell ends with rain on so many members, since its
 * first hour, that too few for a window were spared.
 */
export function rakingsOf(
  frame: SlotFrame,
  members: readonly MemberSwath[],
  need: number,
  { raking, swath, windrow, rakeSlots }: Swath,
): readonly Raking[] {
  const { count } = frame;
  const shortSlots = shortSlotsOf(frame.slotMs);
  const found: Raking[] = [];
  for (let from = 0, spells = 0; from < count && spells < MOST_SPELLS; spells++) {
    const first = windowOf(raking.fit, raking.open, shortSlots, from);
    if (first === null) break;
    const end = rainAfter(frame, members, need, first.ready);
    const until = Math.min(end, first.until);
    from = end;
    // A windrow dries no faster than the swath.
    if (runsOf(swath.dry, first.ready + 1, end).length === 0) continue;
    const days = runsOf(swath.fit, first.ready + 1, end);
    const fit = windrow(first.ready);
    const own = [{ ready: first.ready, until, fit, stretch: 0 }];
    const taken = runsOf(fit, first.ready + 1, end);
    for (const day of days) {
      const isInTime = taken.some(
        ({ ready, until: to }) =>
          ready <= day.ready + shortSlots && to >= Math.min(day.until, ready + shortSlots) && to > day.ready,
      );
      if (isInTime || own.length > MOST_LATER) break;
      const last = own.at(-1)?.ready ?? first.ready;
      const later = laterRaking(raking.fit, last, until, day, rakeSlots);
      if (later !== null) own.push({ ready: later, until, fit: windrow(later), stretch: 0 });
    }
    const behind = windowsOf(raking.fit, raking.open, shortSlots, first.until)
      .filter(({ ready, until: to }) => Math.min(to, end) - ready >= shortSlots)
      .filter(({ ready }) => runsOf(swath.dry, ready + 1, end).length > 0)
      .slice(0, MOST_LATER);
    for (const [i, run] of behind.entries()) {
      own.push({
        ready: run.ready,
        until: Math.min(end, run.until),
        fit: windrow(run.ready),
        stretch: i + 1,
      });
    }
    // Each begins before the next one may; it may end after that.
    const raked = own.map((one, i) => ({
      ...one,
      until: Math.min(one.until, (own[i + 1]?.ready ?? one.until) + rakeSlots - 1),
    }));
    found.push(...raked.filter((one) => runsOf(one.fit, one.ready + 1, end).length > 0));
  }
  return found;
}

/** The start of a raking that ends by the time the swath is fit, or soon after; null where none is possible before that. */
function laterRaking(
  fit: Uint8Array,
  last: number,
  until: number,
  day: SlotWindow,
  rakeSlots: number,
): number | null {
  const to = Math.min(day.ready, until);
  const wanted = day.ready - rakeSlots;
  for (let slot = Math.min(wanted, to - 1); slot > last; slot--) if (fit[slot] === 1) return slot;
  for (let slot = Math.max(wanted, last + 1); slot < to; slot++) if (fit[slot] === 1) return slot;
  return null;
}

/** Stretches of fit slots between two. */
function runsOf(fit: Uint8Array, from: number, to: number): readonly SlotWindow[] {
  const runs: { ready: number; until: number }[] = [];
  for (let t = from; t < to; t++) {
    if (fit[t] === 0) continue;
    const run = runs.at(-1);
    if (run?.until === t) run.until = t + 1;
    else runs.push({ ready: t, until: t + 1 });
  }
  return runs;
}

/** The first slot after one by which rain since then has spared fewer members than are needed; past the end where none is. */
export function rainAfter(
  frame: SlotFrame,
  members: readonly MemberSwath[],
  need: number,
  from: number,
): number {
  const wet = new Set<MemberSwath>();
  for (let t = from; t < frame.count; t++) {
    for (const member of members) {
      if ((member.weather.rainMm[weatherHour(frame, member.weather, t)] ?? 0) > 0) wet.add(member);
    }
    if (members.length - wet.size < need) return t;
  }
  return frame.count;
}
