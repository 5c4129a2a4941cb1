import { expect, test } from "vitest";
import { evaporationRatePerMm, rotzChenRatePerH } from "../../../model/drying/second-opinions.ts";

// Worked values of the regression, re-derived from the equation by hand with coefficients from memory;
// printed to 0.001, so half the last digit plus the rounding of its inputs.
test.each([
  [600, 1.5, 12, 450, true, 0.157],
  [600, 1.5, 12, 450, false, 0.136],
  [0, 0.2, 12, 450, true, 0.002],
  [600, 1.5, 12, 200, true, 0.174],
  [600, 1.5, 12, 900, true, 0.133],
  [600, 1.5, 12, 1500, true, 0.111],
  [600, 1.5, 5, 450, true, 0.174],
  [600, 1.5, 25, 450, true, 0.132],
  [850, 2.5, 8, 335, true, 0.25],
])("Rotz & Chen 1985: SI %d, VPD %d, SM %d, SD %d, first day %s -> %d/h", (si, vpd, sm, sd, day, rate) => {
  expect(Math.abs(rotzChenRatePerH(si, vpd, sm, sd, day) - rate)).toBeLessThan(0.0021);
});

// UC ANR digest of the pan method (2013): 12.4 mm of pan takes alfalfa at 448 g/m² from 80 to 20 %; 48.5 mm at 4480.
test.each([
  [448, 12.4, 0.02],
  [4480, 48.5, 0.06],
])("pan digest: %d g/m² needs %d mm of pan evaporation", (density, panMm, tolerance) => {
  const mm = Math.log(16) / evaporationRatePerMm(density) / 0.75;
  expect(Math.abs(mm / panMm - 1)).toBeLessThan(tolerance);
});
