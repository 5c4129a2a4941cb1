import type { CropKey } from "../../model/drying/keys.ts";
import { isFermented, PRUSSIC_WAIT_WEEKS, WAIT_WEEKS } from "../../model/feed/ensiling.ts";
import { WHO_DECIDES as WHO_DECIDES_OF_FEED } from "../../model/feed/who-decides.ts";
import { PRUSSIC_CROPS } from "../../model/harvest/hazards/prussic-crops.ts";
import { NITRATE_ACCUMULATORS } from "../../model/harvest/hazards/records.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import type { GateKey } from "../state/inputs.ts";

/** Short orders that stand where the decision is made, and the reasons behind them. None of them clears a feed. */
export interface Caution {
  readonly title: string;
  readonly orders: readonly string[];
  /** Said one tap below: why each order stands. */
  readonly reasons: readonly Reason[];
}

/** Why an order stands, in our words, and who says so: author, title, year. */
export interface Reason {
  readonly text: string;
  readonly source: string;
}

const because = (text: string, source: string): Reason => ({ text, source });

const FOR_INSURER = because(
  "An insured crop that is cut before the adjuster has seen it may no longer count.",
  "University of Missouri, Check with your crop insurance agent before you cut, no year; Pennsylvania, Guidance on crop insurance, 2012",
);
const FOR_LABELS = because(
  "A label can forbid harvest or feeding for days or weeks after the last spray, on this crop and on the one before.",
  "University of Nebraska, Forage, feed and grazing restrictions, 2012",
);
const FOR_NITRATE = because(
  "A crop under drought, cloud, frost or much nitrogen can hold nitrate, most of it low in the stem. Only a laboratory can tell how much.",
  "USDA-ARS and University of Nebraska, Nitrate distribution in corn stalks, 2001; Iowa State University, Nitrate potential in drought-stricken corn, 2005",
);
const FOR_PRUSSIC_ACID = because(
  "Sorghum types can also hold prussic acid, above all young regrowth and after frost. Ask the laboratory for both.",
  "Ontario Forage Network, Frost injury in sorghum species, 2024; Kansas State University, Test to prevent nitrate and prussic acid poisoning, no year",
);

/** A question, or what stands in its place once its tick is set at the gate: never more than that somebody ticked it. */
function asked(question: string, key: GateKey, settled: readonly GateKey[]): string {
  return settled.includes(key) ? `${question.replace(/\?$/, "")}: ticked.` : question;
}

/** Nitrate and prussic acid in one order: what is ticked of the two, and what is still asked. */
function bothSampled(settled: readonly GateKey[]): string {
  const [nitrate, prussic] = [settled.includes("nitrate"), settled.includes("prussic-acid")];
  if (nitrate === prussic) return asked("Nitrate and prussic acid sampled?", "nitrate", settled);
  return nitrate ? "Prussic acid sampled? (Nitrate: ticked.)" : "Nitrate sampled? (Prussic acid: ticked.)";
}

/**
 * Crops that are of the sorghum kind are sampled for two things.
 *
 * @param settled what is ticked at the gate, so that the two never contradict each other
 */
export function beforeCutting(crop: CropKey, settled: readonly GateKey[] = []): Caution {
  const two = PRUSSIC_CROPS.includes(crop);
  const nitrate = NITRATE_ACCUMULATORS.includes(crop)
    ? "Nitrate sampled?"
    : "Nitrate sampled, if the crop was stressed?";
  return {
    title: "Before cutting",
    orders: [
      asked("Insurer or adjuster told?", "insurer", settled),
      asked("Harvest intervals on every label read?", "label", settled),
      two ? bothSampled(settled) : asked(nitrate, "nitrate", settled),
    ],
    reasons: [FOR_INSURER, FOR_LABELS, FOR_NITRATE, ...(two ? [FOR_PRUSSIC_ACID] : [])],
  };
}

const waitOrder = (weeks: number) => `Wait ${weeks} weeks, test, then decide on feeding.`;

