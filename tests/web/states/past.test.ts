import { expect, test } from "vitest";
import { localDayKey } from "../../../model/weather/clock.ts";
import { lacksRain } from "../../../web/answer/chips.ts";
import { dayDateText, spanText } from "../../../web/format/farm-time.ts";
import { nearDayOf, pastOf, pastText } from "../../../web/states/past.ts";
import { metric24 } from "../../support/manners.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const series = inventedSpell(PLACES.southDakota, "2015-07-19T05:00:00Z", 72);
const endMs = Date.parse("2015-07-22T05:00:00Z");
const manner = { ...metric24("America/Chicago"), thisYear: 2026 };
const HOUR_MS = 3_600_000;

test.each([
  ["upload", 0, "ended"],
  ["upload", 11 * 365 * 24, "ended"],
  ["upload", -1, "ending"],
  ["upload", -23, "ending"],
  ["upload", -24, undefined],
  ["forecast", 1, "ended"],
  ["forecast", -1, undefined],
  ["sample", 11 * 365 * 24, undefined],
] as const)("%s, %i h after its end: %s", (kind, hours, level) => {
  expect(pastOf({ kind, series }, endMs + hours * HOUR_MS)?.level).toBe(level);
});

test("the chip names the day and the year in which it ended", () => {
  expect(pastText({ level: "ended", endMs }, manner)).toBe(
    "This weather ended Tuesday 21 Jul 2015: what would have been",
  );
  expect(pastText({ level: "ending", endMs }, { ...manner, thisYear: 2015 })).toBe(
    "This weather ends Wednesday 22 Jul 00:00, too soon for another cut: what would have been",
  );
});

test("days are counted from today, from the first of invented weather, and from none of what is past", () => {
  const day = (kind: "upload" | "sample", nowMs: number) => nearDayOf({ kind, series }, nowMs);
  expect(day("upload", endMs - 48 * HOUR_MS)).toBe("2015-07-20");
  expect(day("upload", endMs)).toBeNull();
  expect(day("sample", endMs)).toBe(
    localDayKey(Date.parse(series.hours.startUtc[0] ?? ""), "America/Chicago"),
  );
});

test("a year stands wherever it is not the present one, and only there", () => {
  expect(dayDateText(endMs, manner)).toBe("Wednesday 22 Jul 2015");
  expect(dayDateText(endMs, { ...manner, thisYear: 2015 })).toBe("Wednesday 22 Jul");
  expect(dayDateText(endMs, metric24("America/Chicago"))).toBe("Wednesday 22 Jul");
  expect(spanText(endMs, endMs + HOUR_MS, manner)).toBe("Wednesday 22 Jul 2015 00:00 to 01:00");
});

test("rain is lacking only where no hour of series and members has any", () => {
  const none = { ...series, hours: { ...series.hours, rainMm: series.hours.rainMm.map(() => null) } };
  expect(lacksRain(series)).toBe(false);
  expect(lacksRain(none)).toBe(true);
  expect(lacksRain({ ...none, members: [{ rainMm: [0.2] }] })).toBe(false);
});
