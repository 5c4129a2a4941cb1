import fc from "fast-check";
import { expect, test } from "vitest";
import { saturationVapourPressureKPa } from "../../../model/weather/air.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { joinWeather } from "../../../model/weather/join.ts";
import { memberSeries } from "../../../model/weather/members.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import { windTo2mFactor } from "../../../model/weather/wind.ts";
import { makeSeries } from "./make-series.ts";

const past = (start: string, count: number): WeatherSeries => makeSeries({ start, count });
const future = (start: string, count: number, more: Partial<WeatherSeries> = {}): WeatherSeries => ({
  ...makeSeries({ start, count }),
  origin: "forecast",
  provider: "somebody",
  issuedUtc: "2026-07-02T00:00:00Z",
  windHeightM: 10,
  ...more,
});

function join(observed: WeatherSeries, forecast: WeatherSeries) {
  const joined = joinWeather(observed, forecast);
  if (!joined.ok) throw new Error(joined.issues[0]?.message);
  return joined.value;
}

test("where both have an hour the station's is used, and each value says whose it is", () => {
  const observed = past("2026-07-01T05:00:00Z", 30);
  const forecast = future("2026-07-02T05:00:00Z", 48);
  const warm = { ...forecast, hours: { ...forecast.hours, airTempC: forecast.hours.airTempC.map(() => 30) } };
  const { series, seam, notes } = join(observed, warm);
  expect(series.origin).toBe("joined");
  expect(series.hours.startUtc).toHaveLength(24 + 48);
  expect(series.hours.startUtc[0]).toBe("2026-07-01T05:00:00Z");
  expect(series.hours.airTempC.slice(0, 30)).toEqual(observed.hours.airTempC);
  expect(series.hours.airTempC[30]).toBe(30);
  expect(series.marks?.airTempC?.slice(28, 32)).toEqual(["observed", "observed", "forecast", "forecast"]);
  expect(seam).toMatchObject({ gapHours: 0, sharedHours: 6, forecastFromUtc: "2026-07-02T05:00:00Z" });
  expect(notes.join(" ")).toContain("Over 6 hours that both have");
  expect(prepareWeather(series).ok).toBe(true);
});

test("the forecast's wind is brought to the station's height by the profile of FAO-56 eq. 47", () => {
  const { series } = join(past("2026-07-01T05:00:00Z", 24), future("2026-07-02T05:00:00Z", 24));
  // From 10 m to 2 m: 4.87 / ln(67.8 x 10 - 5.42) = 0.748, printed to three digits.
  const raw = future("2026-07-02T05:00:00Z", 24).hours.windSpeedMps[0] ?? 0;
  expect((series.hours.windSpeedMps[24] ?? 0) / raw).toBeCloseTo(0.748, 3);
  expect(windTo2mFactor(10)).toBeCloseTo(0.748, 3);
  expect(series.windHeightM).toBe(2);
});

test("hours that neither has stay null and are told; the model does not run across them", () => {
  const { series, seam, notes } = join(past("2026-07-01T05:00:00Z", 24), future("2026-07-02T15:00:00Z", 24));
  expect(seam.gapHours).toBe(10);
  expect(series.hours.airTempC.slice(24, 34)).toEqual(new Array(10).fill(null));
  expect(series.marks?.airTempC?.slice(24, 34)).toEqual(new Array(10).fill(null));
  expect(notes.join(" ")).toContain("10 hours");
  const prepared = prepareWeather(series);
  expect(prepared.ok && prepared.value.usableUntilUtcMs).toBe(Date.parse("2026-07-02T05:00:00Z"));
});

test("a hole in the station's hours takes the forecast's value, and a station without rain its rain", () => {
  const observed = past("2026-07-01T05:00:00Z", 24);
  const airTempC = observed.hours.airTempC.map((value, i) => (i === 20 ? null : value));
  const rainMm = observed.hours.rainMm.map(() => null);
  const forecast = future("2026-07-02T00:00:00Z", 24);
  const wet = { ...forecast, hours: { ...forecast.hours, rainMm: forecast.hours.rainMm.map(() => 1) } };
  const { series, notes } = join({ ...observed, hours: { ...observed.hours, airTempC, rainMm } }, wet);
  expect(series.hours.airTempC[20]).toBe(forecast.hours.airTempC[1]);
  expect(series.marks?.airTempC?.[20]).toBe("forecast");
  expect(series.hours.rainMm.slice(18, 21)).toEqual([null, 1, 1]);
  expect(notes.join(" ")).toContain("no rain");
});

