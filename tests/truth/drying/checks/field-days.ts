import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import { dryBasis } from "../../../../model/drying/moisture.ts";
import type { SwathRequest } from "../../../../model/drying/request.ts";
import { repeatedDays } from "../conditions.ts";
import { type Check, collector, lab } from "./check.ts";
import { SUNNY_DRY } from "./spells.ts";

/** First days in the field whose weather was told in part: development cases, none required. */

export function fieldDayChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const firstDay = (swath: Partial<SwathRequest>) => {
    const c = run(repeatedDays(2, { ...SUNNY_DRY, noonSunWm2: 750 }), { dryMatterTHa: 4, ...swath }, 9);
    return Math.log(dryBasis(0.8) / dryBasis(c.moistureWb[8] as number)) / 9;
  };
  add(
    "rennie-none",
    "first-day exponent, unconditioned, 1/h",
    "Rennie 2012: 0.09 (weather not given: fair assumed)",
    "held out",
    firstDay({ conditioning: "none" }),
    0.06,
    0.15,
    true,
  );
  add(
    "rennie-crimp",
    "first-day exponent, crimped, 1/h",
    "Rennie 2012: 0.13-0.14",
    "held out",
    firstDay({}),
    0.1,
    0.2,
    true,
  );
  const field = (tHa: number) => {
    const c = run(
      repeatedDays(2, { ...SUNNY_DRY, maxTempC: 29, minTempC: 16, dewPointC: 14, noonSunWm2: 900 }),
      { dryMatterTHa: tHa, coveredFraction: 1 },
      9,
    );
    return Math.log(dryBasis(0.8) / dryBasis(c.moistureWb[7] as number)) / 8;
  };
  add(
    "field-335",
    "good field days, 3.35 t/ha, 1/h",
    "high-rate carbonate study: 0.272",
    "held out",
    field(3.35),
    0.2,
    0.34,
    true,
  );
  add(
    "field-559",
    "good field days, 5.59 t/ha, 1/h",
    "high-rate carbonate study: 0.217",
    "held out",
    field(5.59),
    0.16,
    0.27,
    true,
  );
  const france = run(
    repeatedDays(2, { ...SUNNY_DRY, minTempC: 11, maxTempC: 24, dewPointC: 10 }),
    { crop: "cool-season-grass", dryMatterTHa: 3.5, coveredFraction: 1 },
    9,
  );
  add(
    "france-day1",
    "typical good first day, spread grass: 80 -> this %",
    "central France, extension: 50 %",
    "held out",
    (france.moistureWb[10] as number) * 100,
    40,
    58,
    true,
  );
  return checks;
}
