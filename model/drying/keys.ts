/** The words that requests and answers use for crops, treatments and ground. */

export const CROPS = [
  "alfalfa",
  "red-clover",
  "cool-season-grass",
  "ryegrass",
  "small-grain-boot",
  "small-grain-dough",
  "sudangrass",
  "sorghum-sudan",
  "forage-sorghum",
  "pearl-millet",
  "corn",
  "drought-corn",
] as const;
export type CropKey = (typeof CROPS)[number];

export const CONDITIONINGS = ["none", "roll", "impeller", "intensive"] as const;
export type Conditioning = (typeof CONDITIONINGS)[number];

export const SOIL_CLASSES = ["dry", "moist", "wet"] as const;
export type SoilClass = (typeof SOIL_CLASSES)[number];

export const OPERATION_KINDS = ["ted", "rake", "invert"] as const;
export type OperationKind = (typeof OPERATION_KINDS)[number];
