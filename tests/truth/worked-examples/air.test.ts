import psychrolib from "psychrolib";
import { describe, expect, test } from "vitest";
import {
  dewPointC,
  humidityRatio,
  humidityRatioOfWetBulb,
  psychrometricKPaPerC,
  relHumidityFrac,
  saturationSlopeKPaPerC,
  saturationVapourPressureKPa,
  standardPressureKPa,
  vapourPressureKPa,
  vapourPressureOfPsychrometerKPa,
  vapourPressureOfRatioKPa,
  wetBulbC,
} from "../../../model/weather/air.ts";
import { celsiusOfFahrenheit } from "../../../model/weather/units.ts";
import { expectWithin } from "./check.ts";

// Allen et al. (1998), Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, as quoted by published test
// suites; "memory" where it was recalled and confirmed by computing. Tolerance: half of the last printed digit, with
// the rounding of the printed inputs where it is larger.
psychrolib.SetUnitSystem(psychrolib.SI);

describe("pressure and psychrometric constant", () => {
  test("FAO-56 ex. 2, p. 32: 1800 m", () => {
    expectWithin(standardPressureKPa(1800), 81.8, 0.05);
    expectWithin(psychrometricKPaPerC(81.8), 0.054, 0.0005);
  });
  test("FAO-56 ex. 18, p. 72: 100 m", () => {
    expectWithin(standardPressureKPa(100), 100.1, 0.05);
    expectWithin(psychrometricKPaPerC(standardPressureKPa(100)), 0.0666, 0.00006);
  });
  test("RefET validation set (Apache-2.0), Fallon NV, ASCE eq. 3", () => {
    expectWithin(standardPressureKPa(1208.5), 87.8071053721, 1e-6);
  });
  test.each([
    [0, 101.3, 0.067],
    [1000, 90.0, 0.06],
    [2000, 79.8, 0.053],
  ])("FAO-56 annex 2, tables 2.1 and 2.2 (memory): %i m", (elevationM, pressureKPa, gamma) => {
    expectWithin(standardPressureKPa(elevationM), pressureKPa, 0.06);
    expectWithin(psychrometricKPaPerC(standardPressureKPa(elevationM)), gamma, 0.0006);
  });
  test.each([
    [0, 101325],
    [1000, 89875],
  ])("ASHRAE (2017) ch. 1 table 1: %i m; FAO's simpler atmosphere is within 0.3 %%", (elevationM, pa) => {
    expectWithin(psychrolib.GetStandardAtmPressure(elevationM), pa, 1);
    expectWithin(standardPressureKPa(elevationM) / (pa / 1000), 1, 0.003);
  });
});

