import { describe, expect, test } from "vitest";
import { checkSeries } from "../../../model/weather/checks.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import { blank, DAKOTA, makeSeries, withColumns } from "./make-series.ts";

const good = makeSeries();
const issuesOf = (series: WeatherSeries) =>
  checkSeries(series).issues.map(({ path, code }) => `${path} ${code}`);
const replaced = <T>(list: readonly T[], at: number, value: T) =>
  list.map((item, i) => (i === at ? value : item));

test("a good series has no issue", () => {
  expect(checkSeries(good)).toEqual({
    issues: [],
    startUtcMs: Date.parse("2026-07-01T05:00:00Z"),
    count: 72,
  });
});

describe("the place", () => {
  test.each([
    [{ latitude: 444 }, "weather.site.latitude out-of-range", "got 444, must be at least -90 and at most 90"],
    [{ longitude: -181 }, "weather.site.longitude out-of-range", "got -181"],
    [{ elevationM: 9000 }, "weather.site.elevationM out-of-range", "got 9000"],
    [{ latitude: Number.NaN }, "weather.site.latitude out-of-range", "got NaN"],
    [{ timeZone: "Mars/Olympus" }, "weather.site.timeZone unknown-time-zone", '"Mars/Olympus"'],
    [{ timeZone: "__proto__" }, "weather.site.timeZone unknown-time-zone", '"__proto__"'],
  ])("%j", (change, issue, words) => {
    const checked = checkSeries({ ...good, site: { ...DAKOTA, ...change } });
    expect(checked.issues.map(({ path, code }) => `${path} ${code}`)).toEqual([issue]);
    expect(checked.issues[0]?.message).toContain(words);
  });
  test("the wind's height", () => {
    expect(issuesOf({ ...good, windHeightM: 0.1 })).toEqual(["weather.windHeightM out-of-range"]);
  });
});

describe("the hours", () => {
  const labels = good.hours.startUtc;
  const withLabels = (startUtc: readonly string[]) => issuesOf(withColumns(good, { startUtc }));
  test("none", () => {
    expect(withLabels([])).toEqual(["weather.hours.startUtc empty"]);
  });
  test("a duplicate", () => {
    expect(withLabels(replaced(labels, 3, labels[2] as string))).toContain(
      "weather.hours.startUtc[3] duplicate-hour",
    );
  });
  test("shuffled", () => {
    const shuffled = replaced(replaced(labels, 5, labels[6] as string), 6, labels[5] as string);
    expect(withLabels(shuffled)).toContain("weather.hours.startUtc[6] not-increasing");
  });
  test("a missing hour", () => {
    const later = labels.map((label, i) =>
      i < 10 ? label : new Date(Date.parse(label) + 3.6e6).toISOString(),
    );
    expect(withLabels(later)).toEqual(["weather.hours.startUtc[10] not-contiguous"]);
  });
  test.each([
    "2026-07-01T05:00:00",
    "2026-07-01 05:00Z",
    "2026-07-01T00:00:00-05:00",
    "2026-02-30T05:00:00Z",
    "1.7.2026",
    "2026-07-01T24:00:00Z",
    "2026-07-01T05:00:30Z",
  ])("%s is not a UTC hour label", (label) => {
    expect(withLabels(replaced(labels, 0, label))).toContain("weather.hours.startUtc[0] not-a-utc-time");
  });
  test("a half-hour start is fine as long as every step is one hour", () => {
    expect(checkSeries(makeSeries({ start: "2026-07-01T05:30:00Z" })).issues).toEqual([]);
  });
});

describe("the columns", () => {
  test("too short and too long", () => {
    expect(issuesOf(withColumns(good, { rainMm: good.hours.rainMm.slice(1) }))).toEqual([
      "weather.hours.rainMm wrong-length",
    ]);
    expect(issuesOf(withColumns(good, { cloudPct: [...(good.hours.cloudPct ?? []), 3] }))).toEqual([
      "weather.hours.cloudPct wrong-length",
    ]);
  });
  test.each([
    ["airTempC", 71, /got 71, must be at least -60 and at most 60 °C \(is the column in °F/],
    ["relHumidityPct", 104, /got 104, must be at least 0 and at most 103 %/],
    ["windSpeedMps", -1, /got -1/],
    ["rainMm", 200, /at most 150 mm/],
    ["solarWm2", 1500, /at most 1400 W\/m²/],
    ["pressureHpa", 96.5, /at least 450/],
    ["windSpeedMps", Number.NaN, /got NaN/],
  ] as const)("%s of %f", (name, value, words) => {
    const { issues } = checkSeries(
      withColumns(good, { [name]: replaced(good.hours[name] ?? [], 12, value) }),
    );
    expect(issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
      `weather.hours.${name}[12] out-of-range`,
    ]);
    expect(issues[0]?.message).toMatch(words);
  });
  test("many wrong values: five are named, the rest is counted", () => {
    const { issues } = checkSeries(withColumns(good, { rainMm: good.hours.rainMm.map(() => -1) }));
    expect(issues).toHaveLength(6);
    expect(issues[5]?.message).toContain("67 more values");
  });
  test("text or a hole in place of a number", () => {
    const text = replaced<unknown>(good.hours.airTempC, 4, "warm") as number[];
    expect(issuesOf(withColumns(good, { airTempC: text }))).toEqual([
      "weather.hours.airTempC[4] not-a-number",
    ]);
    expect(issuesOf(withColumns(good, { airTempC: undefined }))).toContain(
      "weather.hours.airTempC missing-column",
    );
  });
  test("neither radiation nor cloud: the issue names both", () => {
    const { issues } = checkSeries(withColumns(good, { solarWm2: undefined, cloudPct: undefined }));
    expect(issues).toHaveLength(1);
    expect(issues[0]?.message).toMatch(/solarWm2 nor cloudPct/);
  });
  test("a dew point above the air", () => {
    const dew = good.hours.airTempC.map((tempC, i) => (tempC ?? 0) + (i === 7 ? 0.6 : 0.4));
    const { issues } = checkSeries(
      withColumns(good, { dewPointC: dew, relHumidityPct: blank(good.hours.relHumidityPct, ...dew.keys()) }),
    );
    expect(issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
      "weather.hours.dewPointC[7] dew-point-above-air",
    ]);
  });
  test("a member's column", () => {
    const members = [
      { model: null },
      { model: null, airTempC: good.hours.airTempC.slice(2), rainMm: good.hours.rainMm.map(() => 999) },
    ];
    const paths = issuesOf({ ...good, members });
    expect(paths[0]).toBe("weather.members[1].airTempC wrong-length");
    expect(paths[1]).toBe("weather.members[1].rainMm[0] out-of-range");
  });
});

