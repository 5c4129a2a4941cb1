import { rainLoss } from "../../harvest/losses/index.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import type { CrewFieldRequest } from "../request.ts";
import type { MemberSwath } from "./member-swath.ts";
import { type SlotFrame, weatherHour } from "./runs.ts";

/** What rain takes of crop that lies ready, and where rain and soft ground stand against work. */

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
