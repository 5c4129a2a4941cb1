import type { CropKey } from "../../drying/keys.ts";
import type { Limit } from "../../limits.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
import { NITRATE_ACCUMULATORS } from "../hazards/records.ts";
import { PRICE_LIMITS } from "../limits.ts";

/** A question that stands before every plan. It is asked and answered by people; nothing here looks a label up. */
export interface Gate {
  readonly key: "insurer" | "label" | "nitrate" | "prussic-acid" | "worth-waiting";
  readonly ask: string;
  readonly why: string;
  readonly source: string;
}

const INSURER: Gate = {
  key: "insurer",
  ask: "Has the insurer or adjuster been told, and are strips left where they ask for them?",
  why: "Tell them before cutting or grazing and get their consent in writing; some ask for notice within 72 hours of the damage.",
  source:
    "University of Missouri, Check with your crop insurance agent before you cut; Pennsylvania guidance, 2012",
};
const LABEL: Gate = {
  key: "label",
  ask: "Have the labels of all that was sprayed been read for this use (hay, silage, forage, grazing)?",
  why: "The label for that use governs; some sprayed crops may not be fed at all.",
  source: "University of Nebraska CropWatch, Forage, feed and grazing restrictions, 2012",
};
const NITRATE: Gate = {
  key: "nitrate",
  ask: "Has the standing crop been sampled for nitrate, at the height it will be cut?",
  why: "Drying takes no nitrate away, and a field test tells only whether to send a sample.",
  source: "Kansas State eUpdate, Testing methods for nitrates in forages",
};
/** Of crops that are not known to hold it: asked after stress alone. */
const NITRATE_IF_STRESSED: Gate = {
  ...NITRATE,
  ask: "Has the standing crop been sampled for nitrate, if drought, frost, cloud or much nitrogen stressed it?",
};
const PRUSSIC: Gate = {
  key: "prussic-acid",
  ask: "Has the crop been sampled for prussic acid, the sample kept cool and undried?",
  why: "Sorghum types hold most in young leaves, after frost and after a drought breaks.",
  source: "Kansas State eUpdate, Test to prevent nitrate and prussic acid poisoning",
};
const WAITING: Gate = {
  key: "worth-waiting",
  ask: "Is there grain or new growth worth waiting for?",
  why: "Compare the value standing with the value harvested, both at your prices.",
  source: "arithmetic on your own numbers",
};

/** The gate of a crop: those questions that concern it, in the order in which to settle them. */
export function beforeCutting(crop: CropKey): Gate[] {
  return [
    INSURER,
    LABEL,
    NITRATE_ACCUMULATORS.includes(crop) ? NITRATE : NITRATE_IF_STRESSED,
    ...(PRUSSIC_CROPS.includes(crop) ? [PRUSSIC] : []),
    WAITING,
  ];
}

export interface StandingValueQuestion {
  /** Grain that is expected, t/ha, its price and what harvest of it costs; 0 where there is none. */
  readonly grainTHa: number;
  readonly grainPricePerT: number;
  readonly grainCostPerHa: number;
  /** Chance that the grain is there to be harvested, 0-1. */
  readonly grainChance: number;
  /** Forage that is expected later, t of dry matter per ha, what a tonne is then worth, and its harvest's cost. */
  readonly laterForageTHa: number;
  readonly laterForagePricePerT: number;
  readonly laterForageCostPerHa: number;
}

/** What each of them may be. */
export const LEAVE_LIMITS = {
  grainTHa: { min: 0, max: 30, unit: "t/ha" },
  grainPricePerT: PRICE_LIMITS.pricePerTDm,
  grainCostPerHa: PRICE_LIMITS.rate,
  grainChance: { min: 0, max: 1, unit: "(chance, 0 to 1)" },
  laterForageTHa: { min: 0, max: 30, unit: "t of dry matter a ha" },
  laterForagePricePerT: PRICE_LIMITS.pricePerTDm,
  laterForageCostPerHa: PRICE_LIMITS.rate,
} as const satisfies Record<keyof StandingValueQuestion, Limit>;

/** What waiting is expected to bring, per ha: grain if it comes, and later forage. */
export function standingValuePerHa(q: StandingValueQuestion): number {
  const grain = q.grainChance * (q.grainTHa * q.grainPricePerT - q.grainCostPerHa);
  const forage = q.laterForageTHa * q.laterForagePricePerT - q.laterForageCostPerHa;
  return Math.max(0, grain) + Math.max(0, forage);
}

/** Harvest now against leaving it, per ha, with the difference that decides. */
export function harvestOrLeave(
  harvestedPerHa: number,
  standing: StandingValueQuestion,
): {
  readonly better: "harvest" | "leave";
  readonly differencePerHa: number;
  readonly standingPerHa: number;
} {
  const standingPerHa = standingValuePerHa(standing);
  const differencePerHa = harvestedPerHa - standingPerHa;
  return { better: differencePerHa > 0 ? "harvest" : "leave", differencePerHa, standingPerHa };
}
