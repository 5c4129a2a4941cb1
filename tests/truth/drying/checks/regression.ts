import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { steady } from "../conditions.ts";
import { type Check, collector, lab, rateBetween } from "./check.ts";

/** Drying rates against the regression of Rotz & Chen (1985). */

/** Rotz & Chen 1985 regression, coefficients from memory, 1/h; typed again here, apart from the model's own. */
export function rotzChen(
  sunWm2: number,
  vpdKPa: number,
  soilPct: number,
  densityGM2: number,
  day: 0 | 1,
): number {
  return (sunWm2 + 43.8 * vpdKPa) / (61.4 * soilPct + densityGM2 * (1.82 - 0.83 * day) * 1.68 + 2767);
}

const ES25 = 3.1678;

export function rotzRatios(p: DryingParameters): { sun: number; vpd: number; ratio: number; ours: number }[] {
  const { run } = lab(p);
  const rows: { sun: number; vpd: number; ratio: number; ours: number }[] = [];
  for (const sun of [200, 400, 600, 850]) {
    for (const vpd of [0.5, 1.5, 2.5]) {
      const course = run(steady(120, { solarWm2: sun, rhFrac: 1 - vpd / ES25 }), {});
      const ours = rateBetween(course, 0.8, 0.75, 0.4);
      rows.push({ sun, vpd, ours, ratio: ours / rotzChen(sun, vpd, 9, 450, 1) });
    }
  }
  return rows;
}

export function regressionChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  for (const { sun, vpd, ratio } of rotzRatios(p)) {
    add(
      `rotz-${sun}-${vpd}`,
      `rate 75 -> 40 % over the 1985 regression's, sun ${sun} W/m², VPD ${vpd} kPa`,
      "Rotz & Chen 1985, Trans. ASAE 28:1686, coefficients from memory",
      vpd === 1.5 && sun >= 400 ? "fitted on" : "from memory",
      ratio,
      0.75,
      1.25,
      sun < 400,
    );
  }
  const hot = run(steady(120, { airTempC: 36, rhFrac: 0.3, solarWm2: 900 }), {});
  add(
    "rotz-hot",
    "the same, sun 900 W/m², 36 °C, VPD 4.2 kPa: beyond the regression's weather",
    "Rotz & Chen 1985, coefficients from memory",
    "from memory",
    rateBetween(hot, 0.8, 0.75, 0.4) / rotzChen(900, 4.16, 9, 450, 1),
    0.75,
    1.25,
    true,
  );
  return checks;
}
