import { airTerms } from "../../../../model/drying/air-terms.ts";
import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { swathStep } from "../../../../model/drying/step.ts";
import { type SwathState, swathMake } from "../../../../model/drying/swath-state.ts";
import { repeatedDays, STANDARD_SWATH, steady } from "../conditions.ts";
import { type Check, collector, lab } from "./check.ts";
import { SUNNY_DRY } from "./spells.ts";

/** Rain on a half-dry swath: what drains, what tissue drinks, what a day takes. */

export function rainChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const make = swathMake(STANDARD_SWATH, STANDARD_SWATH.dryMatterTHa / 10, p);
  // Saturated, dark, still air: next to nothing evaporates, so drainage and absorption stand alone.
  const damp = airTerms(steady(2, { rhFrac: 0.999, solarWm2: 0, cloudFrac: 1, wind2mMps: 0.5 }), 0, 25, p);
  const heldMm = p.filmHeldKgKg * make.dryMatterKgM2;
  const halfDry = { leafDb: 0.6, stemDb: 1, mixedDb: 4, riseK: 0, rhFrac: 1 };
  const excessMm = 2;
  const drained = swathStep({ ...halfDry, filmMm: heldMm + excessMm }, make, damp, 0, p.drainageH, p);
  const leftMm = drained.state.filmMm + drained.fluxes.absorbedMm - heldMm;
  add(
    "rain-drains",
    "rain on a half-dry swath: time constant of what drains, h",
    "McGechan & Pitt, part 3: 0.8 h, which is the coefficient itself",
    "fitted on",
    -p.drainageH / Math.log(leftMm / excessMm),
    0.75,
    0.85,
  );
  const STEP_H = 0.25;
  const first = swathStep({ ...halfDry, filmMm: heldMm }, make, damp, 0, STEP_H, p);
  const thirst =
    make.leafShare * (1 - halfDry.leafDb / p.saturationDb) +
    (1 - make.leafShare) * (1 - halfDry.stemDb / make.stemSaturationDb);
  add(
    "rain-absorbs",
    "the same: time constant of uptake without the model's own slowing (1 - M/3.5, from memory), h",
    "McGechan & Pitt, part 3: 15 h, which is the coefficient itself",
    "from memory",
    (STEP_H * thirst * heldMm) / first.fluxes.absorbedMm,
    14,
    16,
  );
  let now: SwathState = { ...halfDry, filmMm: heldMm };
  let hours = 0;
  while (now.filmMm > heldMm / Math.E && hours < 200) {
    const { state, fluxes } = swathStep(now, make, damp, 0, STEP_H, p);
    // Even this air lays some dew on the film: absorption is watched alone.
    now = { ...state, filmMm: state.filmMm - fluxes.dewMm };
    hours += STEP_H;
  }
  add(
    "rain-absorbs-seen",
    "the same as it would be observed: hours until 1/e of the drained film is left",
    "McGechan & Pitt, part 3: 15 h (abstract; 12-19 h assumed as its spread)",
    "held out",
    hours,
    12,
    19,
    true,
  );
  const weather = repeatedDays(4, SUNNY_DRY);
  for (let h = 30; h < 32; h++) weather.rainMm[h] = 3;
  const course = run(weather, { dryMatterTHa: 4, coveredFraction: 0.7 }, 9);
  add(
    "rain-gone",
    "6 mm of rain on a half-dry swath: free water at the end of the drying day, mm",
    "common practice, no source: gone within a drying day",
    "held out",
    course.freeWaterMm[44 - 9] as number,
    0,
    0.02,
  );
  return checks;
}
