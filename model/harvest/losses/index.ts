/** Losses from the standing crop to the animal: one topic a file, multiplied by the chain. */

export {
  FEEDING_LOSS,
  FEEDINGS,
  type FeedingKey,
  feedingLoss,
  GRAZING_LOSS,
  type GrazingKey,
  grazingLoss,
  usualFeeding,
} from "./feeding-out.ts";
export { BALING_CURVE, BALING_LOSS, balingLoss, CHOPPING_LOSS, choppingLoss } from "./gathering.ts";
export {
  chainPct,
  LOSS_STEPS,
  type LossStep,
  type LossStepKey,
  type LossTotal,
  lossQuantiles,
  lossSteps,
  lossTotal,
} from "./loss-chain.ts";
export { MOWING_LOSS, mowingLoss } from "./mowing.ts";
export { PASS_SPREAD, passLoss, passLosses, SHATTER_FROM_PCT } from "./passes.ts";
export { QUALITY, type QualityLost, qualityLost } from "./quality.ts";
export {
  RAIN_CURVES,
  RAIN_LOSS,
  type RainHour,
  rainCurveGPerKg,
  rainDryness,
  rainDurationFactor,
  rainLoss,
  rainSpeciesFactor,
} from "./rain-loss.ts";
export { RESPIRATION, type RespiringHour, respirationLoss, respirationPctPerH } from "./respiration.ts";
export {
  type CutHistory,
  type Keeping,
  type LyingCourse,
  lyingHours,
  routeLosses,
  USUAL_KEEPING,
} from "./route-losses.ts";
export {
  bunkerDensityPct,
  HAY_MOISTURE_CLASSES,
  HAY_MOISTURE_SPREAD,
  HAY_STORE_LOSS,
  HAY_STORES,
  type HayStoreKey,
  hayStorageLoss,
  KG_M3_PER_LB_FT3,
  outerRingShare,
  SILO_LOSS,
  SILO_TERMS,
  type SiloFilling,
  siloStorageLoss,
  smallBaleInsidePct,
  WRAPPED_STORE_LOSS,
  wrappedStorageLoss,
} from "./storage.ts";
export { withSpread } from "./told-steps.ts";
