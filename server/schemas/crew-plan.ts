import { z } from "@hono/zod-openapi";
import {
  CREW_COUNTS,
  CREW_LIMITS,
  CREW_OPS,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  MACHINE_KINDS,
  NOT_DRY_CAUSES,
  PLAN_METHODS,
} from "../../model/crew/index.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  HARVEST_LIMITS,
  PACKAGES,
  STORES,
  SWATH_ROUTES,
} from "../../model/harvest/index.ts";
import { called, cancelledVisit, crewJob, op, text } from "./crew-parts.ts";
import { swathSchema } from "./drydown.ts";
import { limited, listOf, localTime, record, seed, utcTime } from "./parts.ts";
import { windowsWeather } from "./weather.ts";

const id = text(CREW_COUNTS.idLength).refine((value) => !value.includes("|"), {
  message: "must not contain |",
  params: { code: "bad-id" },
});
const name = text(CREW_COUNTS.nameLength).nullish();
const off = listOf(record({ fromUtc: utcTime, toUtc: utcTime }), CREW_COUNTS.offSpans).optional();
const rate = limited(CREW_LIMITS.haPerH);
const moisture = limited(HARVEST_LIMITS.bandWb);

const crewField = record({
  id,
  siteId: id,
  name,
  customer: name,
  areaHa: limited(CREW_LIMITS.areaHa),
  swath: swathSchema,
  route: z.enum(SWATH_ROUTES),
  package: z.enum(PACKAGES).nullish(),
  store: z.enum(STORES).nullish(),
  bandWb: z
    .tuple([moisture, moisture])
    .refine(([driest, wettest]) => driest < wettest, {
      message: "must be [driest, wettest]",
      params: { code: "out-of-order" },
    })
    .optional(),
  ops: listOf(op, CREW_OPS.length),
  haPerH: z.partialRecord(op, rate).optional(),
  valuePerHa: limited(CREW_LIMITS.valuePerHa),
  priority: limited(CREW_LIMITS.priority).optional(),
  dueUtc: utcTime.nullish(),
  latenessPerDay: limited(CREW_LIMITS.latenessPerDay).optional(),
}).openapi("CrewField");

const slotMin = z.union([z.literal(60), z.literal(30)]);

/** An earlier answer, given whole or its jobs alone: what else it holds is not read. */
const previous = z
  .looseObject({
    jobs: listOf(crewJob, CREW_COUNTS.previousJobs),
    revision: limited(CREW_LIMITS.revision).optional(),
    planId: text(CREW_COUNTS.idLength).optional(),
    cancelled: listOf(cancelledVisit, CREW_COUNTS.previousJobs).optional(),
    names: z
      .looseObject({
        fields: called.optional(),
        customers: called.optional(),
        machines: called.optional(),
        people: called.optional(),
        gone: called.optional(),
      })
      .optional(),
  })
  .openapi("PreviousCrewPlan");

function atMost<T extends z.core.SomeType>(item: T, max: number) {
  return z.record(z.string(), item).refine((all) => Object.keys(all).length <= max, {
    message: `must have at most ${max}`,
    params: { code: "too-many" },
  });
}

export const crewPlanRequest = record({
  sites: atMost(record({ series: windowsWeather, name }), CREW_COUNTS.sites),
  fields: listOf(crewField, CREW_COUNTS.fields),
  machines: listOf(
    record({ id, kind: z.enum(MACHINE_KINDS), name, haPerH: rate.optional(), offUtc: off }),
    CREW_COUNTS.machines,
  ),
  people: listOf(
    record({
      id,
      name,
      from: localTime(CLOCK_READING, "07:00"),
      to: localTime(CLOCK_READING_OR_24, "20:00"),
      offUtc: off,
    }),
    CREW_COUNTS.people,
  ),
  travelMin: atMost(limited(CREW_LIMITS.travelMin), CREW_COUNTS.travel).optional(),
  fixed: listOf(
    record({
      fieldId: id,
      op,
      machineId: id,
      personId: id.nullish(),
      startUtc: utcTime,
      endUtc: utcTime.nullish(),
    }),
    CREW_COUNTS.fixed,
  ).optional(),
  previous: previous.nullish(),
  nowUtc: utcTime.nullish(),
  slotMin: slotMin.optional(),
  horizonDays: limited(CREW_LIMITS.horizonDays).optional(),
  readyShare: limited(CREW_LIMITS.readyShare).optional(),
  daylightOnly: z.boolean().optional(),
  moveCostShare: limited(CREW_LIMITS.moveCostShare).optional(),
  roadKmH: limited(CREW_LIMITS.roadKmH).optional(),
  compare: z
    .boolean()
    .optional()
    .openapi({ description: "Also replay the plan before and a more careful one" }),
  hour12: z.boolean().optional().openapi({ description: 'Sentences say "3 pm" instead of "15:00"' }),
  seed: seed.optional(),
  timeLimitS: limited(CREW_LIMITS.timeLimitS).optional(),
}).openapi("CrewPlanRequest") satisfies z.ZodType<CrewPlanRequest>;

