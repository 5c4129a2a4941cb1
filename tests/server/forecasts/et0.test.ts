import { expect, test } from "vitest";
import { prepareWeather } from "../../../model/weather/index.ts";
import { referenceEtHours } from "../../../model/weather/reference-et.ts";
import { hoursOfTrajectory, readOpenMeteo } from "../../../server/forecasts/open-meteo-columns.ts";
import { toSeries } from "../../../server/forecasts/to-series.ts";
import { column, openMeteoBody } from "./bodies.ts";

/**
 * The service's hourly ET0, as its documentation tells it: FAO-56's hourly form (eq. 53) with 10 m wind times 0.748 and
 * the Tetens constants 17.27 and 237.3. Typed again here from FAO-56 (Allen, Pereira, Raes, Smith 1998), apart from the
 * model, to fill the column of a synthetic answer.
 */
function documentedEt0(
  tempC: number,
  humidity: number,
  wind10: number,
  wm2: number,
  hpa: number,
  clear: number,
) {
  const saturated = 0.6108 * Math.exp((17.27 * tempC) / (tempC + 237.3));
  const vapour = (saturated * humidity) / 100;
  const slope = (4098 * saturated) / (tempC + 237.3) ** 2;
  const gamma = 0.665e-3 * (hpa / 10);
  const wind2 = wind10 * 0.748;
  const solar = wm2 * 0.0036;
  const cloud = 1.35 * Math.min(1, Math.max(0.3, clear)) - 0.35;
  const longwave = 2.043e-10 * (tempC + 273.16) ** 4 * (0.34 - 0.14 * Math.sqrt(vapour)) * cloud;
  const net = 0.77 * solar - longwave;
  const ground = net >= 0 ? 0.1 * net : 0.5 * net;
  const deficit = saturated - vapour;
  const energy = 0.408 * slope * (net - ground);
  return (energy + gamma * (37 / (tempC + 273)) * wind2 * deficit) / (slope + gamma * (1 + 0.34 * wind2));
}

test("our reference ET follows the provider's own column within a few hundredths of a millimetre", () => {
  const labels = 25;
  const hour = (i: number) => (i + 24 - 6) % 24;
  const temp = column(labels, (i) => 20 + 6 * Math.sin(((hour(i) - 8) / 24) * 2 * Math.PI));
  const humidity = column(labels, (i) => 70 - 25 * Math.sin(((hour(i) - 8) / 24) * 2 * Math.PI));
  const wind = column(labels, (i) => 2 + (i % 5) / 2);
  const sun = column(labels, (i) => {
    const h = hour(i) - 0.5;
    return h > 6 && h < 20 ? Math.round(780 * Math.sin(((h - 6) / 14) * Math.PI)) : 0;
  });
  const mean = (values: readonly (number | null)[], i: number) =>
    ((values[i] ?? 0) + (values[i - 1] ?? 0)) / 2;
  const et0 = column(labels, (i) =>
    i === 0 ? 0 : documentedEt0(mean(temp, i), mean(humidity, i), mean(wind, i), sun[i] ?? 0, 985, 0.85),
  );
  const body = openMeteoBody({
    startUtc: "2026-07-01T00:00:00Z",
    labels,
    elevation: 230,
    columns: {
      temperature_2m: temp,
      relative_humidity_2m: humidity,
      dew_point_2m: [],
      wind_speed_10m: wind,
      shortwave_radiation: sun,
      surface_pressure: column(labels, () => 985),
      et0_fao_evapotranspiration: et0,
    },
  });
  const read = readOpenMeteo(JSON.stringify(body), []);
  const { series } = toSeries(
    {
      provider: "open-meteo",
      model: null,
      issuedMs: null,
      fetchedMs: read.startMs,
      elevationM: read.elevationM,
      nativeStepHours: 1,
      attribution: [],
      startMs: read.startMs,
      hours: hoursOfTrajectory(read.trajectories[0]?.columns ?? {}),
      marks: {},
      members: [],
      notes: [],
    },
    { latitude: 46.8, longitude: -96.9, timeZone: "America/Chicago", elevationM: null },
    "forecast",
  );
  const prepared = prepareWeather(series);
  if (!prepared.ok) throw new Error(prepared.issues[0]?.message);
  const ours = referenceEtHours(prepared.value.weather);
  expect(ours).toHaveLength(labels - 1);
  let sumOurs = 0;
  let sumTheirs = 0;
  ours.forEach((mm, i) => {
    const theirs = et0[i + 1] ?? Number.NaN;
    // The cloud of a low sun is the one thing that the two tell apart differently: hundredths of a millimetre.
    expect(Math.abs(mm - theirs), `hour ${i}`).toBeLessThan(0.06);
    sumOurs += mm;
    sumTheirs += theirs;
  });
  expect(sumTheirs).toBeGreaterThan(3);
  expect(Math.abs(sumOurs / sumTheirs - 1)).toBeLessThan(0.06);
});
