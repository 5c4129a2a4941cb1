import { describe, expect, test } from "vitest";
import { byPlace, type Compared, comparisonSentence } from "../../../../model/harvest/value/index.ts";

const whole = { rainedOn: false, takenShare: 1 } as const;
const HAY: Compared = { ...whole, route: "dry-hay", keptFraction: 0.77, daysLying: 3, valuePerHa: 200 };
const BALES: Compared = {
  ...whole,
  route: "wrapped-bales",
  keptFraction: 0.881,
  daysLying: 0,
  valuePerHa: 250,
};
const GRAZED: Compared = { ...whole, route: "grazing", keptFraction: 0.7, daysLying: null, valuePerHa: 200 };
const NEVER: Compared = {
  ...whole,
  route: "wilted-chop",
  keptFraction: 0.8,
  daysLying: 1,
  valuePerHa: null,
};
/** Worth most of all, of a field that nobody says is taken. */
const GREEN: Compared = {
  route: "green-chop",
  keptFraction: 0.94,
  daysLying: null,
  rainedOn: false,
  takenShare: null,
  valuePerHa: 494,
};

test("best first, of equals in the order of the routes, what never comes in last", () => {
  const order = byPlace([NEVER, GRAZED, HAY, BALES]).map(({ route }) => route);
  expect(order).toEqual(["wrapped-bales", "dry-hay", "grazing", "wilted-chop"]);
  expect(byPlace([BALES, HAY, NEVER, GRAZED]).map(({ route }) => route)).toEqual(order);
});

test("one sentence, of what can be brought in", () => {
  expect(comparisonSentence([HAY, NEVER, BALES], "alfalfa")).toBe(
    "Wrapped bales keep 88 % and need one dry day; dry hay keeps 77 % and needs four dry days.",
  );
  expect(comparisonSentence([GRAZED], "alfalfa")).toBe("Grazing keeps 70 %.");
  expect(comparisonSentence([NEVER], "drought-corn")).toBe("");
});

test("a swath that lay in rain is never told as dry days", () => {
  const wet = { ...HAY, daysLying: 6, rainedOn: true };
  expect(comparisonSentence([wet, BALES], "alfalfa")).toBe(
    "Wrapped bales keep 88 % and need one dry day; dry hay keeps 77 % and lies seven days, rained on.",
  );
  expect(comparisonSentence([{ ...BALES, rainedOn: true }], "alfalfa")).toBe(
    "Wrapped bales keep 88 % and lie one day, rained on.",
  );
});

describe("a route by a day's need", () => {
  test("stands behind the others where no need is given, whatever its value, and says why", () => {
    expect(byPlace([GREEN, HAY, NEVER, BALES]).map(({ route }) => route)).toEqual([
      "wrapped-bales",
      "dry-hay",
      "green-chop",
      "wilted-chop",
    ]);
    expect(comparisonSentence([GREEN, BALES], "alfalfa")).toBe(
      "Wrapped bales keep 88 % and need one dry day. Set last, as no daily need is given: green chop keeps 94 % of what is taken.",
    );
    expect(comparisonSentence([GREEN], "alfalfa")).toBe(
      "Green chop keeps 94 % of what is taken; no daily need is given.",
    );
  });

  test("says how much of the field it takes where it takes a part of it", () => {
    expect(comparisonSentence([{ ...GREEN, takenShare: 0.304 }], "alfalfa")).toBe(
      "Green chop keeps 94 % of the 30 % of the field that is taken.",
    );
  });
});

test("crops that can hold nitrate or prussic acid name the laboratory in the same breath", () => {
  expect(comparisonSentence([BALES], "drought-corn")).toMatch(
    /dry day\. First a laboratory result for nitrate\.$/,
  );
  expect(comparisonSentence([BALES], "forage-sorghum")).toMatch(
    /First a laboratory result for nitrate and prussic acid\.$/,
  );
});
