import { coefficient } from "../../coefficient.ts";
import { requireRange } from "../../limits.ts";
import type { LossStep } from "./loss-chain.ts";

/**
 * Dry matter that the cut crop breathes away. No published equation in temperature and moisture was at hand: this curve is
 * constructed, calibrated to a published ceiling a day and to published totals.
 */
const CONSTRUCTED = "constructed, not published";
const MACDONALD_CLARK = "MacDonald & Clark 1987, Adv. Agron. 41";

export const RESPIRATION = {
  rateAt25C: coefficient(
    4 / 24,
    "% of dry matter an hour at 25 °C and wettest",
    "assumed",
    `${CONSTRUCTED}: the ceiling of 4 % a day in bulk alfalfa (${MACDONALD_CLARK})`,
    [0.08, 0.17],
  ),
  doublesPerC: coefficient(10, "°C", "assumed", `${CONSTRUCTED}: doubles every 10 °C`, [8, 14]),
  warmestC: coefficient(35, "°C", "assumed", `${CONSTRUCTED}: no faster above this`, [30, 40]),
  endsWb: coefficient(
    0.35,
    "wb",
    "published",
    `ends at 30-40 % (${MACDONALD_CLARK}), 40-45 % (Ohio State extension, Weiss, Lewandowski)`,
    [0.3, 0.45],
  ),
  fullWb: coefficient(0.8, "wb", "assumed", `${CONSTRUCTED}: full rate at and above this`, [0.75, 0.85]),
  /** Measured totals, per cent of dry matter: good drying, poor drying, the longest wet spells. */
  goodPct: coefficient(5, "%", "published", `2-8 % in good drying (${MACDONALD_CLARK})`, [2, 8]),
  mostPct: coefficient(30, "%", "published", `up to 30 % in long wet spells (${MACDONALD_CLARK})`, [16, 30]),
  spread: coefficient(
    2,
    "-",
    "assumed",
    "twice and half: published totals of 2-8 % in good drying stand as 1 to 4",
    [1.5, 2.5],
  ),
} as const;

/** One hour, or a part of one, of a lying crop. Swath temperature; that of the air where no better is known. */
export interface RespiringHour {
  readonly swathTempC: number;
  readonly moistureWb: number;
  /** Part of the hour that counts, 0-1; absent = all. */
  readonly hours?: number | undefined;
}

/**
 * Respiration rate of a cut crop.
 *
 * @param swathTempC °C; above 35 it counts as 35
 * @param moistureWb wet basis, 0-1
 * @returns per cent of the dry matter an hour, 0 at and below 35 % moisture
 * @example respirationPctPerH(25, 0.8) // 0.167, 4 % a day
 */
export function respirationPctPerH(swathTempC: number, moistureWb: number): number {
  requireRange("respirationPctPerH", "swathTempC", swathTempC, -60, 90);
  requireRange("respirationPctPerH", "moistureWb", moistureWb, 0, 1);
  const { rateAt25C, doublesPerC, warmestC, endsWb, fullWb } = RESPIRATION;
  const wet = Math.min(1, Math.max(0, (moistureWb - endsWb.value) / (fullWb.value - endsWb.value)));
  if (wet === 0) return 0;
  return rateAt25C.value * 2 ** ((Math.min(warmestC.value, swathTempC) - 25) / doublesPerC.value) * wet;
}

/** Loss over the hours from the mower to the machine, multiplied hour by hour, at most what long wet spells were seen to take. */
export function respirationLoss(hours: readonly RespiringHour[]): LossStep {
  const kept = hours.reduce(
    (share, { swathTempC, moistureWb, hours: part = 1 }) =>
      share * (1 - (part * respirationPctPerH(swathTempC, moistureWb)) / 100),
    1,
  );
  const { mostPct, spread } = RESPIRATION;
  const pct = Math.min(mostPct.value, 100 * (1 - kept));
  return {
    step: "respiration",
    pct,
    lowPct: pct / spread.value,
    highPct: Math.min(mostPct.value, pct * spread.value),
    source: RESPIRATION.rateAt25C.source,
  };
}
