import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { localParts } from "../../../model/weather/clock.ts";
import { UpstreamFailure } from "../../../server/forecasts/failure.ts";
import { openMeteo } from "../../../server/forecasts/open-meteo.ts";
import { hoursOfTrajectory, keyParts, readOpenMeteo } from "../../../server/forecasts/open-meteo-columns.ts";
import { steppedNetwork } from "../../support/forecast-network.ts";
import { column, openMeteoBody } from "./bodies.ts";

const NOW = "2026-07-01T12:00:00Z";
const BASE = "https://open-meteo.invalid";
const ENSEMBLE = "https://ensemble.invalid";
const ARCHIVE = "https://archive.invalid";
const PLACE = { latitude: 46.8, longitude: -96.9, elevationM: null };
const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

function service(models = ["ecmwf_ifs025_ensemble"], key: string | null = null) {
  const network = steppedNetwork(NOW);
  const provider = openMeteo(network, {
    forecastUrl: BASE,
    ensembleUrl: ENSEMBLE,
    archiveUrl: ARCHIVE,
    key,
    ensembleModels: models,
  });
  const forecast = (ensemble = false) => provider.forecast({ ...PLACE, ensemble }, network.nowMs() + 30_000);
  return { network, provider, forecast };
}

async function failureOf(work: Promise<unknown>): Promise<UpstreamFailure> {
  try {
    await work;
  } catch (error) {
    if (error instanceof UpstreamFailure) return error;
    throw error;
  }
  throw new Error("no failure");
}

const hoursOf = (body: object) => {
  const read = readOpenMeteo(JSON.stringify(body), []);
  return { read, hours: hoursOfTrajectory(read.trajectories[0]?.columns ?? {}) };
};

describe("from labels to hours, against a table worked by hand", () => {
  // Labels 00, 01, 02, 03 UTC. Instants are averaged; radiation and rain at a label are of the hour before it.
  const body = openMeteoBody({
    startUtc: "2026-07-01T00:00:00Z",
    labels: 4,
    columns: {
      temperature_2m: [10, 12, 16, 20],
      wind_speed_10m: [2, 4, 4, 6],
      cloud_cover: [0, 50, 100, 100],
      shortwave_radiation: [99, 120, 240, 360],
      precipitation: [7, 0, 0.4, 1.6],
      precipitation_probability: [90, 10, 20, 30],
      surface_pressure: [960, 962, 964, 966],
    },
  });

  test("hour by hour", () => {
    const { read, hours } = hoursOf(body);
    expect(read.startMs).toBe(Date.parse("2026-07-01T00:00:00Z"));
    expect(hours.airTempC).toEqual([11, 14, 18]);
    expect(hours.windSpeedMps).toEqual([3, 4, 5]);
    expect(hours.cloudPct).toEqual([25, 75, 100]);
    expect(hours.solarWm2).toEqual([120, 240, 360]);
    expect(hours.rainMm).toEqual([0, 0.4, 1.6]);
    expect(hours.rainChancePct).toEqual([10, 20, 30]);
    expect(hours.rainChancePeriodH).toEqual([1, 1, 1]);
    expect(hours.pressureHpa).toEqual([961, 963, 965]);
  });

  test("humidity goes through vapour pressure: two instants of 100 % at 10 and 20 degC are not 100 % at 15", () => {
    const { hours } = hoursOf(
      openMeteoBody({
        startUtc: "2026-07-01T00:00:00Z",
        labels: 2,
        columns: { temperature_2m: [10, 20], relative_humidity_2m: [50, 50], dew_point_2m: [] },
      }),
    );
    // FAO-56 eq. 11: 1.2280 and 2.3383 kPa saturated, half of each 0.8916 on the mean; 1.7053 at 15 degC.
    expect(hours.relHumidityPct[0]).toBeCloseTo((100 * (1.228 + 2.3383)) / 4 / 1.7053, 1);
    // The dew point is that of the same vapour.
    expect(hours.dewPointC?.[0]).toBeCloseTo(5.2, 0);
  });

  test("a null at either end makes its hour null, never 0; a tail of nulls stays", () => {
    const { hours } = hoursOf(
      openMeteoBody({
        startUtc: "2026-07-01T00:00:00Z",
        labels: 5,
        columns: {
          temperature_2m: [10, null, 12, 14, null],
          precipitation: [0, 1, null, 2, null],
          shortwave_radiation: [0, null, 5, 6, null],
        },
      }),
    );
    expect(hours.airTempC).toEqual([null, null, 13, null]);
    expect(hours.rainMm).toEqual([1, null, 2, null]);
    expect(hours.solarWm2).toEqual([null, 5, 6, null]);
  });

  test("over the night on which Vienna's clock goes forward every hour is there once, and noon stays noon", () => {
    const labels = 48;
    const noonUtc = 11;
    const read = hoursOf(
      openMeteoBody({
        startUtc: "2026-03-28T12:00:00Z",
        labels,
        columns: { shortwave_radiation: column(labels, (i) => ((12 + i) % 24 === noonUtc ? 700 : 0)) },
      }),
    );
    const peaks = read.hours.solarWm2?.flatMap((value, i) => (value === 700 ? [i] : [])) ?? [];
    // The label 11:00 UTC is the hour from 10:00 UTC: 12:00 by summer time, on both days after the change.
    expect(peaks).toEqual([22, 46]);
    for (const i of peaks) {
      const at = read.read.startMs + i * 3_600_000;
      expect(localParts(at, "Europe/Vienna").hour).toBe(12);
    }
  });

  test("in a zone of half hours the hours stay those of UTC", () => {
    const { read, hours } = hoursOf(body);
    expect(localParts(read.startMs, "Asia/Kolkata")).toMatchObject({ hour: 5, minute: 30 });
    expect(hours.airTempC).toHaveLength(3);
  });
});

