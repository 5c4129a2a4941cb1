import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { repeatedDays, steady } from "../conditions.ts";
import { type Check, collector, hoursTo, lab } from "./check.ts";
import { CLOUDY_WET, SUNNY_DRY } from "./spells.ts";

/** Cloud and wet soil against sun and dry soil. */

export function cloudChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const spell = (day: typeof SUNNY_DRY, soil: "dry" | "wet") =>
    hoursTo(run(repeatedDays(30, day), { dryMatterTHa: 4, coveredFraction: 0.7, soil }, 9), 0.8, 0.2);
  const steadyTime = (sun: number, rh: number, cloud: number, soil: "dry" | "wet", t: number) =>
    hoursTo(
      run(steady(600, { solarWm2: sun, rhFrac: rh, cloudFrac: cloud, airTempC: t }), { soil }),
      0.8,
      0.2,
    );
  add(
    "cloud-wet",
    "cloud and wet soil (200 W/m², 20 °C, RH 60 %, cloud 0.9) over sun and dry soil: hours 80 -> 20 %",
    "the 1985 family of work: about 3 times",
    "held out",
    steadyTime(200, 0.6, 0.9, "wet", 20) / steadyTime(600, 0.5, 0, "dry", 25),
    2.3,
    3.5,
  );
  add(
    "cloud-wet-days",
    "the same through days and nights",
    "the 1985 family of work: about 3 times",
    "held out",
    spell(CLOUDY_WET, "wet") / spell(SUNNY_DRY, "dry"),
    2.3,
    3.5,
    true,
  );
  return checks;
}
