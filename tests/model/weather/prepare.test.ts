import { describe, expect, test } from "vitest";
import { saturationVapourPressureKPa, standardPressureKPa } from "../../../model/weather/air.ts";
import type { PreparedWeather } from "../../../model/weather/hourly.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import type { Warning } from "../../../model/weather/warnings.ts";
import { windTo2mFactor } from "../../../model/weather/wind.ts";
import { blank, makeSeries, span, withColumns } from "./make-series.ts";

const textOf = (warnings: readonly Warning[]) => warnings.map(({ text }) => text).join(" ");

function prepare(series: WeatherSeries): PreparedWeather {
  const outcome = prepareWeather(series);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("; "));
  return outcome.value;
}

const good = makeSeries();
const startMs = Date.parse("2026-07-01T05:00:00Z");
const hoursAfter = (ms: number) => (ms - startMs) / 3.6e6;

test("a whole series goes through unchanged, in the model's units", () => {
  const { weather, usableUntilUtcMs, missingHours, filledHours, assumptions, warnings, marks } =
    prepare(good);
  expect([weather.count, weather.startUtcMs, hoursAfter(usableUntilUtcMs)]).toEqual([72, startMs, 72]);
  expect([missingHours, filledHours]).toEqual([0, 0]);
  expect([assumptions, warnings, marks]).toEqual([[], [], {}]);
  expect([...weather.airTempC]).toEqual(good.hours.airTempC);
  expect(weather.vapourPressureKPa[30]).toBeCloseTo(saturationVapourPressureKPa(11), 12);
  expect(weather.wind2mMps[5]).toBe(good.hours.windSpeedMps[5]);
  expect(weather.pressureKPa[0]).toBe(96.5);
  expect(weather.cloudFrac[9]).toBeCloseTo(0.2, 12);
  // Local midnight is dark, noon is light.
  expect([weather.daylight[0], weather.daylight[13]]).toEqual([0, 1]);
});

test("wind at 10 m comes to 2 m and is said", () => {
  const { weather, assumptions } = prepare({ ...good, windHeightM: 10 });
  expect(weather.wind2mMps[5]).toBeCloseTo((good.hours.windSpeedMps[5] ?? 0) * windTo2mFactor(10), 12);
  expect(assumptions.join(" ")).toContain("10 m");
});

test("pressure that is not given is the standard atmosphere's", () => {
  const { weather, assumptions } = prepare(withColumns(good, { pressureHpa: undefined }));
  expect(weather.pressureKPa[40]).toBe(standardPressureKPa(400));
  expect(assumptions.join(" ")).toMatch(/standard 96\.7 kPa at 400 m/);
});

