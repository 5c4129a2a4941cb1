import { describe, expect, test } from "vitest";
import { asFarOff, verdictsOf } from "../../../model/odds/odd-reading.ts";
import { equalWeights, type Measured } from "../../../model/odds/reading.ts";
import { readingSdWb } from "../../../model/odds/reading-methods.ts";

const SD = readingSdWb("oven");

/** Draws spread evenly from 42 to 58 %, all `dried` points drier by then. */
function read(
  moistureWb: number,
  { method = "oven" as "oven" | "microwave", dried = 0, confirmed = false } = {},
): Measured {
  const moistures = Array.from({ length: 101 }, (_, i) => 0.42 + 0.0016 * i - dried / 100);
  const reading = { atUtc: "2026-07-01T20:00:00Z", method, moistureWb, confirmed };
  return { reading, sdWb: readingSdWb(method), moistures, middleWb: 0.5 - dried / 100 };
}

// By hand: one draw at 50 %, reading of the oven at 1.96 standard deviations: 1 in 20 lie as far off on either side.
test("the chance of a reading as far off is that of both tails", () => {
  const sdWb = readingSdWb("oven");
  const one = { ...read(0.5 - 1.96 * sdWb), moistures: [0.5] };
  expect(asFarOff([1], one).chance).toBeCloseTo(0.05, 4);
  expect(asFarOff([1], one).side).toBe(-1);
  expect(asFarOff(equalWeights(101), read(0.5)).chance).toBeCloseTo(1, 6);
  const range = { ...one, reading: { ...one.reading, moistureWb: undefined, range: [0.3, 0.6] as const } };
  expect(asFarOff([1], range).chance).toBe(1);
});

describe("what bears an odd reading out", () => {
  test.each([
    ["alone it is questioned", [read(0.36)], ["questioned"]],
    ["so is one at five standard deviations from every draw", [read(0.42 - 5 * SD)], ["questioned"]],
    ["and at a little over three", [read(0.42 - 3.1 * SD)], ["questioned"]],
    // By hand: 0.113 of the draws a deviation, times 0.083 (the tail beyond one, integrated), both sides: 19 in 1000.
    ["not at one", [read(0.42 - SD)], ["fits"]],
    ["so is one beyond every draw by far", [read(0.1)], ["questioned"]],
    ["confirmed it counts", [read(0.36, { confirmed: true })], ["confirmed"]],
    ["the same again minutes later", [read(0.36), read(0.36)], ["questioned", "same-again"]],
    ["however often", [read(0.36), read(0.36), read(0.359)], ["questioned", "same-again", "same-again"]],
    ["another method", [read(0.36), read(0.35, { method: "microwave" })], ["borne-out", "borne-out"]],
    ["drying between", [read(0.36), read(0.32, { dried: 3 })], ["borne-out", "borne-out"]],
    ["hardly any drying between", [read(0.36), read(0.34, { dried: 2.9 })], ["questioned", "same-again"]],
    [
      "one on the other side",
      [read(0.36), read(0.66, { method: "microwave" })],
      ["questioned", "questioned"],
    ],
    [
      "one that fits leaves it alone",
      [read(0.36), read(0.5, { method: "microwave" })],
      ["questioned", "fits"],
    ],
    ["readings that fit", [read(0.5), read(0.46, { dried: 3 })], ["fits", "fits"]],
  ])("%s", (_, measured, verdicts) => {
    expect(verdictsOf(measured)).toEqual(verdicts);
  });

  test("readings that fit by themselves and lie near it make it likely", () => {
    const near = [read(0.405, { method: "microwave" }), read(0.375, { dried: 3 })];
    expect(verdictsOf(near)).toEqual(["fits", "fits"]);
    expect(verdictsOf([read(0.385), ...near])[0]).toBe("borne-out");
  });
});
