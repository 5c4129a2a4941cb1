import type { CropKey } from "../../model/drying/keys.ts";
import { within } from "../../model/limits.ts";
import { FIELD_LIMITS, type LimitedField } from "../state/field-limits.ts";
import type { Inputs } from "../state/inputs.ts";
import type { ReadInputs } from "../state/read-inputs.ts";
import { typedValue } from "../state/typed.ts";
import { type FirstLimit, firstLimit } from "./first-limit.ts";

/** What the fields of the page say of this field, each null where it is empty or wrong. */
export interface FieldFacts {
  readonly crop: CropKey;
  readonly dryMatterTHa: number | null;
  readonly stubbleCm: number | null;
  readonly areaHa: number | null;
  readonly dailyNeedKgDm: number | null;
  readonly plantHeightCm: number | null;
  /** Laboratory result, ppm NO3-N of dry matter; null = not tested, which is treated as suspect. */
  readonly nitratePpm: number | null;
  /** The same of prussic acid, ppm of dry matter: asked of sorghum types alone. */
  readonly prussicPpm: number | null;
  readonly limit: FirstLimit;
}

export function factsOf(inputs: Inputs, read: Pick<ReadInputs, "yieldEstimate">): FieldFacts {
  const number = (field: LimitedField) => {
    const value = typedValue(field, inputs.texts[field]);
    return value !== null && within(value, FIELD_LIMITS[field]) ? value : null;
  };
  return {
    crop: inputs.crop,
    dryMatterTHa: read.yieldEstimate?.dryMatterTHa ?? null,
    stubbleCm: number("stubbleCm"),
    areaHa: number("areaHa"),
    dailyNeedKgDm: number("dailyNeedKgDm"),
    plantHeightCm: number("plantHeightCm"),
    nitratePpm: number("nitratePpm"),
    prussicPpm: number("prussicPpm"),
    limit: firstLimit(),
  };
}
