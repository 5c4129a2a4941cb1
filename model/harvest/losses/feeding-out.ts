import { type Coefficient, coefficient } from "../../coefficient.ts";
import type { RouteKey } from "../keys.ts";
import type { LossStep } from "./loss-chain.ts";

/** How stored or fresh feed is given. */
export const FEEDINGS = ["bunk", "ring-feeder", "on-ground"] as const;
export type FeedingKey = (typeof FEEDINGS)[number];

const MEMORY = "from memory, no source at hand: see what your own animals leave";

/** Per cent of dry matter trampled, sorted out or spoiled between the store and the mouth. */
export const FEEDING_LOSS: Readonly<Record<"hay" | "fermented", Readonly<Record<FeedingKey, Coefficient>>>> =
  {
    hay: {
      bunk: coefficient(3, "%", "from-memory", MEMORY, [1, 6]),
      "ring-feeder": coefficient(6, "%", "from-memory", MEMORY, [3, 15]),
      "on-ground": coefficient(20, "%", "from-memory", MEMORY, [10, 40]),
    },
    fermented: {
      bunk: coefficient(3, "%", "from-memory", MEMORY, [1, 8]),
      "ring-feeder": coefficient(6, "%", "from-memory", MEMORY, [3, 15]),
      "on-ground": coefficient(20, "%", "from-memory", MEMORY, [10, 40]),
    },
  };

/** Of what stood above the residual height: trampled, soiled, refused. */
export const GRAZING_LOSS: Readonly<Record<"daily-strips" | "strips-of-days" | "set-stocked", Coefficient>> =
  {
    "daily-strips": coefficient(20, "%", "from-memory", `daily strips: ${MEMORY}`, [10, 30]),
    "strips-of-days": coefficient(30, "%", "from-memory", `strips of two to four days: ${MEMORY}`, [20, 45]),
    "set-stocked": coefficient(50, "%", "from-memory", `the whole field at once: ${MEMORY}`, [35, 65]),
  };
export type GrazingKey = keyof typeof GRAZING_LOSS;

/** What a route is usually fed with: bales in a ring, chopped feed in a bunk. */
export function usualFeeding(route: RouteKey): FeedingKey {
  return route === "dry-hay" || route === "wrapped-bales" ? "ring-feeder" : "bunk";
}

function step(key: LossStep["step"], { value, validRange, source }: Coefficient): LossStep {
  return {
    step: key,
    pct: value,
    lowPct: validRange?.[0] ?? value,
    highPct: validRange?.[1] ?? value,
    source,
  };
}

export function feedingLoss(route: RouteKey, feeding: FeedingKey): LossStep {
  return step("feeding-out", FEEDING_LOSS[route === "dry-hay" ? "hay" : "fermented"][feeding]);
}

export function grazingLoss(how: GrazingKey): LossStep {
  return step("grazing", GRAZING_LOSS[how]);
}
