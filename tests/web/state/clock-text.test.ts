import { expect, test } from "vitest";
import { hourWords, readClock, readHour, shownClock } from "../../../web/state/clock-text.ts";

test.each<[string, string | null]>([
  ["07:00", "07:00"],
  ["7:30", "07:30"],
  ["7 am", "07:00"],
  ["7 p.m.", "19:00"],
  ["12am", "00:00"],
  ["12 PM", "12:00"],
  ["noon", "12:00"],
  ["midnight", "00:00"],
  ["7", "07:00"],
  ["24", null],
  ["13 pm", null],
  ["24:00", null],
  ["7:60", null],
  ["", null],
  ["soon", null],
])("%j as a start is %j", (text, reading) => {
  expect(readClock(text, false)).toBe(reading);
});

test("a working day may end at midnight", () => {
  expect(readClock("24:00", true)).toBe("24:00");
  expect(readClock("midnight", true)).toBe("24:00");
  expect(readClock("24", true)).toBe("24:00");
  expect(readClock("24:30", true)).toBeNull();
});

test("hours of a list, by either clock", () => {
  expect(hourWords("9 am, 1 pm;5pm").map(readHour)).toEqual([9, 13, 17]);
  expect(hourWords("9 13:00 17").map(readHour)).toEqual([9, 13, 17]);
  expect(readHour("9.5")).toBeNull();
  expect(readHour("9:30")).toBeNull();
  expect(readHour("24")).toBe(24);
});

test("a time reads on the reader's clock, and what is no time stays as it was typed", () => {
  expect(shownClock("workFrom", "07:00", true)).toBe("7 am");
  expect(shownClock("workTo", "24:00", true)).toBe("midnight");
  expect(shownClock("workFrom", "7:30 pm", false)).toBe("19:30");
  expect(shownClock("cutHours", "9 12 17", true)).toBe("9 am, noon, 5 pm");
  expect(shownClock("cutHours", "9 am, noon", false)).toBe("9 12");
  expect(shownClock("tedHour", "10", false)).toBe("10:00");
  expect(shownClock("workFrom", "early", true)).toBe("early");
  expect(shownClock("areaHa", "10", true)).toBe("10");
});

test("what is shown is read as the same time again", () => {
  for (const hour12 of [true, false])
    for (let hour = 0; hour < 24; hour++) {
      const reading = `${String(hour).padStart(2, "0")}:00`;
      expect(readClock(shownClock("workFrom", reading, hour12), false)).toBe(reading);
      expect(readHour(shownClock("tedHour", String(hour), hour12))).toBe(hour);
      expect(hourWords(shownClock("cutHours", String(hour), hour12)).map(readHour)).toEqual([hour]);
    }
});