describe("what is refused", () => {
  test.each([
    [
      "a surprise unit",
      openMeteoBody({ startUtc: NOW, labels: 3, units: { wind_speed_10m: "km/h" } }),
      "surprise-unit",
      /wind_speed_10m: got the unit "km\/h", must be "m\/s"/,
    ],
    [
      "local times",
      openMeteoBody({ startUtc: NOW, labels: 3, units: { time: "iso8601" } }),
      "surprise-unit",
      /time/,
    ],
    [
      "columns of other lengths",
      openMeteoBody({ startUtc: NOW, labels: 3, columns: { precipitation: [0] } }),
      "unreadable",
      /precipitation: got 1 values, must have one for each of 3/,
    ],
    [
      "an impossible value",
      openMeteoBody({ startUtc: NOW, labels: 3, columns: { temperature_2m: [12, 85, 12] } }),
      "implausible",
      /temperature_2m: got 85/,
    ],
    [
      "several places",
      [openMeteoBody({ startUtc: NOW, labels: 3 }), { location_id: 1 }],
      "unreadable",
      /shape/,
    ],
  ] as const)("%s", (_what, body, code, message) => {
    try {
      readOpenMeteo(JSON.stringify(body), []);
      expect.unreachable();
    } catch (error) {
      expect((error as UpstreamFailure).code).toBe(code);
      expect((error as Error).message).toMatch(message);
    }
  });

  test("a body of status 200 that breaks off is asked for again, and is an error if it stays so", async () => {
    const whole = JSON.stringify(openMeteoBody({ startUtc: NOW, labels: 48 }));
    let asked = 0;
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => {
        asked += 1;
        return new HttpResponse(asked < 3 ? `${whole.slice(0, 900)}\nInternal error` : whole);
      }),
    );
    const { forecast } = service();
    await expect(forecast()).resolves.toMatchObject({ provider: "open-meteo" });
    expect(asked).toBe(3);
  });
});

describe("the question", () => {
  test("UTC, unix time, metres per second, ten past days; the key and the corrected elevation go along", async () => {
    let query = new URLSearchParams();
    let agent: string | null = null;
    mock.use(
      http.get(`${BASE}/v1/forecast`, ({ request }) => {
        query = new URL(request.url).searchParams;
        agent = request.headers.get("User-Agent");
        return HttpResponse.json(openMeteoBody({ startUtc: NOW, labels: 48 }));
      }),
    );
    const { provider, network } = service(["ecmwf_ifs025_ensemble"], "k-123");
    const answer = await provider.forecast(
      { ...PLACE, elevationM: 300, ensemble: false },
      network.nowMs() + 30_000,
    );
    expect(Object.fromEntries(query)).toMatchObject({
      latitude: "46.8",
      longitude: "-96.9",
      timezone: "GMT",
      timeformat: "unixtime",
      wind_speed_unit: "ms",
      temperature_unit: "celsius",
      precipitation_unit: "mm",
      past_days: "10",
      elevation: "300",
      apikey: "k-123",
    });
    expect(agent).toMatch(/^swathclock/);
    expect(answer).toMatchObject({ elevationM: 271, model: "best_match", issuedMs: null });
    expect(answer.attribution[0]).toEqual({
      text: "Weather data by Open-Meteo.com",
      url: "https://open-meteo.com/",
    });
  });

  test("is asked once while it is under way, and not again for half an hour", async () => {
    let asked = 0;
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => {
        asked += 1;
        return HttpResponse.json(openMeteoBody({ startUtc: NOW, labels: 48 }));
      }),
    );
    const { forecast, network } = service();
    await Promise.all([forecast(), forecast(), forecast()]);
    await forecast();
    expect(asked).toBe(1);
    network.skip(31 * 60_000);
    await forecast();
    expect(asked).toBe(2);
  });
});

