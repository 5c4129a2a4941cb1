import { expect, test } from "vitest";
import { ROUTES } from "../../../model/harvest/index.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { withCrop } from "../../../web/state/with-crop.ts";

const typed = (text: string) => ({ text, units: "metric" as const });

test("moisture and stubble follow the crop while they are the usual ones of the crop before", () => {
  const { texts, crop } = withCrop(DEMO_INPUTS, "drought-corn");
  expect([crop, texts.moisturePct.text, texts.stubbleCm.text]).toEqual(["drought-corn", "80", "30"]);
  const back = withCrop(withCrop(DEMO_INPUTS, "drought-corn"), "alfalfa");
  expect([back.texts.moisturePct.text, back.texts.stubbleCm.text]).toEqual(["78", "8"]);
});

test("what somebody chose stays, and what cannot be read too", () => {
  const chosen = {
    ...DEMO_INPUTS,
    texts: { ...DEMO_INPUTS.texts, stubbleCm: typed("12"), moisturePct: typed("wet") },
  };
  const { texts } = withCrop(chosen, "drought-corn");
  expect([texts.moisturePct.text, texts.stubbleCm.text]).toEqual(["wet", "12"]);
});

test("a yield by height is left where the next crop's height tells nothing", () => {
  const tall = { ...withCrop(DEMO_INPUTS, "drought-corn"), yieldBy: "height" as const };
  expect(withCrop(tall, "corn").yieldBy).toBe("height");
  expect(withCrop(tall, "alfalfa").yieldBy).toBe("tonnes");
});

test("a crop that is commonly chopped standing brings direct chop, and takes it away again; chosen routes stay", () => {
  const on = ({ routes }: typeof DEMO_INPUTS) => ROUTES.filter((route) => routes[route].on);
  const corn = withCrop(DEMO_INPUTS, "drought-corn");
  expect(on(corn)).toEqual(["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop"]);
  expect(withCrop(corn, "alfalfa").routes).toEqual(DEMO_INPUTS.routes);
  const baled = {
    ...DEMO_INPUTS,
    routes: { ...DEMO_INPUTS.routes, "wilted-chop": { ...DEMO_INPUTS.routes["wilted-chop"], on: false } },
  };
  expect(on(withCrop(baled, "drought-corn"))).toEqual(["dry-hay", "wrapped-bales"]);
});