describe("vapour pressure and slope", () => {
  test.each([
    [24.5, 3.075],
    [15.0, 1.705],
  ])("FAO-56 ex. 3, p. 36: es(%f °C) = %f kPa", (tempC, kPa) => {
    expectWithin(saturationVapourPressureKPa(tempC), kPa, 0.0006);
  });
  test("FAO-56 ex. 3, p. 36: mean of both", () => {
    expectWithin((saturationVapourPressureKPa(24.5) + saturationVapourPressureKPa(15)) / 2, 2.39, 0.0006);
  });
  test("FAO-56 ex. 4, p. 38, eq. 15: aspirated psychrometer", () => {
    expectWithin(saturationVapourPressureKPa(19.5), 2.267, 0.0006);
    expectWithin(vapourPressureOfPsychrometerKPa(25.6, 19.5, 87.9), 1.91, 0.005);
  });
  test("FAO-56 ex. 5, p. 39, eq. 18: 82 % at 18 °C", () => {
    expectWithin(vapourPressureKPa(18, 0.82), 1.69, 0.005);
  });
  test("FAO-56 ex. 20, eq. 14: dew point 14.8 °C", () => {
    expectWithin(saturationVapourPressureKPa(14.8), 1.68, 0.005);
  });
  // ASCE-EWRI (2005) app. C table C-3; the temperatures are printed rounded.
  test.each([
    ["FAO-56 ex. 17, p. 70", 30.2, 0.246],
    ["ASCE table C-3", 21.65, 0.1585],
    ["ASCE table C-3", 23.7, 0.1762],
    ["ASCE table C-3", 24.3, 0.182],
    ["ASCE table C-3", 26.1, 0.1996],
    ["ASCE table C-3", 23.9, 0.1781],
    ["ASCE table C-3", 24.2, 0.1809],
  ])("%s: slope at %f °C = %f kPa/°C", (_, tempC, slope) => {
    expectWithin(saturationSlopeKPaPerC(tempC), slope, 0.0005);
  });
  test.each([
    [1, 0.657, 0.047],
    [10, 1.228, 0.082],
    [20, 2.338, 0.145],
    [30, 4.243, 0.243],
    [40, 7.376, 0.393],
  ])("FAO-56 annex 2, tables 2.3 and 2.4 (memory): %i °C", (tempC, kPa, slope) => {
    expectWithin(saturationVapourPressureKPa(tempC), kPa, 0.0006);
    expectWithin(saturationSlopeKPaPerC(tempC), slope, 0.0006);
  });
  test("RefET validation set, Fallon NV, 2015-07-01: day's saturation and actual vapour pressure", () => {
    const high = saturationVapourPressureKPa(celsiusOfFahrenheit(102.8));
    const low = saturationVapourPressureKPa(celsiusOfFahrenheit(66.65));
    expectWithin((high + low) / 2, 4.6747236227, 1e-5);
    expectWithin(saturationVapourPressureKPa(celsiusOfFahrenheit(49.84)), 1.220667417, 1e-5);
  });
  // ASHRAE Handbook - Fundamentals (2017) ch. 1 table 3 (Hyland-Wexler); below 0 °C the print is over ice.
  test.each([
    [-5, 401.74],
    [25, 3169.7],
    [50, 12351.3],
  ])("ASHRAE table 3: %i °C is %f Pa in the independent library", (tempC, pa) => {
    expectWithin(psychrolib.GetSatVapPres(tempC) / pa, 1, 0.0003);
  });
  test("within 0.12 % of ASHRAE's curve from 0 to 50 °C", () => {
    for (let tempC = 0.05; tempC <= 50; tempC += 0.25) {
      expectWithin(saturationVapourPressureKPa(tempC) / (psychrolib.GetSatVapPres(tempC) / 1000), 1, 0.0012);
    }
  });
  test("the slope is the numerical derivative", () => {
    for (let tempC = -40; tempC <= 60; tempC += 5) {
      const step = 0.001;
      const rise = saturationVapourPressureKPa(tempC + step) - saturationVapourPressureKPa(tempC - step);
      expectWithin(saturationSlopeKPaPerC(tempC) / (rise / (2 * step)), 1, 1e-6);
    }
  });
});

