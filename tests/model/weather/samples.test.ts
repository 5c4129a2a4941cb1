import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { dewPointC, vapourPressureKPa } from "../../../model/weather/air.ts";
import { localParts } from "../../../model/weather/clock.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { clearSkyHours, cloudOfTransmission, cloudTransmission } from "../../../model/weather/radiation.ts";
import { sampleText } from "../../../weather-samples/format.ts";
import { SPELLS } from "../../../weather-samples/spells.ts";
import { inventSample, type Sample } from "../../../weather-samples/weather.ts";

const fileOf = (id: string) => new URL(`../../../weather-samples/${id}.json`, import.meta.url);
const read = (id: string): Sample => JSON.parse(readFileSync(fileOf(id), "utf8")) as Sample;
const at = (column: readonly (number | null)[] | undefined, i: number): number => column?.[i] ?? Number.NaN;

describe.each(SPELLS)("the invented spell $id", (spell) => {
  const { series } = read(spell.id);
  const { hours, site } = series;
  const count = hours.startUtc.length;
  const startUtcMs = Date.parse(hours.startUtc[0] as string);
  const { clearSkyWm2 } = clearSkyHours(startUtcMs, count, site.latitude, site.longitude);

  test("is what the generator makes, byte for byte", () => {
    expect(readFileSync(fileOf(spell.id), "utf8")).toBe(sampleText(inventSample(spell)));
  });
  test("runs 240 hours from local midnight and passes every check without a warning", () => {
    expect(count).toBe(240);
    expect(localParts(startUtcMs, site.timeZone).hourFloat).toBe(0);
    const prepared = prepareWeather(series);
    expect(prepared.ok).toBe(true);
    if (!prepared.ok) return;
    expect(prepared.value.warnings).toEqual([]);
    expect([prepared.value.missingHours, prepared.value.filledHours]).toEqual([0, 0]);
    expect(prepared.value.weather.count).toBe(240);
  });
  test("keeps the dew point below the air temperature and humidity below 100 %", () => {
    for (let i = 0; i < count; i++) {
      const tempC = at(hours.airTempC, i);
      const humidity = at(hours.relHumidityPct, i);
      expect(humidity).toBeLessThan(100);
      expect(dewPointC(vapourPressureKPa(tempC, humidity / 100))).toBeLessThan(tempC);
    }
  });
  test("has radiation of a clear sky dimmed by its cloud, never above the clear sky, none in the dark", () => {
    for (let i = 0; i < count; i++) {
      const clear = clearSkyWm2[i] as number;
      const solar = at(hours.solarWm2, i);
      expect(solar).toBeLessThanOrEqual(clear);
      if (clear === 0) expect(solar).toBe(0);
      // 3 % of scatter of at most three times its spread, and 1 W/m² of rounding.
      const expected = clear * cloudTransmission(at(hours.cloudPct, i) / 100);
      expect(Math.abs(solar - expected)).toBeLessThan(0.09 * expected + 1.5);
    }
    expect(cloudOfTransmission(cloudTransmission(0.6))).toBeCloseTo(0.6, 10);
  });
  test("rains only under cloud and in humid air", () => {
    for (let i = 0; i < count; i++) {
      if (at(hours.rainMm, i) === 0) continue;
      expect(at(hours.cloudPct, i)).toBeGreaterThanOrEqual(70);
      expect(at(hours.relHumidityPct, i)).toBeGreaterThanOrEqual(80);
    }
  });
  test("has more wind in the afternoon than before dawn", () => {
    const mean = (from: number, to: number) => {
      const inside = hours.windSpeedMps.filter((_, i) => i % 24 >= from && i % 24 < to) as number[];
      return inside.reduce((sum, wind) => sum + wind, 0) / inside.length;
    };
    expect(mean(13, 17)).toBeGreaterThan(1.4 * mean(2, 6));
  });
});

test("the spells differ as their titles say", () => {
  const rainOf = (id: string) => read(id).series.hours.rainMm.reduce<number>((sum, mm) => sum + (mm ?? 0), 0);
  expect(rainOf("settled-dry") + rainOf("humid-cloudy-dew") + rainOf("drought-heat")).toBe(0);
  expect(rainOf("showers-every-other-day")).toBeCloseTo(46.8, 6);
  const rainDays = new Set(
    read("showers-every-other-day").series.hours.rainMm.flatMap((mm, i) =>
      (mm ?? 0) > 0 ? [Math.floor(i / 24)] : [],
    ),
  );
  expect([...rainDays]).toEqual([1, 3, 5, 7, 9]);
  const dewy = read("humid-cloudy-dew").series.hours;
  const nights = new Set(
    dewy.relHumidityPct.flatMap((humidity, i) =>
      (humidity ?? 0) >= 95 && at(dewy.cloudPct, i) <= 40 && at(dewy.windSpeedMps, i) <= 1.5
        ? [Math.floor(i / 24)]
        : [],
    ),
  );
  expect(nights.size).toBeGreaterThanOrEqual(8);
  const hot = read("drought-heat").series.hours;
  expect(Math.max(...(hot.airTempC as number[]))).toBeGreaterThan(38);
  expect(Math.min(...(hot.relHumidityPct as number[]))).toBeLessThan(20);
});
