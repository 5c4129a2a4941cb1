import { SWATH_LIMITS } from "../../model/drying/index.ts";
import type { PlanStep, RouteRequest, WindowsRequest } from "../../model/harvest/index.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  defaultPlan,
  HARVEST_COUNTS,
  HARVEST_LIMITS,
  ROUTE_CATALOGUE,
  ROUTES,
  type RouteKey,
} from "../../model/harvest/index.ts";
import { type Limit, limitInWords, within } from "../../model/limits.ts";
import { type Quantity, toPage, type Units, unitName } from "../format/units.ts";
import { type Inputs, TEXT_FIELDS, type TextField } from "./inputs.ts";
import { plainNumber, readNumber } from "./numbers.ts";
import { typedValue } from "./typed.ts";

export type InputErrors = Readonly<Partial<Record<TextField | "routes", string>>>;

/** A question without its weather. */
export type FieldQuestion = Omit<WindowsRequest, "weather">;

export interface ReadInputs {
  readonly errors: InputErrors;
  /** Null while anything is wrong. */
  readonly question: FieldQuestion | null;
  /** Share of the cut width that the swath covers; null while it cannot be told. */
  readonly coveredFraction: number | null;
}

/** The limits of the typed numbers, in the units of the page. All come from the model. */
export const FIELD_LIMITS = {
  yieldTHa: SWATH_LIMITS.dryMatterTHa,
  moisturePct: {
    min: SWATH_LIMITS.initialMoistureWb.min * 100,
    max: SWATH_LIMITS.initialMoistureWb.max * 100,
    unit: "%",
  },
  stubbleCm: SWATH_LIMITS.stubbleCm,
  areaHa: HARVEST_LIMITS.areaHa,
  mowHaPerH: HARVEST_LIMITS.mowHaPerH,
  balerHaPerH: HARVEST_LIMITS.haPerH,
  chopperHaPerH: HARVEST_LIMITS.haPerH,
  tedHour: HARVEST_LIMITS.cutHour,
  tedAfterH: HARVEST_LIMITS.planHours,
  rakeBeforeH: HARVEST_LIMITS.planHours,
} as const satisfies Partial<Record<TextField, Limit>>;

/** A limit of the model in the unit of the page, its edges rounded inwards so that what is asked for is accepted. */
export function limitOnPage(limit: Limit, quantity: Quantity | null, units: Units): Limit {
  if (quantity === null || units === "metric") return limit;
  const rounded = (value: number, towards: (x: number) => number) => {
    const page = toPage(value, quantity, units);
    const step = 10 ** Math.max(0, 2 - Math.floor(Math.log10(Math.max(Math.abs(page), 1))));
    return towards(page * step - Math.sign(page) * 1e-9) / step;
  };
  return {
    ...limit,
    min: rounded(limit.min, Math.ceil),
    max: rounded(limit.max, Math.floor),
    unit: unitName(quantity, units),
  };
}

type LimitedField = keyof typeof FIELD_LIMITS;

const BALED: readonly RouteKey[] = ["dry-hay", "wrapped-bales"];
const CHOPPED: readonly RouteKey[] = ["wilted-chop", "direct-chop", "green-chop"];

class Reader {
  readonly errors: Partial<Record<TextField | "routes", string>> = {};

  constructor(readonly inputs: Inputs) {}

