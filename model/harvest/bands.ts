import type { Origin } from "../coefficient.ts";
import { CROP_CATALOGUE } from "../drying/crops.ts";
import type { CropKey } from "../drying/keys.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";

export type BandOrigin = Origin | "common-practice-no-source";

/** A moisture band of a route, wet basis, [driest, wettest], and why it is believed. */
export interface Band {
  readonly bandWb: readonly [number, number];
  /** Of the whole band; where its edges differ, that of the one less well founded. `source` then names both. */
  readonly origin: BandOrigin;
  readonly source: string;
  /** Driest and wettest edge apart, each with its own origin. */
  readonly edges: readonly [BandEdge, BandEdge];
}

/** One edge of a band, wet basis, and why it is believed. */
export interface BandEdge {
  readonly wb: number;
  readonly origin: BandOrigin;
  readonly source: string;
}

function band(lo: number, hi: number, origin: BandOrigin, source: string): Band {
  const edge = (wb: number): BandEdge => ({ wb, origin, source });
  return { bandWb: [lo, hi], origin, source, edges: [edge(lo), edge(hi)] };
}

/** Wettest dry hay that keeps without a preservative; where sources differ, the stricter. */
export const DRY_HAY_TOP: Readonly<Record<PackageKey, BandEdge>> = {
  "small-square": {
    wb: 0.18,
    origin: "published",
    source: "published: 20 % (Purdue, North Dakota), 18-20 % (Wisconsin); the stricter computes",
  },
  round: {
    wb: 0.16,
    origin: "published",
    source: "published: 18 % (Purdue, North Dakota), 16-18 % others; the stricter computes",
  },
  "large-square": {
    wb: 0.15,
    origin: "published",
    source: "published: 17, 16 and 15 %; the stricter computes",
  },
  "stalk-bale": {
    wb: 0.15,
    origin: "published",
    source: "published: corn and sorghum stalk hay 15 %, 15-18 %; the stricter computes",
  },
};

/** Below this, baling loses too much leaf. Published losses only say that they grow below about 13 %. */
export const DRY_HAY_FOOT: Readonly<Record<"legume" | "other", BandEdge>> = {
  legume: {
    wb: 0.12,
    origin: "assumed",
    source: "assumed: leaf loss at baling 8 % at 13 % moisture against 5 % at 18 %, grower notes",
  },
  other: {
    wb: 0.08,
    origin: "assumed",
    source: "assumed: grass and stalks shatter less; baling in arid air begins at 8-11 %",
  },
};

const WILTED = "wilted grass and legumes by store, from memory";
const WILTED_BANDS: Readonly<Record<StoreKey, Band>> = {
  bunker: band(0.6, 0.7, "from-memory", WILTED),
  pile: band(0.6, 0.7, "from-memory", WILTED),
  bag: band(0.6, 0.7, "from-memory", WILTED),
  stave: band(0.6, 0.65, "from-memory", WILTED),
  "oxygen-limiting": band(0.45, 0.55, "from-memory", WILTED),
};

const SHARED = "what the published ranges share (Minnesota, Pennsylvania, Missouri extension)";
const CORN_BANDS: Readonly<Record<StoreKey, Band>> = {
  bunker: band(0.65, 0.68, "published", `${SHARED}: 65-70, 65-68, 65-70 %`),
  pile: band(0.65, 0.68, "published", `${SHARED}: 65-70, 65-68, 65-70 %`),
  bag: band(0.63, 0.68, "published", `${SHARED}: 60-70, 63-68, 60-70 %`),
  stave: band(0.63, 0.65, "published", `${SHARED}: 60-65, 63-68 %`),
  "oxygen-limiting": band(0.55, 0.6, "published", `${SHARED}: 50-60, 55-60 %`),
};

const DROUGHT_CORN_WILTED = band(
  0.65,
  0.7,
  "common-practice-no-source",
  "common practice, no source: drought corn ferments best at 65-70 %",
);

const WRAPPED = band(
  0.45,
  0.6,
  "published",
  "40-60 % (Ohio, Arkansas, Illinois), 55-65 % (older Pennsylvania); below 45 % keeps only while airtight",
);
const WRAPPED_CORN = band(
  0.45,
  0.55,
  "published",
  "drought corn in wrapped bales 45-55 %, the stricter of 40-60 %",
);

/** Thick-stemmed crops that stand tall: stalk bales, no rake over their stubble. */
export function isCoarse(crop: CropKey): boolean {
  return CROP_CATALOGUE[crop].coarseStem;
}

function dryHayBand(crop: CropKey, pack: PackageKey): Band {
  const top = DRY_HAY_TOP[pack];
  const foot = CROP_CATALOGUE[crop].legume ? DRY_HAY_FOOT.legume : DRY_HAY_FOOT.other;
  const source = `wettest: ${top.source}; driest: ${foot.source}`;
  return { ...band(foot.wb, top.wb, foot.origin, source), edges: [foot, top] };
}

function isCorn(crop: CropKey): boolean {
  return crop === "corn" || crop === "drought-corn";
}

function wiltedBand(crop: CropKey, store: StoreKey): Band {
  if (crop !== "drought-corn") return WILTED_BANDS[store];
  // A stave or oxygen-limiting silo takes drier crop than the rule of thumb: there the published corn band computes.
  return store === "stave" || store === "oxygen-limiting" ? CORN_BANDS[store] : DROUGHT_CORN_WILTED;
}

/** The default band of a route; null for green chop and grazing, which take the crop fresh. */
export function defaultBand(route: RouteKey, crop: CropKey, pack: PackageKey, store: StoreKey): Band | null {
  switch (route) {
    case "dry-hay":
      return dryHayBand(crop, pack);
    case "wrapped-bales":
      return isCorn(crop) ? WRAPPED_CORN : WRAPPED;
    case "wilted-chop":
      return wiltedBand(crop, store);
    case "direct-chop":
      return isCorn(crop) || isCoarse(crop) ? CORN_BANDS[store] : WILTED_BANDS[store];
    case "green-chop":
    case "grazing":
      return null;
  }
}
