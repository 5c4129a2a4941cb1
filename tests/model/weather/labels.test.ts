import { expect, test } from "vitest";
import { readIsoTime, utcLabel, utcLabelMs } from "../../../model/weather/labels.ts";

test.each([
  ["2026-07-01T05:00:00Z", "2026-07-01T05:00:00Z"],
  ["2026-07-01T05:30Z", "2026-07-01T05:30:00Z"],
  ["2028-02-29T23:00:00.000Z", "2028-02-29T23:00:00Z"],
])("%s is a label", (text, label) => {
  expect(utcLabel(utcLabelMs(text))).toBe(label);
});

test.each([
  "",
  "2026-07-01",
  "2026-07-01T05:00:00",
  "2026-07-01T05:00:00+00:00",
  "2026-13-01T05:00:00Z",
  "2027-02-29T05:00:00Z",
  "2026-07-01T25:00:00Z",
  "2026-07-01T05:00:00.5Z",
  "+02026-07-01T05:00:00Z",
])("%j is not", (text) => {
  expect(utcLabelMs(text)).toBeNaN();
});

test.each([
  ["2026-07-01T05:00Z", "2026-07-01T05:00:00Z"],
  ["2026-07-01 05:00:00+05:30", "2026-06-30T23:30:00Z"],
  ["2026-07-01T05:00-0500", "2026-07-01T10:00:00Z"],
  ["2026-07-01T05:00+10", "2026-06-30T19:00:00Z"],
])("%s is read", (text, label) => {
  const time = readIsoTime(text);
  expect(time.kind === "moment" && utcLabel(time.utcMs)).toBe(label);
});

test.each([
  ["2026-07-01 05:00", "no-zone"],
  ["2026-07-01T05:00:00", "no-zone"],
  ["2026-07-01", "unreadable"],
  ["2026-07-01T05:00+19:00", "unreadable"],
  ["2026-07-01T24:00Z", "unreadable"],
  ["05:00", "unreadable"],
])("%s: %s", (text, kind) => {
  expect(readIsoTime(text).kind).toBe(kind);
});

test("every hour of two years round trips", () => {
  const hours = Array.from({ length: 2 * 8784 }, (_, i) => Date.UTC(2027, 0, 1) + i * 3.6e6);
  expect(hours.filter((ms) => utcLabelMs(utcLabel(ms)) !== ms)).toEqual([]);
});
