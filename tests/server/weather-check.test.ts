import { expect, test } from "vitest";
import { errorSchema } from "../../server/schemas/error.ts";
import { weatherCheckAnswer } from "../../server/schemas/weather-check.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post } from "../support/app.ts";
import { exampleDrydown } from "../support/requests.ts";

const app = fakeApp({ model: theModel });
const PLACE = "latitude=44.3&longitude=-98.2&elevationM=400&windHeightM=2";

async function checkCsv(text: string, timeZone = "America/Chicago") {
  const path = `/api/weather/check?${PLACE}&timeZone=${timeZone}`;
  const response = await post(app, path, text, { "content-type": "text/csv" });
  expect(response.status).toBe(200);
  return weatherCheckAnswer.parse(await response.json());
}

test("the template that the API gives is a file that the API takes, and a course runs on it", async () => {
  const template = await (await app.request("/api/template.csv")).text();
  const { series, problems, counts } = await checkCsv(template);
  expect(problems.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(counts.hours).toBe(series?.hours.startUtc.length);
  const request = {
    ...exampleDrydown(),
    weather: series,
    cutUtc: series?.hours.startUtc[3],
    operations: [],
    readings: [],
  };
  const response = await post(app, "/api/drydown", request);
  expect([response.status, await response.json()]).toMatchObject([200, { areaBasis: "covered-m2" }]);
});

test("an empty file and a fault in a row are problems, and there is no series", async () => {
  const empty = await checkCsv("");
  expect(empty.series).toBeNull();
  expect(empty.problems.length).toBeGreaterThan(0);
  const template = theModel.template;
  const hot = await checkCsv(template.replace(",15.9,", ",95,"));
  expect(hot.series).toBeNull();
  expect(hot.problems[0]).toMatchObject({ row: 2, column: "airTempC", value: "95", code: "out-of-range" });
});

test("an unknown zone is refused like any other fault of the place", async () => {
  const path = `/api/weather/check?${PLACE}&timeZone=Mars/Olympus`;
  const response = await post(app, path, theModel.template, { "content-type": "text/csv" });
  expect(response.status).toBe(400);
  const { issues } = errorSchema.parse(await response.json());
  expect(issues).toMatchObject([{ path: "timeZone", code: "unknown-time-zone" }]);
  expect(issues[0]?.message).toContain("Mars/Olympus");
});

test("a course takes weather without a rain column, and says that it is assumed dry", async () => {
  const request = exampleDrydown();
  const { rainMm: _rainMm, ...hours } = request.weather.hours;
  const response = await post(app, "/api/drydown", { ...request, weather: { ...request.weather, hours } });
  expect(response.status).toBe(200);
  expect(await response.text()).toContain("assumed dry");
});

test("a cool file in °F is asked about, air and dew point in turn, and read once both are answered", async () => {
  const hours = Array.from({ length: 48 }, (_, i) => {
    const label = new Date(Date.UTC(2026, 3, 1, i)).toISOString();
    return `${label},${(44 + 6 * Math.sin(i / 4)).toFixed(1)},25.2,2,40,0`;
  });
  const text = ["startUtc,airTempC,dewPointC,windSpeedMps,cloudPct,rainMm", ...hours].join("\n");
  expect((await checkCsv(text)).questions).toMatchObject([{ id: "airTempC" }]);
  expect((await checkCsv(text, "America/Chicago&airTempC=degF")).questions).toMatchObject([
    { id: "dewPointC" },
  ]);
  const { series, questions } = await checkCsv(text, "America/Chicago&airTempC=degF&dewPointC=degF");
  expect(questions).toEqual([]);
  expect(series?.hours.dewPointC?.[0]).toBeCloseTo(-3.78, 2);
});

test("a zone far from the longitude is a warning under its own code", async () => {
  const { series, problems } = await checkCsv(theModel.template, "Europe/Vienna");
  expect(series).not.toBeNull();
  expect(problems).toMatchObject([{ code: "zone-far-from-longitude", severity: "warning" }]);
});

test("an answer beside the file closes the question it asked", async () => {
  const text = theModel.template.replace("rainMm", "rain_mm");
  const asked = await checkCsv(text);
  expect(asked.series).toBeNull();
  expect(asked.questions).toMatchObject([{ id: "rainMm", choices: ["rain_mm", "none"] }]);
  const answered = await checkCsv(text, "America/Chicago&rainMm=rain_mm");
  expect(answered.questions).toEqual([]);
  expect(answered.series).not.toBeNull();
});
