import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { localParts } from "../../../model/weather/clock.ts";
import type { UpstreamFailure } from "../../../server/forecasts/failure.ts";
import { metNorway, readMetNorway } from "../../../server/forecasts/met-norway.ts";
import { steppedNetwork } from "../../support/forecast-network.ts";
import { metBody, metFair } from "./bodies.ts";

const NOW = "2026-07-01T06:10:00Z";
const BASE = "https://met.invalid";
const PATH = `${BASE}/weatherapi/locationforecast/2.0/complete`;
const PLACE = { latitude: 48.2, longitude: 16.4, elevationM: null, ensemble: false };
const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

const read = (body: object) => readMetNorway(JSON.stringify(body));

function service() {
  const network = steppedNetwork(NOW);
  const provider = metNorway(network, BASE);
  return { network, forecast: () => provider.forecast(PLACE, network.nowMs() + 30_000) };
}

describe("from entries to hours, against a table worked by hand", () => {
  // 06, 07, 08 UTC hourly, then 14 and 20 UTC: the hour 08 begins the coarse tail.
  const body = metBody("2026-07-01T06:00:00Z", [
    {
      hour: 0,
      instant: { air_temperature: 10, wind_speed: 2 },
      next1: { precipitation_amount: 0.3, probability_of_precipitation: 40 },
      next6: { precipitation_amount: 9 },
    },
    {
      hour: 1,
      instant: { air_temperature: 12, wind_speed: 4 },
      next1: { precipitation_amount: 0 },
      next6: { precipitation_amount: 9 },
    },
    {
      hour: 2,
      instant: { air_temperature: 14, wind_speed: 4 },
      next6: { precipitation_amount: 3, probability_of_precipitation: 60 },
    },
    { hour: 8, instant: { air_temperature: 20, wind_speed: 10 }, next6: { precipitation_amount: 0 } },
    { hour: 14, instant: { air_temperature: 14, wind_speed: 4 } },
  ]);
  const { hours, marks, startMs, elevationM, issuedMs } = read(body);

  test("means of instants, periods that begin at their label, six-hour amounts spread once", () => {
    expect(startMs).toBe(Date.parse("2026-07-01T06:00:00Z"));
    expect(hours.airTempC.slice(0, 8)).toEqual([11, 13, 14.5, 15.5, 16.5, 17.5, 18.5, 19.5]);
    expect(hours.windSpeedMps.slice(0, 3)).toEqual([3, 4, 4.5]);
    expect(hours.rainMm).toEqual([0.3, 0, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0, 0, 0, 0, 0, 0]);
    expect(hours.rainChancePct?.slice(0, 3)).toEqual([40, null, 60]);
    expect(hours.rainChancePeriodH?.slice(0, 3)).toEqual([1, null, 6]);
    expect(hours.solarWm2).toBeNull();
    expect(elevationM).toBe(171);
    expect(issuedMs).toBe(startMs);
  });

  test("the tail is marked coarse, the hourly head is not", () => {
    expect(marks.rainMm).toEqual([null, null, ...new Array(12).fill("coarse")]);
    expect(marks.airTempC?.slice(0, 3)).toEqual([null, null, "coarse"]);
  });

  test("rain of an hour follows its own label over a clock change and in a zone of half hours", () => {
    const night = read(
      metBody("2026-10-25T00:00:00Z", [
        { hour: 0, next1: { precipitation_amount: 0 } },
        { hour: 1, next1: { precipitation_amount: 2 } },
        { hour: 2, next1: { precipitation_amount: 0 } },
        { hour: 3 },
      ]),
    );
    expect(night.hours.rainMm).toEqual([0, 2, 0]);
    // 01:00 UTC is the second 02:00 by Vienna's clock, and 06:30 in India.
    const wet = night.startMs + 3_600_000;
    expect(localParts(wet, "Europe/Vienna").hour).toBe(2);
    expect(localParts(wet, "Asia/Kolkata")).toMatchObject({ hour: 6, minute: 30 });
  });

  test("details may be absent: null, never 0; steps over six hours are not bridged", () => {
    const holes = read(
      metBody("2026-07-01T06:00:00Z", [
        { hour: 0, next1: {} },
        { hour: 1, next1: { precipitation_amount: 1 } },
        { hour: 2 },
        { hour: 14 },
      ]),
    );
    expect(holes.hours.rainMm.slice(0, 3)).toEqual([null, 1, null]);
    expect(holes.hours.airTempC.slice(0, 4)).toEqual([15, 15, null, null]);
  });

  test("a surprise unit is refused", () => {
    const units = { air_temperature: "fahrenheit", relative_humidity: "%", wind_speed: "m/s" };
    expect(() => read(metBody("2026-07-01T06:00:00Z", [{ hour: 0 }, { hour: 1 }], units))).toThrow(
      /air_temperature: got the unit "fahrenheit", must be "celsius"/,
    );
  });
});

