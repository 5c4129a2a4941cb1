import { describe, expect, test } from "vitest";
import {
  psychrometricKPaPerC,
  saturationSlopeKPaPerC,
  saturationVapourPressureKPa,
  standardPressureKPa,
  vapourPressureKPa,
} from "../../../model/weather/air.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import {
  clearSkyOfExtraterrestrial,
  fao56CloudFactor,
  netLongwaveDailyMJM2,
  netShortwave,
  solarOfSunshineMJM2,
} from "../../../model/weather/radiation.ts";
import {
  DAILY_SURFACES,
  dailyEtMm,
  HOURLY_SURFACES,
  hargreavesMm,
  hourlyEt,
  penmanMonteithMm,
  referenceEtHours,
} from "../../../model/weather/reference-et.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import {
  daylightHours,
  extraterrestrialDailyMJM2,
  extraterrestrialHourlyMJM2,
} from "../../../model/weather/sun.ts";
import { celsiusOfFahrenheit, HOURLY_TO_WM2, LANGLEY_MJ_M2, TO_MPS } from "../../../model/weather/units.ts";
import { wind2mMps } from "../../../model/weather/wind.ts";
import { degrees, expectWithin } from "./check.ts";

// Allen et al. (1998) FAO-56; RefET project validation set (Apache-2.0) and REF-ET 4.1 output for the AgriMet station
// Fallon NV (US Bureau of Reclamation, public), ASCE-EWRI (2005) standardized equation.

test("FAO-56 ex. 18, p. 72: Brussels, 6 July, every step", () => {
  const latitude = degrees(50, 48);
  const meanC = (21.5 + 12.3) / 2;
  const wind = wind2mMps(10 / 3.6, 10);
  expectWithin(wind, 2.078, 0.001);
  expectWithin(saturationSlopeKPaPerC(meanC), 0.122, 0.0006);
  expectWithin(psychrometricKPaPerC(standardPressureKPa(100)), 0.0666, 0.0001);
  const saturation = (saturationVapourPressureKPa(21.5) + saturationVapourPressureKPa(12.3)) / 2;
  expectWithin(saturation, 1.997, 0.001);
  const vapour = (vapourPressureKPa(12.3, 0.84) + vapourPressureKPa(21.5, 0.63)) / 2;
  expectWithin(vapour, 1.409, 0.001);
  const extraterrestrial = extraterrestrialDailyMJM2(latitude, 187);
  expectWithin(extraterrestrial, 41.09, 0.01);
  expectWithin(daylightHours(latitude, 187), 16.1, 0.05);
  const solar = solarOfSunshineMJM2(extraterrestrial, 9.25, 16.1);
  expectWithin(solar, 22.07, 0.01);
  const clear = clearSkyOfExtraterrestrial(extraterrestrial, 100);
  expectWithin(clear, 30.9, 0.01);
  expectWithin(netShortwave(solar), 17.0, 0.01);
  const longwave = netLongwaveDailyMJM2(21.5, 12.3, vapour, fao56CloudFactor(solar / clear));
  expectWithin(longwave, 3.71, 0.01);
  const net = netShortwave(solar) - longwave;
  expectWithin(net, 13.28, 0.01);
  const day = {
    maxTempC: 21.5,
    minTempC: 12.3,
    vapourPressureKPa: vapour,
    wind2mMps: wind,
    pressureKPa: standardPressureKPa(100),
    netRadiationMJM2: net,
  };
  expectWithin(dailyEtMm(day, DAILY_SURFACES.short), 3.88, 0.02);
  expectWithin(dailyEtMm(day, DAILY_SURFACES.short), 3.9, 0.05);
});

test("FAO-56 eq. 6 with the printed inputs of ex. 18", () => {
  const et = penmanMonteithMm({
    cn: 900,
    cd: 0.34,
    tempC: 16.9,
    wind2mMps: 2.078,
    deficitKPa: 1.997 - 1.409,
    slopeKPaPerC: 0.122,
    psychrometricKPaPerC: 0.0666,
    netRadiationMJM2: 13.28,
    soilHeatMJM2: 0,
  });
  expectWithin(et, 3.88, 0.01);
});

