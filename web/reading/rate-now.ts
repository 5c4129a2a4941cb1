import type { CropKey, LearnedRateRequest } from "../../model/drying/index.ts";
import { withLearnedRequest } from "../../model/odds/cut-sample.ts";
import { uncertaintyOf } from "../../model/odds/uncertainty.ts";
import { utcMs } from "../format/farm-time.ts";

/** How many times as fast as usual a crop is taken to dry at a cut: what was learned of it, half forgotten in three weeks. */
export function rateNow(learned: LearnedRateRequest, crop: CropKey, cutUtc: string): number {
  const usual = uncertaintyOf(crop);
  return Math.exp(withLearnedRequest(usual, learned, utcMs(cutUtc)).rateLnMean - usual.rateLnMean);
}
