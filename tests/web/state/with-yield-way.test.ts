import { describe, expect, test } from "vitest";
import { DEMO_INPUTS, type Inputs, type TextField, YIELD_WAYS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { withYieldWay } from "../../../web/state/with-yield-way.ts";

const corn: Inputs = { ...DEMO_INPUTS, crop: "drought-corn" };

function typed(inputs: Inputs, texts: Partial<Record<TextField, string>>): Inputs {
  const all = Object.entries(texts).map(([field, text]) => [field, { text, units: "metric" }] as const);
  return { ...inputs, texts: { ...inputs.texts, ...Object.fromEntries(all) } };
}

describe("another way to tell the yield", () => {
  test("leaves the yield what it is, and no field of the new way is empty", () => {
    for (const from of YIELD_WAYS)
      for (const to of YIELD_WAYS) {
        const { yieldEstimate, errors } = readInputs(withYieldWay(withYieldWay(corn, from), to));
        expect(errors).toEqual({});
        expect(yieldEstimate?.dryMatterTHa).toBeCloseTo(3.8, 2);
      }
  });

  test("keeps what was weighed and converts what is counted", () => {
    const { texts } = withYieldWay(typed(corn, { baleKg: "250", baleMoisturePct: "20" }), "bales");
    expect([texts.baleKg.text, texts.balesPerHa.text]).toEqual(["250", "19"]);
  });

  test("a yield that cannot be read, or fits no field, changes nothing else", () => {
    const wrong = typed(corn, { yieldTHa: "much" });
    expect(withYieldWay(wrong, "bales").texts).toEqual(wrong.texts);
    const heavy = typed(corn, { yieldTHa: "25" });
    expect(withYieldWay(heavy, "height").texts).toEqual(heavy.texts);
  });
});
