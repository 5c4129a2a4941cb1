import { ROUTE_CATALOGUE, ROUTES } from "../../model/harvest/index.ts";
import type { PlaceField } from "../place/place-texts.ts";
import type { Choices } from "../state/action.ts";
import { TEXT_FIELDS, type TextField } from "../state/inputs.ts";

const FIELD_WORDS: Readonly<Record<TextField, string>> = {
  yieldTHa: "yield",
  balesPerHa: "number of bales",
  baleKg: "bale weight",
  baleMoisturePct: "bale moisture",
  stripLengthM: "strip length",
  stripWidthM: "strip width",
  stripFreshKg: "strip weight",
  plantHeightCm: "plant height",
  moisturePct: "moisture at cutting",
  mowerCutM: "mower cut",
  swathWidthM: "swath width",
  stubbleCm: "stubble",
  areaHa: "area",
  mowHaPerH: "mowing rate",
  balerHaPerH: "baler rate",
  chopperHaPerH: "chopper rate",
  workFrom: "working hours",
  workTo: "working hours",
  cutHours: "cut hours",
  tedHour: "tedding time",
  tedAfterH: "tedding time",
  rakeBeforeH: "raking time",
  dryDownPointsPerDay: "dry-down",
  dailyNeedKgDm: "daily need",
  currency: "currency",
  priceDryHay: "price of dry hay",
  priceWrapped: "price of wrapped bales",
  priceWilted: "price of wilted chop",
  priceDirect: "price of direct chop",
  priceGreen: "price of green chop",
  priceGrazing: "price of grazing",
  mowCost: "mowing rate",
  tedCost: "tedding rate",
  rakeCost: "raking rate",
  chopCost: "chopping rate",
  fillCost: "filling rate",
  grazeCost: "grazing cost",
  baleCost: "baling rate",
  haulCost: "hauling rate",
  wrapCost: "wrapping rate",
  filmCost: "film",
  preservativeCost: "preservative price",
  labourCost: "wage",
  people: "people",
  baleDmKg: "bale dry matter",
  wrappedBaleDmKg: "wrapped bale dry matter",
  packingKgM3: "packing",
  nitratePpm: "nitrate",
  prussicPpm: "prussic acid",
  regrowthCm: "new growth",
  grainTHa: "grain",
  grainPrice: "grain price",
  grainCost: "grain harvest",
  grainChancePct: "chance of grain",
  laterTHa: "later forage",
  laterPrice: "later price",
  waitCost: "cost of a day of waiting",
  rainedCost: "cost of a cut that is rained on",
  laterCost: "later cost",
};

const CHOICE_WORDS: Readonly<Record<keyof Choices, string>> = {
  fieldName: "name of the field",
  crop: "crop",
  conditioning: "conditioning",
  soil: "ground",
  dryingAgent: "drying agent",
  yieldBy: "way to the yield",
  ted: "tedding",
  rake: "raking",
  hayStore: "hay store",
  siloCover: "cover",
  hayFeeding: "feeding",
  grazed: "grazing manner",
  drought: "drought",
  settled: "what is settled",
};

const isField = (what: string): what is TextField => what in TEXT_FIELDS;
const isChoice = (what: string): what is keyof Choices => what in CHOICE_WORDS;

/** What a change was about, as a button says it: "swath width". A change that names itself keeps its name. */
export function changeWords(what: string): string {
  if (isField(what)) return FIELD_WORDS[what];
  const [kind, key = ""] = what.split(" ");
  if (kind === "choice" && isChoice(key)) return CHOICE_WORDS[key];
  const route = kind === "route" ? ROUTES.find((known) => known === key) : undefined;
  return route === undefined ? what : ROUTE_CATALOGUE[route].label.toLowerCase();
}

const PLACE_WORDS: Readonly<Record<PlaceField, string>> = {
  latitude: "latitude",
  longitude: "longitude",
  elevationM: "elevation",
  windHeightM: "height of the wind",
  timeZone: "time zone",
};
const isPlace = (name: string): name is PlaceField => Object.hasOwn(PLACE_WORDS, name);

/** A part of a link in the words of its field: "swath width"; null where the page knows no such part. */
export function partWords(name: string): string | null {
  if (Object.hasOwn(FIELD_WORDS, name) && isField(name)) return FIELD_WORDS[name];
  if (Object.hasOwn(CHOICE_WORDS, name) && isChoice(name)) return CHOICE_WORDS[name];
  if (isPlace(name)) return PLACE_WORDS[name];
  if (name === "field") return CHOICE_WORDS.fieldName;
  if (name === "compare") return "comparison";
  if (name === "provider") return "weather service";
  if (["weather", "row", "route", "routes", "window"].includes(name)) return name;
  const [key, kind] = name.split(".");
  const route = ROUTES.find((known) => known === key);
  return route !== undefined && (kind === "package" || kind === "store")
    ? `${kind} of ${ROUTE_CATALOGUE[route].label.toLowerCase()}`
    : null;
}
