import { type Coefficient, coefficient } from "../../coefficient.ts";
import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { Conditioning, CropKey } from "../../drying/keys.ts";
import type { LossStep } from "./loss-chain.ts";

const CUTTING =
  "cutting 1-7 % of dry matter (Alberta Agriculture, hay harvesting losses), about 2 % (New Mexico State Circular 668)";
const IMPELLER =
  "an impeller costs alfalfa 2-4 % more than rolls and grass nothing to speak of (Undersander, hay conditioners)";

/** Per cent of dry matter that stays on the stubble as dust and short pieces, legumes and the rest. */
export const MOWING_LOSS: Readonly<Record<"legume" | "other", Readonly<Record<Conditioning, Coefficient>>>> =
  {
    legume: {
      none: coefficient(2, "%", "published", CUTTING, [1, 7]),
      roll: coefficient(2.5, "%", "from-memory", `2-3 % with rolls; ${CUTTING}`, [2, 3]),
      impeller: coefficient(5, "%", "from-memory", `4-6 %; ${IMPELLER}`, [4, 6]),
      intensive: coefficient(
        6,
        "%",
        "assumed",
        "no lower than an impeller's upper end; not measured here",
        [4, 10],
      ),
    },
    other: {
      none: coefficient(1.5, "%", "from-memory", `grass 1.5 %; ${CUTTING}`, [1, 3]),
      roll: coefficient(1.5, "%", "from-memory", `grass 1.5 %; ${CUTTING}`, [1, 3]),
      impeller: coefficient(1.5, "%", "from-memory", `grass 1.5 %; ${IMPELLER}`, [1, 3]),
      intensive: coefficient(3, "%", "assumed", "twice the mower's own; not measured here", [1.5, 6]),
    },
  };

/** Loss at the mower-conditioner. Stubble that is left on purpose is no loss of this kind: see the cutting height. */
export function mowingLoss(crop: CropKey, conditioning: Conditioning): LossStep {
  const { value, validRange, source } =
    MOWING_LOSS[CROP_CATALOGUE[crop].legume ? "legume" : "other"][conditioning];
  return {
    step: "mowing",
    pct: value,
    lowPct: validRange?.[0] ?? value,
    highPct: validRange?.[1] ?? value,
    source,
  };
}
