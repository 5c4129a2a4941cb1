/** Hazards that the weather drives: waits after rain and frost, dull days, soft soil. */

export {
  HAZARD_CODES,
  type HazardCode,
  type HazardQuestion,
  type HazardSpan,
  hazardCalendar,
  hazardsAt,
} from "./calendar.ts";
export { PRUSSIC_CROPS } from "./prussic-crops.ts";
export {
  FROST,
  FROST_WAIT_DAYS,
  LEAST_HEIGHT_CM,
  NITRATE_ACCUMULATORS,
  NITRATE_CLOCK,
  REGROWTH_DAYS,
} from "./records.ts";
export {
  daysSinceRestart,
  dullSpells,
  frosts,
  growthRains,
  restartRains,
  type WeatherEvent,
  wetSoilSpells,
} from "./weather-events.ts";
