import { z } from "@hono/zod-openapi";
import {
  BOOK_COUNTS,
  BOOK_LIMITS,
  type CrewPlanDoc,
  CUT_OPERATIONS,
  type CutDoc,
  type ForecastDoc,
  LAB_TESTS,
  type LearnedRateDoc,
  type LotDoc,
  type ReadingDoc,
  type UploadDoc,
} from "../../../model/book/index.ts";
import { CROPS, SWATH_LIMITS } from "../../../model/drying/index.ts";
import { BASES, CONTENT_UNITS, FEED_LIMITS, IONS } from "../../../model/feed/index.ts";
import { PACKAGES, ROUTES, STORES } from "../../../model/harvest/index.ts";
import { READING_METHODS } from "../drydown.ts";
import { limited, listOf, numberColumn, record, seed, textColumn, utcTime, whole } from "../parts.ts";
import { drydownWeather } from "../weather.ts";
import { bookId, habit, keptJson, line, maybeTime, nameText, notes } from "./parts.ts";

const maybeId = bookId.nullish();
const measured = limited(BOOK_LIMITS.measuredWb);

/** The series is compared as it is kept: a rain column that is wholly absent has become one of missing values. */
export const uploadDoc = record({
  name: nameText,
  siteId: bookId,
  fromUtc: utcTime,
  toUtc: utcTime,
  series: drydownWeather,
  notes,
}).openapi("BookUpload") satisfies z.ZodType<UploadDoc>;

const cutOperation = record({
  kind: z.enum(CUT_OPERATIONS),
  plannedUtc: maybeTime,
  doneUtc: maybeTime,
  doneEndUtc: maybeTime,
  machineId: maybeId,
  personId: maybeId,
  coveredFraction: limited(SWATH_LIMITS.coveredFraction).nullish(),
  notes,
}).openapi("CutOperation");

export const cutDoc = record({
  fieldId: bookId,
  crop: z.enum(CROPS),
  route: z.enum(ROUTES).nullish(),
  package: z.enum(PACKAGES).nullish(),
  plannedUtc: maybeTime,
  cutUtc: maybeTime,
  dryMatterTHa: limited(SWATH_LIMITS.dryMatterTHa).nullish(),
  initialMoistureWb: limited(SWATH_LIMITS.initialMoistureWb).nullish(),
  habit: habit.nullish(),
  operations: listOf(cutOperation, BOOK_COUNTS.list).nullish(),
  closedUtc: maybeTime,
  notes,
})
  .refine(({ plannedUtc, cutUtc }) => (plannedUtc ?? cutUtc ?? null) !== null, {
    message: "must have plannedUtc or cutUtc",
    params: { code: "one-of" },
  })
  .openapi("BookCut") satisfies z.ZodType<CutDoc>;

const lotTest = record({
  id: bookId,
  what: z.enum(LAB_TESTS),
  dueUtc: maybeTime,
  sentUtc: maybeTime,
  expectedUtc: maybeTime,
  laboratory: line.nullish(),
  resultUtc: maybeTime,
}).openapi("LotTest");

const content = { value: limited(FEED_LIMITS.contentPpm), unit: z.enum(CONTENT_UNITS), basis: z.enum(BASES) };

const lotResult = record({
  atUtc: utcTime,
  laboratory: line.nullish(),
  testId: maybeId,
  nitrate: record({ ...content, ion: z.enum(IONS) }).nullish(),
  prussicAcid: record(content).nullish(),
  moistureWb: measured.nullish(),
  ph: limited(BOOK_LIMITS.phValue).nullish(),
  notes,
}).openapi("LotResult");

const heating = record({
  atUtc: utcTime,
  tempC: limited(BOOK_LIMITS.stackTempC),
  place: line.nullish(),
}).openapi("Heating");

export const lotDoc = record({
  name: nameText,
  cutId: maybeId,
  fieldId: maybeId,
  crop: z.enum(CROPS),
  route: z.enum(ROUTES),
  package: z.enum(PACKAGES).nullish(),
  store: z.enum(STORES).nullish(),
  place: line.nullish(),
  bales: whole(BOOK_LIMITS.bales).nullish(),
  loads: limited(BOOK_LIMITS.loads).nullish(),
  tonnes: limited(BOOK_LIMITS.tonnes).nullish(),
  storedUtc: utcTime,
  wrappedUtc: maybeTime,
  storedMoistureWb: measured.nullish(),
  openUtc: maybeTime,
  openedUtc: maybeTime,
  finishedUtc: maybeTime,
  tests: listOf(lotTest, BOOK_COUNTS.list).nullish(),
  results: listOf(lotResult, BOOK_COUNTS.list).nullish(),
  heating: listOf(heating, BOOK_COUNTS.heating).nullish(),
  notes,
})
  .refine(({ tests }) => new Set(tests?.map(({ id }) => id)).size === (tests?.length ?? 0), {
    message: "each test must have an id of its own",
    params: { code: "not-unique" },
    path: ["tests"],
  })
  .openapi("BookLot") satisfies z.ZodType<LotDoc>;

