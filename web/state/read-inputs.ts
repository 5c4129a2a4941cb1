import type { PlanStep, RouteRequest, WindowsRequest } from "../../model/harvest/index.ts";
import { defaultPlan, ROUTES, type RouteKey, type YieldEstimate } from "../../model/harvest/index.ts";
import { FieldReader, type InputErrors, type PassTimes, type Speech } from "./field-reader.ts";
import type { Inputs } from "./inputs.ts";
import { moneyRequest } from "./money-request.ts";
import { lengthError } from "./names.ts";
import { type Money, readMoney } from "./read-money.ts";
import { readYield } from "./read-yield.ts";

/** A question without its weather. */
export type FieldQuestion = Omit<WindowsRequest, "weather">;

export interface ReadInputs {
  readonly errors: InputErrors;
  /** Null while anything is wrong. */
  readonly question: FieldQuestion | null;
  /** Share of the cut width that the swath covers; null while it cannot be told. */
  readonly coveredFraction: number | null;
  /** Dry matter by the way that was chosen; null while it cannot be told. */
  readonly yieldEstimate: YieldEstimate | null;
  readonly money: Money;
}

const BALED: readonly RouteKey[] = ["dry-hay", "wrapped-bales"];
const CHOPPED: readonly RouteKey[] = ["wilted-chop", "direct-chop", "green-chop"];

function routeRequests(inputs: Inputs, baler: number | undefined, chopper: number | undefined) {
  return ROUTES.filter((route) => inputs.routes[route].on).map((route): RouteRequest => {
    const { package: pack, store } = inputs.routes[route];
    const haPerH = BALED.includes(route) ? baler : CHOPPED.includes(route) ? chopper : undefined;
    return { route, package: pack, store, ...(haPerH === undefined ? {} : { haPerH }) };
  });
}

/** Only hay is raked: the other routes are picked up as they lie, or gathered at the machine. */
const RAKED: readonly RouteKey[] = ["dry-hay"];

/**
 * The passes by hand, or nothing where both are left to the model. A tedding by hand spreads the swath whatever becomes of
 * it; a rake, and the passes that are usual for hay, are for hay alone.
 */
function planByHand(
  inputs: Inputs,
  passes: PassTimes,
  stubbleCm: number,
  coveredFraction: number,
): PlanStep[] | undefined {
  const { ted, rake, crop } = inputs;
  if (ted === "usual" && rake === "usual") return undefined;
  const usual = defaultPlan("dry-hay", crop, stubbleCm, coveredFraction);
  const ofHay = (kind: PlanStep["kind"]) =>
    usual.filter((step) => step.kind === kind).map((step) => ({ ...step, routes: RAKED }));
  const steps: PlanStep[] = [];
  if (ted === "morning-after") steps.push({ kind: "ted", rule: "morning-after", hour: passes.tedHour });
  if (ted === "after-cut") steps.push({ kind: "ted", rule: "after-cut", hours: passes.tedAfterH });
  if (ted === "usual") steps.push(...ofHay("ted"));
  if (rake === "before-window")
    steps.push({ kind: "rake", routes: RAKED, rule: "before-window", hours: passes.rakeBeforeH });
  if (rake === "usual") steps.push(...ofHay("rake"));
  return steps;
}

/** Reads the page's fields into a question for the model, or says what is wrong with each. */
export function readInputs(inputs: Inputs, speech: Speech = {}): ReadInputs {
  const reader = new FieldReader(inputs, speech);
  const moisturePct = reader.limited("moisturePct");
  // Through per mille, so that 78 % is 0.78 and not a neighbour of it.
  const moistureWb = moisturePct === undefined ? undefined : Number((moisturePct / 100).toFixed(6));
  const estimate = readYield(reader, moistureWb);
  const coveredFraction = reader.covered();
  const stubbleCm = reader.limited("stubbleCm");
  const areaHa = reader.limited("areaHa");
  const mowHaPerH = reader.optional("mowHaPerH");
  const baler = reader.optional("balerHaPerH");
  const chopper = reader.optional("chopperHaPerH");
  const from = reader.clock("workFrom");
  const to = reader.clock("workTo");
  if (from !== undefined && from === to) reader.noWorkHours(from);
  const cutHours = reader.cutHours();
  const passes = reader.passTimes();
  const standing = moistureWb === undefined ? undefined : reader.standing(moistureWb);
  const routes = routeRequests(inputs, baler, chopper);
  const money = readMoney(reader);
  const longName = lengthError(inputs.fieldName, reader.locale);
  if (longName !== undefined) reader.errors.fieldName = longName;
  if (routes.length === 0) reader.errors.routes = "No route is ticked; at least 1 is needed.";

  const errors = reader.errors;
  const shown = { coveredFraction: coveredFraction ?? null, yieldEstimate: estimate ?? null, money };
  if (
    Object.keys(errors).length > 0 ||
    estimate === undefined ||
    moistureWb === undefined ||
    coveredFraction === undefined ||
    stubbleCm === undefined ||
    areaHa === undefined ||
    from === undefined ||
    to === undefined ||
    cutHours === undefined ||
    passes === undefined
  )
    return { errors, question: null, ...shown };

  const { crop, conditioning, soil, dryingAgent } = inputs;
  const plan = planByHand(inputs, passes, stubbleCm, coveredFraction);
  const swath = {
    crop,
    dryMatterTHa: estimate.dryMatterTHa,
    initialMoistureWb: moistureWb,
    conditioning,
    coveredFraction,
    stubbleCm,
    soil,
    dryingAgent,
  };
  const question: FieldQuestion = {
    field: { areaHa },
    swath,
    routes,
    cutHours,
    workHours: { from, to },
    ...moneyRequest(inputs, money),
    ...(mowHaPerH === undefined ? {} : { mowHaPerH }),
    ...(standing === undefined ? {} : { standing }),
    ...(plan === undefined
      ? {}
      : { treatments: [{ id: "swath", conditioning, coveredFraction, stubbleCm, plan }] }),
  };
  return { errors, question, ...shown };
}
