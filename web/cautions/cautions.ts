import type { CropKey } from "../../model/drying/keys.ts";
import { PRUSSIC_CROPS } from "../../model/harvest/hazards/prussic-crops.ts";
import type { RouteKey } from "../../model/harvest/index.ts";

/** Short orders that stand where the decision is made, and the reasons behind them. None of them clears a feed. */
export interface Caution {
  readonly title: string;
  readonly orders: readonly string[];
  /** Said one tap below: why each order stands. */
  readonly reasons: readonly string[];
}

const FOR_INSURER = "An insured crop that is cut before the adjuster has seen it may no longer count.";
const FOR_LABELS =
  "A label can forbid harvest or feeding for days or weeks after the last spray, on this crop and on the one before.";
const FOR_NITRATE =
  "A crop under drought, cloud, frost or much nitrogen can hold nitrate, most of it low in the stem. Only a laboratory can tell how much.";
const FOR_PRUSSIC_ACID =
  "Sorghum types can also hold prussic acid, above all young regrowth and after frost. Ask the laboratory for both.";

/** Crops that are of the sorghum kind are sampled for two things. */
export function beforeCutting(crop: CropKey): Caution {
  const two = PRUSSIC_CROPS.includes(crop);
  return {
    title: "Before cutting",
    orders: [
      "Insurer or adjuster told?",
      "Harvest intervals on every label read?",
      two
        ? "Nitrate and prussic acid sampled?"
        : crop === "drought-corn"
          ? "Nitrate sampled?"
          : "Nitrate sampled, if the crop was stressed?",
    ],
    reasons: [FOR_INSURER, FOR_LABELS, FOR_NITRATE, ...(two ? [FOR_PRUSSIC_ACID] : [])],
  };
}

const SILO: Caution = {
  title: "Before chopping",
  orders: ["Silo gas: stay out of the silo for 3 weeks.", "Test at feeding, not only at harvest."],
  reasons: [
    "Gas from fresh silage kills without warning, most in the first days, and lies low beside and below the silo too.",
    "Fermenting may lower nitrate, but by an amount that nobody can tell beforehand.",
  ],
};

export const ROUTE_CAUTIONS: Readonly<Record<RouteKey, Caution>> = {
  "dry-hay": {
    title: "Before baling hay",
    orders: [
      "Hay keeps the nitrate it was cut with.",
      "Core and test each lot.",
      "Probe for heating daily until it is steady.",
    ],
    reasons: [
      "Drying takes no nitrate away. Bales of one field differ: a core from several bales of each lot goes to the laboratory.",
      "Hay baled too damp heats over days and weeks, and can take fire. A rising probe is a matter for the fire service.",
    ],
  },
  "wrapped-bales": {
    title: "Before wrapping",
    orders: [
      "Wrap within 12 h of baling.",
      "Wait 6 weeks, test, then decide on feeding.",
      "Not for horses without veterinary advice.",
    ],
    reasons: [
      "Unwrapped damp bales heat, and air left in them spoils them.",
      "Until fermenting is over a test says little of what will be fed.",
      "Wrapped bales can carry botulism, to which horses are most open.",
    ],
  },
  "wilted-chop": SILO,
  "direct-chop": SILO,
  "green-chop": {
    title: "Before green chop",
    orders: ["Laboratory nitrate result first.", "Never hold it overnight."],
    reasons: [
      "Nothing lowers nitrate or prussic acid between the field and the animal. After every rain that ends a drought it may rise again.",
      "In a warm heap nitrate turns to nitrite, which is more poisonous. What is warm or over 4 hours in the wagon is thrown away.",
    ],
  },
  grazing: {
    title: "Before grazing",
    orders: ["Laboratory nitrate result first.", "Fill the animals first.", "Stock lightly."],
    reasons: [
      "Hungry animals eat fast and take in more at once.",
      "Where they are few they leave the stems, which hold most of the nitrate. Wait after frost, and after rain that ends a drought.",
    ],
  },
};

export const WHO_DECIDES =
  "Swathclock tells when machines can work. Whether a feed may be fed is for a laboratory, your veterinarian, the label and your extension service.";
