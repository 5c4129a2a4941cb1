import { z } from "@hono/zod-openapi";
import {
  BOOK_COUNTS,
  BOOK_LIMITS,
  type FieldDoc,
  type HerdDoc,
  INTERVAL_BEFORE,
  MACHINE_KINDS,
  type MachineDoc,
  type PersonDoc,
  type PricesDoc,
  type SiteDoc,
} from "../../../model/book/index.ts";
import { CROPS, SWATH_LIMITS } from "../../../model/drying/index.ts";
import { ANIMAL_CLASSES, ANIMAL_KG_LIMIT } from "../../../model/feed/index.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  FLAT_RATES,
  HARVEST_LIMITS,
  PACKAGES,
  ROUTES,
} from "../../../model/harvest/index.ts";
import { PRICE_LIMITS } from "../../../model/harvest/limits.ts";
import { isKnownTimeZone, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../../../model/weather/index.ts";
import { limited, listOf, record, utcTime, whole } from "../parts.ts";
import { bookId, habit, line, link, maybeTime, nameText, notes } from "./parts.ts";

const timeZone = z
  .string()
  .max(BOOK_COUNTS.id)
  .refine(isKnownTimeZone, {
    message: "must be a known IANA time zone, as America/Chicago",
    params: { code: "unknown-zone" },
  });

export const siteDoc = record({
  name: nameText,
  latitude: limited(SITE_LIMITS.latitude),
  longitude: limited(SITE_LIMITS.longitude),
  elevationM: limited(SITE_LIMITS.elevationM),
  timeZone,
  windHeightM: limited(WIND_HEIGHT_LIMIT).nullish(),
  notes,
}).openapi("BookSite") satisfies z.ZodType<SiteDoc>;

const spray = record({
  product: nameText,
  appliedUtc: utcTime,
  intervalDays: whole(BOOK_LIMITS.intervalDays),
  before: z.enum(INTERVAL_BEFORE),
  notes,
}).openapi("Spray");

export const fieldDoc = record({
  name: nameText,
  siteId: bookId,
  areaHa: limited(HARVEST_LIMITS.areaHa),
  crop: z.enum(CROPS),
  dryMatterTHa: limited(SWATH_LIMITS.dryMatterTHa).nullish(),
  initialMoistureWb: limited(SWATH_LIMITS.initialMoistureWb).nullish(),
  stage: line.nullish(),
  latitude: limited(SITE_LIMITS.latitude).nullish(),
  longitude: limited(SITE_LIMITS.longitude).nullish(),
  sprays: listOf(spray, BOOK_COUNTS.list).nullish(),
  habit: habit.nullish(),
  customer: line.nullish(),
  priority: limited(BOOK_LIMITS.priority).nullish(),
  valuePerHa: limited(BOOK_LIMITS.valuePerHa).nullish(),
  dueUtc: maybeTime,
  link: link.nullish(),
  notes,
}).openapi("BookField") satisfies z.ZodType<FieldDoc>;

const span = record({ fromUtc: utcTime, toUtc: utcTime })
  .refine(({ fromUtc, toUtc }) => Date.parse(fromUtc) < Date.parse(toUtc), {
    message: "toUtc must be after fromUtc",
    params: { code: "out-of-order" },
  })
  .openapi("BookSpan");

export const machineDoc = record({
  name: nameText,
  kind: z.enum(MACHINE_KINDS),
  package: z.enum(PACKAGES).nullish(),
  haPerH: limited(HARVEST_LIMITS.haPerH).nullish(),
  widthM: limited(BOOK_LIMITS.widthM).nullish(),
  speedKmH: limited(BOOK_LIMITS.speedKmH).nullish(),
  efficiency: limited(BOOK_LIMITS.efficiency).nullish(),
  offUtc: listOf(span, BOOK_COUNTS.list).nullish(),
  notes,
}).openapi("BookMachine") satisfies z.ZodType<MachineDoc>;

export const personDoc = record({
  name: nameText,
  from: z.string().regex(CLOCK_READING, { error: 'must be a time of day as "07:00"' }),
  to: z.string().regex(CLOCK_READING_OR_24, { error: 'must be a time of day as "20:00"' }),
  offUtc: listOf(span, BOOK_COUNTS.list).nullish(),
  notes,
}).openapi("BookPerson") satisfies z.ZodType<PersonDoc>;

export const pricesDoc = record({
  name: nameText,
  currency: line.nullish(),
  pricePerTDm: z.partialRecord(z.enum(ROUTES), limited(PRICE_LIMITS.pricePerTDm)).nullish(),
  rates: z.partialRecord(z.enum(FLAT_RATES), limited(PRICE_LIMITS.rate)).nullish(),
  notes,
}).openapi("BookPrices") satisfies z.ZodType<PricesDoc>;

export const herdDoc = record({
  name: nameText,
  animal: record({
    class: z.enum(ANIMAL_CLASSES),
    kg: limited(ANIMAL_KG_LIMIT),
    pregnant: z.boolean().optional(),
    young: z.boolean().optional(),
  }),
  count: whole(BOOK_LIMITS.animals).nullish(),
  dailyNeedKgDm: limited(HARVEST_LIMITS.dailyNeedKgDm).nullish(),
  notes,
}).openapi("BookHerd") satisfies z.ZodType<HerdDoc>;
