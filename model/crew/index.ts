/** The crew: machines, people and hours, the plan of many fields, its check, its replay. */

export type {
  ComparedPlan,
  CrewCaution,
  CrewChange,
  CrewPlanAnswer,
  CrewWindowAnswer,
  FieldLeft,
  HelpfulChange,
} from "./answer.ts";
export { type WordsOfJobs, wordsOfJobs } from "./answer-of.ts";
export { type BuiltCrew, buildGrid, buildGridByField, type FieldsDone } from "./build-grid.ts";
export { comparedPlan } from "./compare-plans.ts";
export {
  type CustomerText,
  changeTexts,
  customerTexts,
  type TextField,
  type TextSaying,
  type ToldChange,
} from "./customer-texts.ts";
export { CREW_CHOICES, CREW_DEFAULTS } from "./defaults.ts";
export { feedWarnings, isOfFeed } from "./feed-cautions.ts";
export { CREW_OPS, type CrewOp, KIND_OF_OP, MACHINE_KINDS, type MachineKind, OP_WORDS } from "./keys.ts";
export { CREW_COUNTS, CREW_LIMITS, SLOT_MINUTES } from "./limits.ts";
export type { MilpEngine } from "./milp/engine.ts";
export { solveMilp } from "./milp/solve.ts";
export {
  type CrewProgress,
  type CrewTools,
  type PlannedCrew,
  planBuilt,
  planCrew,
  planReread,
} from "./plan-crew.ts";
export { shortHash } from "./plan-id.ts";
export type { CrewJob, CrewRules } from "./problem.ts";
export {
  type FieldReplay,
  fatesOf,
  type NotDryShare,
  type PlanWorth,
  toldReplay,
  worthOverMembers,
} from "./replay.ts";
export type {
  CrewFieldRequest,
  CrewFixedRequest,
  CrewJobAnswer,
  CrewMachineRequest,
  CrewPersonRequest,
  CrewPlanRequest,
  OffSpan,
  PreviousPlan,
} from "./request.ts";
export { checkCrewRequest } from "./request-checks.ts";
export { rulesOf, toCrewJob } from "./rules-of.ts";
export type {
  BoundKind,
  PlanMethod,
  Solver,
  SolverAnswer,
  SolverQuestion,
  SolverTell,
} from "./solve-grid.ts";
export { PLAN_METHODS, tellSolve } from "./solve-grid.ts";
export { NOT_DRY_CAUSES, type NotDryCause } from "./taken-dry.ts";
export { type PlanFault, planFaults } from "./validity.ts";
export { hasChance } from "./windows/site-weather.ts";
export { dayTime, type SpokenClock, spanTime } from "./words.ts";
export { machinesFor, workMs } from "./work-length.ts";