/** A route's orders for a crop: fermented sorghum types wait for their prussic acid, which is longer. */
export function routeCaution(route: RouteKey, crop: CropKey): Caution {
  const caution = ROUTE_CAUTIONS[route];
  if (!PRUSSIC_CROPS.includes(crop) || !isFermented(route)) return caution;
  const longer = waitOrder(PRUSSIC_WAIT_WEEKS.value);
  const waits = caution.orders.some((order) => order.startsWith("Wait "));
  const orders = waits
    ? caution.orders.map((order) => (order.startsWith("Wait ") ? longer : order))
    : [...caution.orders, longer];
  return {
    ...caution,
    orders,
    reasons: [
      ...caution.reasons,
      because(
        `Prussic acid of sorghum types falls slowly in store: sources wait 4 to ${PRUSSIC_WAIT_WEEKS.value} weeks, the longest counts.`,
        "Kansas State University, Test to prevent nitrate and prussic acid poisoning, no year; Ontario Forage Network, Frost injury in sorghum species, 2024",
      ),
    ],
  };
}

const SILO: Caution = {
  title: "Before chopping",
  orders: ["Silo gas: stay out of the silo for 3 weeks.", "Test at feeding, not only at harvest."],
  reasons: [
    because(
      "Gas from fresh silage kills without warning, most in the first days, and lies low beside and below the silo too.",
      "Penn State University, Silo gas poisoning more likely during drought, no year",
    ),
    because(
      "Fermenting may lower nitrate, but by an amount that nobody can tell beforehand.",
      "Ohio State University, reported in Got nitrates?, 2012; Penn State University, High nitrate potential in corn silage, no year",
    ),
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
      because(
        "Drying takes no nitrate away. Bales of one field differ: a core from several bales of each lot goes to the laboratory.",
        "Oklahoma State University, Awareness and management key to mitigating nitrate toxicity, 2020; University of California, Recommended principles for proper hay sampling, no year",
      ),
      because(
        "Hay baled too damp heats over days and weeks, and can take fire. A rising probe is a matter for the fire service.",
        "Purdue University, hay moisture and fires, 2024; University of Kentucky, Temperature checking hay can keep fires at bay, 2004",
      ),
    ],
  },
  "wrapped-bales": {
    title: "Before wrapping",
    orders: [
      "Wrap within 12 h of baling.",
      waitOrder(WAIT_WEEKS["wrapped-bales"].value),
      "Not for horses without veterinary advice.",
    ],
    reasons: [
      because(
        "Unwrapped damp bales heat, and air left in them spoils them.",
        "University of Arkansas, Baled silage and moisture guidelines, 2020",
      ),
      because(
        "Until fermenting is over a test says little of what will be fed.",
        "Ohio State University, Round bale silage, 1995",
      ),
      because(
        "Wrapped bales can carry botulism, to which horses are most open.",
        "University of Kentucky, Avoiding botulism in spring round baled silage, 2020; University of Minnesota, Feeding baleage to horses, 2019",
      ),
    ],
  },
  "wilted-chop": SILO,
  "direct-chop": SILO,
  "green-chop": {
    title: "Before green chop",
    orders: ["Laboratory nitrate result first.", "Never hold it overnight."],
    reasons: [
      because(
        "Nothing lowers nitrate or prussic acid between the field and the animal. After every rain that ends a drought it may rise again.",
        "Ohio State University, Potential for nitrate problems in drought-stressed corn, 2020",
      ),
      because(
        "In a warm heap nitrate turns to nitrite, which is more poisonous. What is warm or over 4 hours in the wagon is thrown away.",
        "University of Missouri, reported in Drought-stricken corn can be grazed with caution, 2005; the 4 hours from memory",
      ),
    ],
  },
  grazing: {
    title: "Before grazing",
    orders: ["Laboratory nitrate result first.", "Fill the animals first.", "Stock lightly."],
    reasons: [
      because(
        "Hungry animals eat fast and take in more at once.",
        "Kansas State University, nitrate and prussic acid poisoning, part two, 2022",
      ),
      because(
        "Where they are few they leave the stems, which hold most of the nitrate. Wait after frost, and after rain that ends a drought.",
        "University of Nebraska, reported in Managing high-nitrate feed, no year",
      ),
    ],
  },
};

export const WHO_DECIDES = `Swathclock tells when machines can work. ${WHO_DECIDES_OF_FEED}`;
