import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import type { CropKey } from "../../model/drying/keys.ts";
import { DEMO_INPUTS, type Inputs } from "./inputs.ts";
import { heightTells } from "./read-yield.ts";
import { hasUsualRoutes, withUsualRoutes } from "./routes-of-crop.ts";
import { typedValue } from "./typed.ts";

/** What a crop is usually cut at, in the fields' own units: per cent and centimetres. */
function usualOf(crop: CropKey): Readonly<Record<"moisturePct" | "stubbleCm", number>> {
  const { usualMoistureWb, usualStubbleCm } = CROP_CATALOGUE[crop];
  return { moisturePct: Math.round(usualMoistureWb * 1000) / 10, stubbleCm: usualStubbleCm };
}

/**
 * Another crop in the field. Moisture, stubble and routes follow it as long as they are still the usual ones of the crop
 * before: what somebody chose stays.
 */
export function withCrop(inputs: Inputs, crop: CropKey): Inputs {
  const [before, after] = [usualOf(inputs.crop), usualOf(crop)];
  const isUsual = (field: keyof typeof before) => {
    const value = typedValue(field, inputs.texts[field]);
    return value !== null && Math.abs(value - before[field]) < 0.05;
  };
  const follow = (field: keyof typeof before) =>
    isUsual(field) ? { text: String(after[field]), units: "metric" as const } : inputs.texts[field];
  return {
    ...inputs,
    crop,
    routes: hasUsualRoutes(inputs.routes, inputs.crop) ? withUsualRoutes(inputs.routes, crop) : inputs.routes,
    // What was settled for one crop is not settled for another.
    settled: crop === inputs.crop ? inputs.settled : [],
    // Height tells the yield of corn alone: another crop is asked for its weight again.
    yieldBy: inputs.yieldBy === "height" && !heightTells(crop) ? "tonnes" : inputs.yieldBy,
    texts: {
      ...inputs.texts,
      moisturePct: follow("moisturePct"),
      stubbleCm: follow("stubbleCm"),
      nitratePpm: crop === inputs.crop ? inputs.texts.nitratePpm : { text: "", units: "metric" },
      prussicPpm: crop === inputs.crop ? inputs.texts.prussicPpm : { text: "", units: "metric" },
    },
  };
}

/** What a page starts from with a crop: the demonstration's field, grown with it. */
export function demoWith(crop: CropKey): Inputs {
  return crop === DEMO_INPUTS.crop ? DEMO_INPUTS : withCrop(DEMO_INPUTS, crop);
}
