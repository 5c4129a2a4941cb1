import { z } from "@hono/zod-openapi";
import { OPERATION_KINDS } from "../../model/drying/index.ts";
import type { ComparedWindows } from "../../model/harvest/index.ts";
import {
  BOARD_WARNING_CODES,
  HAZARD_CODES,
  LOSS_STEPS,
  PACKAGES,
  ROUTES,
  STORES,
} from "../../model/harvest/index.ts";
import { utcTime } from "./parts.ts";

const WINDOW_LIMITS = [
  "standing-too-wet",
  "rain",
  "air-too-humid",
  "over-dry",
  "dew",
  "soil-too-wet",
  "working-hours",
  "too-few-hours",
  "slow-drying",
  "forecast-too-short",
] as const;

const orNull = z.number().nullable();

const quantiles = z.strictObject({ p10: orNull, p25: orNull, p50: orNull, p75: orNull, p90: orNull });

const lossPct = z
  .strictObject({
    p10: orNull,
    p25: z.exactOptional(orNull),
    p50: z.number(),
    p75: z.exactOptional(orNull),
    p90: orNull,
  })
  .nullable();
const lossSteps = z.array(z.strictObject({ step: z.enum(LOSS_STEPS), pct: z.number() }));

const share = z.number().min(0).max(1);

const placeAnswer = z.strictObject({
  optionId: z.string(),
  route: z.enum(ROUTES),
  valuePerHa: z.number(),
  chance: share,
});

const boardOdds = z.strictObject({
  draws: z.number().int(),
  seed: z.number().int(),
  weather: z.enum(["members", "widened", "known"]),
  members: z.number().int(),
  leftOut: z.number().int(),
  text: z.string(),
  rainDays: z.array(
    z.strictObject({
      dateLocal: z.string(),
      chance: share,
      p90Mm: z
        .number()
        .openapi({ description: "Rain of the day that 9 in 10 of the weathers stay under, mm." }),
    }),
  ),
  first: placeAnswer.nullable(),
  runnerUp: placeAnswer.nullable(),
  lead: z
    .strictObject({ perHa: z.number(), sePerHa: orNull, withinPerHa: orNull, equal: z.boolean().nullable() })
    .nullable(),
  asGood: z.array(z.strictObject({ optionId: z.string(), route: z.enum(ROUTES) })),
  turnsAtChance: share.nullable(),
  choiceText: z.string().nullable(),
  unranked: z.exactOptional(
    placeAnswer.extend({ text: z.string() }).openapi({
      description:
        "The pair without a window in the main forecast that is worth most on average, where that is more than the first place: it has no rank, since no hour can be planned for it.",
    }),
  ),
  cutRules: z.array(
    z.strictObject({
      route: z.enum(ROUTES),
      optionId: z.string(),
      waitingPerHa: z.number(),
      rainedOnPerHa: z.number(),
      cutAbove: share,
      chance: share,
      cut: z.boolean(),
      text: z.string(),
    }),
  ),
});

const routeAnswer = z.strictObject({
  route: z.enum(ROUTES),
  operations: z.array(
    z.strictObject({ kind: z.enum(OPERATION_KINDS), atUtc: utcTime, coveredFraction: z.number() }),
  ),
  beforeWindow: z.exactOptional(z.strictObject({ windowUtc: utcTime, earliestUtc: utcTime })),
  windows: z.array(
    z.strictObject({
      startUtc: utcTime,
      endUtc: utcTime,
      workHours: z.number(),
      chance: orNull,
      rainedOn: z.boolean(),
    }),
  ),
  limitedBy: z.enum(WINDOW_LIMITS).nullable(),
  elapsedHours: quantiles,
  opinionHours: z.strictObject({ earliest: orNull, latest: orNull }),
  neverShare: orNull,
  rainMm: z.strictObject({ mean: z.number(), p90: orNull }),
  lossPct,
  lossSteps: lossSteps.nullable(),
  valuePerHa: orNull,
  takenAtWb: orNull,
  takenShare: orNull,
  turnHPerHa: orNull,
  rank: z.number().int().nullable().openapi({
    description:
      "By expected value. Null for a cut that lies, and where the main forecast has no window: no work can be planned on a window that it lacks. Loss and value are then those of the draws that have one; odds.text says so.",
  }),
  odds: z.exactOptional(
    z.strictObject({
      chance: share,
      text: z.string().nullable(),
      rainChances: z.array(z.strictObject({ aboveMm: z.number(), chance: share })),
      valuePerHa: quantiles.nullable(),
      broughtPerHa: orNull,
      leftPerHa: z.number(),
      beforeRain: z.strictObject({ chance: share, valuePerHa: orNull, elsePerHa: orNull }),
    }),
  ),
  hazards: z.array(
    z.strictObject({
      code: z.enum(HAZARD_CODES),
      level: z.enum(["wait", "caution"]),
      sinceUtc: utcTime,
      untilUtc: utcTime,
    }),
  ),
  why: z.array(
    z.strictObject({ code: z.string(), atUtc: utcTime.nullable(), moistureWb: orNull, text: z.string() }),
  ),
});

