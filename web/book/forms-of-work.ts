import { BOOK_COUNTS, BOOK_LIMITS } from "../../model/book/limits.ts";
import { SWATH_LIMITS } from "../../model/drying/index.ts";
import type { ReadingMethod } from "../../model/drying/request.ts";
import { FEED_LIMITS } from "../../model/feed/limits.ts";
import { IONS } from "../../model/feed/molar-masses.ts";
import { PACKAGES, STORES } from "../../model/harvest/keys.ts";
import { READING_METHODS, SQUEEZE_RANGES } from "../../model/odds/reading-methods.ts";
import {
  CROP_CHOICES,
  choicesOf,
  OPERATION_WORDS,
  ROUTE_CHOICES,
  TEST_WORDS,
  wordsOf,
} from "./book-words.ts";
import type { Errors } from "./form.ts";
import {
  choice,
  HABIT,
  line,
  moisture,
  NOTES,
  name,
  number,
  ref,
  time,
  YIELD_AND_MOISTURE,
} from "./parts-of-forms.ts";
import { type Choices, type OneSpec, type Spec, textOf, type Values } from "./spec.ts";

/** What is asked of cuts, lots and readings. */

const BALED = ["dry-hay", "wrapped-bales"];
const CHOPPED = ["wilted-chop", "direct-chop"];
const isBaled = (values: Values) => BALED.includes(textOf(values, "route"));
const isChopped = (values: Values) => CHOPPED.includes(textOf(values, "route"));
const PACKAGE = choice("package", "Package", wordsOf(PACKAGES), { when: isBaled });

export const CUT_FORM: readonly Spec[] = [
  ref("fieldId", "Field", "fields", { needed: true }),
  choice("crop", "Crop", CROP_CHOICES, { needed: true }),
  time("plannedUtc", "Planned"),
  time("cutUtc", "Cut"),
  choice("route", "Route", ROUTE_CHOICES),
  PACKAGE,
  ...YIELD_AND_MOISTURE,
  {
    type: "list",
    path: "operations",
    label: "Operations, planned and done",
    one: "operation",
    most: BOOK_COUNTS.list,
    item: [
      choice("kind", "What", choicesOf(OPERATION_WORDS), { needed: true }),
      time("plannedUtc", "Planned"),
      time("doneUtc", "Done"),
      time("doneEndUtc", "Finished", { hint: "film counts from the end of baling" }),
      ref("machineId", "Machine", "machines"),
      ref("personId", "By", "people"),
      number("coveredFraction", "Swath width after it, share of the cut", SWATH_LIMITS.coveredFraction, {
        percent: true,
        unit: "%",
        when: ({ kind }) => ["mow", "ted", "rake", "invert"].includes(String(kind)),
      }),
    ],
  },
  ...HABIT,
  time("closedUtc", "Brought in, or given up", { hint: "nothing more is due of it then" }),
  NOTES,
];

const ION_CHOICES: Choices = IONS.map((ion) => [ion, ion]);
const UNIT_CHOICES: Choices = [
  ["ppm", "ppm (mg/kg)"],
  ["pct", "%"],
];
const BASIS_CHOICES: Choices = [
  ["dm", "of dry matter"],
  ["as-fed", "as fed"],
];

/** A content with its labels: without them it is no result. */
const content = (path: string, label: string): readonly OneSpec[] => [
  number(`${path}.value`, label, FEED_LIMITS.contentPpm, { decimals: 4, unit: "" }),
  choice(`${path}.unit`, `${label}: unit`, UNIT_CHOICES, { neededWith: `${path}.value` }),
  choice(`${path}.basis`, `${label}: basis`, BASIS_CHOICES, { neededWith: `${path}.value` }),
];

