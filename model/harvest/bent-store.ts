import type { CropKey } from "../drying/keys.ts";
import type { LearnedRateRequest } from "../drying/request.ts";
import { parametersAtRate } from "../odds/course-odds.ts";
import { withLearnedRequest } from "../odds/cut-sample.ts";
import { uncertaintyOf } from "../odds/uncertainty.ts";
import { type DryingStore, type DryingTools, dryingStore, type Ground, groundOf } from "./drying-store.ts";
import type { ReadOption } from "./read-cuts.ts";
import type { Settled } from "./settle.ts";

/** Central rates at what was learned of the field, where anything was; forgotten until the cut, as the course by itself is. */
export function atLearnedRate(
  tools: DryingTools,
  crop: CropKey,
  learned: LearnedRateRequest | undefined,
): DryingTools {
  if (learned === undefined) return tools;
  const prior = uncertaintyOf(crop);
  return {
    ...tools,
    course: (air, lying, cutMs, passes) => {
      const { rateLnMean } = withLearnedRequest(prior, learned, cutMs);
      return tools.course(air, lying, cutMs, passes, parametersAtRate(Math.exp(rateLnMean)));
    },
  };
}

/** The courses of a cut that something was measured on: each is bent to the readings under its own passes. */
export function bentStore(
  settled: Settled,
  ground: Ground,
  tools: DryingTools,
  read: ReadOption,
): DryingStore {
  const unbent = dryingStore(settled, ground, atLearnedRate(tools, settled.swath.crop, read.learned));
  return {
    of(cutUtcMs, treatment, operations) {
      const bent = read.bentOf(operations);
      if (bent === null) return unbent.of(cutUtcMs, treatment, operations);
      const { swath, p, weather } = bent.centre;
      const at: DryingTools = {
        course: (air, lying, cutMs, passes) => tools.course(air, lying, cutMs, passes, p),
        // Published formulas know no readings: they tell of the swath as it was given.
        opinions: (air, _lying, cutMs, passes) => tools.opinions(air, treatment.swath, cutMs, passes),
      };
      const [there, own] =
        weather === settled.weather
          ? [settled, ground]
          : [{ ...settled, weather }, groundOf(weather, ground.maxRainMm24h)];
      return dryingStore(there, own, at).of(cutUtcMs, { ...treatment, swath }, operations);
    },
  };
}
