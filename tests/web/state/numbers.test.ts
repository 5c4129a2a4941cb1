import { describe, expect, test } from "vitest";
import { numberMarksOf } from "../../../web/format/manner.ts";
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

const read = (texts: readonly string[], locale: string) =>
  texts.map((text) => readNumber(text, numberMarksOf(locale)));

test("how a locale writes numbers", () => {
  const locales = ["en-US", "en-IN", "de-DE", "es-ES", "fr-FR", "de-CH"];
  expect(locales.map(numberMarksOf)).toEqual([".,", ".,", ",.", ",.", ",", "."]);
});

test("the reader's own decimal mark, spaces and apostrophes between thousands, a sign", () => {
  expect(read(["3.5", "0.125", "1 000", "-2", ".5", "1.500", "1'500"], "en-US")).toEqual([
    3.5, 0.125, 1000, -2, 0.5, 1.5, 1500,
  ]);
  expect(read(["3,5", "1,500", "-2,25", ",5", "1 000,5"], "de-DE")).toEqual([3.5, 1.5, -2.25, 0.5, 1000.5]);
});

test("what parts thousands parts them, and is no decimal mark", () => {
  const grouped = ["1,500", "12,355.5", "-1,234,567", "1,00,000"];
  expect(read(grouped, "en-US")).toEqual([1500, 12355.5, -1234567, 100_000]);
  expect(read(["1.500", "12.355,5"], "de-DE")).toEqual([1500, 12355.5]);
  const wrong = ["1,5", "0,500", "12,34", "1,5000", "1,50,5", "1,500,5", "1.5,000", ",5", "1,"];
  for (const text of wrong) expect(read([text], "en-US"), text).toEqual([null]);
  expect(read(["1.5", "0.500", "1.500.5"], "de-DE")).toEqual([null, null, null]);
});

test("what to type is said", () => {
  expect(notANumber("1,5", ".,")).toBe(
    'Got "1,5": here a comma parts thousands, as in 1,500. Type 1.5, with a point.',
  );
  expect(notANumber("1.5", ",.")).toBe(
    'Got "1.5": here a point parts thousands, as in 1.500. Type 1,5, with a comma.',
  );
  // Nothing is offered that would be refused in its turn.
  const keeps = { limit: { min: 5, max: 92, unit: "%" }, locale: "de-DE" } as const;
  expect(notANumber("0.78", ",.", keeps)).toBe(
    'Got "0.78": here a point parts thousands, as in 1.500. With a comma it would be 0,78, which must be at least 5 and at most 92 %.',
  );
  expect(notANumber("7.5", ",.", keeps)).toMatch(/Type 7,5, with a comma\.$/);
  expect(notANumber("1,500,5", ".,")).toBe('Got "1,500,5", must be a number in digits.');
  expect(notANumber("1e9", ".,")).toBe('Got "1e9", must be a number in digits.');
});

test("where thousands are parted otherwise, either mark is the decimal one, but for what could be two numbers", () => {
  expect(read(["1.5", "1,5", "1 500,5"], "fr-FR")).toEqual([1.5, 1.5, 1500.5]);
  expect(read(["1.500"], "fr-FR")).toEqual([null]);
  expect(notANumber("1.500", ",")).toBe('Got "1.500": is it 1500, or 1,5? Type it without the point.');
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
  const sent = ["1,500", "1.500", "1.500,50", "9 x"].map((text) => withPoint(text, ",."));
  expect(sent).toEqual(["1.500", "1500", "1500.50", "9 x"]);
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

  test("1.500 is fifteen hundred, 1,500 one and a half, and 1.5 is refused with what to type", () => {
    expect(area("1.500").question?.field.areaHa).toBe(1500);
    expect(area("1,500").question?.field.areaHa).toBe(1.5);
    expect(area("1.5").errors.areaHa).toBe(
      'Got "1.5": here a point parts thousands, as in 1.500. Type 1,5, with a comma.',
    );
  });

  test("fields that nobody typed in stand with a comma; lists of hours and what was typed stand as typed", () => {
    const { yieldTHa, cutHours } = DEMO_INPUTS.texts;
    expect(shownText("yieldTHa", yieldTHa, "metric", "de-DE")).toBe("3,8");
    expect(shownText("cutHours", cutHours, "metric", "de-DE")).toBe(cutHours.text);
    expect(shownText("yieldTHa", { text: "3.8", units: "metric", marks: ",." }, "metric", "de-DE")).toBe(
      "3.8",
    );
    expect(shownText("yieldTHa", { text: "3,8", units: "metric", marks: ",." }, "metric", "en-US")).toBe(
      "3.8",
    );
  });

  test("what was got is told as its limit is", () => {
    expect(area("999999").errors.areaHa).toMatch(/^Got 999\.999, .* 5\.000 ha\.$/);
  });
});
