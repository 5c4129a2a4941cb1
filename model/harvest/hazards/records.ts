import { type Coefficient, coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import type { RouteKey } from "../keys.ts";

/** What the hazard calendar counts by. Each wait is the stricter of its sources; the spread stands in the record. */

/** Crops that take up more nitrate than they use when growth is checked. Legumes stay low (Purdue University). */
export const NITRATE_ACCUMULATORS: readonly CropKey[] = [
  "sudangrass",
  "sorghum-sudan",
  "forage-sorghum",
  "pearl-millet",
  "corn",
  "drought-corn",
  "small-grain-boot",
  "small-grain-dough",
];

export const NITRATE_CLOCK = {
  /** Rain within 24 h that restarts growth, and the clock. */
  restartRainMm: coefficient(
    6,
    "mm in 24 h",
    "assumed",
    "about a quarter of an inch; no source gives an amount",
    [3, 15],
  ),
  /** Days without such a rain that count as drought where nobody has said. */
  droughtDays: coefficient(
    14,
    "d",
    "assumed",
    "two weeks; what counts is whether the crop had stopped growing",
    [7, 21],
  ),
  firstDays: coefficient(
    5,
    "d",
    "published",
    "3-5 days (Penn State), at least 5 (University of Illinois, reported); then test again",
    [3, 5],
  ),
  middleDays: coefficient(
    7,
    "d",
    "published",
    "7-10 days (Oklahoma State, 2020), 7-14 (Kansas State column, 2022)",
    [7, 10],
  ),
  longDays: coefficient(
    14,
    "d",
    "published",
    "7-14 days (Kansas State column, 2022), one to two weeks (Ohio State, 2020)",
    [7, 14],
  ),
  injuryPeakDays: coefficient(
    4,
    "d",
    "published",
    "nitrate peaks about 4 days after frost or hail (Alberta and Saskatchewan specialists, reported)",
    null,
  ),
  injuryDays: coefficient(
    14,
    "d",
    "published",
    "normal again 12-14 days after the injury if the plant grows again; killed plants do not recover (same)",
    [12, 14],
  ),
  dullHours: coefficient(
    48,
    "h",
    "published",
    "two days of 66 % shade raised stalk nitrate (Diurnal, shade, and hybrid effects on nitrate content of young corn stalks)",
    null,
  ),
  dullCloudFrac: coefficient(
    0.8,
    "of the sky",
    "assumed",
    "mean cloud by day that shades like the trial's cloth; chosen, not measured",
    [0.7, 0.95],
  ),
} as const;

export const FROST = {
  /** Air at 2 m. On a clear calm night the ground may freeze while this still reads 2-3 °C: look at the crop. */
  lightC: coefficient(
    0,
    "°C",
    "from-memory",
    "air at 2 m; the crop may freeze while it still reads 2-3 °C",
    [0, 3],
  ),
  killingC: coefficient(
    -2.2,
    "°C",
    "from-memory",
    "28 °F for some hours kills the tops of sorghum types",
    [-4, -1],
  ),
  killingHours: coefficient(3, "h", "from-memory", "a few hours at or below it", [1, 5]),
} as const;

const GRAZED =
  "5-6 days (Texas A&M, reported; Ag Proud), 7 days (Kansas State eUpdate): the longest computes";
const STORED =
  "3-5 days after a killing frost, then full fermentation (Ontario Forage Network, 2024): the longest computes";

/** Days after a frost before the sorghum family is taken by a route. The count begins again with each frost. */
export const FROST_WAIT_DAYS: Readonly<Record<RouteKey, Coefficient>> = {
  grazing: coefficient(7, "d", "published", GRAZED, [5, 7]),
  "green-chop": coefficient(7, "d", "published", GRAZED, [5, 7]),
  "wrapped-bales": coefficient(5, "d", "published", STORED, [3, 5]),
  "wilted-chop": coefficient(5, "d", "published", STORED, [3, 5]),
  "direct-chop": coefficient(5, "d", "published", STORED, [3, 5]),
  "dry-hay": coefficient(
    7,
    "d",
    "assumed",
    "no source gives a wait for hay; bound prussic acid was stable through 1-10 weeks of storage (Kansas State): test it",
    [0, 7],
  ),
};

/** Days after growth restarts (rain after drought, shoots after frost) before new growth is taken fresh. */
export const REGROWTH_DAYS = coefficient(
  14,
  "d",
  "published",
  "two weeks after growth restarts (Texas A&M, reported in Prussic acid alert)",
  null,
);

const HEIGHTS = "Texas A&M, reported; Ag Proud, Reducing the potential of prussic acid poisoning";
const CM_PER_IN = 2.54;

/** Height under which new growth of a sorghum type is not to be grazed or chopped fresh, cm. */
export const LEAST_HEIGHT_CM: Readonly<Partial<Record<CropKey, Coefficient>>> = {
  sudangrass: coefficient(24 * CM_PER_IN, "cm", "published", `18-24 in: ${HEIGHTS}`, [
    18 * CM_PER_IN,
    24 * CM_PER_IN,
  ]),
  "sorghum-sudan": coefficient(30 * CM_PER_IN, "cm", "published", `24-30 in: ${HEIGHTS}`, [
    24 * CM_PER_IN,
    30 * CM_PER_IN,
  ]),
  "forage-sorghum": coefficient(30 * CM_PER_IN, "cm", "published", `24-30 in: ${HEIGHTS}`, [
    24 * CM_PER_IN,
    30 * CM_PER_IN,
  ]),
};
