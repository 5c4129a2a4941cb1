import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import type { Course } from "../../../../model/drying/course.ts";
import { dryBasis } from "../../../../model/drying/moisture.ts";
import { repeatedDays, steady, weatherOf } from "../conditions.ts";
import { type Check, collector, lab, rateBetween } from "./check.ts";

/** Dew and uptake of a clear night, wind by day and in the dark, a humid week. */

export function nightAndWindChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const night = weatherOf(10, (h) => ({
    airTempC: 18 - 0.6 * h,
    rhFrac: 0.75 + 0.022 * h,
    wind2mMps: 0.5,
    solarWm2: 0,
    cloudFrac: 0,
  }));
  const thin = run(night, { dryMatterTHa: 3, initialMoistureWb: 0.16 });
  const row = run(night, { dryMatterTHa: 3, coveredFraction: 0.3, initialMoistureWb: 0.16 });
  const last = thin.count - 1;
  const tissueGain = (c: Course) => (c.moistureWb[last] as number) * 100 - 16;
  const waterGain = (c: Course) =>
    (c.freeWaterMm[last] as number) +
    ((dryBasis(c.moistureWb[last] as number) - dryBasis(0.16)) * (c.dryMatterGM2[last] as number)) / 1000;
  add(
    "night-tissue",
    "clear calm night, thin swath 300 g/m² at 16 %: points gained by the tissue",
    "target of the night: 5-15 points (derived)",
    "fitted on",
    tissueGain(thin),
    5,
    15,
  );
  add(
    "night-water",
    "the same: film and tissue together, mm",
    "Ritter et al. 2019 0.14 ± 0.12 mm; Jacobs et al. 2006 0.15 mm",
    "held out",
    waterGain(thin),
    0.03,
    0.2,
  );
  add(
    "night-row",
    "windrow over thin swath, water per kg",
    "derived: only the top collects",
    "held out",
    waterGain(row) /
      (row.dryMatterGM2[last] as number) /
      (waterGain(thin) / (thin.dryMatterGM2[last] as number)),
    0,
    0.95,
  );
  const windRate = (wind: number, sun: number) => {
    const c = run(steady(300, { wind2mMps: wind, solarWm2: sun }), {});
    return rateBetween(c, 0.8, 0.78, 0.5);
  };
  add(
    "wind-sun",
    "rate at 4 over 1 m/s, 800 W/m²",
    "Thompson 1981; Atzema: wind slows drying in sun",
    "held out",
    windRate(4, 800) / windRate(1, 800),
    0,
    0.999,
  );
  add(
    "wind-dark",
    "rate at 4 over 1 m/s in the dark",
    "Thompson 1981; combination equation",
    "held out",
    windRate(4, 0) / windRate(1, 0),
    1.001,
    9,
  );
  add(
    "wind-sun-1-8",
    "rate at 1 over 8 m/s, 800 W/m²",
    "trial with free convection: 1.6",
    "held out",
    windRate(1, 800) / windRate(8, 800),
    1,
    2,
    true,
  );
  const humid = run(
    repeatedDays(7, {
      minTempC: 21,
      maxTempC: 24,
      dewPointC: 20.8,
      windMps: 2,
      nightWindMps: 1,
      noonSunWm2: 330,
      cloudFrac: 0.9,
    }),
    { dryMatterTHa: 4, coveredFraction: 0.7, soil: "moist" },
    9,
  );
  add(
    "humid-week",
    "humid week: lowest moisture in 7 days, %",
    "isotherm: RH 80-100 % holds hay over 20 %",
    "held out",
    Math.min(...humid.moistureWb) * 100,
    16,
    80,
  );
  return checks;
}
