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
