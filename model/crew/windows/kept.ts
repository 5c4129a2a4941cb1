import { type CourseRun, runOn } from "../../drying/course-run.ts";
import { lyingHours, rainLoss, respirationLoss } from "../../harvest/losses/index.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { CrewFieldRequest } from "../request.ts";
import { rainHazard } from "./hazards.ts";
import { type MemberSwath, moistureBlock } from "./member-swath.ts";
import type { SlotFrame } from "./runs.ts";

/** What lying and rain leave of a field's crop. */
export interface KeptShares {
  /** Expected share that is kept of crop mown in the middle of slot `q` until another starts: respiration and rain. */
  until(q: number, slot: number): number;
  /** Share lost by the start of each slot to rain on crop that lies ready. */
  readonly gatherCost: Float64Array;
}

/** Every member counts the same; a dozen of them tell a mean as well as fifty. */
const MEMBERS_TOLD = 12;

/** @param members all of the field, not those alone that its windows are read from */
export function keptShares(
  { swath }: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
  gatherCost: Float64Array,
): KeptShares {
  const step = Math.max(1, Math.floor(members.length / MEMBERS_TOLD));
  const told = members.filter((_, i) => i % step === 0);
  const blocks = told.map((member) => moistureBlock([member]));
  const known = new Map<number, number>();
  // The runs of one mowing go on from where they were asked last.
  let mown = -1;
  let runs: readonly CourseRun[] = [];

  const leftOf = ({ weather, swath: own }: MemberSwath, run: CourseRun, untilUtcMs: number): number => {
    const { course } = run;
    runOn(run, Math.min(course.count, Math.ceil((untilUtcMs - course.startUtcMs) / HOUR_MS)));
    const { breathed, rained } = lyingHours(course, weather, own.initialMoistureWb, untilUtcMs);
    const rain = rainLoss(swath.crop, swath.conditioning, rained).pct / 100;
    return (1 - respirationLoss(breathed).pct / 100) * (1 - rain);
  };

  return {
    gatherCost,
    until: (q, slot) => {
      const key = q * (frame.count + 1) + slot;
      const before = known.get(key);
      if (before !== undefined) return before;
      if (mown !== q) {
        const cutUtcMs = frame.startUtcMs + q * frame.slotMs;
        runs = told.map((member, i) => member.run(blocks[i] as Float64Array, cutUtcMs, [], null));
        mown = q;
      }
      const untilUtcMs = frame.startUtcMs + slot * frame.slotMs;
      const sum = runs.reduce((all, run, i) => all + leftOf(told[i] as MemberSwath, run, untilUtcMs), 0);
      known.set(key, sum / runs.length);
      return sum / runs.length;
    },
  };
}

/** The same with the rain that falls on ready crop. */
export function keptWithRain(
  field: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
): KeptShares {
  return keptShares(field, members, frame, rainHazard(field, members, frame));
}