test("FAO-56 ex. 19, p. 75 (memory): N'Diaye, Senegal, 1 October, 14:00-15:00", () => {
  const pressureKPa = standardPressureKPa(8);
  const vapour = vapourPressureKPa(38, 0.52);
  expectWithin(saturationSlopeKPaPerC(38), 0.358, 0.0006);
  expectWithin(psychrometricKPaPerC(pressureKPa), 0.0673, 0.0001);
  expectWithin(saturationVapourPressureKPa(38), 6.625, 0.001);
  expectWithin(vapour, 3.445, 0.001);
  // The clock there is that of 15° W, one hour behind UTC.
  const extraterrestrial = extraterrestrialHourlyMJM2(degrees(16, 13), degrees(-16, 15), 274, 15.5);
  expectWithin(extraterrestrial, 3.543, 0.001);
  const clear = clearSkyOfExtraterrestrial(extraterrestrial, 8);
  expectWithin(clear, 2.658, 0.001);
  const hour = hourlyEt(
    {
      tempC: 38,
      vapourPressureKPa: vapour,
      wind2mMps: 3.3,
      pressureKPa,
      solarMJM2: 2.45,
      cloudFactor: fao56CloudFactor(2.45 / clear),
    },
    HOURLY_SURFACES.fao56,
  );
  expectWithin(hour.netLongwaveMJM2, 0.137, 0.001);
  expectWithin(hour.netRadiationMJM2, 1.749, 0.001);
  expectWithin(hour.soilHeatMJM2, 0.175, 0.001);
  expectWithin(hour.etMm, 0.63, 0.005);
});

test("FAO-56 ex. 19, p. 75 (memory): the night, 02:00-03:00", () => {
  const vapour = vapourPressureKPa(28, 0.9);
  expectWithin(saturationSlopeKPaPerC(28), 0.22, 0.0006);
  expectWithin(saturationVapourPressureKPa(28), 3.78, 0.001);
  expectWithin(vapour, 3.402, 0.001);
  const hour = hourlyEt(
    {
      tempC: 28,
      vapourPressureKPa: vapour,
      wind2mMps: 1.9,
      pressureKPa: standardPressureKPa(8),
      solarMJM2: 0,
      cloudFactor: fao56CloudFactor(0.8),
    },
    HOURLY_SURFACES.fao56,
  );
  expectWithin(hour.netLongwaveMJM2, 0.1, 0.001);
  expectWithin(hour.netRadiationMJM2, -0.1, 0.001);
  expectWithin(hour.soilHeatMJM2, -0.05, 0.001);
  expectWithin(hour.etMm, 0.0, 0.006);
});

test("FAO-56 ex. 20, p. 78, eq. 52: Hargreaves", () => {
  expectWithin(hargreavesMm(26.6, 14.8, 40.6), 5.0, 0.05);
});

describe("Fallon NV, ASCE standardized, daily", () => {
  test.each([
    [
      "2015-07-01 RefET set (full clear-sky terms)",
      182,
      102.8,
      66.65,
      49.84,
      674.07,
      4.8,
      7.9422,
      10.6261,
      0.08,
      0.08,
    ],
    ["2015-07-03 REF-ET 4.1", 184, 100.0, 68.62, 54.44, 668.58, 5.57, 7.95, 10.6, 0.1, 0.15],
  ])("%s", (_, doy, maxF, minF, dewF, langley, mph, short, tall, shortTol, tallTol) => {
    const maxTempC = celsiusOfFahrenheit(maxF);
    const minTempC = celsiusOfFahrenheit(minF);
    const vapour = saturationVapourPressureKPa(celsiusOfFahrenheit(dewF));
    const solar = langley * LANGLEY_MJ_M2;
    const clear = clearSkyOfExtraterrestrial(extraterrestrialDailyMJM2(39.4575, doy), 1208.5);
    // ASCE-EWRI (2005) eq. 17: sigma 4.901e-9, the ratio held to 0.3-1.
    const factor = fao56CloudFactor(Math.max(0.3, solar / clear));
    const day = {
      maxTempC,
      minTempC,
      vapourPressureKPa: vapour,
      wind2mMps: wind2mMps(mph * TO_MPS.mph, 3),
      pressureKPa: standardPressureKPa(1208.5),
      netRadiationMJM2:
        netShortwave(solar) - netLongwaveDailyMJM2(maxTempC, minTempC, vapour, factor, 4.901e-9),
    };
    expectWithin(dailyEtMm(day, DAILY_SURFACES.short), short, shortTol);
    expectWithin(dailyEtMm(day, DAILY_SURFACES.tall), tall, tallTol);
  });
});

