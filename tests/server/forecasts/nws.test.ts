import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { localParts } from "../../../model/weather/clock.ts";
import type { UpstreamFailure } from "../../../server/forecasts/failure.ts";
import { nws, readNwsGrid } from "../../../server/forecasts/nws.ts";
import { readInterval } from "../../../server/forecasts/nws-layers.ts";
import { steppedNetwork } from "../../support/forecast-network.ts";
import { NWS_POINTS, nwsBody } from "./bodies.ts";

const NOW = "2026-07-01T06:10:00Z";
const BASE = "https://nws.invalid";
const PLACE = { latitude: 44.3, longitude: -98.2, elevationM: null, ensemble: false };
const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

const read = (layers: Parameters<typeof nwsBody>[2], days = 1) =>
  readNwsGrid(JSON.stringify(nwsBody("2026-07-01T06:00:00Z", days, layers)));
const at = (hour: number, duration: string) =>
  `2026-07-01T${String(hour).padStart(2, "0")}:00:00+00:00/${duration}`;

function service() {
  const network = steppedNetwork(NOW);
  const provider = nws(network, BASE);
  return { network, forecast: () => provider.forecast(PLACE, network.nowMs() + 38_000) };
}

const points = http.get(`${BASE}/points/44.3,-98.2`, () => HttpResponse.json(NWS_POINTS));
const GRID = `${BASE}/gridpoints/ABC/10,20`;

describe("intervals", () => {
  test.each([
    ["PT1H", 1],
    ["PT13H", 13],
    ["P1D", 24],
    ["P1DT6H", 30],
    ["P7DT14H", 182],
  ])("%s is %d h", (duration, hours) => {
    expect(readInterval(`2026-07-01T06:00:00+00:00/${duration}`).hours).toBe(hours);
  });

  test.each(["PT30M", "P1M", "", "nonsense", "-PT1H"])("%s is refused", (duration) => {
    expect(() => readInterval(`2026-07-01T06:00:00+00:00/${duration}`)).toThrow(/must be a whole hour/);
  });

  test("an offset is an offset, also in the night of a clock change", () => {
    expect(readInterval("2026-03-08T01:00:00-06:00/PT1H").startMs).toBe(Date.parse("2026-03-08T07:00:00Z"));
    expect(readInterval("2026-03-08T03:00:00-05:00/PT1H").startMs).toBe(Date.parse("2026-03-08T08:00:00Z"));
  });
});

describe("from layers to hours, against a table worked by hand", () => {
  test("a value holds from the start of its interval to its end; what no interval covers is null", () => {
    const { hours, elevationM } = read({
      temperature: {
        uom: "wmoUnit:degC",
        values: [
          { validTime: at(6, "PT3H"), value: 17 },
          { validTime: at(9, "PT1H"), value: null },
          { validTime: at(11, "PT2H"), value: 20 },
        ],
      },
    });
    expect(hours.airTempC.slice(0, 8)).toEqual([17, 17, 17, null, null, 20, 20, null]);
    expect(hours.windSpeedMps[0]).toBeCloseTo(5, 10);
    expect(hours.cloudPct?.[0]).toBe(40);
    expect(hours.solarWm2).toBeNull();
    expect(elevationM).toBe(271.9);
  });

  test("units by their name and never by the layer's", () => {
    const { hours } = read({
      temperature: { uom: "degF", values: [{ validTime: at(6, "P1D"), value: 68 }] },
      windSpeed: { uom: "unit:m_s-1", values: [{ validTime: at(6, "P1D"), value: 4 }] },
      quantitativePrecipitation: { uom: "wmoUnit:in", values: [{ validTime: at(6, "PT1H"), value: 0.1 }] },
    });
    expect(hours.airTempC[0]).toBeCloseTo(20, 10);
    expect(hours.windSpeedMps[0]).toBe(4);
    expect(hours.rainMm[0]).toBeCloseTo(2.54, 10);
    expect(() =>
      read({ windSpeed: { uom: "wmoUnit:furlong", values: [{ validTime: at(6, "P1D"), value: 4 }] } }),
    ).toThrow(/windSpeed: got the unit "wmoUnit:furlong"/);
  });

  test("rain of six hours is divided among them, and marked coarse where it is not zero", () => {
    const { hours, marks, notes } = read({
      quantitativePrecipitation: {
        uom: "wmoUnit:mm",
        values: [
          { validTime: at(6, "PT6H"), value: 3 },
          { validTime: at(12, "PT6H"), value: 0 },
        ],
      },
    });
    expect(hours.rainMm.slice(0, 13)).toEqual([...new Array(6).fill(0.5), ...new Array(6).fill(0), null]);
    expect(marks.rainMm?.slice(0, 7)).toEqual([...new Array(6).fill("coarse"), null]);
    expect(notes).toEqual([]);
  });

  test("a rainy interval longer than six hours is read the wetter way, marked and warned of; a dry one is not", () => {
    const wet = read({
      quantitativePrecipitation: { uom: "wmoUnit:mm", values: [{ validTime: at(6, "PT12H"), value: 3 }] },
    });
    // Two parts of six hours, each with the whole 3 mm.
    expect(wet.hours.rainMm.slice(0, 12)).toEqual(new Array(12).fill(0.5));
    expect(wet.marks.rainMm?.slice(0, 12)).toEqual(new Array(12).fill("coarse"));
    expect(wet.notes[0]).toMatchObject({ code: "merged-rain" });
    const dry = read({
      quantitativePrecipitation: { uom: "wmoUnit:mm", values: [{ validTime: at(6, "PT12H"), value: 0 }] },
    });
    expect(dry.hours.rainMm.slice(0, 12)).toEqual(new Array(12).fill(0));
    expect(dry.notes).toEqual([]);
  });

  test("one between two shorter ones is as long as they are", () => {
    const { hours, notes } = read({
      quantitativePrecipitation: {
        uom: "wmoUnit:mm",
        values: [
          { validTime: at(6, "PT1H"), value: 1 },
          { validTime: at(7, "PT3H"), value: 2 },
          { validTime: at(10, "PT1H"), value: 0.5 },
        ],
      },
    });
    expect(hours.rainMm.slice(0, 5)).toEqual([1, 2, 2, 2, 0.5]);
    expect(notes[0]?.text).toMatch(/wetter way/);
  });

  test("an hour's rain follows its own interval over a clock change and in a zone of half hours", () => {
    const night = readNwsGrid(
      JSON.stringify(
        nwsBody("2026-11-01T05:00:00Z", 1, {
          quantitativePrecipitation: {
            uom: "wmoUnit:mm",
            values: [
              { validTime: "2026-11-01T01:00:00-05:00/PT1H", value: 1 },
              { validTime: "2026-11-01T01:00:00-06:00/PT1H", value: 2 },
            ],
          },
        }),
      ),
    );
    // The clock shows 01:00 twice: 06:00 and 07:00 UTC.
    expect(night.hours.rainMm.slice(0, 4)).toEqual([null, 1, 2, null]);
    expect(localParts(night.startMs + 3_600_000, "America/Chicago").hour).toBe(1);
    expect(localParts(night.startMs + 2 * 3_600_000, "America/Chicago").hour).toBe(1);
    expect(localParts(night.startMs, "America/St_Johns").minute).toBe(30);
  });

  test("a grid that does not say when it was written is refused", () => {
    const body = nwsBody("2026-07-01T06:00:00Z", 7);
    const silent = { properties: { ...body.properties, updateTime: "yesterday" } };
    expect(() => readNwsGrid(JSON.stringify(silent))).toThrow(/updateTime: got "yesterday"/);
  });

  test("a chance of rain keeps its period of twelve hours", () => {
    const { hours } = read({});
    expect(hours.rainChancePct?.[0]).toBe(20);
    expect(hours.rainChancePeriodH?.[0]).toBe(12);
  });
});

