import { describe, expect, test } from "vitest";
import { type CsvAnswers, parseCanonicalCsv } from "../../../model/weather/index.ts";
import { DAKOTA } from "./make-series.ts";

const parse = (text: string, answers: CsvAnswers = {}) =>
  parseCanonicalCsv(text, { site: DAKOTA, windHeightM: 2, answers });

/** Four days of hours; the temperature swings between `low` and `high`. */
function file(low: number, high: number, humidity: string, rain = "rainMm"): string {
  const rows = Array.from({ length: 96 }, (_, i) => {
    const temp = (low + high) / 2 - ((high - low) / 2) * Math.cos((2 * Math.PI * (i - 9)) / 24);
    const label = new Date(Date.UTC(2026, 3, 1, 5 + i)).toISOString();
    return `${label},${temp.toFixed(1)},${humidity.split("=")[1]},2.5,40,${i === 50 ? 1.5 : 0}`;
  });
  return [`startUtc,airTempC,${humidity.split("=")[0]},windSpeedMps,cloudPct,${rain}`, ...rows].join("\n");
}

describe("a temperature that may be in degrees Fahrenheit", () => {
  test.each([
    ["by its dew point", file(41, 55, "dewPointC=3"), "dewPointC"],
    ["by its hottest hour", file(38, 50, "relHumidityPct=45"), "reaches 50 °C, above 43 °C"],
    ["by its hottest hour beside a dew point in °F", file(38, 50, "dewPointC=25"), "reaches 50 °C"],
    ["by its warm nights", file(34, 42, "relHumidityPct=40"), "no lower than 34 °C a day on the median"],
    ["by its daily range", file(20, 55, "relHumidityPct=30"), "a day"],
  ])("%s is asked about, and there is no series", (_, text, why) => {
    const { series, questions, problems } = parse(text);
    expect(series).toBeNull();
    expect(questions).toMatchObject([{ id: "airTempC", column: "airTempC", choices: ["degC", "degF"] }]);
    expect(questions[0]?.ask).toContain(why);
    expect(problems.filter(({ severity }) => severity === "error").map(({ code }) => code)).toEqual([
      "open-question",
    ]);
  });
  test.each([
    ["degC", 41],
    ["degF", 5],
  ] as const)("answered %s it gives a series", (airTempC, coldest) => {
    const { series, questions, understood } = parse(file(41, 55, "dewPointC=3"), { airTempC });
    expect(questions).toEqual([]);
    expect(Math.min(...(series?.hours.airTempC ?? []).map((value) => value ?? Number.NaN))).toBeCloseTo(
      coldest,
      9,
    );
    const unit = airTempC === "degF" ? "°F" : "°C";
    expect(understood[1]).toEqual({ column: "airTempC", as: "airTempC", unit, basis: "user" });
  });
  test("a desert answers once, and is not told of it again", () => {
    const { series, questions, problems } = parse(file(31, 46, "relHumidityPct=15"), { airTempC: "degC" });
    expect([series?.hours.airTempC[18], questions, problems]).toEqual([expect.any(Number), [], []]);
  });
  test("a summer of hot days and cool nights is not asked about", () => {
    expect(parse(file(22, 42, "relHumidityPct=20"))).toMatchObject({ questions: [], problems: [] });
  });
  test("a dew point that would stand above the converted air is asked about in its turn", () => {
    const text = file(38, 50, "dewPointC=25");
    const { series, questions, counts } = parse(text, { airTempC: "degF" });
    expect([series, counts.hours]).toEqual([null, 96]);
    expect(questions).toMatchObject([{ id: "dewPointC", choices: ["degC", "degF"] }]);
    const both = parse(text, { airTempC: "degF", dewPointC: "degF" });
    expect(both.questions).toEqual([]);
    expect(both.series?.hours.dewPointC?.[0]).toBeCloseTo(-3.89, 2);
    expect(both.understood[2]).toMatchObject({ as: "dewPointC", unit: "°F", basis: "user" });
    // In °C after all: the file contradicts itself, and that is told as an error.
    expect(parse(text, { airTempC: "degF", dewPointC: "degC" }).problems[0]?.code).toBe(
      "dew-point-above-air",
    );
  });
  test("above 60 it is read too, once said to be °F", () => {
    expect(parse(file(68, 95, "relHumidityPct=50")).series).toBeNull();
    expect(parse(file(68, 95, "relHumidityPct=50"), { airTempC: "degF" }).series).not.toBeNull();
  });
  test("plain weather is not asked about", () => {
    expect(parse(file(12, 28, "dewPointC=9"))).toMatchObject({ questions: [], series: {} });
  });
});

describe("a column that speaks of rain under another name", () => {
  const text = file(12, 28, "relHumidityPct=50", "rain_mm");
  test("is asked about, not assumed dry", () => {
    const { series, questions } = parse(text);
    expect(series).toBeNull();
    expect(questions).toMatchObject([{ id: "rainMm", column: "rain_mm", choices: ["rain_mm", "none"] }]);
  });
  test("is read once named", () => {
    const { series, understood, problems } = parse(text, { rainMm: "rain_mm" });
    expect([series?.hours.rainMm[50], problems]).toEqual([1.5, []]);
    expect(understood.at(-1)).toMatchObject({ column: "rain_mm", as: "rainMm", basis: "user" });
  });
  test("is left out on request, with the warning of dry weather", () => {
    const { series, problems } = parse(text, { rainMm: "none" });
    expect(series?.marks?.rainMm?.[50]).toBe("assumed");
    expect(problems.map(({ code }) => code)).toEqual(["unknown-column", "no-rain"]);
  });
  test("a name that is not in the file is an error", () => {
    const { series, problems } = parse(text, { rainMm: "wet" });
    expect(series).toBeNull();
    expect(problems[0]).toMatchObject({ column: "wet", code: "missing-column" });
  });
});
