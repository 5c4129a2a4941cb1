import { expect, test } from "vitest";
import { bandPct, hoursText, moisturePct, rainText, unitsKept } from "../../../web/format/words.ts";
import { metric24, us12 } from "../../support/manners.ts";

const METRIC = metric24("America/Chicago");
const US = us12("America/Chicago");
const GERMAN = { ...METRIC, locale: "de-DE" };

// Exact by definition: an inch is 25.4 mm.
test("rain follows the units, and a trace is never told as nothing", () => {
  expect([0, 0.02, 0.4, 6.8, 14.2].map((mm) => rainText(mm, METRIC))).toEqual([
    "0 mm",
    "under 0.1 mm",
    "0.4 mm",
    "6.8 mm",
    "14 mm",
  ]);
  expect([0, 0.1, 0.4, 12.7, 25.4].map((mm) => rainText(mm, US))).toEqual([
    "0 in",
    "under 0.01 in",
    "0.02 in",
    "0.5 in",
    "1 in",
  ]);
});

test("numbers follow the locale; moisture is a per cent everywhere", () => {
  expect([rainText(0.4, GERMAN), hoursText(3.5, GERMAN)]).toEqual(["0,4 mm", "3,5 h"]);
  expect(bandPct([0.125, 0.6], GERMAN)).toBe("12,5–60 %");
  expect([moisturePct(0.784, METRIC), moisturePct(0.784, US)]).toEqual(["78 %", "78 %"]);
});

test("a unit stays on the line of its number, and a chance on one line", () => {
  expect(unitsKept("hay, 3 in 10.")).toBe("hay, 3\u00a0in\u00a010.");
  expect(unitsKept("6.8 mm at 39 %, 0.5 in by 3 pm")).toBe(
    "6.8\u00a0mm at 39\u00a0%, 0.5\u00a0in by 3\u00a0pm",
  );
});
