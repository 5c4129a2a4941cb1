import { describe, expect, test } from "vitest";
import {
  addDays,
  HOUR_MS,
  isKnownTimeZone,
  localDays,
  localOffsetMs,
  localOffsetsMs,
  localParts,
  startOfLocalDay,
  utcOfLocal,
} from "../../../model/weather/clock.ts";

const utc = (text: string) => Date.parse(text);

describe("zones", () => {
  test.each(["America/Chicago", "Asia/Kolkata", "Etc/GMT+8", "UTC"])("%s is known", (zone) => {
    expect(isKnownTimeZone(zone)).toBe(true);
  });
  test.each(["Mars/Olympus", "", "__proto__", "constructor", "toString", "+05:30"])(
    "%j is refused",
    (zone) => {
      expect(isKnownTimeZone(zone)).toBe(false);
      expect(() => localOffsetMs(zone, 0)).toThrow(RangeError);
    },
  );
  test("Etc/GMT+8 is UTC-8: the sign is inverted in the name", () => {
    expect(localOffsetMs("Etc/GMT+8", 0)).toBe(-8 * HOUR_MS);
  });
});

// Offsets and clock changes: the public IANA rules of each zone (tz database).
describe("local parts", () => {
  test.each([
    ["America/Chicago", "2026-07-01T05:00:00Z", "2026-07-01", 0, 0],
    ["America/Chicago", "2026-01-01T05:30:00Z", "2025-12-31", 23, 30],
    ["Asia/Kolkata", "2026-07-01T05:00:00Z", "2026-07-01", 10, 30],
    ["Australia/Lord_Howe", "2026-07-01T05:00:00Z", "2026-07-01", 15, 30],
    ["Australia/Lord_Howe", "2026-01-01T05:00:00Z", "2026-01-01", 16, 0],
    ["Pacific/Auckland", "2026-07-01T13:00:00Z", "2026-07-02", 1, 0],
    ["Europe/Dublin", "2026-07-01T23:15:00Z", "2026-07-02", 0, 15],
  ])("%s at %s", (zone, at, dayKey, hour, minute) => {
    const parts = localParts(utc(at), zone);
    expect([parts.dayKey, parts.hour, parts.minute]).toEqual([dayKey, hour, minute]);
    expect(parts.hourFloat).toBeCloseTo(hour + minute / 60, 12);
  });
  test("weekday: 1 July 2026 is a Wednesday", () => {
    expect(localParts(utc("2026-07-01T12:00:00Z"), "UTC").weekday).toBe(3);
  });
});

describe("clock changes", () => {
  test.each([
    ["America/Chicago", "2026-03-08", 2, 0],
    ["America/Chicago", "2026-03-08", 2, 59],
    ["Europe/Dublin", "2026-03-29", 1, 0],
    ["Australia/Lord_Howe", "2026-10-04", 2, 15],
    ["Pacific/Auckland", "2026-09-27", 2, 30],
  ])("%s %s %i:%i is skipped", (zone, day, hour, minute) => {
    expect(utcOfLocal(zone, day, hour, minute)).toEqual({ kind: "skipped" });
  });
  test.each([
    ["America/Chicago", "2026-11-01", 1, 0, "2026-11-01T06:00:00Z", "2026-11-01T07:00:00Z"],
    ["Europe/Dublin", "2026-10-25", 1, 30, "2026-10-25T00:30:00Z", "2026-10-25T01:30:00Z"],
    ["Australia/Lord_Howe", "2026-04-05", 1, 45, "2026-04-04T14:45:00Z", "2026-04-04T15:15:00Z"],
    ["Pacific/Auckland", "2026-04-05", 2, 0, "2026-04-04T13:00:00Z", "2026-04-04T14:00:00Z"],
  ])("%s %s %i:%i comes twice", (zone, day, hour, minute, first, second) => {
    expect(utcOfLocal(zone, day, hour, minute)).toEqual({
      kind: "twice",
      firstUtcMs: utc(first),
      secondUtcMs: utc(second),
    });
  });
  test.each([
    ["America/Chicago", "2026-03-08", 23],
    ["America/Chicago", "2026-11-01", 25],
    ["Europe/Dublin", "2026-03-29", 23],
    ["Europe/Dublin", "2026-10-25", 25],
    ["Asia/Kolkata", "2026-03-29", 24],
    ["Australia/Lord_Howe", "2026-10-04", 23.5],
    ["Australia/Lord_Howe", "2026-04-05", 24.5],
    ["Pacific/Auckland", "2026-09-27", 23],
    ["Pacific/Auckland", "2026-04-05", 25],
    ["America/Santiago", "2026-09-06", 23],
  ])("%s %s lasts %d h", (zone, day, hours) => {
    expect((startOfLocalDay(zone, addDays(day, 1)) - startOfLocalDay(zone, day)) / HOUR_MS).toBe(hours);
  });
  test("Chile skips midnight itself: the day starts at 01:00", () => {
    expect(localParts(startOfLocalDay("America/Santiago", "2026-09-06"), "America/Santiago").hour).toBe(1);
  });
});

describe("going there and back", () => {
  test.each(["America/Chicago", "Europe/Dublin", "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Auckland"])(
    "%s: moments through a year are found again from its local reading",
    (zone) => {
      for (let t = utc("2026-01-01T00:00:00Z"); t < utc("2027-01-01T00:00:00Z"); t += HOUR_MS * 4.25) {
        const p = localParts(t, zone);
        const back = utcOfLocal(zone, p.dayKey, p.hour, p.minute);
        if (back.kind === "one") expect(back.utcMs).toBe(t);
        else if (back.kind === "twice") expect([back.firstUtcMs, back.secondUtcMs]).toContain(t);
        else expect(back.kind).not.toBe("skipped");
      }
    },
  );
  test.each(["America/Chicago", "Australia/Lord_Howe", "Asia/Kolkata"])(
    "%s: the offset of each hour of a year equals the one asked singly",
    (zone) => {
      const start = utc("2026-01-01T00:00:00Z");
      const offsets = localOffsetsMs(zone, start, 8760);
      const singly = Float64Array.from({ length: 8760 }, (_, i) => localOffsetMs(zone, start + i * HOUR_MS));
      expect(offsets).toEqual(singly);
    },
  );
});

describe("days", () => {
  test("across a month, a year and a leap day", () => {
    expect(addDays("2026-12-31", 1)).toBe("2027-01-01");
    expect(addDays("2028-03-01", -1)).toBe("2028-02-29");
  });
  test.each(["2026-02-30", "2026-7-1", "yesterday"])("%s is not a day", (day) => {
    expect(() => addDays(day, 1)).toThrow(RangeError);
  });
  test("a span that ends on midnight does not touch the next day", () => {
    const from = utc("2026-07-01T05:00:00Z");
    expect(localDays(from, from + 48 * HOUR_MS, "America/Chicago")).toEqual(["2026-07-01", "2026-07-02"]);
    expect(localDays(from, from, "America/Chicago")).toEqual([]);
  });
});