describe("a column in another unit", () => {
  const fahrenheit = (series: WeatherSeries, shiftC = 0) =>
    withColumns(series, {
      airTempC: series.hours.airTempC.map((tempC) => ((tempC ?? 0) + shiftC) * 1.8 + 32),
    });
  test("a warm file in °F is implausible as °C, and the message says so", () => {
    const { issues } = checkSeries(fahrenheit(good, 6));
    expect(issues[0]?.code).toBe("out-of-range");
    expect(issues[0]?.message).toContain("°F");
  });
  test("a cool file in °F is caught by the dew point it implies", () => {
    const { issues } = checkSeries(fahrenheit(good, -12));
    expect(issues.map(({ code }) => code)).toEqual(["unit-suspect"]);
    expect(issues[0]?.path).toMatch(/^weather\.hours\.airTempC\[\d+\]$/);
    expect(issues[0]?.message).toMatch(/°F/);
  });
  test("any file in °F whose true range is a cool summer day's is caught, at night humidities of 70 % and more", () => {
    // 45-60 °F by day at 55 % and by night at 85 %: true, read as °C it is impossible.
    const airTempC = good.hours.airTempC.map((tempC) => 45 + (((tempC ?? 0) - 14) / 12) * 14);
    const relHumidityPct = good.hours.airTempC.map((tempC) => 85 - (((tempC ?? 0) - 14) / 12) * 30);
    expect(issuesOf(withColumns(good, { airTempC, relHumidityPct }))[0]).toContain("unit-suspect");
  });
  test("real desert heat passes: 50 °C at 10 %, nights of 30 °C at 30 %", () => {
    const airTempC = good.hours.airTempC.map((tempC) => 40 + (((tempC ?? 0) - 20) / 6) * 10);
    const relHumidityPct = airTempC.map((tempC) => 40 - tempC * 0.6);
    expect(issuesOf(withColumns(good, { airTempC, relHumidityPct }))).toEqual([]);
  });
  test("the most humid coast ever reported passes: 42 °C with a dew point of 35 °C", () => {
    const airTempC = good.hours.airTempC.map(() => 42);
    const relHumidityPct = good.hours.airTempC.map(() => 68);
    expect(issuesOf(withColumns(good, { airTempC, relHumidityPct }))).toEqual([]);
  });
  test("a dew point column in °F disagrees with temperature and humidity", () => {
    const cold = withColumns(good, {
      airTempC: good.hours.airTempC.map((tempC) => ((tempC ?? 0) - 14) * 0.3 + 36),
      relHumidityPct: good.hours.airTempC.map(() => 20),
      dewPointC: good.hours.airTempC.map(() => 20),
    });
    const { issues } = checkSeries(cold);
    expect(issues.map(({ code }) => code)).toEqual(["unit-suspect"]);
    expect(issues[0]?.message).toContain("dewPointC");
  });
  test("humidity as a fraction", () => {
    const relHumidityPct = good.hours.relHumidityPct.map((value) => (value ?? 0) / 100);
    expect(issuesOf(withColumns(good, { relHumidityPct }))).toEqual([
      "weather.hours.relHumidityPct unit-suspect",
    ]);
  });
  test("a daily range that °F would make is only asked about", () => {
    const wide = withColumns(good, {
      airTempC: good.hours.airTempC.map((tempC) => 25 + ((tempC ?? 0) - 20) * 2.4),
      relHumidityPct: good.hours.airTempC.map(() => 15),
    });
    const prepared = prepareWeather(wide);
    expect(prepared.ok && prepared.value.warnings.map(({ code }) => code)).toEqual([
      "temperatures-in-fahrenheit",
    ]);
  });
});
