import { expect, test } from "vitest";
import { recordSentence } from "../../../web/odds/record-sentence.ts";
import { baseShare, reliabilityDots, reliabilitySentence } from "../../../web/odds/reliability.ts";

test("the record says how many readings on how many days, and when that is too few", () => {
  const none = { moisture: 0, chances: 0, days: 0 };
  expect(recordSentence(none, "device")).toMatch(/^No forecast has met a reading on this device/);
  expect(recordSentence(none, "book")).toMatch(/^Nothing in the book can be scored yet/);
  expect(recordSentence({ moisture: 1, chances: 2, days: 1 }, "device")).toBe(
    "1 forecast met a reading: too few to say, 1 of 20 days.",
  );
  expect(recordSentence({ moisture: 31, chances: 0, days: 20 }, "device")).toBe(
    "31 forecasts met a reading, on 20 days.",
  );
  expect(recordSentence({ moisture: 31, chances: 9, days: 22 }, "book")).toBe(
    "31 forecasts met a reading, and of 9 told windows it is known whether it came, on 22 days.",
  );
  expect(recordSentence({ moisture: 0, chances: 1, days: 1 }, "book")).toBe(
    "Of 1 told window it is known whether it came: too few to say, 1 of 20 days.",
  );
});

test("a dot a bin that holds anything, its area by how many", () => {
  const bin = (
    meanChance: number | null,
    observedShare: number | null,
    count: number,
    right: readonly [number, number] | null = [0, 1],
    days = count,
  ) => ({ from: 0, to: 1, count, meanChance, observedShare, right, days });
  const dots = reliabilityDots([bin(0.1, 0, 4), bin(null, null, 0, null), bin(0.7, 0.6, 16)]);
  expect(dots.map(({ told, came }) => [told, came])).toEqual([
    [0.1, 0],
    [0.7, 0.6],
  ]);
  // By hand: a quarter as many, half the radius.
  expect((dots[0]?.radiusPx ?? 0) * 2).toBeCloseTo(dots[1]?.radiusPx ?? 0, 9);
  // By hand: 0.6 of 16 of 20 came.
  expect(baseShare(dots)).toBeCloseTo(0.48, 9);
  expect(baseShare([])).toBeNull();
  expect(reliabilitySentence(dots, 18)).toBe(
    "It came as often as was told, as far as 20 chances on 18 days can tell.",
  );
  expect(
    reliabilitySentence(reliabilityDots([bin(0.9, 0.5, 10, [0.7, 1]), bin(0.1, 0.6, 5, [0, 0.4])]), 12),
  ).toBe(
    "Told 9 in 10, it came 5 of 10 times: less often than told. Told 1 in 10, it came 3 of 5 times: more often than told.",
  );
  // Four days are too few to judge one dot by.
  expect(reliabilitySentence(reliabilityDots([bin(0.9, 0.5, 10, [0.7, 1], 4)]), 20)).toMatch(
    /^It came as often/,
  );
});