describe("gaps", () => {
  const at = (...hours: number[]) => ({
    airTempC: blank(good.hours.airTempC, ...hours),
    relHumidityPct: blank(good.hours.relHumidityPct, ...hours),
    windSpeedMps: blank(good.hours.windSpeedMps, ...hours),
    solarWm2: blank(good.hours.solarWm2, ...hours),
    cloudPct: blank(good.hours.cloudPct, ...hours),
  });
  test("of 3 h are bridged, marked and counted; humidity by way of vapour pressure", () => {
    const { weather, missingHours, filledHours, marks, assumptions } = prepare(
      withColumns(good, at(33, 34, 35)),
    );
    expect([weather.count, missingHours, filledHours]).toEqual([72, 3, 3]);
    const [before, after] = [good.hours.airTempC[32] ?? 0, good.hours.airTempC[36] ?? 0];
    expect(weather.airTempC[34]).toBeCloseTo((before + after) / 2, 12);
    expect(weather.vapourPressureKPa[34]).toBeCloseTo(saturationVapourPressureKPa(11), 9);
    // Radiation keeps its share of the clear sky, so the bridged hours are the true ones of a steady cloud.
    for (const i of [33, 34, 35]) expect(weather.solarWm2[i]).toBeCloseTo(good.hours.solarWm2?.[i] ?? 0, 6);
    expect(marks?.airTempC?.slice(32, 37)).toEqual([
      null,
      "interpolated",
      "interpolated",
      "interpolated",
      null,
    ]);
    expect(marks?.solarWm2?.[34]).toBe("interpolated");
    expect(assumptions.join(" ")).toContain("3 hours had a gap");
  });
  test("of 4 h end the usable weather", () => {
    const { weather, usableUntilUtcMs, warnings, missingHours } = prepare(
      withColumns(good, at(33, 34, 35, 36)),
    );
    expect([weather.count, hoursAfter(usableUntilUtcMs), missingHours]).toEqual([33, 33, 4]);
    expect(textOf(warnings)).toContain(
      "until 2026-07-02T14:00:00Z: airTempC, relHumidityPct, windSpeedMps, solarWm2 missing in 4 hours",
    );
  });
  test("at the end cannot be bridged: the weather ends before", () => {
    const { weather, usableEndReason } = prepare(
      withColumns(good, { airTempC: blank(good.hours.airTempC, 69, 70, 71) }),
    );
    expect(weather.count).toBe(69);
    expect(usableEndReason).toBe("airTempC missing in 3 hours from 2026-07-04T02:00:00Z, to the end");
  });
  test("at the beginning: the weather starts after it and says so", () => {
    const { weather, warnings } = prepare(
      withColumns(good, { windSpeedMps: blank(good.hours.windSpeedMps, 0, 1) }),
    );
    expect([weather.count, hoursAfter(weather.startUtcMs)]).toEqual([70, 2]);
    expect(textOf(warnings)).toContain("The first 2 hours lack");
  });
  test("in every hour at once: an error, not an empty answer", () => {
    const outcome = prepareWeather(
      withColumns(good, {
        airTempC: blank(good.hours.airTempC, ...span(0, 36)),
        windSpeedMps: blank(good.hours.windSpeedMps, ...span(36, 72)),
      }),
    );
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.issues[0]?.code).toBe("no-usable-hours");
  });
  test("bridged humidity never passes saturation", () => {
    const cold = good.hours.airTempC.map((tempC, i) => (i === 34 ? -5 : tempC));
    const { weather } = prepare(
      withColumns(good, { airTempC: cold, relHumidityPct: blank(good.hours.relHumidityPct, 34) }),
    );
    expect(weather.vapourPressureKPa[34]).toBe(saturationVapourPressureKPa(-5));
  });
});

describe("rain", () => {
  test("is never bridged: the weather ends before the first unknown hour", () => {
    const { weather, warnings, usableEndReason } = prepare(
      withColumns(good, { rainMm: blank(good.hours.rainMm, 50) }),
    );
    expect(weather.count).toBe(50);
    expect(usableEndReason).toBe(
      "rainMm missing in the hour from 2026-07-03T07:00:00Z (rain is never interpolated)",
    );
    expect(textOf(warnings)).toContain(usableEndReason);
  });
  test.each([
    ["all null", blank(good.hours.rainMm, ...span(0, 72))],
    ["not there", undefined],
  ])("%s is assumed dry, marked and warned of", (_, rainMm) => {
    const { weather, warnings, marks, missingHours } = prepare(withColumns(good, { rainMm }));
    expect([weather.count, missingHours]).toEqual([72, 0]);
    expect(weather.rainMm.every((mm) => mm === 0)).toBe(true);
    expect(textOf(warnings)).toContain(
      "No rain was given: assumed dry throughout. A shower would change every answer.",
    );
    expect(marks?.rainMm?.every((mark) => mark === "assumed")).toBe(true);
  });
});

