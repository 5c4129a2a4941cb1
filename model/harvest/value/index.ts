/** Money: prices and rates in the user's currency, what a route leaves, costs and is worth, and what would change it. */

export { BALE_DM_KG, balesPerHa, usualBaleKg } from "./bales.ts";
export {
  beforeCutting,
  type Gate,
  harvestOrLeave,
  LEAVE_LIMITS,
  type StandingValueQuestion,
  standingValuePerHa,
} from "./before-cutting.ts";
export { byPlace, type Compared, comparisonSentence, SHARE_UNKNOWN } from "./compare.ts";
export {
  gradeOf,
  HAY_GRADES,
  HAY_GRADES_SOURCE,
  type HayGrade,
  RFV_PER_STANDING_DAY,
  valueLostPerT,
} from "./grades.ts";
export {
  DEFAULT_PRICES,
  DEFAULT_RATES,
  FLAT_RATES,
  type FlatRate,
  type OwnRates,
  priceOf,
  type Rates,
  ratesWith,
} from "./prices.ts";
export {
  type CostLine,
  expectedPerHa,
  priceAtDryMatter,
  type RouteValue,
  type RouteValueQuestion,
  routeValue,
  USUAL_PEOPLE,
  WAIT_PCT_PER_DAY,
} from "./route-value.ts";
export {
  type Inputs,
  type Lever,
  leaderOf,
  type Turn,
  turningPoints,
  type ValueOf,
} from "./sensitivities.ts";
