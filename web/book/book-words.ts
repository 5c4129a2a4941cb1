import type { CutOperation, IntervalBefore, LabTest, MachineKind } from "../../model/book/index.ts";
import { CROP_CATALOGUE, CROPS } from "../../model/drying/index.ts";
import { ROUTES } from "../../model/harvest/keys.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import type { ShownKind } from "./book-data.ts";
import type { Choices } from "./spec.ts";

/** How the book's forms and lists say its keys. */

export interface KindWords {
  readonly many: string;
  readonly one: string;
  /** What stands where there is none yet. */
  readonly none: string;
}

export const KIND_WORDS: Readonly<Record<ShownKind, KindWords>> = {
  fields: { many: "Fields", one: "field", none: "No field yet: add one, or keep the one on the page." },
  cuts: { many: "Cuts", one: "cut", none: "No cut yet, planned or made." },
  readings: { many: "Readings", one: "reading", none: "No moisture reading yet." },
  lots: { many: "Lots", one: "lot", none: "No lot yet: bales or feed from one cut, in one place." },
  sites: { many: "Places", one: "place", none: "No place yet: where the farm's weather and clock are." },
  machines: { many: "Machines", one: "machine", none: "No machine yet." },
  people: { many: "People", one: "person", none: "Nobody yet." },
  prices: { many: "Prices", one: "price list", none: "No prices yet." },
  herds: { many: "Herds", one: "herd group", none: "No herd group yet." },
};

/** "wrapped bales" as a key reads without its hyphens. */
export const spaced = (key: string): string => key.replaceAll("-", " ");

export const wordsOf = (keys: readonly string[]): Choices =>
  keys.map((key) => [key, sentenceCase(spaced(key))]);

export const CROP_CHOICES: Choices = CROPS.map((key) => [key, CROP_CATALOGUE[key].label]);
export const ROUTE_CHOICES: Choices = ROUTES.map((key) => [key, sentenceCase(ROUTE_LABELS[key])]);

export const BEFORE_WORDS: Readonly<Record<IntervalBefore, string>> = {
  cutting: "before cutting",
  grazing: "before grazing",
  feeding: "before feeding",
};

export const MACHINE_WORDS: Readonly<Record<MachineKind, string>> = {
  mower: "mower",
  tedder: "tedder",
  rake: "rake",
  baler: "baler",
  wrapper: "wrapper",
  chopper: "chopper",
  cart: "cart",
};

export const OPERATION_WORDS: Readonly<Record<CutOperation, string>> = {
  mow: "mow",
  ted: "ted",
  rake: "rake",
  invert: "turn",
  bale: "bale",
  wrap: "wrap",
  chop: "chop",
  haul: "haul",
};

export const TEST_WORDS: Readonly<Record<LabTest, string>> = {
  nitrate: "nitrate",
  "prussic-acid": "prussic acid",
  moisture: "moisture",
  fermentation: "fermentation",
  "feed-value": "feed value",
};

export const choicesOf = <T extends string>(words: Readonly<Record<T, string>>): Choices =>
  Object.entries<string>(words).map(([key, word]) => [key, sentenceCase(word)]);
