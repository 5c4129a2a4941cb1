import { expect, test } from "vitest";
import { airTerms, soilTemperatures } from "../../../model/drying/air-terms.ts";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import type { Exchange } from "../../../model/drying/exchange.ts";
import { exchange } from "../../../model/drying/exchange.ts";
import type { SwathState } from "../../../model/drying/swath-state.ts";
import { swathMake } from "../../../model/drying/swath-state.ts";
import { STANDARD_SWATH } from "../../truth/drying/conditions.ts";
import { sampleWeathers } from "./samples.ts";

const p = DRYING_PARAMETERS;
/** Solutions, each starting from the one before: far past the tolerance. */
const CARRIED_ON = 6;

function vapourMmPerH({ filmMmPerH, leafMmPerH, stemMmPerH }: Exchange): number {
  return filmMmPerH + leafMmPerH + stemMmPerH;
}

// The solver stops after a Newton step below 0.3 K; what is left of the error falls with the square of the step. From a
// guess as poor as the last hour's answer or a fresh swath's it stays below 0.1 K, and below what 0.1 K carries: 3 W/m² at
// 30 W/m²/K, which is 0.0045 mm/h.
test.each(sampleWeathers())(
  "$id: one solution is within 0.1 K and 0.0045 mm/h of itself carried on",
  ({ weather }) => {
    const soilTempC = soilTemperatures(weather);
    let worstK = 0;
    let worstMmPerH = 0;
    for (const crop of ["alfalfa", "cool-season-grass", "corn"] as const) {
      const make = swathMake({ ...STANDARD_SWATH, crop, soil: "moist" }, 0.5, p);
      for (const moistureDb of [0.12, 0.2, 0.6, 3]) {
        for (const filmMm of [0, 0.01, 0.2]) {
          let guess = { riseK: 0, rhFrac: 0.9 };
          for (let i = 0; i < weather.count; i++) {
            const air = airTerms(weather, i, soilTempC[i] as number, p);
            const at = ({ riseK, rhFrac }: { riseK: number; rhFrac: number }): Exchange => {
              const state: SwathState = {
                filmMm,
                leafDb: moistureDb,
                stemDb: moistureDb * 1.2,
                mixedDb: 3,
                riseK,
                rhFrac,
              };
              return exchange(state, make, air, p);
            };
            const once = at(guess);
            let carried = once;
            for (let more = 0; more < CARRIED_ON; more++) carried = at(carried);
            worstK = Math.max(worstK, Math.abs(once.riseK - carried.riseK));
            worstMmPerH = Math.max(worstMmPerH, Math.abs(vapourMmPerH(once) - vapourMmPerH(carried)));
            guess = once;
          }
        }
      }
    }
    expect(worstK).toBeLessThan(0.1);
    expect(worstMmPerH).toBeLessThan(0.0045);
  },
);
