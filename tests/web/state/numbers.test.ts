import { expect, test } from "vitest";
import { notANumber, readNumber } from "../../../web/state/numbers.ts";

test("a decimal point or comma, spaces between thousands, a sign", () => {
  expect(["3.5", "3,5", "0,125", "1 000", "-2", ".5", "12,5"].map(readNumber)).toEqual([
    3.5, 3.5, 0.125, 1000, -2, 0.5, 12.5,
  ]);
});

test("a comma that may part thousands is asked about, never guessed", () => {
  expect(["1,000", "12,355", "1,695"].map(readNumber)).toEqual([null, null, null]);
  expect(notANumber("1,000")).toBe(
    'Got "1,000", must be a number without a comma between thousands: 1000 or 1.000?',
  );
  expect(notANumber("1e9")).toBe('Got "1e9", must be a number in digits.');
});
