import { describe, expect, test } from "vitest";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import { allChecks, rotzChen, rotzRatios } from "./checks.ts";

// Sources, conditions and the use of each row (fitted on, held out, from memory) stand in checks/.
describe("accuracy of the drying model", () => {
  for (const check of allChecks()) {
    const name = `${check.id}: ${check.what} (${check.use}; ${check.source})`;
    if (check.reportOnly) {
      test(`${name}: reported, a number or never`, () => expect(check.value).not.toBeNaN());
    } else {
      test(name, () => {
        expect(check.value).toBeGreaterThanOrEqual(check.low);
        expect(check.value).toBeLessThanOrEqual(check.high);
      });
    }
  }
});

// The rate must rise with sun and with vapour pressure deficit, as the regression's does; soil and density have rows.
describe("same order as the 1985 regression in each factor", () => {
  const rows = rotzRatios(DRYING_PARAMETERS);
  test.each(rows)("sun $sun W/m², VPD $vpd kPa: more of either never dries slower", ({ sun, vpd, ours }) => {
    for (const other of rows) {
      if (other.sun >= sun && other.vpd >= vpd) {
        expect(other.ours).toBeGreaterThanOrEqual(ours);
        expect(rotzChen(other.sun, other.vpd, 9, 450, 1)).toBeGreaterThanOrEqual(
          rotzChen(sun, vpd, 9, 450, 1),
        );
      }
    }
  });
});
