import { expect, test } from "vitest";
import { recordSentence } from "../../../web/odds/record-sentence.ts";
import { reliabilityDots, reliabilitySentence } from "../../../web/odds/reliability.ts";

test("the record says how many readings on how many days, and when that is too few", () => {
  const none = { moisture: 0, chances: 0, days: 0 };
  expect(recordSentence(none, "device")).toMatch(/^No forecast has met a reading on this device/);
  expect(recordSentence(none, "book")).toMatch(/^Nothing in the book can be scored yet/);
  expect(recordSentence({ moisture: 1, chances: 2, days: 1 }, "device")).toBe(
    "1 reading met a forecast: too few to say, 1 of 20 days.",
  );
  expect(recordSentence({ moisture: 31, chances: 0, days: 20 }, "device")).toBe(
    "31 readings met a forecast, on 20 days.",
  );
  expect(recordSentence({ moisture: 31, chances: 9, days: 22 }, "book")).toBe(
    "31 readings met a forecast, and of 9 told windows it is known whether it came, on 22 days.",
  );
  expect(recordSentence({ moisture: 0, chances: 1, days: 1 }, "book")).toBe(
    "Of 1 told window it is known whether it came: too few to say, 1 of 20 days.",
  );
});

test("a dot a bin that holds anything, its area by how many", () => {
  const bin = (meanChance: number | null, observedShare: number | null, count: number) => ({
    from: 0,
    to: 1,
    count,
    meanChance,
    observedShare,
  });
  const dots = reliabilityDots([bin(0.1, 0, 4), bin(null, null, 0), bin(0.7, 0.6, 16)]);
  expect(dots.map(({ told, came }) => [told, came])).toEqual([
    [0.1, 0],
    [0.7, 0.6],
  ]);
  // By hand: a quarter as many, half the radius.
  expect((dots[0]?.radiusPx ?? 0) * 2).toBeCloseTo(dots[1]?.radiusPx ?? 0, 9);
  expect(reliabilitySentence(dots)).toBe(
    "Told 1 in 10, came 0 in 10 (4 times). Told 7 in 10, came 6 in 10 (16 times).",
  );
});
