import type { Origin } from "../coefficient.ts";
import { CROP_CATALOGUE } from "../drying/crops.ts";
import type { CropKey } from "../drying/keys.ts";
import type { BandOrigin } from "./bands.ts";
import { isCoarse } from "./bands.ts";
import type { PackageKey, RouteKey, StoreKey } from "./keys.ts";
import { PACKAGES, STORES } from "./keys.ts";
import { BALERS, ROUTE_MACHINES, type TypicalMachine } from "./machines.ts";
import type { PlanStep, WorkHours } from "./request.ts";

/** One way to bring the crop in, in the words the page and the answers use. */
export interface RouteEntry {
  readonly label: string;
  /** "can be baled", "can be chopped": what its window allows. */
  readonly can: string;
  readonly kind: "swath" | "standing";
  /** Whether a window must hold the whole area; green chop and grazing take a day's need at a time. */
  readonly wholeArea: boolean;
  readonly packages: readonly PackageKey[];
  readonly stores: readonly StoreKey[];
  /** Stands where the decision is made. A screen, never a clearance. */
  readonly caution: string;
}

const FILMED: readonly PackageKey[] = ["round", "large-square"];

export const ROUTE_CATALOGUE: Readonly<Record<RouteKey, RouteEntry>> = {
  "dry-hay": {
    label: "Dry hay",
    can: "can be baled dry",
    kind: "swath",
    wholeArea: true,
    packages: PACKAGES,
    stores: [],
    caution:
      "Hay keeps the nitrate it was cut with: core and test each lot before any animal gets it. Probe new hay for heat daily until it is steady.",
  },
  "wrapped-bales": {
    label: "Wrapped bales",
    can: "can be baled and wrapped",
    kind: "swath",
    wholeArea: true,
    packages: FILMED,
    stores: [],
    caution:
      "Wrap within 12 hours of baling. Not for horses without veterinary advice. Test nitrate and pH before feeding.",
  },
  "wilted-chop": {
    label: "Wilted chop",
    can: "can be chopped wilted",
    kind: "swath",
    wholeArea: true,
    packages: [],
    stores: STORES,
    caution: "Silo gas: stay out for 3 weeks. Test at feeding, not only at harvest.",
  },
  "direct-chop": {
    label: "Direct chop",
    can: "can be chopped standing",
    kind: "standing",
    wholeArea: true,
    packages: [],
    stores: STORES,
    caution:
      "Measure whole-plant moisture: leaf colour misleads. Silo gas: stay out for 3 weeks. Test at feeding.",
  },
  "green-chop": {
    label: "Green chop",
    can: "can be cut and fed fresh",
    kind: "standing",
    wholeArea: false,
    packages: [],
    stores: [],
    caution:
      "The route with the highest risk of nitrate and prussic acid. Laboratory result first, and again after every rain. Never hold it overnight; discard it if it is warm or over 4 hours in the wagon.",
  },
  grazing: {
    label: "Grazing",
    can: "can be grazed",
    kind: "standing",
    wholeArea: false,
    packages: [],
    stores: [],
    caution:
      "Laboratory nitrate and prussic-acid result first; ask your veterinarian or extension service. Fill the animals first, stock lightly, do not force them to eat stems, wait after frost and after rain that ends a drought.",
  },
};

/** A default that is not a coefficient, with its origin. */
export interface Stated<T> {
  readonly value: T;
  readonly origin: BandOrigin | Origin;
  readonly source: string;
}

function stated<T>(value: T, origin: BandOrigin, source: string): Stated<T> {
  return { value, origin, source };
}

