import { BOOK_COUNTS, BOOK_LIMITS } from "../../model/book/limits.ts";
import { ANIMAL_CLASSES, ANIMAL_KG_LIMIT } from "../../model/feed/animals.ts";
import { PACKAGES, ROUTES } from "../../model/harvest/keys.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  HARVEST_LIMITS,
  PRICE_LIMITS,
} from "../../model/harvest/limits.ts";
import type { FlatRate } from "../../model/harvest/value/prices.ts";
import { SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../../model/weather/index.ts";
import type { Quantity } from "../format/units.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { BEFORE_WORDS, CROP_CHOICES, choicesOf, MACHINE_WORDS, wordsOf } from "./book-words.ts";
import {
  choice,
  clock,
  flag,
  HABIT,
  line,
  NOTES,
  name,
  number,
  ref,
  time,
  YIELD_AND_MOISTURE,
} from "./parts-of-forms.ts";
import type { Spec } from "./spec.ts";

/** What is asked of places, fields, machines, people, prices and stock. */

const DEGREES = { decimals: 6, needed: true };

export const SITE_FORM: readonly Spec[] = [
  name(),
  number("latitude", "Latitude, ° north", SITE_LIMITS.latitude, DEGREES),
  number("longitude", "Longitude, ° east", SITE_LIMITS.longitude, DEGREES),
  number("elevationM", "Elevation", SITE_LIMITS.elevationM, { quantity: "elevation", needed: true }),
  line("timeZone", "Time zone of the farm", {
    needed: true,
    most: BOOK_COUNTS.id,
    hint: "an IANA name, as America/Chicago",
  }),
  number("windHeightM", "Wind measured at", WIND_HEIGHT_LIMIT, { quantity: "width" }),
  NOTES,
];

export const FIELD_FORM: readonly Spec[] = [
  name(),
  ref("siteId", "Place", "sites", { needed: true }),
  number("areaHa", "Area", HARVEST_LIMITS.areaHa, { quantity: "area", needed: true }),
  choice("crop", "Crop", CROP_CHOICES, { needed: true }),
  ...YIELD_AND_MOISTURE,
  line("stage", "Stage", { hint: "as early bloom, soft dough" }),
  {
    type: "list",
    path: "sprays",
    label: "Sprays and the days their labels ask for",
    one: "spray",
    most: BOOK_COUNTS.list,
    item: [
      line("product", "Product", { needed: true, most: BOOK_COUNTS.name }),
      time("appliedUtc", "Sprayed", { needed: true }),
      number("intervalDays", "Days to wait, by the label", BOOK_LIMITS.intervalDays, {
        needed: true,
        whole: true,
        unit: "days",
      }),
      choice("before", "Wait", choicesOf(BEFORE_WORDS), { needed: true }),
    ],
  },
  ...HABIT,
  line("customer", "Customer"),
  number("priority", "Priority", BOOK_LIMITS.priority),
  time("dueUtc", "Wanted by"),
  NOTES,
];

export const MACHINE_FORM: readonly Spec[] = [
  name(),
  choice("kind", "Kind", choicesOf(MACHINE_WORDS), { needed: true }),
  choice("package", "Package", wordsOf(PACKAGES), { when: ({ kind }) => kind === "baler" }),
  number("haPerH", "Rate", HARVEST_LIMITS.haPerH, { quantity: "areaRate" }),
  number("widthM", "Width", BOOK_LIMITS.widthM, { quantity: "width" }),
  number("speedKmH", "Speed", BOOK_LIMITS.speedKmH, { quantity: "speed" }),
  number("efficiency", "Share of the time that it works", BOOK_LIMITS.efficiency, {
    percent: true,
    unit: "%",
  }),
  NOTES,
];

export const PERSON_FORM: readonly Spec[] = [
  name(),
  clock("from", "Works from", CLOCK_READING),
  clock("to", "to", CLOCK_READING_OR_24),
  NOTES,
];

const RATES: Readonly<Record<FlatRate, readonly [string, Quantity | null, string | null]>> = {
  mowPerHa: ["Mowing", "perHa", null],
  chopPerHa: ["Chopping", "perHa", null],
  fillPerHa: ["Hauling, filling, packing", "perHa", null],
  wrapPerBale: ["Wrapping", null, "a bale"],
  filmPerBale: ["Film", null, "a bale"],
  preservativePerKg: ["Preservative", "perKg", null],
  labourPerH: ["Labour", null, "an hour"],
  grazePerHa: ["Fence, water, moving stock", "perHa", null],
};

export const PRICES_FORM: readonly Spec[] = [
  name(),
  line("currency", "Currency", { hint: "any, as EUR or $" }),
  ...ROUTES.map((route) =>
    number(
      `pricePerTDm.${route}`,
      `${sentenceCase(ROUTE_LABELS[route])}, dry matter`,
      PRICE_LIMITS.pricePerTDm,
      {
        quantity: "perT",
      },
    ),
  ),
  ...Object.entries(RATES).map(([key, [label, quantity, unit]]) =>
    number(`rates.${key}`, label, PRICE_LIMITS.rate, { quantity, ...(unit === null ? {} : { unit }) }),
  ),
  NOTES,
];

export const HERD_FORM: readonly Spec[] = [
  name(),
  choice("animal.class", "Animals", wordsOf(ANIMAL_CLASSES), { needed: true }),
  number("animal.kg", "Weight of one", ANIMAL_KG_LIMIT, { quantity: "mass", needed: true }),
  flag("animal.pregnant", "Pregnant"),
  flag("animal.young", "Growing, thin, sick or newly come"),
  number("count", "How many", BOOK_LIMITS.animals, { whole: true }),
  number("dailyNeedKgDm", "Dry matter needed a day", HARVEST_LIMITS.dailyNeedKgDm, { quantity: "mass" }),
  NOTES,
];