test("a humidity borrowed for another temperature keeps its vapour pressure", () => {
  const observed = past("2026-07-01T05:00:00Z", 24);
  const dry = { ...observed.hours, relHumidityPct: observed.hours.relHumidityPct.map(() => null) };
  const forecast = future("2026-07-01T05:00:00Z", 48);
  const cool = {
    ...forecast,
    hours: {
      ...forecast.hours,
      airTempC: forecast.hours.airTempC.map(() => 10),
      relHumidityPct: forecast.hours.relHumidityPct.map(() => 80),
    },
  };
  const { series } = join({ ...observed, hours: dry }, cool);
  const tempC = series.hours.airTempC[12] ?? Number.NaN;
  const kPa = ((series.hours.relHumidityPct[12] ?? 0) / 100) * saturationVapourPressureKPa(tempC);
  expect(kPa).toBeCloseTo(0.8 * saturationVapourPressureKPa(10), 4);
});

test("what a forecast's value already is, such as estimated from cloud, is kept as its mark", () => {
  const forecast = future("2026-07-02T05:00:00Z", 24);
  const marks = { solarWm2: forecast.hours.startUtc.map(() => "cloud-estimate" as const) };
  const { series } = join(past("2026-07-01T05:00:00Z", 24), { ...forecast, marks });
  expect(series.marks?.solarWm2?.slice(22, 26)).toEqual([
    "observed",
    "observed",
    "cloud-estimate",
    "cloud-estimate",
  ]);
});

test("members share the observed past and keep their own future", () => {
  const forecast = future("2026-07-02T05:00:00Z", 24);
  const member = {
    model: "m",
    airTempC: forecast.hours.airTempC.map((v) => (v ?? 0) + 2),
    rainMm: forecast.hours.rainMm.map(() => 0.5),
  };
  const { series } = join(past("2026-07-01T05:00:00Z", 30), { ...forecast, members: [member] });
  const own = memberSeries(series, 0);
  expect(own.hours.startUtc).toHaveLength(48);
  expect(own.hours.airTempC.slice(0, 30)).toEqual(series.hours.airTempC.slice(0, 30));
  expect(own.hours.airTempC[30]).toBeCloseTo((series.hours.airTempC[30] ?? 0) + 2, 9);
  expect(own.hours.rainMm.slice(28, 32)).toEqual([0, 0, 0.5, 0.5]);
  expect(prepareWeather(own).ok).toBe(true);
});

test("a station of last year is refused by name of the hours", () => {
  const joined = joinWeather(past("2025-07-01T05:00:00Z", 24), future("2026-07-02T05:00:00Z", 24));
  expect(joined).toMatchObject({ ok: false, issues: [{ path: "observed", code: "too-far-apart" }] });
  const after = joinWeather(past("2026-08-01T05:00:00Z", 24), future("2026-07-02T05:00:00Z", 24));
  expect(after).toMatchObject({ ok: false, issues: [{ code: "too-far-apart" }] });
});

test("a long past is cut to what the model looks back on, and that is told", () => {
  const { series, notes } = join(past("2026-06-01T05:00:00Z", 24 * 31), future("2026-07-02T05:00:00Z", 24));
  expect(series.hours.startUtc[0]).toBe("2026-06-17T05:00:00Z");
  expect(notes.join(" ")).toContain("left out");
});

test("whatever is missing on either side: contiguous hours, the station's value first, null only where neither has one", () => {
  const column = (length: number) =>
    fc.array(fc.option(fc.integer({ min: 0, max: 30 })), { minLength: length, maxLength: length });
  const sides = fc
    .tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: -60, max: 60 }),
    )
    .chain(([a, b, shift]) => fc.tuple(column(a), column(b), fc.constant(shift)));
  fc.assert(
    fc.property(sides, ([mine, theirs, shift]) => {
      const startMs = Date.parse("2026-07-01T05:00:00Z");
      const observed = past("2026-07-01T05:00:00Z", mine.length);
      const from = new Date(startMs + shift * HOUR_MS).toISOString();
      const forecast = future(from, theirs.length);
      const joined = joinWeather(
        { ...observed, hours: { ...observed.hours, airTempC: mine } },
        { ...forecast, hours: { ...forecast.hours, airTempC: theirs } },
      );
      if (!joined.ok) {
        // The station begins after the forecast ends.
        expect(shift + theirs.length).toBeLessThanOrEqual(0);
        return;
      }
      const { hours, marks } = joined.value.series;
      const first = Date.parse(hours.startUtc[0] ?? "");
      hours.startUtc.forEach((label, i) => {
        expect(Date.parse(label)).toBe(first + i * HOUR_MS);
        const at = (first - startMs) / HOUR_MS + i;
        const [a, b] = [mine[at] ?? null, theirs[at - shift] ?? null];
        expect(hours.airTempC[i]).toBe(a ?? b);
        expect(marks?.airTempC?.[i] ?? null).toBe(a !== null ? "observed" : b !== null ? "forecast" : null);
      });
    }),
    { numRuns: 60 },
  );
});