const span = z.strictObject({ fromUtc: z.string(), toUtc: z.string() });
const worth = { expected: z.number(), p10: z.number(), p90: z.number(), chanceAllDry: z.number() };

export const crewPlanAnswer = z
  .strictObject({
    jobs: z.array(crewJob),
    left: z.array(
      z.strictObject({
        fieldId: z.string(),
        why: z.string(),
        customerWhy: z.string().optional(),
        mownUtc: z.string().nullish(),
      }),
    ),
    value: z.number(),
    valueParts: z.strictObject({ kept: z.number(), lateness: z.number(), moved: z.number() }),
    bound: z.number(),
    boundKind: z.enum(["step-milp", "pool-load"]),
    boundWeak: z.boolean(),
    gap: z.number(),
    windowsReread: z.array(z.string()).optional().openapi({
      description:
        "Fields whose windows were read again under a plan, or are those of its replay: of plans in other windows bound and gap say nothing",
    }),
    carts: z.record(z.string(), z.array(z.string())).optional().openapi({
      description: "Carts that each chopper takes along to its works; they haul only while it does not work",
    }),
    method: z.enum(PLAN_METHODS),
    replay: z.array(
      z.strictObject({
        fieldId: z.string(),
        chanceDry: z.number().nullable(),
        expectedLossPct: z.number(),
        lossPct: z.strictObject({ p10: z.number(), p50: z.number(), p90: z.number() }).nullable(),
        rainMm: z.number(),
        atRisk: z.boolean(),
        notDry: z
          .array(z.strictObject({ cause: z.enum(NOT_DRY_CAUSES), share: z.number() }))
          .optional()
          .openapi({
            description:
              "What keeps it from being finished dry, the most frequent first, each with its share of all members",
          }),
      }),
    ),
    worth: z.strictObject(worth).nullable(),
    help: z
      .strictObject({
        kind: z.enum(["hour", "machine", "person", "other-hour", "dry-hay", "wrapped-bales", "wilted-chop"]),
        fieldId: z.string().nullable(),
        machineKind: z.string().nullable(),
        ops: z.array(op).optional(),
        gain: z.number(),
        proved: z.literal(false).optional(),
        text: z.string(),
      })
      .nullable(),
    noHelp: z.string().optional(),
    compared: z
      .array(
        z.strictObject({
          plan: z.enum(["promised", "best", "robust"]),
          served: z.number(),
          value: z.number().nullable(),
          faults: z.number(),
          ...worth,
        }),
      )
      .nullable(),
    changes: z.array(
      z.strictObject({
        fieldId: z.string(),
        op,
        fromUtc: z.string().nullable(),
        toUtc: z.string().nullable(),
        takes: z.string().optional(),
        who: z.string().optional(),
        why: z.string(),
        customerWhy: z.string().optional(),
        text: z.string(),
      }),
    ),
    cancelled: z.array(
      z.strictObject({ fieldId: z.string(), op, startUtc: z.string(), endUtc: z.string().optional() }),
    ),
    messages: z.array(z.strictObject({ customer: z.string().nullable(), text: z.string() })),
    windows: z.array(
      z.strictObject({
        fieldId: z.string(),
        op,
        readyUtc: z.string().nullable(),
        untilUtc: z.string().nullable(),
        openUtc: z.array(span),
      }),
    ),
    names: z.strictObject({
      fields: called,
      machines: called,
      people: called,
      customers: called.optional(),
      gone: called.optional(),
    }),
    timeZone: z.string(),
    slotMin: z.number(),
    nowUtc: z.string(),
    untilUtc: z.string(),
    revision: z.number(),
    planId: z.string().optional().openapi({
      description:
        "What the visits are known by in calendars: that of previous, so that it stays through all revisions, else a new one",
    }),
    counts: z.strictObject({ members: z.number(), courses: z.number() }),
    assumptions: z.array(z.string()),
    cautions: z.array(
      z.strictObject({
        fieldId: z.string(),
        op,
        code: z.enum([
          "window",
          "weather",
          "lag",
          "hours",
          "travel",
          "wet",
          "broken-off",
          "not-begun",
          "windrow",
          "would-lie",
          "given-up",
          "held-in-vain",
          "before-cutting",
          "test",
          "hazard",
          "feed",
        ]),
        path: z.string(),
        text: z.string(),
        wait: z
          .strictObject({
            why: z.string(),
            untilUtc: z
              .string()
              .nullable()
              .openapi({ description: "Until when it is counted; null = it lasts past this weather" }),
          })
          .optional()
          .openapi({ description: "The published wait after weather that a mowing lies in; absent = none" }),
      }),
    ),
    warnings: z.array(z.string()),
  })
  .openapi("CrewPlanAnswer") satisfies z.ZodType<CrewPlanAnswer>;
