import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { brightSky, readBrightSky } from "../../../server/forecasts/bright-sky.ts";
import { steppedNetwork } from "../../support/forecast-network.ts";
import { brightBody } from "./bodies.ts";

const NOW = "2026-07-01T06:10:00Z";
const BASE = "https://brightsky.invalid";
const PLACE = { latitude: 52.1, longitude: 7.7, elevationM: null, ensemble: false };
const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

const read = (...parts: Parameters<typeof brightBody>) => readBrightSky(JSON.stringify(brightBody(...parts)));

describe("from rows to hours, against a table worked by hand", () => {
  // Labels 10, 11, 12, 13 UTC. Instants are averaged; rain, sun AND wind at a label are of the hour before it.
  const temps = [10, 12, 16, 20];
  const { hours, marks, startMs, elevationM } = read(
    "2026-07-01T10:00:00Z",
    4,
    (i) => ({
      temperature: temps[i] ?? null,
      dew_point: 9,
      cloud_cover: i * 20,
      precipitation: i,
      solar: i / 10,
      wind_speed: 3.6 * (i + 1),
      precipitation_probability: i === 3 ? 30 : null,
    }),
    2,
  );

  test("hour by hour", () => {
    expect(startMs).toBe(Date.parse("2026-07-01T10:00:00Z"));
    expect(hours.airTempC).toEqual([11, 14, 18]);
    expect(hours.cloudPct).toEqual([10, 30, 50]);
    expect(hours.rainMm).toEqual([1, 2, 3]);
    // kWh/m2 in an hour are kW/m2 of its mean.
    expect(hours.solarWm2?.map((value) => Math.round(value ?? 0))).toEqual([100, 200, 300]);
    expect(hours.windSpeedMps.map((value) => Math.round((value ?? 0) * 10) / 10)).toEqual([2, 3, 4]);
    expect(hours.rainChancePct).toEqual([null, null, 30]);
    expect(elevationM).toBe(60);
  });

  test("humidity comes from the dew point where it is missing", () => {
    // FAO-56 eq. 11: 1.1477 kPa at 9 degC; 1.3123 at 11 degC, the mean of the hour.
    expect(hours.relHumidityPct[0]).toBeCloseTo((100 * 1.1477) / 1.3123, 0);
  });

  test("an hour is observed only where both its ends are", () => {
    expect(marks.airTempC).toEqual(["observed", null, null]);
  });

  test("a chance of six hours is that of the six hours before its label", () => {
    const six = read("2026-07-01T00:00:00Z", 13, (i) => ({
      precipitation_probability_6h: i === 6 ? 40 : i === 12 ? 70 : null,
    }));
    expect(six.hours.rainChancePct).toEqual([...new Array(6).fill(40), ...new Array(6).fill(70)]);
    expect(six.hours.rainChancePeriodH).toEqual(new Array(12).fill(6));
  });

  test("hours that are missing stay null; offsets in the labels are offsets, over a clock change too", () => {
    const body = brightBody("2026-03-29T00:00:00Z", 3);
    const [a, b, c] = body.weather;
    const local = [
      { ...a, timestamp: "2026-03-29T01:00:00+01:00" },
      { ...b, timestamp: "2026-03-29T03:00:00+02:00", precipitation: 2 },
      { ...c, timestamp: "2026-03-29T05:00:00+02:00" },
    ];
    const { hours: got, startMs: from } = readBrightSky(JSON.stringify({ ...body, weather: local }));
    expect(from).toBe(Date.parse("2026-03-29T00:00:00Z"));
    expect(got.rainMm).toEqual([2, null, 0]);
    expect(got.airTempC).toEqual([18, null, null]);
  });

  test("labels of a zone of half hours are refused where they are no whole hours of UTC", () => {
    const body = brightBody("2026-07-01T00:00:00Z", 2);
    const half = body.weather.map((row, i) => ({ ...row, timestamp: `2026-07-01T0${i + 6}:00:00+05:30` }));
    expect(() => readBrightSky(JSON.stringify({ ...body, weather: half }))).toThrow(/must be a whole hour/);
    const whole = body.weather.map((row, i) => ({ ...row, timestamp: `2026-07-01T0${i + 5}:30:00+05:30` }));
    expect(readBrightSky(JSON.stringify({ ...body, weather: whole })).startMs).toBe(
      Date.parse("2026-07-01T00:00:00Z"),
    );
  });

  test("rows out of order and impossible values are refused", () => {
    const body = brightBody("2026-07-01T00:00:00Z", 3);
    expect(() => readBrightSky(JSON.stringify({ ...body, weather: [...body.weather].reverse() }))).toThrow(
      /after/,
    );
    expect(() => read("2026-07-01T00:00:00Z", 3, () => ({ temperature: 291 }))).toThrow(
      /temperature: got 291/,
    );
  });
});

test("the question: units, zone and ten past days; its errors", async () => {
  let query = new URLSearchParams();
  mock.use(
    http.get(`${BASE}/weather`, ({ request }) => {
      query = new URL(request.url).searchParams;
      return HttpResponse.json(brightBody("2026-06-21T00:00:00Z", 500));
    }),
  );
  const network = steppedNetwork(NOW);
  const ask = () => brightSky(network, BASE).forecast(PLACE, network.nowMs() + 30_000);
  await ask();
  expect(Object.fromEntries(query)).toEqual({
    lat: "52.1",
    lon: "7.7",
    date: "2026-06-21",
    last_date: "2026-07-12",
    tz: "Etc/UTC",
    units: "dwd",
  });
  mock.use(
    http.get(`${BASE}/weather`, () =>
      HttpResponse.json({ detail: "No sources match your criteria" }, { status: 404 }),
    ),
  );
  await expect(ask()).rejects.toMatchObject({
    code: "outside-coverage",
    message: expect.stringMatching(/No sources match/),
  });
  mock.use(
    http.get(`${BASE}/weather`, () =>
      HttpResponse.json(
        { detail: [{ loc: ["query", "lat"], msg: "value is not a valid float", type: "type_error" }] },
        { status: 422 },
      ),
    ),
  );
  await expect(ask()).rejects.toMatchObject({
    code: "refused",
    message: expect.stringMatching(/not a valid float/),
  });
});
