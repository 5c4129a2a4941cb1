import { expect, test } from "vitest";
import { scaleOf } from "../../../web/board/calendar.ts";
import { crewRain, rainWords, whoseRain } from "../../../web/crew/crew-rain.ts";
import { farmDays } from "../../../web/format/farm-time.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const plain = spellWithMembers(1, 0, 0);
const zone = plain.site.timeZone;
const startMs = Date.parse(plain.hours.startUtc[0] ?? "");
const utc = (hour: number) => new Date(startMs + hour * HOUR_MS).toISOString();
/** A day with rain in the central forecast at 10 and 11, and in as many of five members as are given. */
const members = (wet: number) => ({
  ...plain,
  members: Array.from({ length: 5 }, (_, i) => ({
    rainMm: plain.hours.rainMm.map((mm) => (i < wet ? mm : 0)),
  })),
});
const days = farmDays(startMs, startMs + 23 * HOUR_MS, zone);
const scale = scaleOf(startMs, startMs + 24 * HOUR_MS, 0, 240);
const visit = (fromH: number, toH: number) => ({
  fieldId: "creek",
  startUtc: utc(fromH),
  endUtc: utc(toH),
});

test("rain is as long as its mean over the members, pale where most have it dry, and that of the series without members", () => {
  const bars = (series: typeof plain) =>
    crewRain(series, days, scale, 24).map(({ x0, rainMm, seldom }) => [Math.round(x0), rainMm, seldom]);
  expect(bars(plain)).toEqual([[90, 10, false]]);
  expect(bars(members(3))).toEqual([[90, 6, false]]);
  expect(bars(members(2))).toEqual([[90, 4, true]]);
  expect(bars(members(0))).toEqual([]);
});

test("of a work is told in how many forecasts it rains in its hours, not once it has begun", () => {
  const asked = (wet: number | null) => ({
    sites: { s1: { series: wet === null ? plain : members(wet) } },
    fields: [crewField("creek")],
  });
  expect(rainWords(asked(2), visit(11, 13), utc(0))).toBe("rain in 2 of 5 forecasts then");
  expect(rainWords(asked(2), visit(12, 14), utc(0))).toBeNull();
  expect(rainWords(asked(null), visit(9, 11), utc(0))).toBe("rain in the forecast then");
  expect(rainWords(asked(2), visit(11, 13), utc(12))).toBeNull();
  expect(rainWords(asked(2), null, utc(0))).toBeNull();
});

test("whose rain is drawn is named where there are more places than one", () => {
  expect(whoseRain(crewRequest().sites)).toEqual({ forecasts: 1, place: null });
  const sites = { s1: { series: members(2), name: "Home farm" }, s2: { series: plain } };
  expect(whoseRain(sites)).toEqual({ forecasts: 5, place: "Home farm" });
});
