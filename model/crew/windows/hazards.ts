import { runOn } from "../../drying/course-run.ts";
import { lyingHours, rainLoss, respirationLoss } from "../../harvest/losses/index.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import type { CrewFieldRequest } from "../request.ts";
import { type MemberSwath, moistureBlock } from "./member-swath.ts";
import { type SlotFrame, weatherHour } from "./runs.ts";

/** What lying and rain take of the crop, and where rain and soft ground stand against work. */

/**
 * Expected share of the crop that is kept from mowing to the opening of each window: respiration and rain.
 *
 * @param readies slots in which the windows open
 */
export function keptUntil(
  { swath }: CrewFieldRequest,
  members: readonly MemberSwath[],
  frame: SlotFrame,
  q: number,
  readies: readonly number[],
): readonly number[] {
  const cutUtcMs = frame.startUtcMs + q * frame.slotMs;
  const sums = readies.map(() => 0);
  if (readies.length === 0) return [];
  // Every member counts the same; a dozen of them tell a mean as well as fifty.
  const step = Math.max(1, Math.floor(members.length / 12));
  let told = 0;
  const lastMs = frame.startUtcMs + Math.max(...readies) * frame.slotMs;
  const block = moistureBlock(members);
  for (let i = 0; i < members.length; i += step) {
    const member = members[i] as MemberSwath;
    const run = member.run(block, cutUtcMs, [], null);
    const { course } = run;
    runOn(run, Math.ceil((lastMs - course.startUtcMs) / HOUR_MS));
    readies.forEach((ready, at) => {
      const readyMs = frame.startUtcMs + ready * frame.slotMs;
      const { breathed, rained } = lyingHours(
        course,
        member.weather,
        member.swath.initialMoistureWb,
        readyMs,
      );
      const rain = rainLoss(swath.crop, swath.conditioning, rained).pct / 100;
      sums[at] = (sums[at] as number) + (1 - respirationLoss(breathed).pct / 100) * (1 - rain);
    });
    told++;
  }
  return sums.map((sum) => sum / told);
}

/** Share lost by the start of each slot to rain on crop that lies ready, from the first slot on: it only ever rises. */
export function rainHazard(
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
      const hour = weatherHour(frame, weather, t);
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
      const hour = weatherHour(frame, weather, t);
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
