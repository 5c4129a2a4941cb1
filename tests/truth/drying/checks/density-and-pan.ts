import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { steady } from "../conditions.ts";
import { type Check, collector, hoursTo, lab, rateBetween } from "./check.ts";

/** How the rate falls with density, and how much a pan evaporates meanwhile. */

export const PAN_MM_PER_H = 0.4095 / 0.75; // FAO-56 hourly at the standard conditions, over a pan coefficient of 0.75

export function densityChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const densityRate = (gM2: number) => {
    const course = run(steady(120), { dryMatterTHa: gM2 / 100 });
    return rateBetween(course, 0.8, 0.8, 0.6);
  };
  const exponent = (a: number, b: number) => -Math.log(densityRate(b) / densityRate(a)) / Math.log(b / a);
  add(
    "density",
    "density exponent 200-900 g/m², 80 -> 60 %",
    "Wright 1997 0.56; Pitt 1985 0.65; field days 0.44",
    "fitted on",
    exponent(200, 900),
    0.4,
    0.7,
  );
  add(
    "density-thin",
    "density exponent 200-450 g/m²",
    "the same",
    "held out",
    exponent(200, 450),
    0.4,
    0.7,
    true,
  );
  add(
    "density-thick",
    "density exponent 450-900 g/m²",
    "the same",
    "held out",
    exponent(450, 900),
    0.4,
    0.7,
    true,
  );
  const pan = (gM2: number) =>
    hoursTo(run(steady(400), { dryMatterTHa: gM2 / 100 }), 0.8, 0.2) * PAN_MM_PER_H;
  add(
    "pan-448",
    "pan evaporation 80 -> 20 %, 448 g/m², mm",
    "UC ANR digest of the pan method, 2013",
    "fitted on",
    pan(448),
    12.4 * 0.65,
    12.4 * 1.35,
  );
  const thick = run(steady(400), { dryMatterTHa: 30, coveredFraction: 30 / 44.8 });
  add(
    "pan-4480",
    "pan evaporation 80 -> 20 %, 4480 g/m², mm",
    "UC ANR digest of the pan method, 2013",
    "held out",
    hoursTo(thick, 0.8, 0.2) * PAN_MM_PER_H,
    48.5 * 0.5,
    48.5 * 1.5,
  );
  return checks;
}