describe("dew point, wet bulb, humidity ratio", () => {
  // Alduchov & Eskridge (1996), J. Appl. Meteor. 35:601-609, computed from the published coefficients; the two sets of
  // constants agree within 0.02 °C here.
  test.each([
    [25, 60, 16.698, 31.617],
    [30, 40, 14.933, 42.367],
    [0, 90, -1.444, 6.109],
    [15, 95, 14.205, 17.02],
  ])("Alduchov & Eskridge (1996): %i °C, %i %% -> %f °C, %f hPa", (tempC, humidityPct, dewC, hPa) => {
    expectWithin(dewPointC(vapourPressureKPa(tempC, humidityPct / 100)), dewC, 0.02);
    // Theirs is another curve than FAO-56's, which the model uses: the two lie within 0.2 % of each other.
    expectWithin(6.1094 * Math.exp((17.625 * tempC) / (tempC + 243.04)), hPa, 0.005);
    expectWithin((10 * saturationVapourPressureKPa(tempC)) / hPa, 1, 0.002);
  });
  test("ASHRAE (2017) ch. 1 example 1: 40 °C dry, 20 °C wet, sea level", () => {
    const ratio = humidityRatioOfWetBulb(40, 20, 101.325);
    expectWithin(psychrolib.GetHumRatioFromTWetBulb(40, 20, 101325), 0.0065, 0.0001);
    // FAO's curve is 0.06 % below ASHRAE's at 20 °C, which moves the ratio by 0.00001.
    expectWithin(ratio, 0.0065, 0.0001 + 0.00001);
    const kPa = vapourPressureOfRatioKPa(ratio, 101.325);
    expectWithin(humidityRatio(kPa, 101.325), ratio, 1e-12);
    expectWithin(psychrolib.GetMoistAirEnthalpy(40, ratio), 56700, 100);
    expectWithin(dewPointC(kPa), 7, 0.5);
    expectWithin(relHumidityFrac(40, kPa), 0.14, 0.01);
  });
  test("PsychroLib 2.5 test suite: humidity ratio of 3169.7 Pa at 95461 Pa", () => {
    expectWithin(humidityRatio(3.1697, 95.461), 0.0213603998, 1e-8);
  });
  test("PsychroLib 2.5 test suite, ASHRAE eq. 35 (ice bulb): read by the independent library only", () => {
    // Our psychrometer knows no ice bulb: below 0 °C it stays with liquid water, as its comment says.
    expectWithin(psychrolib.GetHumRatioFromTWetBulb(-1, -5, 95461) / 0.0012039982, 1, 0.0003);
  });
  test("ASHRAE (2017) ch. 1 table 2: saturated at 25 °C", () => {
    // The table is of real air, 0.45 % above the ideal gas; FAO's curve stands another 0.05 % below ASHRAE's there.
    expectWithin(psychrolib.GetSatHumRatio(25, 101325) / 0.020173, 1, 0.005);
    expectWithin(humidityRatio(saturationVapourPressureKPa(25), 101.325) / 0.020173, 1, 0.005 + 0.0006);
  });
  test("dew point, wet bulb and humidity agree with the independent library over a summer's range", () => {
    for (let tempC = 1; tempC <= 45; tempC += 4) {
      for (const humidity of [0.1, 0.3, 0.6, 0.9, 1]) {
        const kPa = vapourPressureKPa(tempC, humidity);
        const dewC = dewPointC(kPa);
        expectWithin(relHumidityFrac(tempC, kPa), humidity, 1e-12);
        expectWithin(saturationVapourPressureKPa(dewC), kPa, 1e-9);
        if (dewC < 0) continue;
        // The library finds its dew point to 0.001 °C on a curve 0.12 % off ours: 0.03 °C.
        expectWithin(dewC, psychrolib.GetTDewPointFromRelHum(tempC, humidity), 0.03);
        const wetC = wetBulbC(tempC, kPa, 101.325);
        expectWithin(wetC, psychrolib.GetTWetBulbFromRelHum(tempC, humidity, 101325), 0.4);
      }
    }
  });
  test("the wet thermometer's temperature gives the vapour pressure back", () => {
    for (const humidity of [0.01, 0.4, 0.99, 1]) {
      const kPa = vapourPressureKPa(28, humidity);
      expectWithin(vapourPressureOfPsychrometerKPa(28, wetBulbC(28, kPa, 95), 95), kPa, 1e-4);
    }
  });
});

test("impossible air is refused by name, value and limit", () => {
  expect(() => saturationVapourPressureKPa(Number.NaN)).toThrow(/tempC must be in \[-80, 100\], got NaN/);
  expect(() => vapourPressureKPa(20, 65)).toThrow(/rhFrac must be in \[0, 1.03\], got 65/);
  expect(() => dewPointC(0)).toThrow(/vapourPressureKPa/);
  expect(() => standardPressureKPa(9000)).toThrow(/elevationM/);
  expect(() => humidityRatio(120, 100)).toThrow(/pressureKPa/);
  expect(() => wetBulbC(20, 3, 100)).toThrow(/saturation/);
});
