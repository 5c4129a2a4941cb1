import { describe, expect, test } from "vitest";
import { allChecks } from "./checks.ts";

// Sources, conditions and the use of each row (fitted on, held out, from memory) stand in checks.ts.
describe("accuracy of the drying model", () => {
  for (const check of allChecks()) {
    const name = `${check.id}: ${check.what} (${check.use}; ${check.source})`;
    if (check.reportOnly) {
      test(`${name}: reported, only finite`, () => expect(Number.isFinite(check.value)).toBe(true));
    } else {
      test(name, () => {
        expect(check.value).toBeGreaterThanOrEqual(check.low);
        expect(check.value).toBeLessThanOrEqual(check.high);
      });
    }
  }
});
