import { type Coefficient, coefficient, type Origin } from "../coefficient.ts";
import type { CropKey } from "./keys.ts";

/** What the model needs to know of a crop. Values are from memory or derived with low confidence: see `source`. */
export interface Crop {
  readonly label: string;
  /** Share of dry matter in leaf, husk and thin tops, 0-1. */
  readonly leafShare: number;
  /** Stem diameter that counts for drying, mm. */
  readonly stemMm: number;
  /** Rate of the leaf against alfalfa leaf. */
  readonly leafEase: number;
  /** Leaf moisture over stem moisture at cutting, dry basis. */
  readonly leafToStemDb: number;
  /** Coarse stems follow the stalk isotherm and take up less rain. */
  readonly coarseStem: boolean;
  /** Legume leaf shatters when dry. */
  readonly legume: boolean;
  /** Usual moisture at cutting, wet basis. */
  readonly usualMoistureWb: number;
  /** Usual stubble, cm. */
  readonly usualStubbleCm: number;
  /** Rate against conditioned alfalfa in the second opinions. */
  readonly opinionFactor: number;
  readonly source: string;
}

const LOW = "ranges from memory and derived, low confidence";

export const CROP_CATALOGUE: Readonly<Record<CropKey, Crop>> = {
  alfalfa: crop(
    "Alfalfa",
    0.5,
    3,
    1,
    0.85,
    false,
    true,
    0.78,
    8,
    1,
    "leaf share and stem: field literature; fitted rows are alfalfa",
  ),
  "red-clover": crop("Red clover", 0.5, 3.5, 0.9, 0.9, false, true, 0.8, 8, 0.85, LOW),
  "cool-season-grass": crop("Cool-season grass", 0.6, 2.5, 1.05, 0.9, false, false, 0.78, 8, 1, LOW),
  ryegrass: crop(
    "Ryegrass",
    0.65,
    2.8,
    0.95,
    0.95,
    false,
    false,
    0.81,
    8,
    0.9,
    `${LOW}; a published x0.5 against tall fescue is a laboratory handicap that shrinks in a swath`,
  ),
  "small-grain-boot": crop("Small grain, boot", 0.5, 4, 1, 0.9, false, false, 0.8, 10, 0.9, LOW),
  "small-grain-dough": crop("Small grain, dough", 0.45, 3.5, 1, 0.8, false, false, 0.62, 10, 0.95, LOW),
  sudangrass: crop("Sudangrass", 0.45, 6.5, 1, 0.8, false, false, 0.82, 18, 0.5, LOW),
  "sorghum-sudan": crop("Sorghum-sudan", 0.42, 11, 1, 0.75, true, false, 0.82, 20, 0.3, LOW),
  "forage-sorghum": crop("Forage sorghum", 0.38, 13, 1, 0.7, true, false, 0.72, 20, 0.25, LOW),
  "pearl-millet": crop("Pearl millet", 0.42, 10, 1, 0.75, true, false, 0.82, 20, 0.3, LOW),
  corn: crop("Corn", 0.4, 20, 1, 0.7, true, false, 0.75, 25, 0.2, LOW),
  "drought-corn": crop(
    "Drought-struck corn",
    0.45,
    11,
    1,
    0.9,
    true,
    false,
    0.8,
    30,
    0.25,
    "derived from 86 -> 70 % wb in hours and 7-10 days to hay: an effective stem of 10-12 mm (stunted, cut high)",
  ),
};

function crop(
  label: string,
  leafShare: number,
  stemMm: number,
  leafEase: number,
  leafToStemDb: number,
  coarseStem: boolean,
  legume: boolean,
  usualMoistureWb: number,
  usualStubbleCm: number,
  opinionFactor: number,
  source: string,
): Crop {
  return {
    label,
    leafShare,
    stemMm,
    leafEase,
    leafToStemDb,
    coarseStem,
    legume,
    usualMoistureWb,
    usualStubbleCm,
    opinionFactor,
    source,
  };
}

type CropNumber =
  | "leafShare"
  | "stemMm"
  | "leafEase"
  | "leafToStemDb"
  | "usualMoistureWb"
  | "usualStubbleCm"
  | "opinionFactor";

/** Where each kind of number comes from, with the range believed over all crops. */
const CROP_NUMBERS: Readonly<
  Record<CropNumber, readonly [string, Origin, string, readonly [number, number]]>
> = {
  leafShare: [
    "-",
    "from-memory",
    "leaf share of dry matter: alfalfa about 0.5, grass 0.4-0.7, tall annuals 0.35-0.5",
    [0.3, 0.7],
  ],
  stemMm: ["mm", "from-memory", "sudangrass 5-8, sorghum-sudan 8-15, corn 18-25 mm, alfalfa 3", [2, 25]],
  leafEase: [
    "-",
    "assumed",
    "grass a little faster, clover and ryegrass a little slower than alfalfa leaf",
    [0.8, 1.2],
  ],
  leafToStemDb: ["-", "assumed", "leaves are drier than stems at cutting, most so in tall crops", [0.5, 1]],
  usualMoistureWb: ["wb", "from-memory", "usual moisture at cutting; alfalfa 72-80 published", [0.55, 0.86]],
  usualStubbleCm: ["cm", "from-memory", "7-10 cm, 20-30 cm for coarse annuals", [5, 40]],
  opinionFactor: [
    "-",
    "assumed",
    "suggested species factor on conditioned alfalfa, low confidence",
    [0.1, 1.2],
  ],
};

/** Numbers of one crop that have another origin than their kind. */
const CROP_EXCEPTIONS: Readonly<
  Partial<Record<CropKey, Partial<Record<CropNumber, readonly [Origin, string]>>>>
> = {
  "drought-corn": {
    stemMm: [
      "fitted",
      "an effective stem: fitted with the coarse-stem coefficients to 86 -> 70 % in hours and 7-10 days to hay",
    ],
    usualMoistureWb: [
      "published",
      "over 70 % though the leaves are brown; practice without a source says 85-90 %: measure it",
    ],
  },
};

/** Every number of a crop as a record. */
export function cropRecords(key: CropKey): Readonly<Record<CropNumber, Coefficient>> {
  const records = Object.entries(CROP_NUMBERS).map(([name, [unit, origin, source, range]]) => {
    const [ownOrigin, ownSource] = CROP_EXCEPTIONS[key]?.[name as CropNumber] ?? [origin, source];
    return [name, coefficient(CROP_CATALOGUE[key][name as CropNumber], unit, ownOrigin, ownSource, range)];
  });
  return Object.fromEntries(records) as Record<CropNumber, Coefficient>;
}
