import { describe, expect, test } from "vitest";
import { airTerms } from "../../../model/drying/air-terms.ts";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import { swathStep } from "../../../model/drying/step.ts";
import { swathMake } from "../../../model/drying/swath-state.ts";
import { lab, SUNNY_DRY } from "./checks.ts";
import { repeatedDays, STANDARD_SWATH, steady } from "./conditions.ts";

// McGechan & Pitt, The rewetting of partially dried grass swaths by rain, part 3: surface water in excess runs off
// with a time constant of 0.8 h, and is absorbed into tissue with 15 h.
describe("6 mm of rain on a half-dry swath", () => {
  const p = DRYING_PARAMETERS;
  const make = swathMake(STANDARD_SWATH, 0.45, p);
  // Saturated, dark, still air: nothing evaporates, so drainage and absorption stand alone.
  const damp = airTerms(steady(2, { rhFrac: 0.999, solarWm2: 0, cloudFrac: 1, wind2mMps: 0.5 }), 0, 25, p);
  const state = { filmMm: 3, leafDb: 0.6, stemDb: 1, mixedDb: 4, riseK: 0, rhFrac: 1 };

  test("the excess over what the swath holds drains with 0.8 h", () => {
    const held = p.filmHeldKgKg * 0.45;
    const after = swathStep(state, make, damp, 0, 0.8, p);
    const left = after.state.filmMm + after.fluxes.absorbedMm - held;
    // One time constant leaves 1/e of the excess; tissue drinks a little of it meanwhile.
    expect(Math.abs(left / (3 - held) - Math.exp(-1))).toBeLessThan(0.03);
  });

  test("a held film goes into the tissue with 15 h, slower as the tissue fills", () => {
    const start = { ...state, filmMm: 0.5 };
    let now = start;
    let absorbed = 0;
    for (let i = 0; i < 4; i++) {
      const step = swathStep(now, make, damp, 0, 0.25, p);
      now = step.state;
      absorbed += step.fluxes.absorbedMm;
    }
    const thirst = 0.5 * (1 - 0.6 / p.saturationDb) + 0.5 * (1 - 1 / p.saturationDb);
    expect(absorbed).toBeCloseTo(0.5 * (1 - Math.exp(-thirst / 15)), 2);
  });

  test("the free water is gone within a drying day", () => {
    const weather = repeatedDays(4, SUNNY_DRY);
    for (let h = 30; h < 32; h++) weather.rainMm[h] = 3;
    const course = lab(p).run(weather, { dryMatterTHa: 4, coveredFraction: 0.7 }, 9);
    expect(course.freeWaterMm[31 - 9] as number).toBeGreaterThan(0.5);
    expect(course.freeWaterMm[44 - 9] as number).toBeLessThan(0.02);
  });
});
