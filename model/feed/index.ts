/** The feed room's public face: nitrate and prussic acid as a screen, sampling plans, the moisture test of a sample. */

export { ANIMAL_CLASSES, ANIMAL_KG_LIMIT, type Animal, type AnimalClass, isHorse } from "./animals.ts";
export type { Dilution, FeedAnswer, FeedCheckAnswer, Refusal } from "./answer.ts";
export { bandFor, classify, defaultTarget, shareCap, tablesFor, type Verdict } from "./classify.ts";
export { asFedKg, maxShare } from "./dilution.ts";
export { CALF_TRIAL } from "./dose.ts";
export { ENSILING_CREDIT, PRUSSIC_WAIT_WEEKS, SAMPLED_AS, type SampledAs, WAIT_WEEKS } from "./ensiling.ts";
export { feedCheck } from "./feed-check.ts";
export { FEED_LIMITS, SAMPLING_LIMITS } from "./limits.ts";
export { MOISTURE_TEST, type MoistureTest, moistureTest, type Weighings } from "./moisture-test.ts";
export { IONS, type Ion, MOLAR_MASS, NITROGEN_SHARE } from "./molar-masses.ts";
export {
  CLASS_WORDS,
  HORSE_ADVICE,
  NITRATE_CLASSES,
  NITRATE_TABLES,
  type NitrateClass,
  type NitrateTable,
  TABLE_KEYS,
} from "./nitrate-tables.ts";
export {
  BASES,
  type Basis,
  CONTENT_UNITS,
  type ContentUnit,
  type NitrateResult,
  no3nPpmDm,
  ppmOfDryMatter,
  resultOf,
} from "./nitrate-units.ts";
export { PRUSSIC_EDGES, type PrussicReading, prussicWords, readPrussicAcid } from "./prussic-acid.ts";
export {
  checkFeedRequest,
  type FeedCheckRequest,
  type FeedQuestion,
  overWhole,
  QUICK_TESTS,
  type QuickTest,
  STRICTEST,
} from "./request.ts";
export {
  SAMPLE_KINDS,
  SAMPLING,
  type SampleKind,
  type SamplingPlan,
  type SamplingQuestion,
  samplingPlan,
} from "./sampling-plan.ts";
