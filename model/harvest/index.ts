/** Harvest: routes and their bands, machine capacity, cut options and windows. */

export type {
  BeforeWindowAnswer,
  BoardOddsAnswer,
  BoardReadingsAnswer,
  CutOptionAnswer,
  CutRuleAnswer,
  HazardAnswer,
  MadeLeftOutAnswer,
  OperationAnswer,
  PlaceAnswer,
  Quantiles,
  RouteAnswer,
  RouteHazard,
  RouteOddsAnswer,
  WhyAnswer,
  WindowAnswer,
  WindowLimit,
  WindowsAnswer,
} from "./answer.ts";
export { answerWindows, type ComparedWindows } from "./answer-windows.ts";
export { type Band, type BandOrigin, DRY_HAY_FOOT, DRY_HAY_TOP, defaultBand, isCoarse } from "./bands.ts";
export { answerOf, findBoard, findWindows, findWindowsWith } from "./board.ts";
export {
  answerWithOdds,
  BOARD_DRAWS,
  findWindowsWithOdds,
  type OddsProgress,
  oddsSteps,
} from "./board-odds.ts";
export { BOARD_WARNING_CODES, type BoardWarningCode } from "./board-warnings.ts";
export {
  areaCapacityAcPerH,
  areaCapacityHaPerH,
  type BaleCycle,
  chopperBusyShare,
  hoursForArea,
  massCapacityTPerH,
  roundBaleCycle,
  type TransportCycle,
  throughputSpeedKmH,
  transportCycle,
} from "./capacity.ts";
export { compareRoutes, firstAgainstWaiting, type RouteComparison } from "./compare-routes.ts";
export type { ComparedRoute, OptionOf } from "./compare-sides.ts";
export type { CourseOf, DryingTools, OpinionsOf } from "./drying-store.ts";
export type { Board } from "./found-board.ts";
export { HAZARD_CODES, type HazardCode } from "./hazards/index.ts";
export type { PackageKey, RouteKey, StandingRouteKey, StoreKey, SwathRouteKey } from "./keys.ts";
export { PACKAGES, ROUTES, STANDING_ROUTES, STORES, SWATH_ROUTES } from "./keys.ts";
export {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  HARVEST_COUNTS,
  HARVEST_LIMITS,
  KEEPING_LIMITS,
  PRICE_LIMITS,
} from "./limits.ts";
export {
  FEEDINGS,
  type FeedingKey,
  GRAZING_LOSS,
  type GrazingKey,
  HAY_STORES,
  type HayStoreKey,
  LOSS_STEPS,
  type LossStepKey,
  USUAL_KEEPING,
} from "./losses/index.ts";
export {
  BALERS,
  MOWER,
  PASS_MACHINES,
  ROUTE_MACHINES,
  type TypicalMachine,
  typicalRateHaPerH,
} from "./machines.ts";
export type {
  HazardsRequest,
  PlanStep,
  RatesRequest,
  RouteRequest,
  SoilCarryRequest,
  StandingRequest,
  StoreRequest,
  TreatmentRequest,
  WindowsRequest,
  WorkHours,
} from "./request.ts";
export {
  defaultPackage,
  defaultPlan,
  HARVEST_DEFAULTS,
  ROUTE_CATALOGUE,
  type RouteEntry,
  type Stated,
  typicalMachine,
  usualRoutes,
} from "./routes.ts";
export { PLAIN_SAYING, type Saying } from "./saying.ts";
export { NO_FILM_MM } from "./spans.ts";
export {
  BARREN_CORN,
  STANDING_YIELD_LIMITS,
  type YieldEstimate,
  yieldOfBales,
  yieldOfBarrenCorn,
  yieldOfStrip,
} from "./standing-yield.ts";
export {
  DEFAULT_PRICES,
  DEFAULT_RATES,
  FLAT_RATES,
  LEAVE_LIMITS,
  USUAL_PEOPLE,
  WAIT_PCT_PER_DAY,
} from "./value/index.ts";
export { weatherTelling } from "./weather-telling.ts";
