import { BOOK_COUNTS, BOOK_LIMITS } from "../../model/book/limits.ts";
import { CONDITIONINGS, SOIL_CLASSES, SWATH_LIMITS } from "../../model/drying/index.ts";
import type { ShownKind } from "./book-data.ts";
import { wordsOf } from "./book-words.ts";
import type {
  ChoiceSpec,
  ClockSpec,
  FlagSpec,
  NumberSpec,
  OneSpec,
  RefSpec,
  TextSpec,
  TimeSpec,
} from "./spec.ts";

/** The pieces that the book's forms are made of. */

type More<T> = Partial<Omit<T, "type" | "path" | "label">>;

export const name = (label = "Name"): TextSpec => ({
  type: "text",
  path: "name",
  label,
  needed: true,
  most: BOOK_COUNTS.name,
});

export const line = (path: string, label: string, more: More<TextSpec> = {}): TextSpec => ({
  type: "text",
  path,
  label,
  most: BOOK_COUNTS.line,
  ...more,
});

export const NOTES: TextSpec = { type: "note", path: "notes", label: "Notes", most: BOOK_COUNTS.note };

export const number = (
  path: string,
  label: string,
  limit: NumberSpec["limit"],
  more: More<NumberSpec> = {},
): NumberSpec => ({ type: "number", path, label, limit, quantity: null, ...more });

export const choice = (
  path: string,
  label: string,
  choices: ChoiceSpec["choices"],
  more: More<ChoiceSpec> = {},
): ChoiceSpec => ({ type: "choice", path, label, choices, ...more });

export const time = (path: string, label: string, more: More<TimeSpec> = {}): TimeSpec => ({
  type: "time",
  path,
  label,
  ...more,
});

export const clock = (path: string, label: string, shape: RegExp): ClockSpec => ({
  type: "clock",
  path,
  label,
  shape,
  needed: true,
});

export const flag = (path: string, label: string): FlagSpec => ({ type: "flag", path, label });

export const ref = (path: string, label: string, kind: ShownKind, more: More<RefSpec> = {}): RefSpec => ({
  type: "ref",
  path,
  label,
  kind,
  ...more,
});

export const moisture = (path: string, label: string, more: More<NumberSpec> = {}): NumberSpec =>
  number(path, label, BOOK_LIMITS.measuredWb, { percent: true, unit: "%", ...more });

/** What a swath is made of, of a field or of one cut. */
export const YIELD_AND_MOISTURE: readonly OneSpec[] = [
  number("dryMatterTHa", "Yield, dry matter", SWATH_LIMITS.dryMatterTHa, { quantity: "dryMatterYield" }),
  number("initialMoistureWb", "Moisture at cutting", SWATH_LIMITS.initialMoistureWb, {
    percent: true,
    unit: "%",
  }),
];

export const HABIT: readonly OneSpec[] = [
  choice("habit.conditioning", "Conditioning", wordsOf(CONDITIONINGS)),
  number("habit.coveredFraction", "Swath width, share of the cut", SWATH_LIMITS.coveredFraction, {
    percent: true,
    unit: "%",
  }),
  number("habit.stubbleCm", "Stubble", SWATH_LIMITS.stubbleCm, { quantity: "stubble" }),
  choice("habit.soil", "Soil", wordsOf(SOIL_CLASSES)),
  flag("habit.dryingAgent", "Drying agent at the mower"),
];
