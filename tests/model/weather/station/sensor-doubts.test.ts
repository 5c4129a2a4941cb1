import { expect, test } from "vitest";
import { ProblemList } from "../../../../model/weather/problems.ts";
import type { WeatherColumns } from "../../../../model/weather/series.ts";
import { tellSensorDoubts } from "../../../../model/weather/station/sensor-doubts.ts";
import { makeSeries } from "../make-series.ts";

function told(columns: Partial<WeatherColumns>) {
  const series = makeSeries({ count: 72 });
  const problems = new ProblemList();
  tellSensorDoubts({ ...series, hours: { ...series.hours, ...columns } }, problems);
  return problems.list().map(({ code, column }) => [code, column]);
}
const of = (value: number) => new Array<number>(72).fill(value);

test("plain weather is not doubted, nor are calm days and days of fog", () => {
  expect(told({})).toEqual([]);
  expect(told({ windSpeedMps: of(0), relHumidityPct: of(100) })).toEqual([]);
});

test("a value that stands for a day is told with its column", () => {
  expect(told({ airTempC: of(21.3) })).toEqual([["flat-line", "airTempC"]]);
  expect(told({ windSpeedMps: of(2), relHumidityPct: of(55) })).toEqual([
    ["flat-line", "relHumidityPct"],
    ["flat-line", "windSpeedMps"],
  ]);
  const broken = of(2).map((value, i) => (i % 20 === 0 ? null : value));
  expect(told({ windSpeedMps: broken })).toEqual([]);
});

test("an hour that stands alone is a spike; a front is none", () => {
  const temp = makeSeries({ count: 72 }).hours.airTempC;
  expect(told({ airTempC: temp.map((value, i) => (i === 30 ? 50 : value)) })).toEqual([
    ["spike", "airTempC"],
  ]);
  expect(told({ airTempC: temp.map((value, i) => (i > 30 ? (value ?? 0) - 16 : value)) })).toEqual([]);
});
