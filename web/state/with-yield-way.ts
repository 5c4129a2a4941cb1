import { yieldOfBarrenCorn } from "../../model/harvest/index.ts";
import { within } from "../../model/limits.ts";
import { FIELD_LIMITS, type LimitedField } from "./field-limits.ts";
import type { Inputs, Typed, YieldWay } from "./inputs.ts";
import { readInputs } from "./read-inputs.ts";
import { typedValue } from "./typed.ts";

/** A strip to begin with, m, and the dry matter of a common round bale, kg: from memory, to be replaced by what was measured. */
const STRIP_M = { length: 10, width: 2 } as const;
const BALE_DM_KG = 300;
const KG_PER_T = 1000;
const M2_PER_HA = 10_000;
/** Digits with which a start value is written: the yield stays the same to a thousandth. */
const DIGITS = 4;

type Texts = Partial<Record<LimitedField, Typed>>;

/** A start value for a field, or nothing where its limits do not hold it: the field then stays as it is. */
function started(field: LimitedField, value: number): Texts {
  const text = String(Number(value.toPrecision(DIGITS)));
  return within(Number(text), FIELD_LIMITS[field]) ? { [field]: { text, units: "metric" } } : {};
}

/** What stands in a field where it can be used, else something to begin with. */
function kept(inputs: Inputs, field: LimitedField, otherwise: number): number {
  const value = typedValue(field, inputs.texts[field]);
  return value !== null && within(value, FIELD_LIMITS[field]) ? value : Math.round(otherwise);
}

function textsOf(inputs: Inputs, way: YieldWay, tHa: number, moistureWb: number): Texts {
  switch (way) {
    case "tonnes":
      return started("yieldTHa", tHa);
    case "bales": {
      const dryShare = 1 - kept(inputs, "baleMoisturePct", 16) / 100;
      const kg = kept(inputs, "baleKg", BALE_DM_KG / dryShare);
      const bales = started("balesPerHa", (tHa * KG_PER_T) / (kg * dryShare));
      return "balesPerHa" in bales ? { ...filled(inputs, "baleKg", kg), ...bales } : {};
    }
    case "strip": {
      const length = kept(inputs, "stripLengthM", STRIP_M.length);
      const width = kept(inputs, "stripWidthM", STRIP_M.width);
      const freshKg = (tHa * KG_PER_T * length * width) / (M2_PER_HA * (1 - moistureWb));
      const fresh = started("stripFreshKg", freshKg);
      if (!("stripFreshKg" in fresh)) return {};
      return { ...filled(inputs, "stripLengthM", length), ...filled(inputs, "stripWidthM", width), ...fresh };
    }
    case "height": {
      // The rule is a straight line from nothing, so that one height tells its slope.
      const { max } = FIELD_LIMITS.plantHeightCm;
      return started("plantHeightCm", (tHa / yieldOfBarrenCorn(max).dryMatterTHa) * max);
    }
  }
}

/** A value put into a field that holds none that can be used; what was typed stays as typed. */
function filled(inputs: Inputs, field: LimitedField, value: number): Texts {
  return typedValue(field, inputs.texts[field]) === value ? {} : started(field, value);
}

/**
 * Another way to tell the yield: the yield stays what it is, told the new way, so that nothing is asked before something
 * is told. A yield that cannot be read leaves the fields as they are.
 */
export function withYieldWay(inputs: Inputs, yieldBy: YieldWay): Inputs {
  const now = readInputs(inputs).yieldEstimate;
  const next = { ...inputs, yieldBy };
  if (now === null || yieldBy === inputs.yieldBy) return next;
  const moisture = typedValue("moisturePct", inputs.texts.moisturePct);
  const moistureWb = moisture !== null && within(moisture, FIELD_LIMITS.moisturePct) ? moisture / 100 : null;
  if (moistureWb === null && yieldBy === "strip") return next;
  return {
    ...next,
    texts: { ...inputs.texts, ...textsOf(inputs, yieldBy, now.dryMatterTHa, moistureWb ?? 0) },
  };
}
