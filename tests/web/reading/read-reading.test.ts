import { expect, test } from "vitest";
import { readReading, takenAlready, timeField, timeOfField } from "../../../web/reading/read-reading.ts";

const ZONE = "America/Chicago";
const manner = { units: "metric", locale: "en-GB", hour12: false, zone: ZONE } as const;
const place = {
  fromMs: Date.parse("2026-06-22T22:00:00Z"),
  toMs: Date.parse("2026-06-29T00:00:00Z"),
  nowMs: null,
};
const texts = { method: "microwave", value: "52", squeeze: 3, time: "2026-06-23T15:30", place: "" } as const;

test("a moment goes to its field and back by the farm's clock; a skipped hour is none, a doubled one its first", () => {
  const ms = Date.parse("2026-06-23T20:30:00Z");
  expect(timeField(ms, ZONE)).toBe("2026-06-23T15:30");
  expect(timeOfField("2026-06-23T15:30", ZONE)).toBe(ms);
  expect(timeOfField("2026-03-08T02:30", ZONE)).toBeNull();
  expect(timeOfField("2026-11-01T01:30", ZONE)).toBe(Date.parse("2026-11-01T06:30:00Z"));
});

test("a value becomes a fraction at its moment, a squeeze an interval", () => {
  expect(readReading(texts, place, manner).request).toEqual({
    atUtc: "2026-06-23T20:30:00Z",
    method: "microwave",
    moistureWb: 0.52,
  });
  // Weighed here on a scale that is worth 5 points of its sample.
  expect(readReading({ ...texts, scalePoints: 5 }, place, manner).request).toMatchObject({ addedSdWb: 0.05 });
  expect(readReading({ ...texts, method: "hand-squeeze", value: "" }, place, manner).request).toEqual({
    atUtc: "2026-06-23T20:30:00Z",
    method: "hand-squeeze",
    range: [0.6, 0.7],
  });
});

test.each([
  [{ value: "0.52" }, "value", /0\.52, must be at least 5 and at most 92 %/],
  [{ value: "" }, "value", /Empty/],
  [{ place: "x".repeat(201) }, "place", /Got 201 characters, must be at most 200/],
  [{ time: "2026-06-22T10:00" }, "time", /Monday 10:00.*between the cut \(Monday 17:00\)/],
  [{ time: "" }, "time", /must be a day and an hour/],
] as const)("%o is told beside its field", (part, field, words) => {
  const { errors, request } = readReading({ ...texts, ...part }, place, manner);
  expect(request).toBeNull();
  expect(errors[field]).toMatch(words);
});

test("what has not been read yet is refused, a clock that runs some minutes fast is not; invented weather has no now", () => {
  const nowMs = Date.parse("2026-06-23T20:00:00Z");
  const late = readReading(texts, { ...place, nowMs }, manner);
  expect(late.request).toBeNull();
  expect(late.errors.time).toMatch(/Tuesday 15:30, must not lie after now \(Tuesday 15:00\)/);
  expect(readReading(texts, { ...place, nowMs: nowMs + 26 * 60_000 }, manner).request).not.toBeNull();
  expect(readReading(texts, place, manner).request).not.toBeNull();
});

test("the same reading is known again; another place, time, method or moisture is another one", () => {
  const { request } = readReading(texts, place, manner);
  if (request === null) throw new Error("no request");
  const there = [{ request, place: "north end" }];
  expect(takenAlready(there, { ...request }, " north end ")).toBe(true);
  expect(takenAlready(there, request, "south end")).toBe(false);
  expect(takenAlready(there, { ...request, atUtc: "2026-06-23T20:31:00Z" }, "north end")).toBe(false);
  expect(takenAlready(there, { ...request, method: "oven" }, "north end")).toBe(false);
  expect(takenAlready(there, { ...request, moistureWb: 0.53 }, "north end")).toBe(false);
  const { atUtc } = request;
  const squeezed = [{ request: { atUtc, method: "hand-squeeze", range: [0.6, 0.7] } as const, place: "" }];
  expect(takenAlready(squeezed, { atUtc, method: "hand-squeeze", range: [0.7, 0.75] }, "")).toBe(false);
  expect(takenAlready(squeezed, { atUtc, method: "hand-squeeze", range: [0.6, 0.7] }, "")).toBe(true);
});