const COST_ITEMS = [
  "mow",
  ...OPERATION_KINDS,
  "bale",
  "haul",
  "wrap",
  "film",
  "preservative",
  "chop",
  "fill",
  "graze",
  "labour",
  "waiting",
] as const;

const comparison = z.strictObject({
  rows: z.array(
    z.strictObject({
      route: z.enum(ROUTES),
      optionId: z.string(),
      package: z.enum(PACKAGES),
      store: z.enum(STORES),
      layers: orNull,
      takenAtWb: z.number(),
      lossPct,
      lossSteps: z.array(
        z.strictObject({
          step: z.enum(LOSS_STEPS),
          pct: z.number(),
          lowPct: z.number(),
          highPct: z.number(),
          source: z.string(),
        }),
      ),
      lossRangePct: z.strictObject({ low: z.number(), high: z.number() }),
      quality: z.strictObject({
        ndfPoints: z.number(),
        rfq: z.number(),
        proteinPoints: z.number(),
        digestibilityPoints: z.number(),
      }),
      takenShare: orNull,
      note: z.string().nullable(),
      keptFraction: z.number(),
      daysLying: orNull,
      rainedOn: z.boolean(),
      valuePerHa: orNull,
      value: z.strictObject({
        fedTHa: z.number(),
        keptFraction: z.number(),
        grossPerHa: z.number(),
        costs: z.array(z.strictObject({ item: z.enum(COST_ITEMS), perHa: z.number() })),
        costPerHa: z.number(),
        valuePerHa: z.number(),
        costPerT: orNull,
        valuePerT: orNull,
        bales: z.number(),
        preservativeKg: z.number(),
        machineHours: z.number(),
        labourHours: z.number(),
      }),
    }),
  ),
  sentence: z.string(),
  turns: z.array(
    z.strictObject({
      key: z.string(),
      from: z.number(),
      to: z.number(),
      share: z.number(),
      leader: z.string(),
    }),
  ),
  gate: z.array(
    z.strictObject({
      key: z.enum(["insurer", "label", "nitrate", "prussic-acid", "worth-waiting"]),
      ask: z.string(),
      why: z.string(),
      source: z.string(),
    }),
  ),
  leave: z
    .strictObject({
      better: z.enum(["harvest", "leave"]),
      differencePerHa: z.number(),
      standingPerHa: z.number(),
    })
    .nullable(),
});

const boardReadings = z.strictObject({
  fromUtc: z.exactOptional(
    utcTime.openapi({
      description:
        "The last reading that counts, where the question names no later nowUtc: the board begins then, and offers no cut and no window before it.",
    }),
  ),
  cuts: z.array(
    z.strictObject({
      optionId: z.string(),
      route: z.enum(ROUTES),
      used: z.number().int(),
      beforeUtc: utcTime.nullable().openapi({
        description: "First window without the readings; past where it lies before the last of them.",
      }),
      windowUtc: utcTime.nullable(),
      text: z.string(),
    }),
  ),
  learned: z.strictObject({ rateLnMean: z.number(), rateLnSd: z.number(), atUtc: utcTime }).nullable(),
  otherRatePct: orNull,
  text: z.string(),
});

export const windowsAnswer = z
  .strictObject({
    options: z.array(
      z.strictObject({
        id: z.string(),
        kind: z.enum(["swath", "standing"]),
        cutUtc: utcTime.nullable(),
        courseCutUtc: utcTime.nullable(),
        treatment: z.string().nullable(),
        made: z.exactOptional(z.literal(true)),
        routes: z.array(routeAnswer),
      }),
    ),
    best: z.strictObject({
      overall: z.strictObject({ optionId: z.string(), route: z.enum(ROUTES) }).nullable(),
      byRoute: z.partialRecord(z.enum(ROUTES), z.string().nullable()),
    }),
    odds: z.exactOptional(boardOdds),
    readings: z.exactOptional(boardReadings),
    madeLeftOut: z.exactOptional(z.array(z.strictObject({ cutUtc: z.string(), text: z.string() }))),
    counts: z.strictObject({ options: z.number().int(), members: z.number().int() }),
    hazards: z.array(
      z.strictObject({
        route: z.enum(ROUTES),
        code: z.enum(HAZARD_CODES),
        level: z.enum(["wait", "caution"]),
        startUtc: utcTime,
        endUtc: utcTime,
        sinceUtc: utcTime,
        text: z.string(),
        source: z.string(),
      }),
    ),
    usableUntilUtc: utcTime,
    assumptions: z.array(z.string()),
    warnings: z.array(z.string()),
    warningCodes: z.array(z.enum(BOARD_WARNING_CODES)),
    comparison,
  })
  .openapi("WindowsAnswer") satisfies z.ZodType<ComparedWindows>;