  #notANumber(field: TextField): void {
    const text = this.inputs.texts[field].text.trim();
    this.errors[field] = text === "" ? "Empty; a number is needed." : `Got "${text}", must be a number.`;
  }

  limited(field: LimitedField): number | undefined {
    const typed = this.inputs.texts[field];
    const value = typedValue(field, typed);
    if (value === null) {
      this.#notANumber(field);
      return undefined;
    }
    const limit: Limit = FIELD_LIMITS[field];
    if (within(value, limit)) return value;
    const meant = field === "moisturePct" ? meantPercent(value) : "";
    const shown = limitOnPage(limit, TEXT_FIELDS[field], typed.units);
    this.errors[field] = `Got ${readNumber(typed.text)}, ${limitInWords(shown)}.${meant}`;
    return undefined;
  }

  /** An empty field leaves the number to the model. */
  optional(field: LimitedField): number | undefined {
    return this.inputs.texts[field].text.trim() === "" ? undefined : this.limited(field);
  }

  /** The model knows widths only as their share; by itself a width must be above nothing. */
  width(field: "mowerCutM" | "swathWidthM"): number | undefined {
    const typed = this.inputs.texts[field];
    const value = typedValue(field, typed);
    if (value === null) this.#notANumber(field);
    else if (!(value > 0))
      this.errors[field] =
        `Got ${readNumber(typed.text)}, must be above 0 ${unitName("width", typed.units)}.`;
    else return value;
    return undefined;
  }

  covered(): number | undefined {
    const cut = this.width("mowerCutM");
    const swath = this.width("swathWidthM");
    if (cut === undefined || swath === undefined) return undefined;
    const share = swath / cut;
    const limit = SWATH_LIMITS.coveredFraction;
    if (within(share, limit)) return share;
    const { units } = this.inputs.texts.swathWidthM;
    const words = (widthM: number) =>
      `${plainNumber(toPage(widthM, "width", units))} ${unitName("width", units)}`;
    this.errors.swathWidthM =
      share > limit.max
        ? `Got ${words(swath)}, must be at most the cut of ${words(cut)}: a swath covers at most ${limit.max * 100} % of it.`
        : `Got ${words(swath)} of a cut of ${words(cut)} (${plainNumber(share * 100, 1)} %), must cover at least ${limit.min * 100} %.`;
    return undefined;
  }

  clock(field: "workFrom" | "workTo", pattern: RegExp, last: string): string | undefined {
    const text = this.inputs.texts[field].text.trim();
    if (pattern.test(text)) return text;
    this.errors[field] = `Got "${text}", must be a time HH:MM from 00:00 to ${last}.`;
    return undefined;
  }

  /** Only the time of the pass that is chosen has to be right; the others keep what stands in them. */
  passTimes(): PassTimes | undefined {
    const { ted, rake } = this.inputs;
    const chosen = {
      tedHour: ted === "morning-after",
      tedAfterH: ted === "after-cut",
      rakeBeforeH: rake === "before-window",
    };
    const read = (field: keyof PassTimes) => (chosen[field] ? this.limited(field) : 0);
    const tedHour = read("tedHour");
    const tedAfterH = read("tedAfterH");
    const rakeBeforeH = read("rakeBeforeH");
    if (tedHour === undefined || tedAfterH === undefined || rakeBeforeH === undefined) return undefined;
    return { tedHour, tedAfterH, rakeBeforeH };
  }

  cutHours(): number[] | undefined {
    const parts = this.inputs.texts.cutHours.text.split(/[\s,;]+/).filter((part) => part !== "");
    const most = HARVEST_COUNTS.cutHours;
    const { min, max } = HARVEST_LIMITS.cutHour;
    if (parts.length === 0) this.errors.cutHours = "Empty; at least 1 hour is needed, as 9 13 17.";
    if (parts.length > most) this.errors.cutHours = `Got ${parts.length} hours, must be at most ${most}.`;
    const hours = parts.map((part) => {
      const hour = /^\d{1,2}(:00)?$/.test(part) ? Number.parseInt(part, 10) : Number.NaN;
      if (!within(hour, HARVEST_LIMITS.cutHour))
        this.errors.cutHours = `Got "${part}", must be whole hours from ${min} to ${max}, as 9 13 17.`;
      return hour;
    });
    return this.errors.cutHours === undefined ? [...new Set(hours)] : undefined;
  }
}

/** A share typed for a percentage: 0.78 is 78. */
function meantPercent(value: number): string {
  const { min, max } = FIELD_LIMITS.moisturePct;
  const percent = value * 100;
  return percent >= min && percent <= max ? ` Did you mean ${plainNumber(percent, 1)}?` : "";
}

function routeRequests(inputs: Inputs, baler: number | undefined, chopper: number | undefined) {
  return ROUTES.filter((route) => inputs.routes[route].on).map((route): RouteRequest => {
    const { package: pack, store } = inputs.routes[route];
    const haPerH = BALED.includes(route) ? baler : CHOPPED.includes(route) ? chopper : undefined;
    return { route, package: pack, store, ...(haPerH === undefined ? {} : { haPerH }) };
  });
}

