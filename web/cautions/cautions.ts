import type { CropKey } from "../../model/drying/keys.ts";
import type { RouteKey } from "../../model/harvest/index.ts";

/** Short orders that stand where the decision is made. None of them clears a feed. */
export interface Caution {
  readonly title: string;
  readonly orders: readonly string[];
}

/** Sorghum types can hold prussic acid as well as nitrate. */
const PRUSSIC_ACID: readonly CropKey[] = ["sudangrass", "sorghum-sudan", "forage-sorghum"];

export function beforeCutting(crop: CropKey): Caution {
  const sampled = PRUSSIC_ACID.includes(crop)
    ? "Nitrate and prussic acid sampled?"
    : "Nitrate sampled, if the crop was stressed?";
  return {
    title: "Before cutting",
    orders: ["Insurer or adjuster told?", "Harvest intervals on every label read?", sampled],
  };
}

export const ROUTE_CAUTIONS: Readonly<Record<RouteKey, Caution>> = {
  "dry-hay": {
    title: "Before baling hay",
    orders: [
      "Hay keeps the nitrate it was cut with.",
      "Core and test each lot.",
      "Probe for heating daily until it is steady.",
    ],
  },
  "wrapped-bales": {
    title: "Before wrapping",
    orders: [
      "Wrap within 12 h of baling.",
      "Wait 6 weeks, test, then decide on feeding.",
      "Not for horses without veterinary advice.",
    ],
  },
  "wilted-chop": {
    title: "Before chopping",
    orders: ["Silo gas: stay out of the silo for 3 weeks.", "Test at feeding, not only at harvest."],
  },
  "direct-chop": {
    title: "Before chopping",
    orders: ["Silo gas: stay out of the silo for 3 weeks.", "Test at feeding, not only at harvest."],
  },
  "green-chop": {
    title: "Before green chop",
    orders: ["Laboratory nitrate result first.", "Never hold it overnight."],
  },
  grazing: {
    title: "Before grazing",
    orders: ["Laboratory nitrate result first.", "Fill the animals first.", "Stock lightly."],
  },
};

export const WHO_DECIDES =
  "Swathclock tells when machines can work. Whether a feed may be fed is for a laboratory, your veterinarian, the label and your extension service.";
