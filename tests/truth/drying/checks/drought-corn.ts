import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import type { SwathRequest } from "../../../../model/drying/request.ts";
import { repeatedDays } from "../conditions.ts";
import { type Check, collector, hoursTo, lab } from "./check.ts";
import { CORN_DAY, DROUGHT_CORN } from "./spells.ts";

/** Drought corn: the wilt, and the way to dry stalks. */

export function droughtCornChecks(p: DryingParameters): Check[] {
  const { run } = lab(p);
  const { checks, add } = collector();
  const corn = repeatedDays(25, CORN_DAY);
  const daylightTo = (swath: Partial<SwathRequest>, target: number) => {
    const c = run(corn, { ...DROUGHT_CORN, ...swath }, 9);
    const hours = hoursTo(c, 0.86, target);
    let light = 0;
    for (let h = 0; h < Math.min(hours, c.count); h++) {
      const clock = (9 + h) % 24;
      if (clock >= 5 && clock < 20) light += Math.min(1, hours - h);
    }
    return { light, days: hours / 24 };
  };
  add(
    "corn-70",
    "drought corn, roll: daylight hours 86 -> 70 %",
    "common practice, no source: hours, not days",
    "fitted on",
    daylightTo({}, 0.7).light,
    5,
    14,
  );
  add(
    "corn-18",
    "drought corn, roll: days 86 -> 18 %",
    "North Dakota State: stems cracked, 7-10 days",
    "fitted on",
    daylightTo({}, 0.18).days,
    5,
    11,
  );
  add(
    "corn-18-none",
    "drought corn, unconditioned: days 86 -> 18 %",
    "North Dakota State: crimping essential",
    "fitted on",
    Math.min(99, daylightTo({ conditioning: "none" }, 0.18).days),
    14,
    99,
  );
  return checks;
}
