import { type Coefficient, coefficient } from "../coefficient.ts";
import { HOUR_MS } from "./clock.ts";
import { prepareWeather } from "./prepare.ts";
import { referenceEtHours } from "./reference-et.ts";
import type { WeatherSeries } from "./series.ts";

/**
 * How wet the ground under a swath is, from the rain and the reference evapotranspiration of the last ten days: one
 * shallow bucket. It is a start to be corrected by whoever has stood on the field.
 */

const LAYER = "FAO-56 (Allen et al. 1998) ch. 7, surface layer of 0.10 m of a loam; recalled from memory";

export const SOIL_BUCKET = {
  capacityMm: coefficient(
    20,
    "mm",
    "from-memory",
    `water that the surface layer gives to evaporation: ${LAYER}`,
    [6, 29],
  ),
  readilyMm: coefficient(9, "mm", "from-memory", `lost before the soil itself slows it: ${LAYER}`, [2, 12]),
  evaporatingShare: coefficient(
    0.7,
    "of reference ET",
    "assumed",
    "drawn from the surface layer under a standing or just cut crop, which shades it and drinks from deeper too",
    [0.3, 1.1],
  ),
  startFull: coefficient(
    0.5,
    "of capacity",
    "assumed",
    "ten days ago; two weeks of sun or one wetting forget it",
    [0, 1],
  ),
  moistFrom: coefficient(0.3, "of capacity", "assumed", "drier than this is dry", [0.2, 0.4]),
  wetFrom: coefficient(0.7, "of capacity", "assumed", "wetter than this is wet", [0.6, 0.85]),
  lookBackDays: coefficient(10, "d", "assumed", "rain before then is forgotten", [7, 14]),
  leastDays: coefficient(3, "d", "assumed", "fewer days say more of the start than of the soil", [2, 5]),
} as const satisfies Record<string, Coefficient>;

export type SoilWetness =
  | {
      readonly found: true;
      readonly soil: "dry" | "moist" | "wet";
      /** Fullness of the surface layer, 0-1. */
      readonly fullness: number;
      readonly days: number;
      readonly rainMm: number;
      /** Reference evapotranspiration of the same days, mm. */
      readonly referenceEtMm: number;
      readonly assumption: string;
    }
  | { readonly found: false; readonly why: "too-few-days" | "rain-unknown" | "weather-unusable" };

/**
 * Water of the bucket after one hour, mm. Rain past the capacity drains. Evaporation falls linearly to nothing once
 * the readily lost water is gone (FAO-56 eq. 74).
 */
export function bucketAfterHour(storeMm: number, rainMm: number, referenceEtMm: number): number {
  const capacity = SOIL_BUCKET.capacityMm.value;
  const filled = Math.min(capacity, storeMm + rainMm);
  const slowed = Math.min(1, filled / (capacity - SOIL_BUCKET.readilyMm.value));
  const loss = Math.max(0, referenceEtMm) * SOIL_BUCKET.evaporatingShare.value * slowed;
  return Math.max(0, filled - loss);
}

/** The class of a bucket's fullness, 0-1. */
export function soilOfFullness(fullness: number): "dry" | "moist" | "wet" {
  if (fullness >= SOIL_BUCKET.wetFrom.value) return "wet";
  return fullness >= SOIL_BUCKET.moistFrom.value ? "moist" : "dry";
}

/** The soil's class at a moment, from the hours of the series before it. */
export function soilWetness(series: WeatherSeries, atUtcMs: number): SoilWetness {
  const prepared = prepareWeather(series);
  if (!prepared.ok) return { found: false, why: "weather-unusable" };
  const { weather, marks } = prepared.value;
  const to = Math.min(weather.count, Math.floor((atUtcMs - weather.startUtcMs) / HOUR_MS));
  const from = Math.max(
    0,
    Math.floor((atUtcMs - weather.startUtcMs) / HOUR_MS) - 24 * SOIL_BUCKET.lookBackDays.value,
  );
  // What was measured must reach to within a day of the moment: rain after it is not known.
  if (atUtcMs - (weather.startUtcMs + to * HOUR_MS) > 24 * HOUR_MS)
    return { found: false, why: "too-few-days" };
  if (to - from < 24 * SOIL_BUCKET.leastDays.value) return { found: false, why: "too-few-days" };
  // Dry weather that was only assumed says nothing of the soil.
  if (marks.rainMm?.slice(from, to).includes("assumed")) return { found: false, why: "rain-unknown" };
  const et = referenceEtHours(weather);
  const capacity = SOIL_BUCKET.capacityMm.value;
  let storeMm = capacity * SOIL_BUCKET.startFull.value;
  let rainMm = 0;
  let referenceEtMm = 0;
  for (let i = from; i < to; i++) {
    const [rain, need] = [weather.rainMm[i] as number, et[i] as number];
    rainMm += rain;
    referenceEtMm += need;
    storeMm = bucketAfterHour(storeMm, rain, need);
  }
  const fullness = storeMm / capacity;
  const days = Math.round((to - from) / 24);
  const soil = soilOfFullness(fullness);
  return {
    found: true,
    soil,
    fullness,
    days,
    rainMm,
    referenceEtMm,
    assumption:
      `Soil taken as ${soil}: ${rainMm.toFixed(0)} mm of rain against ${referenceEtMm.toFixed(0)} mm of reference ` +
      `evapotranspiration in ${days} days leave a surface layer of ${capacity} mm ${(100 * fullness).toFixed(0)} % full ` +
      `(assumed half full before). Correct it if the field is otherwise.`,
  };
}