export const LOT_FORM: readonly Spec[] = [
  name(),
  ref("fieldId", "Field", "fields"),
  ref("cutId", "Cut", "cuts"),
  choice("crop", "Crop", CROP_CHOICES, { needed: true }),
  choice("route", "Route", ROUTE_CHOICES, { needed: true }),
  PACKAGE,
  choice("store", "Store", wordsOf(STORES), { when: isChopped }),
  line("place", "Where it lies", { hint: "as East barn, third row" }),
  number("bales", "Bales", BOOK_LIMITS.bales, { whole: true, when: isBaled }),
  number("loads", "Loads", BOOK_LIMITS.loads),
  number("tonnes", "Weight as it lies", BOOK_LIMITS.tonnes, { quantity: "tonnes" }),
  time("storedUtc", "Stored", {
    needed: true,
    hint: "when it was baled or filled: film and waits count from it",
  }),
  time("wrappedUtc", "Wrapped", { when: ({ route }) => route === "wrapped-bales" }),
  moisture("storedMoistureWb", "Moisture at storing"),
  time("openUtc", "To be opened", { hint: "empty = when the wait is over" }),
  time("openedUtc", "Opened"),
  time("finishedUtc", "Fed, sold or thrown away"),
  {
    type: "list",
    path: "heating",
    label: "Heating log",
    one: "temperature",
    most: BOOK_COUNTS.heating,
    item: [
      time("atUtc", "Measured", { needed: true }),
      number("tempC", "Temperature", BOOK_LIMITS.stackTempC, { quantity: "temperature", needed: true }),
      line("place", "Where"),
    ],
  },
  {
    type: "list",
    path: "tests",
    label: "Tests due",
    one: "test",
    most: BOOK_COUNTS.list,
    item: [
      { type: "id", path: "id", label: "" },
      choice("what", "Test", choicesOf(TEST_WORDS), { needed: true }),
      time("dueUtc", "Sample due"),
      time("sentUtc", "Sent"),
      time("expectedUtc", "Result expected"),
      line("laboratory", "Laboratory"),
      time("resultUtc", "Result came"),
    ],
  },
  {
    type: "list",
    path: "results",
    label: "Laboratory results",
    one: "result",
    most: BOOK_COUNTS.list,
    item: [
      time("atUtc", "Date of the result", { needed: true }),
      line("laboratory", "Laboratory"),
      ...content("nitrate", "Nitrate"),
      choice("nitrate.ion", "Nitrate: as", ION_CHOICES, {
        neededWith: "nitrate.value",
        hint: "Without ion, unit and basis it is no result.",
      }),
      ...content("prussicAcid", "Prussic acid"),
      moisture("moistureWb", "Moisture"),
      number("ph", "pH", BOOK_LIMITS.phValue, { unit: "" }),
      { ...NOTES, type: "text", most: BOOK_COUNTS.line },
    ],
  },
  NOTES,
];

const METHOD_CHOICES: Choices = (Object.keys(READING_METHODS) as ReadingMethod[]).map((key) => [
  key,
  READING_METHODS[key].label,
]);
const byHand = (values: Values) => textOf(values, "method") === "hand-squeeze";

export const READING_FORM: readonly Spec[] = [
  ref("fieldId", "Field", "fields"),
  ref("cutId", "Cut", "cuts"),
  ref("lotId", "Lot", "lots"),
  time("atUtc", "Taken, the farm's time", { needed: true }),
  choice("method", "Measured by", METHOD_CHOICES, { needed: true }),
  moisture("moistureWb", "Moisture, wet basis", { needed: true, when: (values) => !byHand(values) }),
  {
    type: "range",
    path: "range",
    label: "Squeezed for half a minute",
    ranges: SQUEEZE_RANGES,
    needed: true,
    when: byHand,
  },
  line("place", "Place", { hint: "as north end, top of the stack" }),
  number("grabs", "Grabs mixed into the sample", BOOK_LIMITS.grabs, { whole: true }),
  NOTES,
];

/** What a form is asked of several fields together; the error stands at the first of them. */
export function checkCut(values: Values): Errors {
  const none = textOf(values, "plannedUtc") === "" && textOf(values, "cutUtc") === "";
  return none ? { plannedUtc: "Empty; either Planned or Cut is needed." } : {};
}

export function checkReading(values: Values): Errors {
  const none = ["fieldId", "cutId", "lotId"].every((path) => textOf(values, path) === "");
  return none ? { fieldId: "Empty; a field, a cut or a lot is needed." } : {};
}
