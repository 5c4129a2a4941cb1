import { describe, expect, test } from "vitest";
import { vapourPressureKPa } from "../../../model/weather/air.ts";
import { memberSeries } from "../../../model/weather/members.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { makeSeries } from "./make-series.ts";

const shared = makeSeries({ count: 24 });
const warmer = shared.hours.airTempC.map((tempC) => (tempC ?? 0) + 3);

describe("a member over the shared hours", () => {
  const series = {
    ...shared,
    marks: {
      airTempC: shared.hours.airTempC.map(() => "forecast" as const),
      rainMm: shared.hours.rainMm.map(() => "forecast" as const),
    },
    members: [
      { model: "a", airTempC: warmer, rainMm: shared.hours.rainMm.map(() => 0.4) },
      { relHumidityPct: shared.hours.airTempC.map(() => 77) },
      { airTempC: warmer.map((value, i) => (i > 20 ? null : value)) },
      { dewPointC: shared.hours.airTempC.map(() => 8) },
    ],
  };
  test("keeps the vapour pressure when only the temperature differs", () => {
    const member = memberSeries(series, 0);
    expect(member.model).toBe("a");
    expect(member.hours.rainMm[5]).toBe(0.4);
    expect(member.hours.windSpeedMps).toBe(shared.hours.windSpeedMps);
    for (let i = 0; i < 24; i++) {
      const before = vapourPressureKPa(
        shared.hours.airTempC[i] ?? 0,
        (shared.hours.relHumidityPct[i] ?? 0) / 100,
      );
      const after = vapourPressureKPa(warmer[i] ?? 0, (member.hours.relHumidityPct[i] ?? 0) / 100);
      expect(after).toBeCloseTo(before, 12);
    }
    expect(member.marks).toEqual({});
    expect(member.members).toBeUndefined();
  });
  test("keeps its own humidity, or that of its dew point, and the marks of shared columns", () => {
    expect(memberSeries(series, 1).hours.relHumidityPct[3]).toBe(77);
    expect(Object.keys(memberSeries(series, 1).marks ?? {})).toEqual(["airTempC", "rainMm"]);
    const prepared = prepareWeather(memberSeries(series, 3));
    expect(prepared.ok && prepared.value.weather.vapourPressureKPa[3]).toBeCloseTo(
      vapourPressureKPa(8, 1),
      12,
    );
  });
  test("that ends early ends the usable weather there", () => {
    const prepared = prepareWeather(memberSeries(series, 2));
    expect(prepared.ok && prepared.value.weather.count).toBe(21);
  });
  test("has what was observed in place of its own, in the hours that are marked so", () => {
    const observed = shared.hours.airTempC.map((_, i) =>
      i < 6 ? ("observed" as const) : ("forecast" as const),
    );
    const marks = { airTempC: observed, relHumidityPct: observed, rainMm: observed };
    const wet = shared.hours.rainMm.map(() => 0.4);
    const measured = { ...shared, marks, members: [{ airTempC: warmer, rainMm: wet }, {}] };
    const member = memberSeries(measured, 0);
    for (const name of ["airTempC", "relHumidityPct", "rainMm"] as const) {
      expect(member.hours[name].slice(0, 6)).toEqual(shared.hours[name].slice(0, 6));
      expect(member.hours[name][6]).not.toBe(shared.hours[name][6]);
      expect(member.marks?.[name]?.slice(4, 8)).toEqual(["observed", "observed", null, null]);
    }
    expect(member.hours.rainMm.slice(6)).toEqual(wet.slice(6));
    expect(memberSeries(measured, 1).marks).toEqual(marks);
  });
  test("that is not there is refused", () => {
    expect(() => memberSeries(series, 4)).toThrow(/index must be in \[0, 3\], got 4/);
  });
});