// Label, air °F, dew point °F, wind mph at 3 m, langley, printed short and tall mm. The label is the end of the hour in
// UTC-8. The 07:00 row is left out: programs treat the cloud at low sun differently.
const FALLON_HOURS = [
  [0, 79.88, 48.31, 5.81, 0.0, 0.07, 0.1],
  [1, 75.54, 50.55, 2.99, 0.0, 0.02, 0.03],
  [3, 74.79, 52.49, 5.55, 0.0, 0.05, 0.07],
  [4, 69.89, 52.78, 2.03, 0.0, -0.01, 0.0],
  [8, 76.47, 55.17, 3.77, 26.41, 0.25, 0.32],
  [9, 82.0, 55.18, 4.12, 38.35, 0.38, 0.47],
  [11, 91.8, 49.36, 3.33, 61.16, 0.61, 0.72],
  [13, 95.9, 47.41, 5.34, 94.5, 0.95, 1.14],
  [14, 97.4, 44.04, 3.88, 88.3, 0.87, 1.02],
  [16, 100.2, 44.15, 5.04, 65.79, 0.7, 0.87],
  [18, 101.9, 42.0, 3.11, 44.67, 0.44, 0.55],
  [20, 90.0, 50.2, 11.0, 2.15, 0.17, 0.24],
  [22, 84.8, 50.78, 5.77, 0.0, 0.08, 0.12],
  [23, 86.4, 49.76, 12.15, 0.0, 0.16, 0.21],
] as const;

describe("Fallon NV 2015-07-01, REF-ET 4.1, ASCE standardized hourly, within 0.012 mm", () => {
  test.each(FALLON_HOURS)("label %i", (label, tempF, dewF, mph, langley, short, tall) => {
    const utcMiddle = label + 8 - 0.5;
    const solarMJM2 = langley * LANGLEY_MJ_M2;
    const extraterrestrial = extraterrestrialHourlyMJM2(39.4575, -118.77388, 182, utcMiddle);
    const clear = clearSkyOfExtraterrestrial(extraterrestrial, 1208.5);
    // Below 0.3 rad of sun the cloud factor is 1 here.
    const highSun = extraterrestrial > Math.sin(0.3) * 4.92 * 0.967;
    const hour = {
      tempC: celsiusOfFahrenheit(tempF),
      vapourPressureKPa: saturationVapourPressureKPa(celsiusOfFahrenheit(dewF)),
      wind2mMps: wind2mMps(mph * TO_MPS.mph, 3),
      pressureKPa: standardPressureKPa(1208.5),
      solarMJM2,
      cloudFactor: highSun ? fao56CloudFactor(Math.max(0.3, solarMJM2 / clear)) : 1,
    };
    expectWithin(hourlyEt(hour, HOURLY_SURFACES.asceShort).etMm, short, 0.012);
    expectWithin(hourlyEt(hour, HOURLY_SURFACES.asceTall).etMm, tall, 0.012);
  });
});

test("hours of prepared weather: the FAO-56 form stands near the ASCE print by day (cd 0.34 against 0.24)", () => {
  const count = 24;
  const series: WeatherSeries = {
    site: { latitude: 39.4575, longitude: -118.77388, elevationM: 1208.5, timeZone: "America/Los_Angeles" },
    windHeightM: 3,
    origin: "upload",
    hours: {
      startUtc: Array.from({ length: count }, (_, i) => new Date(Date.UTC(2015, 6, 1, 7 + i)).toISOString()),
      ...fallonColumns(count),
    },
  };
  const prepared = prepareWeather(series);
  expect(prepared.ok).toBe(true);
  if (!prepared.ok) return;
  const et = referenceEtHours(prepared.value.weather);
  for (const [label, , , , langley, short] of FALLON_HOURS) {
    // The wind term is damped less with 0.34: at most a tenth of the day's hourly rates. At night ASCE damps it far
    // more (0.96), so FAO's hours lie above the print.
    if (langley > 10) expectWithin(et[label] as number, short, 0.06);
    else expect(et[label] as number).toBeGreaterThan(short - 0.02);
  }
});

function fallonColumns(count: number) {
  const at = (i: number) =>
    FALLON_HOURS.reduce((near, row) => (Math.abs(row[0] - i) < Math.abs(near[0] - i) ? row : near));
  const rows = Array.from({ length: count }, (_, i) => at(i));
  return {
    airTempC: rows.map((row) => celsiusOfFahrenheit(row[1])),
    relHumidityPct: rows.map(
      (row) =>
        (100 * saturationVapourPressureKPa(celsiusOfFahrenheit(row[2]))) /
        saturationVapourPressureKPa(celsiusOfFahrenheit(row[1])),
    ),
    windSpeedMps: rows.map((row) => row[3] * TO_MPS.mph),
    solarWm2: rows.map((row) => row[4] * HOURLY_TO_WM2.langley),
    rainMm: rows.map(() => 0),
  };
}
