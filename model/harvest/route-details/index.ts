/** What to know of a route beyond its window: moisture, film, chop, preservative, heat, height, waits, grazing. */

export { CHOPPING, packingWeightT, waterToAddKgPerT } from "./chopping.ts";
export { COMMON_PRACTICE, type CommonPractice, practiceFor } from "./common-practice.ts";
export {
  CUTTING_HEIGHT,
  type HeightAdvice,
  type HeightQuestion,
  type HeightTradeOff,
  heightTradeOff,
  PRACTICE_STUBBLE_CM,
  PRACTICE_STUBBLE_LABEL,
  recommendedHeight,
} from "./cutting-height.ts";
export {
  cowDayM2,
  GRAZING,
  type GrazingPlan,
  type GrazingQuestion,
  grazingPlan,
  prussicDoubt,
} from "./grazing.ts";
export {
  celsiusOf,
  fahrenheitOf,
  HEAT_SOURCE,
  HEAT_TABLE,
  HEATING,
  type HeatLog,
  type HeatReading,
  type HeatStep,
  heatLog,
  heatStep,
} from "./heating.ts";
export {
  DELIVERED_T_PER_H,
  GRAZED_NEED_KG_DM,
  GRAZED_T_HA,
  PROBE_C,
  STUBBLE_FROM_CM,
  STUBBLE_TO_CM,
  WRAP_DELAY_H,
} from "./limits.ts";
export { type MoistureRow, moistureRows } from "./moisture.ts";
export { BALE_MOISTURE_WB, PRESERVATIVE, type PreservativeAdvice, preservativeFor } from "./preservative.ts";
export { STALK_NITRATE, stalkLeft, wholePlantPpm } from "./stalk.ts";
export {
  PRACTICE_FERMENT_WEEKS,
  routeWaits,
  SILO_GAS_WEEKS,
  WAGON_HOURS,
  type Wait,
} from "./waits.ts";
export { BUTYRIC_BY_DELAY, BUTYRIC_SOURCE, type WrapDelay, wrapDelay } from "./wrap-delay.ts";
export { filmLayers, WRAPPING } from "./wrapping.ts";
