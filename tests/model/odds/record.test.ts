import { expect, test } from "vitest";
import {
  chanceRecord,
  moistureRecord,
  parametersOfDraw,
  perfectCover80,
  rainChances,
  readingSentence,
  seededRandom,
  targetOdds,
} from "../../../model/odds/index.ts";

const day = (i: number) => new Date(Date.UTC(2026, 4, 1 + i)).toISOString().slice(0, 10);

test("bands drawn from the truth's own distribution cover what their number of members can", () => {
  // 51 members: 0.769; "77 % even when perfect".
  expect(perfectCover80(51)).toBeCloseTo(0.769, 3);
  const random = seededRandom(11);
  const met = Array.from({ length: 3000 }, (_, i) => ({
    day: day(i % 150),
    leadH: 10,
    route: null,
    membersWb: Array.from({ length: 51 }, random),
    observedWb: random(),
  }));
  const [scores] = moistureRecord(met, 1);
  if (!scores?.inside80.enough) throw new Error("150 days must be enough");
  // Standard error of a share from 3000: 0.0077; three of them.
  expect(Math.abs(scores.inside80.mean - perfectCover80(51))).toBeLessThan(0.024);
});

test("a truth wider than the bands shows: fewer inside, and the interval of the share excludes what it should be", () => {
  const random = seededRandom(12);
  const met = Array.from({ length: 900 }, (_, i) => ({
    day: day(i % 90),
    leadH: 10,
    route: null,
    membersWb: Array.from({ length: 51 }, () => 0.4 + 0.2 * random()),
    observedWb: 0.3 + 0.4 * random(),
  }));
  const [scores] = moistureRecord(met, 1);
  if (!scores?.inside80.enough) throw new Error("90 days must be enough");
  expect(scores.inside80.p95).toBeLessThan(perfectCover80(51));
});

test("groups by route and lead; a small group says so and gives no parts", () => {
  const met = Array.from({ length: 25 }, (_, i) => ({
    day: day(i),
    leadH: i < 22 ? 30 : 100,
    route: "dry-hay",
    chance: 0.8,
    came: i % 5 !== 0,
  }));
  const [near, far] = chanceRecord(met, 1);
  expect(near).toMatchObject({ route: "dry-hay", leadH: [24, 72], brier: { enough: true, days: 22 } });
  expect(near?.parts?.brier).toBeCloseTo((17 * 0.04 + 5 * 0.64) / 22, 12);
  expect(far).toMatchObject({ leadH: [72, 120], brier: { enough: false, days: 3 }, parts: null, bins: null });
  expect(chanceRecord([], 1)).toEqual([]);
});

test("odds of a target and of rain, by hand", () => {
  expect(targetOdds(0.2, [50, 60, null, null])).toMatchObject({ chance: 0.5, neverShare: 0.5 });
  expect(rainChances([0, 1, 6, 12])).toEqual([
    { aboveMm: 1, chance: 0.5 },
    { aboveMm: 5, chance: 0.5 },
    { aboveMm: 10, chance: 0.25 },
  ]);
  expect(() => targetOdds(0.2, [])).toThrow(RangeError);
});

test("what a reading changed is said", () => {
  const words = { target: "20 %", when: (hours: number) => `${hours} h after`, number: String };
  expect(readingSentence(54, 50.4, words)).toBe(
    "20 % is now due 50.4 h after, 4 h sooner than before the reading.",
  );
  // Minutes where hours would hide the change.
  expect(readingSentence(50, 50.4, words)).toContain("24 min later");
  expect(readingSentence(50, 50.005, words)).toContain("as before the reading");
  expect(readingSentence(null, 50, words)).toContain("out of reach");
  expect(readingSentence(54, null, words)).toContain("now out of reach");
});

test("a draw's rate factor multiplies the fresh conductance and nothing else", () => {
  const [one, twice] = [parametersOfDraw({ rateFactor: 1 }), parametersOfDraw({ rateFactor: 2 })];
  expect(twice).toEqual({ ...one, freshConductance: 2 * one.freshConductance });
});
