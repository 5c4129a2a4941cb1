import { expect, test } from "vitest";
import { findWindows, type Saying, type WindowsRequest } from "../../../model/harvest/index.ts";
import { weatherTelling } from "../../../model/harvest/weather-telling.ts";
import { joinWeather } from "../../../model/weather/join.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import { peoplesWords } from "../../../web/format/people-words.ts";
import { sampleSeries } from "../../support/samples.ts";

const sample = sampleSeries("settled-dry");
const ZONE = sample.site.timeZone;
const US: Saying = { hour12: true, units: "us", decimalMark: ".", stepMin: 5 };
const METRIC: Saying = { hour12: false, units: "metric", decimalMark: ",", stepMin: 5 };

/** Odd in every way that is told: wind at 10 m, hot air, a gap at the start and one of rain at the end. */
function odd(): WeatherSeries {
  const { hours } = sample;
  return {
    ...sample,
    windHeightM: 10,
    hours: {
      ...hours,
      airTempC: hours.airTempC.map((c, i) => (i < 2 ? null : i === 40 ? 44 : c)),
      relHumidityPct: hours.relHumidityPct?.map((pct, i) => (i === 40 ? 8 : pct)),
      solarWm2: hours.solarWm2?.map((w, i) => (i === 40 ? 1300 : w)),
      rainMm: hours.rainMm.map((mm, i) => (i === 150 ? null : mm)),
    },
  };
}

/** What no screen may show: UTC, keys of columns, and a unit that was not chosen. */
const FOREIGN = /T\d\d:\d\d|Z\b|[a-z]+[A-Z][a-z]*C\b|Mps|Wm2|rainMm|Pct/;

test("sentences about the weather speak the reader's units and the farm's clock", () => {
  for (const saying of [US, METRIC]) {
    const prepared = prepareWeather(odd(), weatherTelling(saying, ZONE));
    if (!prepared.ok) throw new Error("no weather");
    const said = [...prepared.value.assumptions, ...prepared.value.warnings.map(({ text }) => text)].join(
      "\n",
    );
    expect(said).not.toMatch(FOREIGN);
    if (saying.units === "us") expect(said).not.toMatch(/\d (m|°C)\b/);
    expect(said).toMatch(
      saying.units === "us" ? /Wind at 33 ft was brought to 7 ft/ : /Wind at 10 m was brought to 2 m/,
    );
    expect(said).toMatch(
      saying.units === "us" ? /Air temperature reaches 111 °F, above 109 °F/ : /reaches 44 °C, above 43 °C/,
    );
    expect(said).toMatch(
      /The weather is used until \w+day \d+ \w{3} [^:]*(:\d\d)?( [ap]m)?: rain missing in the hour from \w+day/,
    );
  }
});

test("the API's own sentences stay as they are", () => {
  const prepared = prepareWeather(odd());
  if (!prepared.ok) throw new Error("no weather");
  const said = [...prepared.value.assumptions, ...prepared.value.warnings.map(({ text }) => text)].join("\n");
  expect(said).toMatch(/airTempC reaches 44 °C, above 43 °C/);
  expect(said).toMatch(
    /The weather is used until \d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ: rainMm missing in the hour from/,
  );
});

test("a board and a join pass the manner on", () => {
  const swath = {
    crop: "alfalfa",
    dryMatterTHa: 3,
    initialMoistureWb: 0.78,
    conditioning: "roll",
    coveredFraction: 0.7,
  };
  const request = {
    weather: odd(),
    swath: { ...swath, stubbleCm: 8, soil: "dry", dryingAgent: false },
    field: { areaHa: 4 },
    cutHours: [9],
  } as unknown as WindowsRequest;
  const board = findWindows(request, US);
  if (!board.ok) throw new Error(JSON.stringify(board.issues));
  expect([...board.value.assumptions, ...board.value.warnings].join("\n")).not.toMatch(FOREIGN);
  const later = { ...sample, windHeightM: 3, origin: "forecast" as const };
  const joined = joinWeather(sample, later, { telling: weatherTelling(US, ZONE) });
  if (!joined.ok) throw new Error(JSON.stringify(joined.issues));
  expect(joined.value.notes.join("\n")).not.toMatch(FOREIGN);
  expect(joined.value.notes.join("\n")).toMatch(/brought from 10 ft to the station's 33 ft/);
});

test("what the server says is read on the farm's clock, and a file's own column keeps its name", () => {
  const clock = { zone: ZONE, hour12: false };
  expect(peoplesWords("weather.hours.airTempC[3]: missing at 2026-07-01T15:00:00Z", clock)).toBe(
    "air temperature: missing at Wednesday 1 Jul 10:00",
  );
  expect(peoplesWords("column rainMm: got 3000", clock, "rainMm")).toBe("column rainMm: got 3000");
});
