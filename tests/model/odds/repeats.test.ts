import { expect, test } from "vitest";
import type { ReadingMethod, ReadingRequest } from "../../../model/drying/request.ts";
import { logLikelihood, type Measured } from "../../../model/odds/reading.ts";
import { readingSdWb, sdOfReading } from "../../../model/odds/reading-methods.ts";
import { likelihoodOf, measurementsOf, repeatedSdWb } from "../../../model/odds/repeats.ts";

const MOISTURES = [0.4, 0.45, 0.5];

function read(minute: number, moistureWb: number, change: Partial<ReadingRequest> = {}): Measured {
  const method: ReadingMethod = change.method ?? "windrow-probe";
  const atUtc = new Date(Date.parse("2026-07-01T20:00:00Z") + minute * 60_000).toISOString();
  const reading = { atUtc, method, moistureWb, ...change };
  return { reading, sdWb: readingSdWb(method), moistures: MOISTURES, middleWb: 0.45 };
}

test("one reading is as it was: method and place", () => {
  expect(repeatedSdWb([read(0, 0.45)])).toBeCloseTo(readingSdWb("windrow-probe"), 12);
  expect(likelihoodOf([read(0, 0.47)], 3)).toEqual(
    MOISTURES.map((wb) => logLikelihood(wb, read(0, 0.47).reading, readingSdWb("windrow-probe"))),
  );
  expect(likelihoodOf([], 2)).toEqual([0, 0]);
});

// By hand: method 0.06, half of its variance shared 0.0018; place 0.03²/3 = 0.0003; own 0.0018 / 10.
test("ten of them share the method's lean and the place", () => {
  const ten = Array.from({ length: 10 }, (_, i) => read(i, 0.44 + 0.002 * i));
  expect(repeatedSdWb(ten)).toBeCloseTo(Math.sqrt(0.0018 + 0.0003 + 0.00018), 12);
  // Their mean 0.449 against each draw.
  const expected = MOISTURES.map((wb) => (-0.5 * (0.449 - wb) ** 2) / 0.00228);
  for (const [i, ln] of likelihoodOf(ten, 3).entries()) expect(ln).toBeCloseTo(expected[i] as number, 9);
  // Two places are two: 0.03² / 6.
  const places = ten.map((one, i) => ({
    ...one,
    reading: { ...one.reading, place: i < 5 ? "north" : "south" },
  }));
  expect(repeatedSdWb(places)).toBeCloseTo(Math.sqrt(0.0018 + 0.00015 + 0.00018), 12);
});

// 0.015 the microwave, 0.05 a scale of 1 g on 20 g, 0.03²/3 the places; twice weighed the scale's part is halved.
test("a coarse scale widens its reading, anew with each", () => {
  const one = read(0, 0.45, { method: "microwave", addedSdWb: 0.05 });
  const coarse = { ...one, sdWb: sdOfReading(one.reading) };
  expect(coarse.sdWb).toBeCloseTo(Math.sqrt(0.015 ** 2 + 0.05 ** 2 + 0.0003), 12);
  expect(repeatedSdWb([coarse, coarse])).toBeCloseTo(
    Math.sqrt(0.015 ** 2 / 2 + 0.0003 + (0.015 ** 2 / 2 + 0.05 ** 2) / 2),
    12,
  );
});

test("another method, or two hours later, is another measurement; intervals count as one by their mean", () => {
  const all = [read(0, 0.45), read(5, 0.44, { method: "oven" }), read(120, 0.44), read(121, 0.44)];
  expect(measurementsOf(all).map((group) => group.length)).toEqual([2, 1, 1]);
  const range: [number, number] = [0.4, 0.5];
  const squeeze = read(0, 0, { method: "hand-squeeze", moistureWb: undefined, range });
  const again = { ...squeeze, reading: { ...squeeze.reading, atUtc: "2026-07-01T20:01:00Z" } };
  expect(likelihoodOf([squeeze, again], 3)).toEqual(likelihoodOf([squeeze], 3));
});