describe("its rules of asking", () => {
  test("not again before Expires; then If-Modified-Since with exactly the Last-Modified; a 304 keeps and counts as looked", async () => {
    const since: (string | null)[] = [];
    mock.use(
      http.get(PATH, ({ request }) => {
        const { headers } = request;
        since.push(headers.get("If-Modified-Since"));
        expect(headers.get("User-Agent")).toMatch(/swathclock.*@/);
        const about = {
          "Cache-Control": "max-age=5",
          Expires: new Date(Date.parse(NOW) + since.length * 3_600_000).toUTCString(),
          "Last-Modified": "Wed, 01 Jul 2026 06:01:02 GMT",
        };
        if (headers.get("If-Modified-Since")) return new HttpResponse(null, { status: 304, headers: about });
        return HttpResponse.json(metFair("2026-07-01T06:00:00Z"), { headers: about });
      }),
    );
    const { forecast, network } = service();
    const first = await forecast();
    network.skip(50 * 60_000);
    await forecast();
    expect(since).toEqual([null]);
    network.skip(15 * 60_000);
    const second = await forecast();
    expect(since).toEqual([null, "Wed, 01 Jul 2026 06:01:02 GMT"]);
    expect(second.fetchedMs - first.fetchedMs).toBeGreaterThan(60 * 60_000);
    expect(second.issuedMs).toBe(first.issuedMs);
    expect(second.hours).toEqual(first.hours);
  });

  test("203 is used and logged; coordinates and altitude go as it wants them", async () => {
    let asked = "";
    mock.use(
      http.get(PATH, ({ request }) => {
        asked = new URL(request.url).search;
        return HttpResponse.json(metFair("2026-07-01T06:00:00Z"), { status: 203 });
      }),
    );
    const network = steppedNetwork(NOW);
    await metNorway(network, BASE).forecast({ ...PLACE, elevationM: 171.6 }, network.nowMs() + 30_000);
    expect(asked).toBe("?lat=48.2&lon=16.4&altitude=172");
    expect(network.lines.join()).toMatch(/203.*deprecated/);
  });

  test.each([
    [403, "<html><body>Forbidden</body></html>", "refused", /SWATHCLOCK_USER_AGENT must name/, 1],
    [422, "Outside coverage", "outside-coverage", /422/, 1],
    [429, "", "rate-limited", /429/, 1],
    [400, "<h1>Too many decimals</h1>", "refused", /Too many decimals/, 1],
    [503, "", "unavailable", /503/, 3],
  ])("status %d", async (status, text, code, message, times) => {
    let asked = 0;
    mock.use(
      http.get(PATH, () => {
        asked += 1;
        return new HttpResponse(text, { status });
      }),
    );
    await expect(service().forecast()).rejects.toSatisfy(
      (error) => (error as UpstreamFailure).code === code && message.test((error as Error).message),
    );
    expect(asked).toBe(times);
  });
});
