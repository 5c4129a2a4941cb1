import { z } from "@hono/zod-openapi";
import { CONDITIONINGS, OPERATION_KINDS, SWATH_LIMITS } from "../../model/drying/index.ts";
import type { PlanStep, WindowsRequest } from "../../model/harvest/index.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  HARVEST_COUNTS,
  HARVEST_DEFAULTS,
  HARVEST_LIMITS,
  PACKAGES,
  ROUTES,
  STORES,
  SWATH_ROUTES,
} from "../../model/harvest/index.ts";
import { drawsSchema, learnedSchema, readingSchema, swathSchema } from "./drydown.ts";
import { hazardsSchema, leaveSchema, pricesSchema, ratesSchema, storesSchema } from "./money.ts";
import { limited, listOf, localTime, record, seed, utcTime, whole } from "./parts.ts";
import { windowsWeather } from "./weather.ts";

const MAX_ROUTES = 12;
const RULES = ["morning-after", "after-cut", "before-window"] as const;

/** Which key each rule needs; a step without a rule needs `atUtc`. */
const KEY_OF_RULE = { "morning-after": "hour", "after-cut": "hours", "before-window": "hours" } as const;

const flatPlanStep = record({
  kind: z.enum(OPERATION_KINDS),
  coveredFraction: limited(SWATH_LIMITS.coveredFraction).optional(),
  routes: z.array(z.enum(ROUTES)).max(MAX_ROUTES).optional(),
  rule: z.enum(RULES).optional(),
  hour: limited(HARVEST_LIMITS.planHour).optional(),
  hours: limited(HARVEST_LIMITS.planHours).optional(),
  atUtc: utcTime.optional(),
});

type FlatPlanStep = z.infer<typeof flatPlanStep>;

function neededKey(step: FlatPlanStep): "hour" | "hours" | "atUtc" {
  return step.rule === undefined ? "atUtc" : KEY_OF_RULE[step.rule];
}

function toPlanStep(step: FlatPlanStep, context: z.RefinementCtx): PlanStep {
  const { kind, coveredFraction, routes, rule, hour, hours, atUtc } = step;
  const common = { kind, coveredFraction, routes };
  if (rule === "morning-after" && hour !== undefined) return { ...common, rule, hour };
  if ((rule === "after-cut" || rule === "before-window") && hours !== undefined)
    return { ...common, rule, hours };
  if (rule === undefined && atUtc !== undefined) return { ...common, atUtc };
  const needs = neededKey(step);
  const message = `must carry ${needs}${rule === undefined ? " or a rule" : ` with the rule ${rule}`}`;
  context.addIssue({ code: "custom", message, params: { code: "missing" } });
  return z.NEVER;
}

const planStep = flatPlanStep
  .superRefine((step, context) => {
    const needs = neededKey(step);
    for (const key of ["hour", "hours", "atUtc"] as const) {
      if (key === needs || step[key] === undefined) continue;
      const message = `must not stand beside ${step.rule === undefined ? "atUtc" : `the rule ${step.rule}`}`;
      context.addIssue({ code: "custom", message, params: { code: "one-of" }, path: [key] });
    }
  })
  .transform(toPlanStep)
  .openapi("PlanStep");

const treatmentSchema = record({
  id: z
    .string()
    .min(1, { error: "must not be empty" })
    .max(HARVEST_COUNTS.treatmentIdLength, {
      error: `must have at most ${HARVEST_COUNTS.treatmentIdLength} characters`,
    }),
  conditioning: z.enum(CONDITIONINGS),
  coveredFraction: limited(SWATH_LIMITS.coveredFraction),
  stubbleCm: limited(SWATH_LIMITS.stubbleCm),
  plan: listOf(planStep, HARVEST_COUNTS.planSteps).optional(),
}).openapi("Treatment");

const bandMoisture = limited(HARVEST_LIMITS.bandWb);

const routeSchema = record({
  route: z.enum(ROUTES),
  package: z.enum(PACKAGES).nullish(),
  store: z.enum(STORES).nullish(),
  bandWb: z
    .tuple([bandMoisture, bandMoisture])
    .refine(([driest, wettest]) => driest < wettest, {
      message: "must be [driest, wettest]",
      params: { code: "out-of-order" },
    })
    .optional(),
  haPerH: limited(HARVEST_LIMITS.haPerH).optional(),
}).openapi("Route");

