import { expect, test } from "vitest";
import { leadOf } from "../../../model/harvest/lead.ts";
import { firstOfEquals, type Ranked } from "../../../model/harvest/rank.ts";

// By hand: differences 1, 3, 5 have mean 3 and standard deviation 2, so a standard error of 2 over the root of 3.
test("a lead and its standard error are those of the differences draw by draw", () => {
  const { perHa, sePerHa, equal } = leadOf([101, 203, 305], [100, 200, 300]);
  expect([perHa, sePerHa]).toEqual([3, expect.closeTo(2 / Math.sqrt(3), 12)]);
  expect(equal).toBe(false);
  expect(leadOf([101, 203, 299], [100, 200, 300]).equal).toBe(true);
  expect(leadOf([1, 2], [1, 2])).toEqual({ perHa: 0, sePerHa: 0, equal: true });
});

// By hand: members 1 and 2 twice each; their means of the differences are 2 and 6, mean 4, standard deviation root 8, error 2.
test("draws in the weather of one member count as one; one alone tells no error", () => {
  expect(leadOf([1, 5, 3, 7], [0, 0, 0, 0], 2)).toEqual({
    perHa: 4,
    sePerHa: expect.closeTo(2, 12),
    equal: true,
  });
  expect(leadOf([4], [1])).toEqual({ perHa: 3, sePerHa: null, equal: false });
});

test("of those that the draws cannot tell from the first, the one that the forecast alone puts first leads", () => {
  const pair = (optionId: string, valuePerHa: number, shareKnown = true): Ranked => ({
    optionId,
    route: "dry-hay",
    valuePerHa,
    shareKnown,
    wholeArea: true,
    rainedOn: false,
    daysLying: 2,
    firstWindowMs: 0,
    cutMs: 0,
    treatmentId: "",
  });
  const near = (first: Ranked, other: Ranked) => first.valuePerHa - other.valuePerHa <= 10;
  const namesOf = (pairs: readonly Ranked[]) => pairs.map(({ optionId }) => optionId).join("");
  const plain = [pair("d", 9), pair("c", 8), pair("b", 7), pair("a", 6)];
  // Two samples of one board: a leads in the one, b in the other.
  const one = [pair("a", 104), pair("b", 103), pair("c", 100), pair("d", 80)];
  const two = [pair("b", 104), pair("c", 101), pair("a", 100), pair("d", 80)];
  expect(namesOf(firstOfEquals(one, plain, near))).toBe("cabd");
  expect(namesOf(firstOfEquals(two, plain, near))).toBe("cbad");
  expect(namesOf(firstOfEquals(one, plain, () => false))).toBe("abcd");
  // One of which nobody knows how much of the field it takes is no equal.
  expect(namesOf(firstOfEquals([pair("a", 104), pair("c", 104, false)], plain, near))).toBe("ac");
  expect(firstOfEquals([], plain, near)).toEqual([]);
});