describe("humidity", () => {
  test("of 100 to 103 % counts as saturated and is said", () => {
    const wet = good.hours.relHumidityPct.map((value, i) => (i === 3 ? 102 : value));
    const { weather, assumptions } = prepare(withColumns(good, { relHumidityPct: wet }));
    expect(weather.vapourPressureKPa[3]).toBe(saturationVapourPressureKPa(good.hours.airTempC[3] ?? 0));
    expect(assumptions.join(" ")).toContain("1 hour with humidity above 100 %");
  });
  test("comes from the dew point where the humidity is missing", () => {
    const { weather, missingHours, filledHours } = prepare(
      withColumns(good, {
        relHumidityPct: blank(good.hours.relHumidityPct, ...span(10, 30)),
        dewPointC: good.hours.airTempC.map(() => 11),
      }),
    );
    expect([weather.count, missingHours, filledHours]).toEqual([72, 0, 0]);
    expect(weather.vapourPressureKPa[20]).toBeCloseTo(saturationVapourPressureKPa(11), 12);
  });
  test("of 0 % never gives a vapour pressure of 0", () => {
    const { weather } = prepare(
      withColumns(good, { relHumidityPct: good.hours.relHumidityPct.map((v, i) => (i === 5 ? 0 : v)) }),
    );
    expect(weather.vapourPressureKPa[5]).toBeGreaterThan(0);
  });
});

describe("radiation", () => {
  const noSolar = withColumns(good, { solarWm2: undefined });
  test("that is not given comes from the cloud cover, marked and said", () => {
    const { weather, marks, assumptions, missingHours } = prepare(noSolar);
    for (let i = 0; i < 72; i++) expect(weather.solarWm2[i]).toBeCloseTo(good.hours.solarWm2?.[i] ?? 0, 9);
    expect([marks?.solarWm2?.[14], marks?.solarWm2?.[1], missingHours]).toEqual(["cloud-estimate", null, 0]);
    expect(assumptions.join(" ")).toContain("estimated from cloud cover");
  });
  test("missing in some hours comes from the cloud there", () => {
    const { weather, marks } = prepare(
      withColumns(good, { solarWm2: blank(good.hours.solarWm2, ...span(10, 20)) }),
    );
    expect(weather.count).toBe(72);
    expect(marks?.solarWm2?.[12]).toBe("cloud-estimate");
    expect(marks?.solarWm2?.[22]).toBe(null);
  });
  test("blank at night is 0 without any cloud", () => {
    const dark = (good.hours.solarWm2 ?? []).map((value) => (value === 0 ? null : value));
    const { weather, assumptions } = prepare(withColumns(good, { solarWm2: dark, cloudPct: undefined }));
    expect(weather.count).toBe(72);
    expect(weather.solarWm2[2]).toBe(0);
    expect(assumptions.join(" ")).toContain("darkness");
  });
  test("slightly negative at night is 0", () => {
    const { weather } = prepare(
      withColumns(good, { solarWm2: (good.hours.solarWm2 ?? []).map((v) => (v === 0 ? -3 : v)) }),
    );
    expect(weather.solarWm2[2]).toBe(0);
  });
  test("far above the clear sky is warned of, not refused", () => {
    const shifted = [...span(0, 3).map(() => 0), ...(good.hours.solarWm2 ?? []).slice(0, 69)] as number[];
    const { warnings, weather } = prepare(withColumns(good, { solarWm2: shifted }));
    expect(weather.count).toBe(72);
    expect(textOf(warnings)).toMatch(/Radiation above a clear sky in \d+ hours.*W\/m².*clock/);
    expect(textOf(warnings)).toContain("sun down");
  });
});

