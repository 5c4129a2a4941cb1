import { SWATH_LIMITS } from "../../model/drying/index.ts";
import {
  type YieldEstimate,
  yieldOfBales,
  yieldOfBarrenCorn,
  yieldOfStrip,
} from "../../model/harvest/index.ts";
import { within } from "../../model/limits.ts";
import { quantityText } from "../format/manner.ts";
import type { FieldReader } from "./field-reader.ts";
import type { Inputs, TextField } from "./inputs.ts";

/** Height tells the yield of corn alone: no rule is published for other crops. */
export function heightTells(crop: Inputs["crop"]): boolean {
  return crop === "corn" || crop === "drought-corn";
}

function byBales(reader: FieldReader): YieldEstimate | undefined {
  const balesPerHa = reader.limited("balesPerHa");
  const baleKg = reader.limited("baleKg");
  const moisturePct = reader.limited("baleMoisturePct");
  if (balesPerHa === undefined || baleKg === undefined || moisturePct === undefined) return undefined;
  return yieldOfBales(balesPerHa, baleKg, moisturePct / 100);
}

function byStrip(reader: FieldReader, moistureWb: number | undefined): YieldEstimate | undefined {
  const lengthM = reader.limited("stripLengthM");
  const widthM = reader.limited("stripWidthM");
  const freshKg = reader.limited("stripFreshKg");
  if (lengthM === undefined || widthM === undefined || freshKg === undefined || moistureWb === undefined)
    return undefined;
  return yieldOfStrip(lengthM, widthM, freshKg, moistureWb);
}

function byHeight(reader: FieldReader): YieldEstimate | undefined {
  if (!heightTells(reader.inputs.crop)) {
    reader.errors.plantHeightCm = "Height tells the yield of corn without grain only; weigh a strip instead.";
    return undefined;
  }
  const heightCm = reader.limited("plantHeightCm");
  return heightCm === undefined ? undefined : yieldOfBarrenCorn(heightCm);
}

/** Where the yield comes out impossible, the field that is most likely wrong. */
const SUSPECT = {
  bales: "balesPerHa",
  strip: "stripFreshKg",
  height: "plantHeightCm",
} as const satisfies Record<string, TextField>;

/**
 * The yield by the way that was chosen; undefined where something is wrong, which then stands beside its field.
 *
 * @param moistureWb moisture of the standing crop; undefined where it cannot be read
 */
export function readYield(reader: FieldReader, moistureWb: number | undefined): YieldEstimate | undefined {
  const { yieldBy } = reader.inputs;
  if (yieldBy === "tonnes") {
    const dryMatterTHa = reader.limited("yieldTHa");
    return dryMatterTHa === undefined ? undefined : { dryMatterTHa, rangeTHa: null, tooHigh: false };
  }
  const estimate =
    yieldBy === "bales"
      ? byBales(reader)
      : yieldBy === "strip"
        ? byStrip(reader, moistureWb)
        : byHeight(reader);
  if (estimate === undefined || within(estimate.dryMatterTHa, SWATH_LIMITS.dryMatterTHa)) return estimate;
  const field = SUSPECT[yieldBy];
  const units = reader.unitsOf(field);
  const got = quantityText(estimate.dryMatterTHa, "dryMatterYield", { units, locale: reader.locale });
  reader.errors[field] =
    `Comes to ${got} of dry matter, ${reader.limitText(SWATH_LIMITS.dryMatterTHa, "yieldTHa", units)}.`;
  return undefined;
}