describe("the way there", () => {
  test("point, then grid; a 500 is tried again after seconds", async () => {
    let grids = 0;
    mock.use(
      points,
      http.get(GRID, ({ request }) => {
        grids += 1;
        expect(request.headers.get("Accept")).toBe("application/geo+json");
        if (grids === 1)
          return HttpResponse.json(
            {
              type: "about:blank",
              title: "Unexpected Problem",
              status: 500,
              detail: "An unexpected problem has occurred.",
            },
            { status: 500, headers: { "Content-Type": "application/problem+json" } },
          );
        return HttpResponse.json(nwsBody("2026-07-01T06:00:00Z", 7));
      }),
    );
    const { forecast } = service();
    const answer = await forecast();
    expect(grids).toBe(2);
    expect(answer).toMatchObject({ provider: "nws", model: "ABC/10,20", elevationM: 271.9 });
    expect(answer.hours.airTempC).toHaveLength(168);
  });

  test("Cache-Control is kept to, then asked with If-Modified-Since; a 304 keeps the grid", async () => {
    const since: (string | null)[] = [];
    mock.use(
      points,
      http.get(GRID, ({ request }) => {
        since.push(request.headers.get("If-Modified-Since"));
        const headers = {
          "Cache-Control": "public, max-age=900",
          "Last-Modified": "Wed, 01 Jul 2026 05:48:11 GMT",
        };
        return since.length > 1
          ? new HttpResponse(null, { status: 304, headers })
          : HttpResponse.json(nwsBody("2026-07-01T06:00:00Z", 7), { headers });
      }),
    );
    const { forecast, network } = service();
    const first = await forecast();
    network.skip(14 * 60_000);
    await forecast();
    network.skip(2 * 60_000);
    const second = await forecast();
    expect(since).toEqual([null, "Wed, 01 Jul 2026 05:48:11 GMT"]);
    expect(second.hours).toEqual(first.hours);
    expect(second.fetchedMs).toBeGreaterThan(first.fetchedMs);
  });

  test("an expired grid of an office that is late is not waited out", async () => {
    let grids = 0;
    mock.use(
      points,
      http.get(GRID, () => {
        grids += 1;
        return HttpResponse.json(
          { title: "Forecast Grid Expired", status: 503, detail: "The office is late." },
          { status: 503 },
        );
      }),
    );
    await expect(service().forecast()).rejects.toSatisfy((error) =>
      /Forecast Grid Expired/.test((error as UpstreamFailure).message),
    );
    expect(grids).toBe(1);
  });

  test("a place outside, and a cell that is gone: the point is looked up anew", async () => {
    mock.use(
      http.get(`${BASE}/points/44.3,-98.2`, () =>
        HttpResponse.json({ title: "Data Unavailable For Requested Point" }, { status: 404 }),
      ),
    );
    await expect(service().forecast()).rejects.toMatchObject({ code: "outside-coverage" });
    let asked = 0;
    let gone = true;
    mock.use(
      http.get(`${BASE}/points/44.3,-98.2`, () => {
        asked += 1;
        return HttpResponse.json(NWS_POINTS);
      }),
      http.get(GRID, () =>
        gone
          ? HttpResponse.json({ title: "Not Found" }, { status: 404 })
          : HttpResponse.json(nwsBody("2026-07-01T06:00:00Z", 7)),
      ),
    );
    const { forecast } = service();
    await expect(forecast()).rejects.toMatchObject({ code: "outside-coverage" });
    gone = false;
    await forecast();
    expect(asked).toBe(2);
  });
});
