import { expect, test } from "vitest";
import { saturationKPa } from "../../../model/drying/air-terms.ts";
import { errorAtLead, streamSeed, widenedMember } from "../../../model/odds/index.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const HOUR_MS = 3_600_000;
const prepared = prepareWeather(
  inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 240, { rainMm: { 60: 4, 61: 2, 180: 5 } }),
);
if (!prepared.ok) throw new Error("the invented spell must be usable");
const { weather } = prepared.value;
const issuedUtcMs = weather.startUtcMs + 24 * HOUR_MS;
/** Copies as the draws of a board take them. */
const widened = (count: number, seed: number) =>
  Array.from({ length: count }, (_, k) => widenedMember(weather, issuedUtcMs, streamSeed(seed, k)));
const members = widened(200, 5);

test("the same seed makes the same members, and more members leave the first alone", () => {
  expect(widened(3, 5)).toEqual(members.slice(0, 3));
  expect(widened(1, 6)).not.toEqual(members.slice(0, 1));
});

test("hours that were past at the issue stay as they are", () => {
  for (const member of members.slice(0, 20)) {
    for (const name of ["airTempC", "vapourPressureKPa", "solarWm2", "rainMm", "cloudFrac"] as const) {
      expect(member[name].subarray(0, 24)).toEqual(weather[name].subarray(0, 24));
    }
  }
});

test("every member is possible weather", () => {
  // Every seventh: each hour is one of many checks.
  for (const member of members.filter((_, k) => k % 7 === 0)) {
    for (let i = 0; i < member.count; i++) {
      const rh = (member.vapourPressureKPa[i] as number) / saturationKPa(member.airTempC[i] as number);
      expect(rh).toBeGreaterThan(0);
      expect(rh).toBeLessThanOrEqual(1.0000001);
      expect(member.rainMm[i]).toBeGreaterThanOrEqual(0);
      expect(member.solarWm2[i]).toBeGreaterThanOrEqual(0);
      expect(member.cloudFrac[i]).toBeGreaterThanOrEqual(0);
      expect(member.cloudFrac[i]).toBeLessThanOrEqual(1);
      if (weather.solarWm2[i] === 0) expect(member.solarWm2[i]).toBe(0);
    }
  }
});

test("the temperature's spread is the table's at each lead, within the error of 200 members", () => {
  for (const leadH of [24, 120, 200]) {
    const at = 24 + leadH;
    const off = members.map((m) => (m.airTempC[at] as number) - (weather.airTempC[at] as number));
    const sd = Math.sqrt(off.reduce((sum, x) => sum + x * x, 0) / off.length);
    // One standard error of a spread from 200 is 5 %; four of them.
    expect(Math.abs(sd / errorAtLead(leadH).airTempSdK - 1)).toBeLessThan(0.2);
  }
});

test("rain told fails, and showers come, as often as the table says", () => {
  const wetDay = (from: number) =>
    members.filter((m) => m.rainMm.subarray(from, from + 24).some((mm) => mm > 0)).length / members.length;
  // Day 48-72 holds the rain of hours 60 and 61, its middle 36 h after the issue. Four standard errors of 200.
  expect(Math.abs(wetDay(48) - (1 - errorAtLead(36).rainFailsShare))).toBeLessThan(0.12);
  expect(Math.abs(wetDay(120) - errorAtLead(108).showerShare)).toBeLessThan(0.12);
});

test("the table grows with lead and stands still past its ends", () => {
  for (let leadH = 1; leadH <= 240; leadH++) {
    const [now, before] = [errorAtLead(leadH), errorAtLead(leadH - 1)];
    for (const name of Object.keys(now) as (keyof typeof now)[]) {
      expect(now[name]).toBeGreaterThanOrEqual(before[name]);
    }
  }
  expect(errorAtLead(-5)).toEqual(errorAtLead(0));
  expect(errorAtLead(400)).toEqual(errorAtLead(240));
  expect(() => errorAtLead(Number.NaN)).toThrow(RangeError);
});