interface PassTimes {
  readonly tedHour: number;
  readonly tedAfterH: number;
  readonly rakeBeforeH: number;
}

/** The passes by hand, or nothing where both are left to the model. Passes set by hand hold for every route. */
function planByHand(
  inputs: Inputs,
  passes: PassTimes,
  stubbleCm: number,
  coveredFraction: number,
): PlanStep[] | undefined {
  const { ted, rake, crop } = inputs;
  if (ted === "usual" && rake === "usual") return undefined;
  const usual = defaultPlan("dry-hay", crop, stubbleCm, coveredFraction);
  const steps: PlanStep[] = [];
  if (ted === "morning-after") steps.push({ kind: "ted", rule: "morning-after", hour: passes.tedHour });
  if (ted === "after-cut") steps.push({ kind: "ted", rule: "after-cut", hours: passes.tedAfterH });
  if (ted === "usual") steps.push(...usual.filter((step) => step.kind === "ted"));
  if (rake === "before-window")
    steps.push({ kind: "rake", rule: "before-window", hours: passes.rakeBeforeH });
  if (rake === "usual") steps.push(...usual.filter((step) => step.kind === "rake"));
  return steps;
}

/** Reads the page's fields into a question for the model, or says what is wrong with each. */
export function readInputs(inputs: Inputs): ReadInputs {
  const reader = new Reader(inputs);
  const dryMatterTHa = reader.limited("yieldTHa");
  const moisturePct = reader.limited("moisturePct");
  const coveredFraction = reader.covered();
  const stubbleCm = reader.limited("stubbleCm");
  const areaHa = reader.limited("areaHa");
  const mowHaPerH = reader.optional("mowHaPerH");
  const baler = reader.optional("balerHaPerH");
  const chopper = reader.optional("chopperHaPerH");
  const from = reader.clock("workFrom", CLOCK_READING, "23:59");
  const to = reader.clock("workTo", CLOCK_READING_OR_24, "24:00");
  if (from !== undefined && from === to)
    reader.errors.workTo = `Got "${to}", must differ from the start; 00:00 to 24:00 is the whole day.`;
  const cutHours = reader.cutHours();
  const passes = reader.passTimes();
  const routes = routeRequests(inputs, baler, chopper);
  if (routes.length === 0) reader.errors.routes = "No route is ticked; at least 1 is needed.";

  const share = coveredFraction ?? null;
  const errors = reader.errors;
  if (
    Object.keys(errors).length > 0 ||
    dryMatterTHa === undefined ||
    moisturePct === undefined ||
    coveredFraction === undefined ||
    stubbleCm === undefined ||
    areaHa === undefined ||
    from === undefined ||
    to === undefined ||
    cutHours === undefined ||
    passes === undefined
  )
    return { errors, question: null, coveredFraction: share };

  const { crop, conditioning, soil, dryingAgent } = inputs;
  // Through per mille, so that 78 % is 0.78 and not a neighbour of it.
  const initialMoistureWb = Number((moisturePct / 100).toFixed(6));
  const plan = planByHand(inputs, passes, stubbleCm, coveredFraction);
  const swath = {
    crop,
    dryMatterTHa,
    initialMoistureWb,
    conditioning,
    coveredFraction,
    stubbleCm,
    soil,
    dryingAgent,
  };
  const standing = routes.some(({ route }) => ROUTE_CATALOGUE[route].kind === "standing");
  const question: FieldQuestion = {
    field: { areaHa },
    swath,
    routes,
    cutHours,
    workHours: { from, to },
    ...(mowHaPerH === undefined ? {} : { mowHaPerH }),
    ...(standing ? { standing: { moistureWb: initialMoistureWb } } : {}),
    ...(plan === undefined
      ? {}
      : { treatments: [{ id: "swath", conditioning, coveredFraction, stubbleCm, plan }] }),
  };
  return { errors, question, coveredFraction: share };
}