const grams = limited(BOOK_LIMITS.grams);

export const readingDoc = record({
  fieldId: maybeId,
  cutId: maybeId,
  lotId: maybeId,
  atUtc: utcTime,
  method: z.enum(READING_METHODS),
  moistureWb: measured.nullish(),
  range: z.tuple([measured, measured]).nullish(),
  place: line.nullish(),
  grabs: whole(BOOK_LIMITS.grabs).nullish(),
  weighings: record({ tareG: grams, freshG: grams, driedG: listOf(grams, BOOK_COUNTS.list) }).nullish(),
  notes,
})
  .refine(({ moistureWb, range }) => (moistureWb ?? null) === null || (range ?? null) === null, {
    message: "must have either moistureWb or range",
    params: { code: "one-of" },
  })
  .refine(({ moistureWb, range }) => (moistureWb ?? range ?? null) !== null, {
    message: "must have either moistureWb or range",
    params: { code: "one-of" },
  })
  .refine(({ range }) => (range ?? null) === null || (range?.[0] ?? 0) <= (range?.[1] ?? 0), {
    message: "range must be [lower, upper]",
    params: { code: "out-of-order" },
  })
  .refine(({ fieldId, cutId, lotId }) => (fieldId ?? cutId ?? lotId ?? null) !== null, {
    message: "must have fieldId, cutId or lotId",
    params: { code: "one-of" },
  })
  .openapi("BookReading") satisfies z.ZodType<ReadingDoc>;

const hours = numberColumn(BOOK_COUNTS.courseHours);

const course = record({
  startUtc: textColumn(BOOK_COUNTS.courseHours),
  moistureWb: hours,
  quantiles: record({ p10: hours, p25: hours, p50: hours, p75: hours, p90: hours }).nullish(),
  membersWb: listOf(hours, BOOK_COUNTS.courseMembers).nullish(),
}).openapi("ForecastCourse");

const toldChance = record({
  id: bookId,
  what: nameText,
  route: z.enum(ROUTES).nullish(),
  fromUtc: utcTime,
  toUtc: utcTime,
  cutUtc: maybeTime,
  bandWb: z.tuple([measured, measured]).readonly().nullish(),
  chance: limited(BOOK_LIMITS.chance),
  came: z.boolean().nullish(),
}).openapi("ToldChance");

export const forecastDoc = record({
  fieldId: maybeId,
  siteId: maybeId,
  cutId: maybeId,
  issuedUtc: utcTime,
  modelVersion: line,
  verb: z.enum(["drydown", "windows"]),
  crop: z.enum(CROPS).nullish(),
  route: z.enum(ROUTES).nullish(),
  seed: seed.nullish(),
  provider: line.nullish(),
  chances: listOf(toldChance, 2000).nullish(),
  request: keptJson,
  course: course.nullish(),
  notes,
}).openapi("BookForecast") satisfies z.ZodType<ForecastDoc>;

export const learnedRateDoc = record({
  fieldId: bookId,
  crop: z.enum(CROPS),
  atUtc: utcTime,
  lnMean: limited(BOOK_LIMITS.lnRate),
  lnSd: limited(BOOK_LIMITS.lnRateSd),
  notes,
}).openapi("BookLearnedRate") satisfies z.ZodType<LearnedRateDoc>;

export const crewPlanDoc = record({
  name: nameText,
  madeUtc: utcTime,
  request: keptJson,
  answer: keptJson,
  sequence: whole(BOOK_LIMITS.sequence).optional(),
  sent: record({
    sequence: whole(BOOK_LIMITS.sequence),
    visits: z.string().regex(/^[0-9a-f]{64}$/, { error: "must be a SHA-256 in hexadecimal digits" }),
  }).nullish(),
  notes,
}).openapi("BookCrewPlan") satisfies z.ZodType<CrewPlanDoc>;