export const HARVEST_DEFAULTS = {
  workHours: stated<WorkHours>({ from: "07:00", to: "20:00" }, "assumed", "a long working day"),
  cutHours: stated<readonly number[]>([9, 13, 17], "assumed", "after the dew, midday, late afternoon"),
  store: stated<StoreKey>("bunker", "assumed", "the most common store of chopped feed"),
  package: stated<PackageKey>("round", "assumed", "the most common package"),
  coarsePackage: stated<PackageKey>("stalk-bale", "published", "thick stalks hold moisture: 15 % at most"),
  dryDownPointsPerDay: stated(
    0.6,
    "published",
    "standing corn 0.5-0.6 points a day, 0.7-0.9 in dry weather (Pennsylvania State University extension)",
  ),
  /** Rates between which the standing crop is told to come into the band where no rate was given. */
  dryDownRangePerDay: stated<readonly [number, number]>(
    [0.5, 0.9],
    "published",
    "standing corn 0.5-0.6 points a day, 0.7-0.9 in dry weather (Pennsylvania State University extension)",
  ),
  /** A day's turn with green chop or grazing needs at least this, h. */
  leastTurnHours: stated(1, "assumed", "no turn is worth less than an hour"),
  tedHour: stated(10, "common-practice-no-source", "ted the next morning with the dew nearly off"),
  rakeBeforeH: stated(1, "assumed", "a rake runs about an hour ahead of the baler"),
  legumeRakeBeforeH: stated(2, "assumed", "legumes are raked moister, to keep their leaf"),
  /** Stubble from which a rake does more harm than good, cm. */
  tallStubbleCm: stated(20, "common-practice-no-source", "no rake over tall, coarse stubble"),
  /** A swath this narrow is a windrow already. */
  windrowCover: stated(0.5, "assumed", "balers gather up to half of the cut width without a rake"),
  /** Rain of the last 24 h that soil still carries machines after, mm. */
  carriesAfterMm: {
    dry: stated(15, "from-memory", "no traffic after 15 mm in 24 h on light soil"),
    moist: stated(10, "from-memory", "no traffic after 10 mm in 24 h on medium soil"),
    wet: stated(5, "from-memory", "no traffic after 5 mm in 24 h on heavy or wet soil"),
  },
} as const;

export function defaultPackage(crop: CropKey): PackageKey {
  return isCoarse(crop) ? HARVEST_DEFAULTS.coarsePackage.value : HARVEST_DEFAULTS.package.value;
}

/** The routes by which a crop is commonly brought in: those of a swath, and direct chop of what is commonly chopped standing. */
export function usualRoutes(crop: CropKey): readonly RouteKey[] {
  const swath: readonly RouteKey[] = ["dry-hay", "wrapped-bales", "wilted-chop"];
  return isCoarse(crop) ? [...swath, "direct-chop"] : swath;
}

/** The machine a route's default rate comes from; null for grazing. */
export function typicalMachine(route: RouteKey, pack: PackageKey): TypicalMachine | null {
  return route === "dry-hay" ? BALERS[pack] : ROUTE_MACHINES[route];
}

/**
 * The passes of a route where the request names none. Only dry hay has any: grass is tedded the morning after the cut,
 * and a swath wider than a windrow is raked shortly before the baler. Nothing is tedded or raked over tall or coarse
 * stubble. Wilted crop is taken to be gathered by a merger at the machine.
 */
export function defaultPlan(
  route: RouteKey,
  crop: CropKey,
  stubbleCm: number,
  coveredFraction: number,
): readonly PlanStep[] {
  const { tedHour, rakeBeforeH, legumeRakeBeforeH, tallStubbleCm, windrowCover } = HARVEST_DEFAULTS;
  if (route !== "dry-hay" || isCoarse(crop) || stubbleCm >= tallStubbleCm.value) return [];
  if (CROP_CATALOGUE[crop].legume) {
    if (coveredFraction <= windrowCover.value) return [];
    return [{ kind: "rake", rule: "before-window", hours: legumeRakeBeforeH.value }];
  }
  return [
    { kind: "ted", rule: "morning-after", hour: tedHour.value },
    { kind: "rake", rule: "before-window", hours: rakeBeforeH.value },
  ];
}
