import { expect, test } from "vitest";
import { bandStudy, readingStudy, recordOf } from "./study.ts";

// Light forms of `npm run study`; figures of the whole one stand in README. Tolerances are those of few cuts:
// the share of 60 cuts inside an 80 % band has a standard deviation of about 5 %, hours of one cut lying in or out together.
test("bands of 200 draws hold the truth about as often as they say, and not when it is twice as wide", () => {
  const fair = bandStudy({ cuts: 60, draws: 200, seed: 1, wider: 1 });
  expect(fair.inside80).toBeGreaterThan(0.7);
  expect(fair.inside80).toBeLessThan(0.9);
  const wide = bandStudy({ cuts: 60, draws: 200, seed: 1, wider: 2 });
  expect(wide.inside80).toBeLessThan(0.7);
  const told = recordOf(wide, 1).inside80;
  expect(told.enough && told.p95).toBeLessThan(0.77);
}, 20_000);

test("one oven reading half way takes at least 40 % off the rms error of the rest of the course", () => {
  const { before, after } = readingStudy({ cuts: 40, draws: 300, seed: 2, wider: 1 });
  expect(after / before).toBeLessThan(0.6);
}, 20_000);