describe("errors in its own words", () => {
  const limited = (reason: string) =>
    http.get(`${BASE}/v1/forecast`, () => HttpResponse.json({ error: true, reason }, { status: 429 }));

  test.each([
    ["Minutely API request limit exceeded. Please try again in one minute.", 50_000, 61_000],
    ["Hourly API request limit exceeded. Please try again in the next hour.", 30 * 60_000, 61 * 60_000],
    ["Daily API request limit exceeded. Please try again tomorrow.", 11 * 3_600_000, 13 * 3_600_000],
  ])("%s: not waited out, and the service is left alone", async (reason, least, most) => {
    let asked = 0;
    mock.use(limited(reason));
    mock.events.on("request:start", () => {
      asked += 1;
    });
    const { forecast, network } = service();
    const before = network.nowMs();
    const failure = await failureOf(forecast());
    expect(failure).toMatchObject({ code: "rate-limited" });
    expect(network.nowMs() - before).toBeLessThan(10_000);
    expect(failure.pauseMs).toBeGreaterThan(least);
    expect(failure.pauseMs).toBeLessThan(most);
    expect((await failureOf(forecast())).message).toMatch(/left alone for another \d+ s/);
    expect(asked).toBe(1);
    mock.events.removeAllListeners();
  });

  test("too many at once is tried again", async () => {
    let asked = 0;
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => {
        asked += 1;
        if (asked === 1)
          return HttpResponse.json({ error: true, reason: "Too many concurrent requests" }, { status: 429 });
        return HttpResponse.json(openMeteoBody({ startUtc: NOW, labels: 48 }));
      }),
    );
    await service().forecast();
    expect(asked).toBe(2);
  });

  test("a 400 is never asked again; no data here is a place outside", async () => {
    let asked = 0;
    let reason = "Parameter 'hourly' is wrong";
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => {
        asked += 1;
        return HttpResponse.json({ error: true, reason }, { status: 400 });
      }),
    );
    expect(await failureOf(service().forecast())).toMatchObject({ code: "refused" });
    expect(asked).toBe(1);
    reason = "No data is available for this location";
    expect(await failureOf(service().forecast())).toMatchObject({ code: "outside-coverage" });
  });

  test("a gateway's page of markup is told by its title, after three tries", async () => {
    let asked = 0;
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => {
        asked += 1;
        return new HttpResponse("<html><head><title>502 Bad Gateway</title></head><body>x</body></html>", {
          status: 502,
        });
      }),
    );
    const failure = await failureOf(service().forecast());
    expect(failure).toMatchObject({ code: "unavailable", message: "answered 502: 502 Bad Gateway" });
    expect(asked).toBe(3);
  });
});

