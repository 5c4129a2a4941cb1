import type { Conditioning, CropKey, SoilClass } from "../../model/drying/keys.ts";
import type { PackageKey, RouteKey, StoreKey } from "../../model/harvest/index.ts";
import { HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import type { FeedingKey, GrazingKey, HayStoreKey } from "../../model/harvest/losses/index.ts";
import type { Gate } from "../../model/harvest/value/index.ts";
import type { NumberMarks } from "../format/manner.ts";
import type { Quantity, Units } from "../format/units.ts";

/** Fields that are typed, and what each measures; null where it has no unit that changes with the system. */
export const TEXT_FIELDS = {
  yieldTHa: "dryMatterYield",
  balesPerHa: "balesByArea",
  baleKg: "mass",
  baleMoisturePct: null,
  stripLengthM: "length",
  stripWidthM: "width",
  stripFreshKg: "mass",
  plantHeightCm: "plantHeight",
  moisturePct: null,
  mowerCutM: "width",
  swathWidthM: "width",
  stubbleCm: "stubble",
  areaHa: "area",
  mowHaPerH: "areaRate",
  balerHaPerH: "areaRate",
  chopperHaPerH: "areaRate",
  workFrom: null,
  workTo: null,
  cutHours: null,
  tedHour: null,
  tedAfterH: null,
  rakeBeforeH: null,
  dryDownPointsPerDay: null,
  dailyNeedKgDm: "mass",
  currency: null,
  priceDryHay: "perT",
  priceWrapped: "perT",
  priceWilted: "perT",
  priceDirect: "perT",
  priceGreen: "perT",
  priceGrazing: "perT",
  mowCost: "perHa",
  tedCost: "perHa",
  rakeCost: "perHa",
  chopCost: "perHa",
  fillCost: "perHa",
  grazeCost: "perHa",
  baleCost: null,
  haulCost: null,
  wrapCost: null,
  filmCost: null,
  preservativeCost: "perKg",
  labourCost: null,
  people: null,
  baleDmKg: "mass",
  wrappedBaleDmKg: "mass",
  packingKgM3: "density",
  nitratePpm: null,
  prussicPpm: null,
  regrowthCm: "plantHeight",
  grainTHa: "dryMatterYield",
  grainPrice: "perT",
  grainCost: "perHa",
  grainChancePct: null,
  laterTHa: "dryMatterYield",
  laterPrice: "perT",
  laterCost: "perHa",
  waitCost: "perHa",
  rainedCost: "perHa",
} as const satisfies Readonly<Record<string, Quantity | null>>;
export type TextField = keyof typeof TEXT_FIELDS;

/** What was typed, right or wrong, with the manner it was typed in: a change of units or language changes no value. */
export interface Typed {
  readonly text: string;
  readonly units: Units;
  /** How the one who typed it writes numbers; absent = the page itself, with a point. */
  readonly marks?: NumberMarks;
  /** What a link said instead, and why it is not used: stands by the field until something is typed. */
  readonly told?: string;
}

/** How the yield is known: tonnes, bales of an earlier cut, a weighed strip, or the height of barren corn. */
export const YIELD_WAYS = ["tonnes", "bales", "strip", "height"] as const;
export type YieldWay = (typeof YIELD_WAYS)[number];

/** "usual" leaves the pass to what the crop and the route commonly get. */
export const TED_CHOICES = ["usual", "none", "morning-after", "after-cut"] as const;
export type TedChoice = (typeof TED_CHOICES)[number];
export const RAKE_CHOICES = ["usual", "none", "before-window"] as const;
export type RakeChoice = (typeof RAKE_CHOICES)[number];

export const HAY_STORE_CHOICES = [
  "inside",
  "covered-and-raised",
  "wrapped-on-ground",
  "covered-or-raised",
  "on-ground",
] as const satisfies readonly HayStoreKey[];
export const SILO_COVERS = ["covered", "open"] as const;
export type SiloCover = (typeof SILO_COVERS)[number];
export const FEEDING_CHOICES = ["ring-feeder", "bunk", "on-ground"] as const satisfies readonly FeedingKey[];
export const GRAZED_CHOICES = [
  "strips-of-days",
  "daily-strips",
  "set-stocked",
] as const satisfies readonly GrazingKey[];
export const DROUGHTS = ["not-said", "yes", "no"] as const;
export type Drought = (typeof DROUGHTS)[number];
export type GateKey = Gate["key"];
export const GATE_KEYS = [
  "insurer",
  "label",
  "nitrate",
  "prussic-acid",
  "worth-waiting",
] as const satisfies readonly GateKey[];

export interface RouteChoice {
  readonly on: boolean;
  /** Null where the route has none, or where the crop's usual one is wanted. */
  readonly package: PackageKey | null;
  readonly store: StoreKey | null;
}

/** Everything that is asked of the field and the work, as it stands on the page. */
export interface Inputs {
  readonly fieldName: string;
  readonly crop: CropKey;
  readonly conditioning: Conditioning;
  readonly soil: SoilClass;
  /** Carbonate solution at the mower. */
  readonly dryingAgent: boolean;
  readonly yieldBy: YieldWay;
  readonly ted: TedChoice;
  readonly rake: RakeChoice;
  /** Where hay and chopped feed lie, and how they are given. */
  readonly hayStore: HayStoreKey;
  readonly siloCover: SiloCover;
  readonly hayFeeding: FeedingKey;
  readonly grazed: GrazingKey;
  /** Whether the crop was short of water when the weather begins. */
  readonly drought: Drought;
  /** What of the gate before cutting is settled, by key, in the gate's order. */
  readonly settled: readonly GateKey[];
  readonly texts: Readonly<Record<TextField, Typed>>;
  readonly routes: Readonly<Record<RouteKey, RouteChoice>>;
}

const off: RouteChoice = { on: false, package: null, store: null };
const on: RouteChoice = { on: true, package: null, store: null };

const metric = (text: string): Typed => ({ text, units: "metric" });

/** The demonstration field: invented, as its weather is. */
export const DEMO_INPUTS: Inputs = {
  fieldName: "Creek field",
  crop: "alfalfa",
  conditioning: "roll",
  soil: "moist",
  dryingAgent: false,
  yieldBy: "tonnes",
  ted: "usual",
  rake: "usual",
  hayStore: "inside",
  siloCover: "covered",
  hayFeeding: "ring-feeder",
  grazed: "strips-of-days",
  drought: "not-said",
  settled: [],
  texts: {
    yieldTHa: metric("3.8"),
    balesPerHa: metric(""),
    baleKg: metric(""),
    baleMoisturePct: metric("16"),
    stripLengthM: metric(""),
    stripWidthM: metric(""),
    stripFreshKg: metric(""),
    plantHeightCm: metric(""),
    moisturePct: metric("78"),
    mowerCutM: metric("3"),
    swathWidthM: metric("2.1"),
    stubbleCm: metric("8"),
    areaHa: metric("6.4"),
    mowHaPerH: metric(""),
    balerHaPerH: metric(""),
    chopperHaPerH: metric(""),
    workFrom: metric(HARVEST_DEFAULTS.workHours.value.from),
    workTo: metric(HARVEST_DEFAULTS.workHours.value.to),
    cutHours: metric(HARVEST_DEFAULTS.cutHours.value.join(" ")),
    tedHour: metric(String(HARVEST_DEFAULTS.tedHour.value)),
    tedAfterH: metric("4"),
    rakeBeforeH: metric(String(HARVEST_DEFAULTS.rakeBeforeH.value)),
    dryDownPointsPerDay: metric(""),
    dailyNeedKgDm: metric(""),
    // Empty = the stated default.
    currency: metric(""),
    priceDryHay: metric(""),
    priceWrapped: metric(""),
    priceWilted: metric(""),
    priceDirect: metric(""),
    priceGreen: metric(""),
    priceGrazing: metric(""),
    mowCost: metric(""),
    tedCost: metric(""),
    rakeCost: metric(""),
    chopCost: metric(""),
    fillCost: metric(""),
    grazeCost: metric(""),
    baleCost: metric(""),
    haulCost: metric(""),
    wrapCost: metric(""),
    filmCost: metric(""),
    preservativeCost: metric(""),
    labourCost: metric(""),
    people: metric(""),
    baleDmKg: metric(""),
    wrappedBaleDmKg: metric(""),
    packingKgM3: metric(""),
    nitratePpm: metric(""),
    prussicPpm: metric(""),
    regrowthCm: metric(""),
    grainTHa: metric(""),
    grainPrice: metric(""),
    grainCost: metric(""),
    grainChancePct: metric(""),
    laterTHa: metric(""),
    laterPrice: metric(""),
    laterCost: metric(""),
    waitCost: metric(""),
    rainedCost: metric(""),
  },
  routes: {
    "dry-hay": on,
    "wrapped-bales": on,
    "wilted-chop": on,
    "direct-chop": off,
    "green-chop": off,
    grazing: off,
  },
};