const cutRef = {
  cutUtc: utcTime.openapi({ description: "Start of mowing, at or before nowUtc for a cut that was made." }),
  treatment: z.string().max(HARVEST_COUNTS.treatmentIdLength).optional().openapi({
    description: "Id of its treatment; may be left out where there is but one.",
  }),
};

const madeCuts = listOf(record(cutRef).openapi("MadeCut"), HARVEST_COUNTS.madeCuts).openapi({
  description:
    "Cuts that lie already: they stay on the board, marked `made`, with the windows from now on and no rank.",
});

const readCuts = listOf(
  record({
    ...cutRef,
    route: z.enum(SWATH_ROUTES).optional().openapi({
      description:
        "The route whose passes were made before the readings; absent = the first that is asked for.",
    }),
    readings: listOf(readingSchema, HARVEST_COUNTS.readings),
  }).openapi("ReadCut"),
  HARVEST_COUNTS.readCuts,
).openapi({
  description:
    "What was measured on cuts of the board: their rows bend to it, every other cut dries at the rate that it taught.",
});

/** Every cut is followed to the end of the weather, so the work grows with the square of the span: some ten seconds. */
const MAX_BOARD_SWATH_HOURS = 2_000_000;

interface BoardSize {
  readonly weather: { readonly hours: { readonly startUtc: readonly string[] } };
  readonly cutHours?: readonly number[] | undefined;
  readonly treatments?: readonly unknown[] | undefined;
}

/** How many hours of how many swaths a board has to work through, roughly. */
export function boardSwathHours({ weather, cutHours, treatments }: BoardSize): number {
  const hours = weather.hours.startUtc.length;
  const cutsADay = (cutHours ?? HARVEST_DEFAULTS.cutHours.value).length * (treatments?.length ?? 1);
  return Math.round((hours / 24) * cutsADay * (hours / 2));
}

export const windowsRequest = record({
  weather: windowsWeather,
  nowUtc: utcTime.nullish(),
  field: record({ areaHa: limited(HARVEST_LIMITS.areaHa) }),
  swath: swathSchema,
  standing: record({
    moistureWb: limited(HARVEST_LIMITS.standingMoistureWb),
    dryDownPointsPerDay: limited(HARVEST_LIMITS.dryDownPointsPerDay).optional(),
    dailyNeedKgDm: limited(HARVEST_LIMITS.dailyNeedKgDm).optional(),
  }).optional(),
  cutHours: listOf(whole(HARVEST_LIMITS.cutHour), HARVEST_COUNTS.cutHours).optional(),
  workHours: record({
    from: localTime(CLOCK_READING, "07:00"),
    to: localTime(CLOCK_READING_OR_24, "20:00"),
  }).optional(),
  mowHaPerH: limited(HARVEST_LIMITS.mowHaPerH).optional(),
  treatments: listOf(treatmentSchema, HARVEST_COUNTS.treatments).optional(),
  routes: listOf(routeSchema, MAX_ROUTES).optional(),
  soilCarry: record({ maxRainMm24h: limited(HARVEST_LIMITS.maxRainMm24h).optional() }).optional(),
  prices: pricesSchema.optional(),
  stores: storesSchema.optional(),
  rates: ratesSchema.optional(),
  hazards: hazardsSchema.optional(),
  leave: leaveSchema.optional(),
  cutRule: record({
    waitingPerHa: limited(HARVEST_LIMITS.perHa).optional(),
    rainedOnPerHa: limited(HARVEST_LIMITS.rainedOnPerHa).optional(),
  }).optional(),
  learned: learnedSchema.optional(),
  madeCuts: madeCuts.optional(),
  readCuts: readCuts.optional(),
  draws: drawsSchema.optional(),
  seed: seed.optional(),
})
  .superRefine((request, context) => {
    const work = boardSwathHours(request);
    if (work <= MAX_BOARD_SWATH_HOURS) return;
    const message =
      `which with these cut hours and treatments makes ${work} swath-hours; ` +
      `must be at most ${MAX_BOARD_SWATH_HOURS}: give fewer days, cut hours or treatments`;
    context.addIssue({
      code: "custom",
      message,
      params: { code: "too-much" },
      path: ["weather", "hours", "startUtc"],
    });
  })
  .openapi("WindowsRequest") satisfies z.ZodType<WindowsRequest>;