describe("ensembles", () => {
  test("keys: the longest model's name first, then the member; a control has neither", () => {
    const models = ["icon_global_eps", "ncep_gefs025", "gefs025"];
    expect(keyParts("temperature_2m_member07_ncep_gefs025", models)).toEqual({
      variable: "temperature_2m",
      member: 7,
      model: "ncep_gefs025",
    });
    expect(keyParts("temperature_2m_icon_global_eps", models)).toMatchObject({
      member: 0,
      model: "icon_global_eps",
    });
    expect(keyParts("temperature_2m", ["ncep_gefs025"])).toMatchObject({ member: 0, model: "ncep_gefs025" });
    expect(keyParts("et0_fao_evapotranspiration", models)).toBeNull();
    // Nobody's, where several models were asked.
    expect(keyParts("temperature_2m", models)).toBeNull();
  });

  test("members in the order asked, each model's control first; what a member lacks is left out; the past is shared", async () => {
    const models = ["ncep_gefs025", "ecmwf_ifs025_ensemble"];
    const labels = 30;
    const keys: Record<string, (number | null)[]> = {};
    for (const name of [
      "temperature_2m",
      "relative_humidity_2m",
      "dew_point_2m",
      "wind_speed_10m",
      "shortwave_radiation",
      "precipitation",
      "precipitation_probability",
      "cloud_cover",
      "surface_pressure",
    ])
      keys[name] = [];
    const put = (suffix: string, tempC: number) => {
      keys[`temperature_2m${suffix}`] = column(labels, () => tempC);
      keys[`precipitation${suffix}`] = column(labels, () => tempC / 10);
    };
    put("_member01_ecmwf_ifs025_ensemble", 21);
    put("_ecmwf_ifs025_ensemble", 20);
    put("_member02_ncep_gefs025", 12);
    put("_member01_ncep_gefs025", 11);
    put("_ncep_gefs025", 10);
    mock.use(
      http.get(`${BASE}/v1/forecast`, () =>
        HttpResponse.json(openMeteoBody({ startUtc: "2026-06-30T00:00:00Z", labels: 60 })),
      ),
      http.get(`${ENSEMBLE}/v1/ensemble`, () =>
        HttpResponse.json(openMeteoBody({ startUtc: "2026-07-01T00:00:00Z", labels, columns: keys })),
      ),
    );
    const answer = await service(models).forecast(true);
    expect(answer.members.map(({ model }) => model)).toEqual([
      "ncep_gefs025",
      "ncep_gefs025",
      "ncep_gefs025",
      "ecmwf_ifs025_ensemble",
      "ecmwf_ifs025_ensemble",
    ]);
    // Hour 24 of the shared hours is the ensemble's first.
    expect(answer.members.map(({ airTempC }) => airTempC?.[24])).toEqual([10, 11, 12, 20, 21]);
    const [first] = answer.members;
    expect(first?.airTempC?.[3]).toBe(answer.hours.airTempC[3]);
    expect(first?.airTempC).toHaveLength(59);
    expect(first?.airTempC?.[58]).toBeNull();
    expect(first?.windSpeedMps).toBeUndefined();
    expect(answer.notes.map(({ code }) => code)).toEqual(["ensemble", "ensemble"]);
  });

  test("an ensemble that cannot be had leaves the forecast, and says so", async () => {
    mock.use(
      http.get(`${BASE}/v1/forecast`, () => HttpResponse.json(openMeteoBody({ startUtc: NOW, labels: 48 }))),
      http.get(`${ENSEMBLE}/v1/ensemble`, () => new HttpResponse("no", { status: 403 })),
    );
    const answer = await service().forecast(true);
    expect(answer.members).toEqual([]);
    expect(answer.notes).toEqual([
      {
        code: "ensemble-missing",
        text: "The ensemble of Open-Meteo refused the question. Chances come from the one forecast, widened by its usual errors.",
      },
    ]);
  });
});

test("an ensemble that never answers does not take the forecast down with it", async () => {
  const { network, provider } = service();
  mock.use(
    http.get(`${BASE}/v1/forecast`, () => HttpResponse.json(openMeteoBody({ startUtc: NOW, labels: 48 }))),
    http.get(`${ENSEMBLE}/v1/ensemble`, () => network.never()),
  );
  const before = network.nowMs();
  // What one of four services has of the 38 s.
  const answer = await provider.forecast({ ...PLACE, ensemble: true }, before + 9500);
  expect(answer.notes[0]).toMatchObject({ code: "ensemble-missing" });
  expect(network.nowMs() - before).toBeLessThanOrEqual(9500);
});

test("the archive is asked by whole UTC days and kept for good once it is settled", async () => {
  let asked = 0;
  mock.use(
    http.get(`${ARCHIVE}/v1/archive`, ({ request }) => {
      asked += 1;
      const query = new URL(request.url).searchParams;
      expect(query.get("start_date")).toBe("2024-05-01");
      expect(query.get("end_date")).toBe("2024-05-02");
      return HttpResponse.json(openMeteoBody({ startUtc: "2024-05-01T00:00:00Z", labels: 48 }));
    }),
  );
  const { provider, network } = service();
  const ask = () =>
    provider.archive({ ...PLACE, fromDay: "2024-05-01", toDay: "2024-05-02" }, network.nowMs() + 30_000);
  await ask();
  network.skip(400 * 86_400_000);
  await ask();
  expect(asked).toBe(1);
});
