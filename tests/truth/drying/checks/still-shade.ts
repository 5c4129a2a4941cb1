import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { STILL_SHADE, steady } from "../conditions.ts";
import { type Check, collector, hoursTo, lab } from "./check.ts";

/** A layer without sun or wind, as in a laboratory: shade shuts off the view of the sky. */

export function shadeChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const shade = (rh: number, targetWb: number, cloudFrac: number) =>
    hoursTo(run(steady(4000, { ...STILL_SHADE, airTempC: 30, rhFrac: rh, cloudFrac }), {}), 0.8, targetWb);
  const ratio = (targetWb: number, cloudFrac: number) =>
    shade(0.7, targetWb, cloudFrac) / shade(0.45, targetWb, cloudFrac);
  add(
    "shade-ratio",
    "still shade 30 °C, sky shut off, 450 g/m² rolled: hours to 30 %, RH 70 over RH 45",
    "Crump 1985 via MacDonald & Clark 1987: 1.88 to 20 %",
    "held out",
    ratio(0.3, 1),
    1.6,
    2.4,
  );
  add(
    "shade-ratio-22",
    "the same to 22 % (20 % is the equilibrium itself at RH 70)",
    "Crump 1985 via MacDonald & Clark 1987: 1.88 to 20 %",
    "held out",
    ratio(0.22, 1),
    1.6,
    2.4,
    true,
  );
  // A dark swath under a clear sky cools below the air: no laboratory's thin layer sees the sky.
  add(
    "shade-ratio-clear",
    "the same to 30 % with the clear sky in view: at RH 70 it is never reached",
    "Crump 1985 via MacDonald & Clark 1987: 1.88 to 20 %",
    "held out",
    ratio(0.3, 0),
    1.6,
    2.4,
    true,
  );
  return checks;
}
