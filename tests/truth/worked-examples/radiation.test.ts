import { describe, expect, test } from "vitest";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import {
  clearSkyHours,
  clearSkyOfExtraterrestrial,
  cloudOfTransmission,
  cloudTransmission,
  diffuseShare,
  fao56CloudFactor,
  haurwitzWm2,
  kastenCzeplakClearWm2,
  netLongwaveDailyMJM2,
  netShortwave,
} from "../../../model/weather/radiation.ts";
import { sunElevationDeg } from "../../../model/weather/sun.ts";
import { HOURLY_TO_WM2, LANGLEY_MJ_M2, TO_HPA, TO_MM, TO_MPS } from "../../../model/weather/units.ts";
import { wind2mMps, windTo2mFactor } from "../../../model/weather/wind.ts";
import { expectWithin } from "./check.ts";

describe("clear and cloudy sky", () => {
  // Haurwitz (1945, 1946); values of the pvlib project's reference tests.
  test.each([
    [-20, 0],
    [10, 135.7417480918],
    [50, 778.7666893444],
    [90, 1035.0920325345],
  ])("Haurwitz at %i° = %f W/m²", (elevationDeg, wm2) => {
    expectWithin(haurwitzWm2(elevationDeg), wm2, 1e-6);
  });
  // Kasten & Czeplak (1980), Solar Energy 24:177-189, computed from the published equations.
  test.each([
    [0, 1, 0.3],
    [4, 0.929, 0.475],
    [6, 0.718, 0.69375],
    [8, 0.25, 1],
  ])("Kasten & Czeplak: %i oktas let %f through, diffuse share %f", (oktas, through, diffuse) => {
    // 0.929 and 0.718 are printed to 0.001.
    expectWithin(cloudTransmission(oktas / 8), through, 0.0005);
    expectWithin(diffuseShare(oktas / 8), diffuse, 0.0001);
    expectWithin(cloudOfTransmission(cloudTransmission(oktas / 8)), oktas / 8, 1e-9);
  });
  test.each([
    [30, 425.0],
    [10, 128.02],
    [1, 0],
  ])("Kasten & Czeplak clear sky at %i° = %f W/m²", (elevationDeg, wm2) => {
    expectWithin(kastenCzeplakClearWm2(elevationDeg), wm2, 0.01);
  });
  test("more than the clear sky is no cloud, less than a full cover lets through is a full cover", () => {
    expect(cloudOfTransmission(1.1)).toBe(0);
    expect(cloudOfTransmission(0.1)).toBe(1);
  });
  test.each([
    [44.3, -98.2, "2026-06-21T00:00:00Z"],
    [60, 10, "2026-09-22T00:30:00Z"],
    [78, 16, "2026-06-21T00:00:00Z"],
    [-44, 170, "2026-06-21T00:00:00Z"],
  ])(
    "%f %f: the mean of each hour from 6 parts is that from 360 within 1 W/m²",
    (latitude, longitude, start) => {
      const startMs = Date.parse(start);
      const { clearSkyWm2 } = clearSkyHours(startMs, 24, latitude, longitude);
      for (let i = 0; i < 24; i++) {
        let sum = 0;
        for (let k = 0; k < 360; k++) {
          sum += haurwitzWm2(sunElevationDeg(startMs + (i + (k + 0.5) / 360) * HOUR_MS, latitude, longitude));
        }
        expectWithin(clearSkyWm2[i] as number, sum / 360, 1);
      }
    },
  );
});

describe("FAO-56 radiation (Allen et al. 1998)", () => {
  test("ex. 11, p. 52, eq. 39: net longwave", () => {
    expectWithin(netLongwaveDailyMJM2(25.1, 19.1, 2.1, fao56CloudFactor(14.5 / 18.8)), 3.5, 0.06);
  });
  test("ex. 12, eqs 38 and 40: net radiation; the paper cuts 11.165 to 11.1", () => {
    expectWithin(netShortwave(14.5), 11.1, 0.08);
    expectWithin(netShortwave(14.5) - 3.5, 7.6, 0.08);
  });
  test("ex. 13, eq. 43: soil heat of a month from the months around it", () => {
    const soilHeatMJM2 = 0.07 * (18.8 - 14.1);
    expectWithin(soilHeatMJM2, 0.33, 0.005);
    expectWithin(0.408 * soilHeatMJM2, 0.13, 0.005);
  });
  test("eq. 37, RefET validation set, Fallon NV 2015-07-01", () => {
    expectWithin(clearSkyOfExtraterrestrial(4.3082414795, 1208.5), 3.3353113062, 1e-6);
  });
});

describe("wind and units", () => {
  test("FAO-56 ex. 14, p. 56, eq. 47: 3.2 m/s at 10 m", () => {
    expectWithin(wind2mMps(3.2, 10), 2.4, 0.05);
  });
  test.each([
    [3, 0.921],
    [10, 0.748],
  ])("FAO-56 annex 2 table 2.9 (memory): factor of %i m", (heightM, factor) => {
    expectWithin(windTo2mFactor(heightM), factor, 0.0006);
  });
  test("RefET validation set, Fallon NV: 4.8 mph at 3 m", () => {
    expectWithin(wind2mMps(4.8 * TO_MPS.mph, 3), 1.9761117577, 1e-6);
  });
  test("at 2 m the wind is kept, and the profile itself is within 0.1 % of one there", () => {
    expect(wind2mMps(3.3, 2)).toBe(3.3);
    expectWithin(windTo2mFactor(2), 1, 0.001);
  });
  test.each([0.4, 101, Number.NaN])("a height of %f m is refused", (heightM) => {
    expect(() => windTo2mFactor(heightM)).toThrow(/heightM must be in \[0.5, 100\]/);
  });
  test("REF-ET output, Fallon NV: 61.16 langley in an hour", () => {
    expectWithin(61.16 * HOURLY_TO_WM2.langley, 711, 0.6);
    expectWithin(61.16 * LANGLEY_MJ_M2, 2.56064688, 1e-6);
  });
  test("definitions: inHg, knot, inch, J/cm², kWh/m²", () => {
    expectWithin(29.92 * TO_HPA.inchOfMercury, 1013.21, 0.01);
    expectWithin(10 * TO_MPS.knot, 5.14444, 0.01);
    expectWithin(TO_MM.inch, 25.4, 0.01);
    expectWithin(100 * HOURLY_TO_WM2.joulePerCm2, 277.778, 0.01);
    expectWithin(0.563 * HOURLY_TO_WM2.kilowattHourPerM2, 563, 0.01);
  });
});
