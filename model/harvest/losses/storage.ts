import { type Coefficient, coefficient } from "../../coefficient.ts";
import { requireRange } from "../../limits.ts";
import type { PackageKey, StoreKey } from "../keys.ts";
import type { LossStep } from "./loss-chain.ts";

/** Where dry hay lies until it is fed, best kept first. */
export const HAY_STORES = [
  "inside",
  "covered-and-raised",
  "wrapped-on-ground",
  "covered-or-raised",
  "on-ground",
] as const;
export type HayStoreKey = (typeof HAY_STORES)[number];

const TENNESSEE = "round bales, University of Tennessee trial as quoted in trade press";

/** Per cent of dry matter that bales at a moisture that keeps lose until they are fed. */
export const HAY_STORE_LOSS: Readonly<Record<HayStoreKey, Coefficient>> = {
  inside: coefficient(
    6,
    "%",
    "published",
    `${TENNESSEE}: 6 %; under 2 % within nine months, 2-8 % longer (Nebraska extension, Schick & Beckman)`,
    [2, 8],
  ),
  "covered-and-raised": coefficient(8, "%", "published", `${TENNESSEE}: 8 %`, [6, 12]),
  "wrapped-on-ground": coefficient(
    19,
    "%",
    "published",
    `${TENNESSEE}: net or plastic wrapped, 19 %`,
    [10, 25],
  ),
  "covered-or-raised": coefficient(30, "%", "published", `${TENNESSEE}: just under 30 %`, [15, 30]),
  "on-ground": coefficient(37, "%", "published", `${TENNESSEE}: uncovered, 37 %`, [20, 40]),
};

const ROTZ_ABRAMS = "small alfalfa bales inside, Rotz & Abrams 1988, Trans. ASAE 31:350-355";

/** Wettest moisture of each printed class, wet basis, and the loss inside. Over 34 % it was not measured. */
export const HAY_MOISTURE_CLASSES: readonly { readonly upToWb: number; readonly loss: Coefficient }[] = [
  { upToWb: 0.2, loss: coefficient(4.2, "%", "published", `11-20 % moisture: ${ROTZ_ABRAMS}`, [0.11, 0.2]) },
  { upToWb: 0.25, loss: coefficient(7.9, "%", "published", `20-25 % moisture: ${ROTZ_ABRAMS}`, [0.2, 0.25]) },
  { upToWb: 1, loss: coefficient(10.9, "%", "published", `25-34 % moisture: ${ROTZ_ABRAMS}`, [0.25, 0.34]) },
];

const NO_SPREAD = "no spread stands beside the printed means";
export const HAY_MOISTURE_SPREAD = {
  low: coefficient(0.5, "-", "assumed", NO_SPREAD, null),
  high: coefficient(1.5, "-", "assumed", NO_SPREAD, null),
} as const;

/** What a small square bale loses inside, by moisture, per cent. */
export function smallBaleInsidePct(moistureWb: number): number {
  requireRange("smallBaleInsidePct", "moistureWb", moistureWb, 0, 1);
  return HAY_MOISTURE_CLASSES.find(({ upToWb }) => moistureWb <= upToWb + 1e-9)?.loss.value ?? Number.NaN;
}

/**
 * Storage loss of dry hay.
 *
 * @param moistureWb of the bale when it was stored, wet basis, 0-1. Wetter never loses less.
 */
export function hayStorageLoss(pack: PackageKey, store: HayStoreKey, moistureWb: number): LossStep {
  const byMoisture = smallBaleInsidePct(moistureWb);
  const driest = HAY_MOISTURE_CLASSES[0]?.loss.value ?? 0;
  if (pack === "small-square" && store === "inside") {
    const { source } = HAY_STORE_LOSS.inside;
    return {
      step: "storage",
      pct: byMoisture,
      lowPct: byMoisture * HAY_MOISTURE_SPREAD.low.value,
      highPct: byMoisture * HAY_MOISTURE_SPREAD.high.value,
      source: `${ROTZ_ABRAMS}; ${source}`,
    };
  }
  // Heating takes, on top of what the weather takes, what wetter small bales lost more than dry ones: assumed to add.
  const heating = byMoisture - driest;
  const { value, validRange, source } = HAY_STORE_LOSS[store];
  const added = (pct: number) => 100 - (100 - pct) * (1 - heating / 100);
  return {
    step: "storage",
    pct: added(value),
    lowPct: added(validRange?.[0] ?? value),
    highPct: added(validRange?.[1] ?? value),
    source,
  };
}

/**
 * Share of a round bale that lies within a depth of its round side.
 *
 * @param depthM spoiled depth, m, at most half of the diameter
 * @example outerRingShare(72 * 0.0254, 4 * 0.0254) // 0.210
 */
export function outerRingShare(diameterM: number, depthM: number): number {
  requireRange("outerRingShare", "depthM", depthM, 0, diameterM / 2);
  return 1 - (1 - (2 * depthM) / diameterM) ** 2;
}

/** Film-wrapped bales. No trend with moisture between 25 and 65 %. */
export const WRAPPED_STORE_LOSS = coefficient(
  7,
  "%",
  "published",
  "middle of 2-12 %, six layers, six months (Huhnke, Muck & Payton 1997); well wrapped 3-5 % (Lingvall, vendor page)",
  [2, 12],
);

