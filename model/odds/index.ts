/** The odds room's public face. */

export { type Bent, bendToReadings, changeOf } from "./bend.ts";
// Readings
export { drydownAtCentre } from "./bent-centre.ts";
// Chance that can be repeated, and how it is told
export type { BrierParts, ChanceOutcome, ReliabilityBin } from "./brier.ts";
export { brierParts, RELIABILITY_BINS, reliabilityBins } from "./brier.ts";
export { CAME_NOTE, cameOf, type KeptCut, type ToldWindow, WINDOW_EVENT } from "./came.ts";
export type { DayScore, ScoreWithConfidence } from "./confidence.ts";
export { LEAST_DAYS, scoreWithConfidence, shareWithConfidence, wilsonInterval } from "./confidence.ts";
export type { CostLoss, CutRule, ForecastCounts } from "./cost-loss.ts";
export { actAbove, cutRule, economicValue } from "./cost-loss.ts";
// One course
export { drawnCourses, drawnHours, drawnMoistureAt, oddsOfCourses, parametersAtRate } from "./course-odds.ts";
export { COURSE_DRAWS, withLearnedRequest } from "./cut-sample.ts";
export { DEFAULT_SEED, drydownWithOdds } from "./drydown-odds.ts";
// A single forecast, widened
export { ERROR_GROWTH, ERROR_SHAPE, errorAtLead } from "./error-growth.ts";
export { chancePercent, inTen, tenths, wholePercent } from "./in-ten.ts";
export type { LearnedRate } from "./learned-rate.ts";
export { FORGETTING, learnRate, withLearnedRate } from "./learned-rate.ts";
export { ODD_READING } from "./odd-reading.ts";
export type { TargetOdds } from "./odds.ts";
export { parametersOfDraw, rainChances, readingSentence, targetOdds } from "./odds.ts";
export { opinionRates } from "./opinion-rates.ts";
export type { Quantiles, QuantilesOrNever } from "./quantiles.ts";
export { courseBands, neverShare, quantileOfSorted, quantiles, quantilesOrNever } from "./quantiles.ts";
export { type RainDay, rainDays, WET_DAY_MM } from "./rain-days.ts";
export { seededRandom, streamSeed } from "./random.ts";
export { effectiveSampleSize, equalWeights, logLikelihood, resample, temperedWeights } from "./reading.ts";
export { PLACES, READING_METHODS, readingSdWb, SQUEEZE_RANGES, sdOfReading } from "./reading-methods.ts";
// The record
export type { ChanceMet, ChanceScores, MoistureMet, MoistureScores } from "./record.ts";
export { chanceRecord, moistureRecord, perfectCover80 } from "./record.ts";
export type { ChanceMetRequest, MoistureMetRequest, RecordAnswer, RecordRequest } from "./record-answer.ts";
export { BANDS_CRPS_NOTE, RECORD_NOTES, recordAnswer } from "./record-answer.ts";
export { type KeptForecast, type KeptReading, recordOfBook } from "./record-of-book.ts";
export { likelihoodOf, measurementsOf, REPEATED, repeatedSdWb } from "./repeats.ts";
// The model's own uncertainty
export type { Draw } from "./sample.ts";
export { drawSample, swathOfDraw } from "./sample.ts";
export {
  bias,
  crpsOfMembers,
  crpsOfNormal,
  fairCrpsOfMembers,
  meanAbsoluteError,
  pinball,
} from "./scores.ts";
export type { Uncertainty } from "./uncertainty.ts";
export { rateLnSdWithOpinions, UNCERTAINTY, uncertaintyOf } from "./uncertainty.ts";
export type { OddsWeatherKind, WeatherDraws } from "./weather-draws.ts";
export { issuedUtcMs, KNOWN_TEXT, LONGEST_FORECAST_H, weatherDraws } from "./weather-draws.ts";
export { WIDENED_TEXT, widenedMember } from "./widen.ts";
