import { describe, expect, test } from "vitest";
import {
  briefDayClockText,
  clockText,
  dayClockText,
  dayText,
  farmDays,
  hourTickText,
  shortDayClockText,
  spanText,
} from "../../../web/format/farm-time.ts";

const CHICAGO = { zone: "America/Chicago", hour12: false };
const IN_12_H = { zone: "America/Chicago", hour12: true };
const HOUR_MS = 3_600_000;

describe("the farm's clock in words", () => {
  test("is the farm's, not the machine's", () => {
    expect(dayClockText("2026-07-16T14:00:00Z", CHICAGO)).toBe("Thursday 09:00");
    expect(dayClockText("2026-07-16T14:00:00Z", { ...CHICAGO, zone: "Asia/Kolkata" })).toBe("Thursday 19:30");
    expect(shortDayClockText("2026-07-16T14:00:00Z", { ...CHICAGO, zone: "Pacific/Auckland" })).toBe(
      "Fri 02:00",
    );
    expect(dayText(Date.UTC(2026, 6, 16, 3), CHICAGO)).toBe("Wednesday");
  });

  test.each([
    ["Europe/Berlin", "2026-10-24T23:00:00Z", "01:00"],
    ["Europe/Berlin", "2026-10-25T00:00:00Z", "02:00 first"],
    ["Europe/Berlin", "2026-10-25T00:55:00Z", "02:55 first"],
    ["Europe/Berlin", "2026-10-25T01:00:00Z", "02:00 again"],
    ["Europe/Berlin", "2026-10-25T02:00:00Z", "03:00"],
    ["Europe/Berlin", "2026-03-29T00:00:00Z", "01:00"],
    ["Europe/Berlin", "2026-03-29T01:00:00Z", "03:00"],
    ["America/Chicago", "2026-11-01T06:00:00Z", "01:00 first"],
    ["America/Chicago", "2026-11-01T07:00:00Z", "01:00 again"],
    ["Australia/Lord_Howe", "2026-04-04T14:45:00Z", "01:45 first"],
    ["Australia/Lord_Howe", "2026-04-04T15:15:00Z", "01:45 again"],
    ["Australia/Lord_Howe", "2026-04-04T14:15:00Z", "01:15"],
  ])("an hour that comes twice is told apart: in %s %s is %s", (zone, utc, words) => {
    expect(clockText(utc, { zone, hour12: false })).toBe(words);
  });

  test("a tick of an hour that comes twice stays short", () => {
    const clock = { zone: "America/Chicago", hour12: true };
    expect(hourTickText("2026-11-01T07:00:00Z", clock)).toBe("1 am");
  });

  test("a span names its second day only where it differs", () => {
    expect(spanText("2026-07-17T18:00:00Z", "2026-07-17T23:00:00Z", CHICAGO)).toBe("Friday 13:00 to 18:00");
    expect(spanText("2026-07-18T02:00:00Z", "2026-07-18T08:00:00Z", CHICAGO)).toBe(
      "Friday 21:00 to Saturday 03:00",
    );
  });

  // 12:00 as "12 pm" is read both ways; noon is not.
  test.each([
    ["2026-07-16T05:00:00Z", "Thursday 12 am"],
    ["2026-07-16T14:00:00Z", "Thursday 9 am"],
    ["2026-07-16T17:00:00Z", "Thursday noon"],
    ["2026-07-16T17:05:00Z", "Thursday 12:05 pm"],
    ["2026-07-16T18:30:00Z", "Thursday 1:30 pm"],
  ])("on a 12-hour clock %s is %s", (utc, words) => {
    expect(dayClockText(utc, IN_12_H)).toBe(words);
  });

  test("a span on a 12-hour clock names each half of the day", () => {
    expect(spanText("2026-07-17T15:00:00Z", "2026-07-17T23:00:00Z", IN_12_H)).toBe("Friday 10 am to 6 pm");
  });

  // Reader of Saturday 20 June 2026: Friday 19 to Thursday 25 are the seven days whose names say them.
  test.each([
    ["2026-06-18T14:00:00Z", "Thursday 18 Jun 09:00", "Thu 18 Jun 09:00", "Thu 18 09:00"],
    ["2026-06-19T05:00:00Z", "Friday 00:00", "Fri 00:00", "Fri 00:00"],
    ["2026-06-26T04:55:00Z", "Thursday 23:55", "Thu 23:55", "Thu 23:55"],
    ["2026-06-26T05:00:00Z", "Friday 26 Jun 00:00", "Fri 26 Jun 00:00", "Fri 26 00:00"],
  ])("%s counted from a Saturday is %s", (utc, long, short, brief) => {
    const near = { ...CHICAGO, nearDay: "2026-06-20" };
    expect([dayClockText, shortDayClockText, briefDayClockText].map((told) => told(utc, near))).toEqual([
      long,
      short,
      brief,
    ]);
    expect(spanText(utc, Date.parse(utc) + 60_000, near)).toContain(`${long} to `);
    expect(dayClockText(utc, { ...CHICAGO, nearDay: null })).toMatch(/^\w+day \d+ Jun \d\d:\d\d$/);
  });

  test("refuses what is no moment", () => {
    expect(() => clockText("tomorrow", CHICAGO)).toThrow(/not a moment/);
  });
});

describe("days of the farm", () => {
  // Common knowledge of the zone: clocks go forward on 8 March and back on 1 November 2026.
  test.each([
    ["forward", "2026-03-07T06:00:00Z", [24, 23, 24]],
    ["back", "2026-10-31T05:00:00Z", [24, 25, 24]],
  ])("clock goes %s: 23 or 25 hours, none lost and none twice", (_, from, hours) => {
    const fromMs = Date.parse(from);
    const days = farmDays(fromMs, fromMs + hours.reduce((a, b) => a + b) * HOUR_MS, CHICAGO.zone);
    expect(days.map(({ startMs, endMs }) => (endMs - startMs) / HOUR_MS)).toEqual(hours);
    for (const { startMs } of days) expect(clockText(startMs, CHICAGO)).toBe("00:00");
  });
});