describe("cloud", () => {
  const cloudOfDay = [0.1, 0.6, 0.9];
  const changing = makeSeries({ cloudFrac: (hour) => cloudOfDay[Math.floor(hour / 24)] ?? 0 });
  const noCloud = withColumns(changing, { cloudPct: undefined });
  test("that is not given is read from the radiation by day", () => {
    const { weather, assumptions } = prepare(noCloud);
    // High sun of each local day, first hour = local midnight; Haurwitz and Kasten & Czeplak made it, so it comes back.
    expect(weather.cloudFrac[13]).toBeLessThan(0.15);
    expect(weather.cloudFrac[24 + 13]).toBeCloseTo(0.6, 2);
    expect(weather.cloudFrac[48 + 13]).toBeCloseTo(0.9, 2);
    expect(assumptions.join(" ")).toContain("inferred from radiation");
  });
  test("of a night runs from the evening's to the morning's", () => {
    const { weather } = prepare(noCloud);
    const night = span(45, 54).map((i) => weather.cloudFrac[i] ?? 0);
    for (let k = 1; k < night.length; k++) expect(night[k]).toBeGreaterThan(night[k - 1] as number);
    expect(night[0]).toBeGreaterThan(0.55);
    expect(night.at(-1)).toBeLessThan(0.95);
  });
  test("of polar day: the low sun of the night says nothing, the high sun does", () => {
    const site = { latitude: 78, longitude: 16, elevationM: 10, timeZone: "Arctic/Longyearbyen" };
    const polar = makeSeries({ site, start: "2026-06-20T22:00:00Z", cloudFrac: () => 0.7 });
    const { weather } = prepare(withColumns(polar, { cloudPct: undefined }));
    expect(weather.daylight.every((flag) => flag === 1)).toBe(true);
    for (const cloud of weather.cloudFrac) expect(Math.abs(cloud - 0.7)).toBeLessThan(0.06);
  });
  test("of polar night without any cloud given is assumed half, and said", () => {
    const site = { latitude: 78, longitude: 16, elevationM: 10, timeZone: "Arctic/Longyearbyen" };
    const polar = makeSeries({ site, start: "2026-12-20T23:00:00Z" });
    const { weather, assumptions } = prepare(withColumns(polar, { cloudPct: undefined }));
    expect(weather.daylight.every((flag) => flag === 0)).toBe(true);
    expect(weather.cloudFrac.every((cloud) => cloud === 0.5)).toBe(true);
    expect(assumptions.join(" ")).toContain("50 % assumed");
  });
});

test.each([
  [
    "south",
    { latitude: -37.8, longitude: 175.3, elevationM: 40, timeZone: "Pacific/Auckland" },
    "2026-12-20T11:00:00Z",
  ],
  [
    "half-hour zone",
    { latitude: 26.9, longitude: 75.8, elevationM: 430, timeZone: "Asia/Kolkata" },
    "2026-10-01T18:30:00Z",
  ],
])("%s: every value is finite and noon is bright", (_, site, start) => {
  const { weather } = prepare(makeSeries({ site, start }));
  for (const column of [
    weather.airTempC,
    weather.vapourPressureKPa,
    weather.wind2mMps,
    weather.solarWm2,
    weather.cloudFrac,
    weather.rainMm,
    weather.pressureKPa,
  ]) {
    expect(column).toHaveLength(72);
    expect(column.every(Number.isFinite)).toBe(true);
  }
  expect(weather.solarWm2[12]).toBeGreaterThan(500);
});

test("given marks are kept beside new ones, for all hours", () => {
  const series = { ...good, marks: { airTempC: good.hours.airTempC.map(() => "observed" as const) } };
  const { marks } = prepare(
    withColumns(series, { airTempC: blank(good.hours.airTempC, 20), rainMm: blank(good.hours.rainMm, 40) }),
  );
  expect(marks?.airTempC).toHaveLength(72);
  expect([marks?.airTempC?.[19], marks?.airTempC?.[20]]).toEqual(["observed", "interpolated"]);
});

test("the input is left as it was", () => {
  const frozen = withColumns(good, { airTempC: blank(good.hours.airTempC, 20) });
  for (const column of Object.values(frozen.hours)) if (Array.isArray(column)) Object.freeze(column);
  expect(() => prepare(frozen)).not.toThrow();
});

test("ten days are ready in a few milliseconds, three years in well under a second", () => {
  const fastest = (series: WeatherSeries, runs: number) =>
    Math.min(
      ...Array.from({ length: runs }, () => {
        const from = performance.now();
        prepare(series);
        return performance.now() - from;
      }),
    );
  // An idle core needs 1.3 ms and 60 ms: the bounds leave room for a busy machine.
  expect(fastest(makeSeries({ count: 240 }), 40)).toBeLessThan(10);
  expect(fastest(makeSeries({ count: 26_298, start: "2023-01-01T06:00:00Z" }), 3)).toBeLessThan(700);
});