/** Chopped feed in a covered and packed store, per cent of dry matter at 60-70 % moisture. */
export const SILO_LOSS: Readonly<Record<StoreKey, Coefficient>> = {
  bunker: coefficient(
    13,
    "%",
    "from-memory",
    "covered 10-16 %; bunkers 15-20 % in Swedish work (Lingvall)",
    [10, 20],
  ),
  pile: coefficient(16, "%", "assumed", "no figure of its own: the upper end of a covered bunker", [10, 22]),
  bag: coefficient(10, "%", "from-memory", "6-14 %", [6, 14]),
  stave: coefficient(
    12.5,
    "%",
    "published",
    "tower silos 10-15 % (Lingvall, Swedish work, vendor page)",
    [10, 15],
  ),
  "oxygen-limiting": coefficient(7, "%", "assumed", "no figure of its own: under a stave silo", [4, 10]),
};

export const SILO_TERMS = {
  openPct: coefficient(22, "%", "from-memory", "a poor, uncovered bunker or pile: 20 % and more", [20, 35]),
  /** Bunker loss over 180 days = base - perLbFt3 × density in lb DM/ft³. */
  densityBasePct: coefficient(
    28.65,
    "%",
    "from-memory",
    "line through the table of Ruppel 1992 (Cornell), alfalfa, 180 days, after Holmes & Muck",
    [10, 22],
  ),
  densityPerLbFt3: coefficient(
    0.848,
    "%/(lb DM/ft³)",
    "from-memory",
    "line through the table of Ruppel 1992 (Cornell), alfalfa, 180 days, after Holmes & Muck",
    [10, 22],
  ),
  effluentFromWb: coefficient(
    0.7,
    "wb",
    "published",
    "little effluent above 30 % dry matter (Washington State University)",
    [0.65, 0.72],
  ),
  effluentPerPoint: coefficient(
    0.8,
    "%/point",
    "assumed",
    "constructed: storage loss grows from about 12 % at 70 % moisture to 20 % at 80 % (U-shaped curve, from memory)",
    [0.5, 1],
  ),
  effluentMostPct: coefficient(
    10,
    "%",
    "published",
    "corn at 20 % dry matter lost up to 10 % of its weight (Washington State University)",
    [0, 10],
  ),
} as const;

/** kg per m³ in a pound per cubic foot, exact by definition of both. */
export const KG_M3_PER_LB_FT3 = 0.45359237 / 0.3048 ** 3;

/**
 * Loss of a covered bunker over 180 days by packing density.
 *
 * @param densityKgM3 of dry matter, kg/m³; held within the table's 10-22 lb/ft³
 * @returns per cent of dry matter
 * @example bunkerDensityPct(14 * KG_M3_PER_LB_FT3) // 16.8
 */
export function bunkerDensityPct(densityKgM3: number): number {
  requireRange("bunkerDensityPct", "densityKgM3", densityKgM3, 0, 1000);
  const { densityBasePct, densityPerLbFt3 } = SILO_TERMS;
  const [lo, hi] = densityBasePct.validRange ?? [10, 22];
  const lbFt3 = Math.min(hi, Math.max(lo, densityKgM3 / KG_M3_PER_LB_FT3));
  return densityBasePct.value - densityPerLbFt3.value * lbFt3;
}

export function wrappedStorageLoss(): LossStep {
  const { value, validRange, source } = WRAPPED_STORE_LOSS;
  return {
    step: "storage",
    pct: value,
    lowPct: validRange?.[0] ?? value,
    highPct: validRange?.[1] ?? value,
    source,
  };
}

export interface SiloFilling {
  readonly store: StoreKey;
  /** As it is filled, wet basis, 0-1. Wetter never loses less. */
  readonly moistureWb: number;
  /** False where a bunker or pile lies open. */
  readonly covered?: boolean | undefined;
  /** Packing density of a bunker or pile where it is known, kg of dry matter per m³. */
  readonly densityKgM3?: number | undefined;
}

/** Storage loss of chopped feed: by store, cover, packing and the effluent of what is too wet. */
export function siloStorageLoss({ store, moistureWb, covered = true, densityKgM3 }: SiloFilling): LossStep {
  requireRange("siloStorageLoss", "moistureWb", moistureWb, 0, 1);
  const { openPct, effluentFromWb, effluentPerPoint, effluentMostPct } = SILO_TERMS;
  const heaped = store === "bunker" || store === "pile";
  const usual = SILO_LOSS[store];
  const byDensity = heaped && densityKgM3 !== undefined ? bunkerDensityPct(densityKgM3) : null;
  const packed = byDensity ?? usual.value;
  const open = heaped && !covered;
  const base = open ? Math.max(openPct.value, packed) : packed;
  const [lo, hi] = open ? (openPct.validRange ?? [base, base]) : (usual.validRange ?? [base, base]);
  const pointsWet = Math.max(0, moistureWb - effluentFromWb.value) * 100;
  const effluent = Math.min(effluentMostPct.value, effluentPerPoint.value * pointsWet);
  const source = open ? openPct.source : byDensity === null ? usual.source : SILO_TERMS.densityBasePct.source;
  return {
    step: "storage",
    pct: base + effluent,
    lowPct: Math.min(lo, base) + effluent,
    highPct: Math.max(hi, base) + effluent,
    source: effluent > 0 ? `${source}; effluent: ${effluentPerPoint.source}` : source,
  };
}
