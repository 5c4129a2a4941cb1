import { describe, expect, test } from "vitest";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import {
  degreesText,
  notANumber,
  readDegrees,
  readLimited,
  readNumber,
  withPoint,
} from "../../../web/state/numbers.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { reduce } from "../../../web/state/reducer.ts";
import { firstState } from "../../../web/state/state.ts";
import { shownText } from "../../../web/state/typed.ts";

test("a decimal point or comma, spaces between thousands, a sign", () => {
  const read = ["3.5", "3,5", "0,125", "1 000", "-2", ".5", "12,5"].map((text) => readNumber(text));
  expect(read).toEqual([3.5, 3.5, 0.125, 1000, -2, 0.5, 12.5]);
});

test("a mark that may part thousands is asked about, never guessed", () => {
  expect(["1,000", "12,355", "1,695"].map((text) => readNumber(text))).toEqual([null, null, null]);
  expect(["1.500", "12.355"].map((text) => readNumber(text, ","))).toEqual([null, null]);
  expect(notANumber("1,000")).toBe('Got "1,000": is it 1000, or 1? Type it without the comma.');
  expect(notANumber("1.500", ",")).toBe('Got "1.500": is it 1500, or 1,5? Type it without the point.');
  expect(notANumber("1e9")).toBe('Got "1e9", must be a number in digits.');
});

test("the reader's own decimal mark is beyond doubt, and the other one where it cannot part thousands", () => {
  expect([readNumber("1.500"), readNumber("1,500", ","), readNumber("1.5", ",")]).toEqual([1.5, 1.5, 1.5]);
});

test("degrees of a place have no thousands", () => {
  expect([readDegrees("44.312"), readDegrees("44,312"), readDegrees("north")]).toEqual([
    44.312,
    44.312,
    null,
  ]);
  expect([degreesText(" 44,312"), degreesText("north")]).toEqual(["44.312", "north"]);
});

test("what goes out has a point, digits as typed", () => {
  expect([withPoint("1,500", ","), withPoint("1.500", ","), withPoint("9 x", ",")]).toEqual([
    "1.500",
    "1.500",
    "9 x",
  ]);
});

test("limits and what was got are told by locale, and counts are whole", () => {
  const limit = { min: 0, max: 100_000, unit: "bales" };
  expect(readLimited("60", limit, "de-DE", true)).toEqual({ value: 60 });
  expect(readLimited("1,5", limit, "de-DE", true).error).toBe("Got 1,5, must be a whole number.");
  expect(readLimited("999999", limit, "de-DE").error).toBe(
    "Got 999.999, must be at least 0 and at most 100.000 bales.",
  );
  expect(readLimited(" ", limit).error).toBe("Empty; a number is needed.");
});

describe("the page in German", () => {
  const start = firstState({
    timeZone: "",
    locale: "de-DE",
    nowMs: 0,
    online: true,
    preferences: { units: "metric", theme: "system" },
    inputs: DEMO_INPUTS,
  });
  const area = (text: string) =>
    readInputs(reduce(start, { kind: "text", field: "areaHa", text }).inputs, start);

  test("1.500 is asked about, 1,500 and 1.5 are not", () => {
    expect(area("1.500").errors.areaHa).toMatch(/is it 1500, or 1,5\?/);
    expect(area("1,500").question?.field.areaHa).toBe(1.5);
    expect(area("1.5").question?.field.areaHa).toBe(1.5);
  });

  test("fields that nobody typed in stand with a comma; lists of hours and what was typed stand as typed", () => {
    const { yieldTHa, cutHours } = DEMO_INPUTS.texts;
    expect(shownText("yieldTHa", yieldTHa, "metric", "de-DE")).toBe("3,8");
    expect(shownText("cutHours", cutHours, "metric", "de-DE")).toBe(cutHours.text);
    expect(shownText("yieldTHa", { text: "3.8", units: "metric", mark: "," }, "metric", "de-DE")).toBe("3.8");
    expect(shownText("yieldTHa", { text: "3,8", units: "metric", mark: "," }, "metric", "en-US")).toBe("3.8");
  });

  test("what was got is told as its limit is", () => {
    expect(area("999999").errors.areaHa).toMatch(/^Got 999\.999, .* 5\.000 ha\.$/);
  });
});
