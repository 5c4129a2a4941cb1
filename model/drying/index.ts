// Requests and answers
export type {
  AsIssuedAnswer,
  BandsAnswer,
  CourseHours,
  CourseOddsAnswer,
  DrydownAnswer,
  DryingLimit,
  LearnedRateAnswer,
  ReadingAnswer,
  ReadingsAnswer,
  SecondOpinionAnswer,
  TargetAnswer,
  TargetOddsAnswer,
} from "./answer.ts";
export { DRYDOWN_WARNING_CODES } from "./answer.ts";
export { DRYING } from "./coefficients.ts";
export { CONDITIONING_CATALOGUE, DRYING_AGENT } from "./conditioning.ts";

// The course of one cut
export type { Course, SweepCourse } from "./course.ts";
export { runCourse, runSweepCourse } from "./course.ts";
export { referenceCourse } from "./course-reference.ts";
export { CROP_CATALOGUE } from "./crops.ts";
export { drydown, drydownIn, isWithoutRain, MODEL_VERSION } from "./drydown.ts";
export { dryingEquilibriumDb, stalkEquilibriumDb, wettingEquilibriumDb } from "./isotherm.ts";
// Catalogues, coefficients and limits
export type { Conditioning, CropKey, OperationKind, SoilClass } from "./keys.ts";
export { CONDITIONINGS, CROPS, OPERATION_KINDS, SOIL_CLASSES } from "./keys.ts";
export { ODDS_LIMITS, SWATH_LIMITS } from "./limits.ts";
// Moisture bases and sorption
export { dryBasis, wetBasis } from "./moisture.ts";
export type { Operation } from "./operations.ts";
export type {
  DrydownRequest,
  LearnedRateRequest,
  OperationRequest,
  ReadingRequest,
  SwathRequest,
} from "./request.ts";
export { secondOpinions } from "./second-opinions.ts";
