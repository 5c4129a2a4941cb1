import { expect, test } from "vitest";
import { byValue, type Compared, comparisonSentence } from "../../../../model/harvest/value/index.ts";

const HAY: Compared = { route: "dry-hay", keptFraction: 0.77, daysLying: 3, valuePerHa: 200 };
const BALES: Compared = { route: "wrapped-bales", keptFraction: 0.881, daysLying: 0, valuePerHa: 250 };
const GRAZED: Compared = { route: "grazing", keptFraction: 0.7, daysLying: null, valuePerHa: 200 };
const NEVER: Compared = { route: "wilted-chop", keptFraction: 0.8, daysLying: 1, valuePerHa: null };

test("best first, of equals in the order of the routes, what never comes in last", () => {
  const order = byValue([NEVER, GRAZED, HAY, BALES]).map(({ route }) => route);
  expect(order).toEqual(["wrapped-bales", "dry-hay", "grazing", "wilted-chop"]);
  expect(byValue([BALES, HAY, NEVER, GRAZED]).map(({ route }) => route)).toEqual(order);
});

test("one sentence, of what can be brought in", () => {
  expect(comparisonSentence([HAY, NEVER, BALES])).toBe(
    "Wrapped bales keep 88 % and need one dry day; dry hay keeps 77 % and needs four dry days.",
  );
  expect(comparisonSentence([GRAZED])).toBe("Grazing keeps 70 %.");
  expect(comparisonSentence([NEVER])).toBe("");
});
