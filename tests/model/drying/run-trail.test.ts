import { expect, test } from "vitest";
import { DRYING_PARAMETERS as P } from "../../../model/drying/coefficients.ts";
import { resumeMoisture, runOn, startMoisture } from "../../../model/drying/course-run.ts";
import type { Operation } from "../../../model/drying/operations.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import { runAlong, stateBefore } from "../../../model/drying/run-trail.ts";
import { sampleWeathers } from "./samples.ts";

const SWATH: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 4,
  initialMoistureWb: 0.8,
  conditioning: "roll",
  coveredFraction: 0.7,
  stubbleCm: 8,
  soil: "moist",
};
const HOUR_MS = 3_600_000;

test.each(sampleWeathers())(
  "a windrow gone on from a trail is the one run from its cut, to the last bit: $id",
  ({ weather }) => {
    const block = () => new Float64Array(2 * weather.count);
    const cutUtcMs = weather.startUtcMs + 34.5 * HOUR_MS;
    const ted: Operation = { kind: "ted", atUtcMs: cutUtcMs + 20.25 * HOUR_MS, coveredFraction: null };
    const along = startMoisture(block(), weather, SWATH, cutUtcMs, [ted], P);
    const trail = runAlong(along, 90);
    expect(along.done).toBe(90);
    let gone = 0;
    for (const rakedAfterH of [2, 5, 20, 21, 44, 61.5, 89, 120]) {
      const rake: Operation = {
        kind: "rake",
        atUtcMs: cutUtcMs + rakedAfterH * HOUR_MS,
        coveredFraction: null,
      };
      const passes = [ted, rake];
      const whole = startMoisture(block(), weather, SWATH, cutUtcMs, passes, P);
      runOn(whole, weather.count);
      const hour = Math.floor(rakedAfterH + 0.5);
      const state = stateBefore(trail, hour);
      if (state === null) {
        expect(hour).toBeLessThan(8);
        continue;
      }
      expect(state.done).toBeLessThanOrEqual(hour);
      const resumed = resumeMoisture(block(), weather, SWATH, cutUtcMs, passes, P, state);
      runOn(resumed, weather.count);
      const known = (column: Float64Array) => column.subarray(state.done - 1);
      expect(known(resumed.course.moistureWb)).toEqual(known(whole.course.moistureWb));
      expect(known(resumed.course.freeWaterMm)).toEqual(known(whole.course.freeWaterMm));
      expect(resumed.dryMatterTHa).toBe(whole.dryMatterTHa);
      gone++;
    }
    expect(gone).toBe(6);
  },
);
