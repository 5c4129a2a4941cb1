import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import type { Course } from "../../../../model/drying/course.ts";
import { dryBasis } from "../../../../model/drying/moisture.ts";
import type { SwathRequest } from "../../../../model/drying/request.ts";
import { repeatedDays, START_MS, steady } from "../conditions.ts";
import { type Check, collector, HOUR_MS, hoursTo, lab } from "./check.ts";
import { SUNNY_DRY } from "./spells.ts";

/** Conditioning, drying agent, cover and tedding. */

export function treatmentChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const fairDays = repeatedDays(9, { ...SUNNY_DRY });
  const timeTo = (swath: Partial<SwathRequest>, target: number, weather = steady(400)) =>
    hoursTo(run(weather, swath), 0.8, target);
  add(
    "cond-68",
    "roll over none, rate to 68 %",
    "Rennie 2012 x1.45-1.55; extension +15-40 %",
    "fitted on",
    timeTo({ conditioning: "none" }, 0.68) / timeTo({}, 0.68),
    1.1,
    1.55,
  );
  add(
    "cond-20",
    "roll over none, rate to 20 %",
    "from memory x1.6-1.8; extension +20-40 %",
    "fitted on",
    timeTo({ conditioning: "none" }, 0.2) / timeTo({}, 0.2),
    1.3,
    1.8,
  );
  add(
    "intensive-30",
    "intensive over roll, rate to 30 %",
    "maceration x2.1 against a windrow",
    "fitted on",
    timeTo({}, 0.3) / timeTo({ conditioning: "intensive" }, 0.3),
    1.8,
    2.4,
  );
  add(
    "agent-30",
    "drying agent over none, rate to 30 %",
    "Rotz & Thomas 1988: +32 %, 29 trials",
    "fitted on",
    timeTo({}, 0.3) / timeTo({ dryingAgent: true }, 0.3),
    1.2,
    1.45,
  );
  const covered = (cover: number, target: number) =>
    hoursTo(run(fairDays, { dryMatterTHa: 4, coveredFraction: cover }, 9), 0.8, target);
  const saved = (target: number) => 100 * (1 - covered(0.7, target) / covered(0.45, target));
  add(
    "cover-65",
    "cover 0.70 against 0.45: hours saved to 65 %, %",
    "Wisconsin: 25-40 % shorter",
    "held out",
    saved(0.65),
    20,
    40,
  );
  const sunny = (cover: number, target: number) =>
    hoursTo(run(steady(300), { dryMatterTHa: 4, coveredFraction: cover }), 0.8, target);
  const savedSunny = (target: number) => 100 * (1 - sunny(0.7, target) / sunny(0.45, target));
  add(
    "cover-20",
    "cover 0.70 against 0.45: sunny hours saved to 20 %, %",
    "Wisconsin: 25-40 % shorter",
    "fitted on",
    savedSunny(0.2),
    20,
    40,
  );
  const tedded = (cover: number, after: number) => {
    const swath: Partial<SwathRequest> = { dryMatterTHa: 4, coveredFraction: cover };
    const at = START_MS + 33 * HOUR_MS;
    const plain = run(fairDays, swath, 9);
    const ted = run(fairDays, swath, 9, [{ kind: "ted", atUtcMs: at, coveredFraction: after }]);
    const from = 33 - 9 - 1;
    const to = 44 - 9 - 1;
    const rate = (c: Course) =>
      Math.log(dryBasis(c.moistureWb[from] as number) / dryBasis(c.moistureWb[to] as number));
    return 100 * (rate(ted) / rate(plain) - 1);
  };
  add(
    "ted-rows",
    "tedding of rows (0.5 -> 0.95) at 09:00: gain in that day's drying, %",
    "Pattey et al. 1988: +40 % that day",
    "fitted on",
    tedded(0.5, 0.95),
    20,
    50,
  );
  add(
    "ted-spread",
    "tedding of a fully spread swath: gain that day, %",
    "Atzema: none",
    "fitted on",
    tedded(1, 1),
    -5,
    5,
  );
  return checks;
}
