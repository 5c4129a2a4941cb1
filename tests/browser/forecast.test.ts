import { expect } from "vitest";
import { csv, inventedRows } from "../support/invented-station.ts";
import {
  answerTold,
  cutsOnBoard,
  fillPlace,
  graveFaults,
  oddsTold,
  settled,
  test,
  useFile,
} from "../support/journey.ts";

/** A place is given and its forecast is there; where none can be had, the page says why and what to do. */

const HERE = { geolocation: { latitude: 44.3012, longitude: -98.2049 }, permissions: ["geolocation"] };
/** A service that fails is told by the page in words, and by the browser in its console. */
const SERVICES_FAIL = { complaints: /Failed to load resource.*50[0-9]/ };

test("the browser's place, one press, and the board is of today's forecast; the link carries the place", async ({
  open,
}) => {
  const page = await open("", { ...HERE, width: 390 });
  await page.getByRole("button", { name: "Use my place" }).click();
  await page.getByRole("button", { name: "Find where I am" }).click();
  await page.getByText("Found, to about 1 km.").waitFor();
  await page.getByRole("button", { name: "Get the forecast" }).click();
  const bar = page.locator(".weather-bar");
  await expect.poll(() => bar.textContent()).toContain("44.30° N 98.20° W, Open-Meteo");
  await expect.poll(() => answerTold(page)).toContain("America/Chicago");
  const line = page.locator(".weather-line");
  expect(await line.textContent()).toMatch(/Forecast of Open-Meteo.*looked for/);
  expect(await line.getByRole("link", { name: "Weather data by Open-Meteo.com" }).getAttribute("href")).toBe(
    "https://open-meteo.com/",
  );
  // Ten dry days of the mock leave the ground dry: taken, said, and to be undone.
  await expect
    .poll(() => page.locator(".levers").textContent())
    .toMatch(/The last 10 days say dry: 0\smm of rain against/);
  await expect.poll(() => page.getByLabel("Dry", { exact: true }).isChecked()).toBe(true);
  expect(await page.getByRole("button", { name: /^Undo/ }).textContent()).toMatch(/ground/i);
  // Nothing that is past is offered: the first cut lies at or after now.
  const cuts = await cutsOnBoard(page);
  expect(cuts.length).toBeGreaterThan(3);
  for (const cut of cuts) expect(Date.parse(cut)).toBeGreaterThan(Date.now() - 3_600_000);
  expect(await graveFaults(page)).toEqual([]);

  await expect.poll(() => new URL(page.url()).searchParams.get("weather")).toBe("forecast");
  const { search } = new URL(page.url());
  expect(search).toContain("latitude=44.3");
  await oddsTold(page);
  // The service's ensemble tells the chances, and the page says so.
  expect(await answerTold(page)).toContain("Chances from 21 members of the forecast");
  expect(await line.textContent()).toMatch(/21 members of ecmwf_ifs025_ensemble/);
  const heading = await page.locator(".answer h1").textContent();
  const other = await open(search);
  await expect.poll(() => other.locator(".weather-bar").textContent()).toContain("44.30° N 98.20° W");
  await oddsTold(other);
  expect(await other.locator(".answer h1").textContent()).toBe(heading);

  // The place is remembered by the device.
  await page.getByRole("button", { name: "Another place" }).click();
  expect(await page.locator(".saved-places button").textContent()).toContain("44.30° N 98.20° W");
});

test("a slow ensemble holds nothing up: the forecast alone is told first, and its members take its place", async ({
  open,
}) => {
  const page = await open("?weather=forecast&latitude=47.6&longitude=-98.2", { width: 390 });
  await page.locator(".weather-line", { hasText: "Forecast of Open-Meteo" }).waitFor();
  // The ground of the last days is taken with it: the board is asked for once more.
  await page.locator(".levers", { hasText: "The last 10 days say dry" }).waitFor();
  await settled(page);
  await oddsTold(page);
  expect(await answerTold(page)).toContain("One forecast, spread assumed");
  // The chances of the forecast alone stay on the page until the others are there.
  const changes = page.locator("main").evaluate(
    (main) =>
      new Promise<(string | null)[]>((resolve) => {
        const seen = [main.getAttribute("data-odds")];
        new MutationObserver(() => {
          seen.push(main.getAttribute("data-odds"));
          if (main.textContent?.includes("Chances from 21 members")) resolve(seen);
        }).observe(main, { attributes: true, childList: true, characterData: true, subtree: true });
      }),
  );
  await expect.poll(() => answerTold(page)).toContain("Chances from 21 members of the forecast");
  expect(new Set(await changes)).toEqual(new Set(["told"]));
  expect(await page.locator(".weather-line").textContent()).toContain("21 members of");
});

test("an ensemble that fails leaves the forecast, widened, and the page says why", async ({ open }) => {
  const page = await open("?weather=forecast&latitude=52.1&longitude=-98.2", { width: 390 });
  await oddsTold(page);
  expect(await page.locator(".weather-bar").textContent()).toContain("52.10° N 98.20° W, Open-Meteo");
  expect(await answerTold(page)).toContain("One forecast, spread assumed");
  expect(await page.locator(".weather-line").textContent()).toContain(
    "The ensemble of Open-Meteo does not cover this place. Chances come from the one forecast, widened by its usual errors.",
  );
});

test("a station's past and the forecast become one weather, with the seam told", async ({ open }) => {
  const now = Math.floor(Date.now() / 3_600_000) * 3_600_000;
  const rows = inventedRows(new Date(now - 12 * 24 * 3_600_000).toISOString(), 12);
  const text = csv(
    "startUtc,airTempC,relHumidityPct,windSpeedMps,solarWm2,rainMm",
    rows.map((row) =>
      [
        new Date(row.utcMs).toISOString().replace(".000Z", "Z"),
        row.tempC,
        row.humidity,
        row.windMps,
        row.solarWm2,
        row.rainMm,
      ].join(","),
    ),
  );
  const page = await open();
  await fillPlace(page, { windHeightM: "2" });
  await useFile(page, "past.csv", text);
  await page.getByRole("button", { name: "Add the forecast" }).click();
  await expect
    .poll(() => page.locator(".weather-bar").textContent())
    .toContain("past.csv, then the forecast for 44.30° N 98.20° W, Open-Meteo");
  await expect
    .poll(() => page.locator(".weather-line").textContent())
    .toMatch(/Your station, then the forecast of Open-Meteo/);
  await oddsTold(page);
  expect(await answerTold(page)).toContain("Chances from 21 members of the forecast");
});

test("no service answers: why, service by service, the old board stays, and three ways on", async ({
  open,
}) => {
  const page = await open("", SERVICES_FAIL);
  await oddsTold(page);
  const before = await page.locator(".answer h1").textContent();
  await page.getByRole("button", { name: "Use my place" }).click();
  await page.getByLabel("Latitude, ° north").fill("-30");
  await page.getByLabel("Longitude, ° east").fill("20");
  await page.getByRole("button", { name: "Get the forecast" }).click();
  const alert = page.locator(".forecast-trouble");
  await alert.waitFor();
  expect(await alert.textContent()).toMatch(
    /No weather service could give a forecast.*Open-Meteo.*MET Norway/s,
  );
  expect(await alert.textContent()).toContain("The board keeps the weather it had.");
  expect(await page.locator(".answer h1").textContent()).toBe(before);
  const tops = await alert
    .getByRole("button")
    .evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().top));
  expect(tops).toEqual([tops[0], tops[0], tops[0]]);
  await alert.getByRole("button", { name: "Pick a sample" }).click();
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("SELECT");
});

test("a link to a place that cannot be had opens on the demonstration and says so", async ({ open }) => {
  const page = await open("?weather=forecast&latitude=-30&longitude=20", SERVICES_FAIL);
  await expect
    .poll(() => page.locator("main").textContent())
    .toContain("The forecast of this link could not be had: the demo's weather is shown.");
});

test("the forecast of a kept cut lands in the book with all it was made from, and the record meets the reading", async ({
  open,
}) => {
  const page = await open("?weather=forecast&latitude=44.3&longitude=-98.2", { width: 390, allDraws: true });
  await oddsTold(page);
  const { origin } = new URL(page.url());
  const ask = async (path: string, init?: RequestInit) =>
    (await fetch(`${origin}/api/book/${path}`, init)).json();
  await page.getByText("The book: fields, cuts").click();
  const book = page.locator(".book");
  await book.getByRole("button", { name: "Keep this cut" }).click();
  await book.getByText("The chosen cut is kept as planned.").waitFor();
  const forecastsOf = async (cutId: string) => (await ask(`forecasts?cutId=${cutId}&whole=true`)).entries;
  await expect.poll(async () => (await ask("cuts")).entries.length).toBe(1);
  const [cut] = (await ask("cuts")).entries;
  await expect.poll(async () => (await forecastsOf(cut.id)).length).toBe(1);
  const [{ doc }] = await forecastsOf(cut.id);
  expect(doc.request.weather.hours.startUtc.length).toBeGreaterThan(100);
  expect(doc.request.swath.crop).toBe(cut.doc.crop);
  expect(doc.provider).toBe("open-meteo");
  expect(doc.request.weather.members).toBeUndefined();
  expect(doc.course.quantiles.p50.length).toBe(doc.course.startUtc.length);

  expect((await ask("record")).counts.moisture).toBe(0);
  const atUtc = new Date(Date.parse(cut.doc.plannedUtc) + 5 * 3_600_000).toISOString();
  const at = {
    revision: 1,
    createdUtc: atUtc,
    changedUtc: atUtc,
    deleted: false,
    createdHash: "0".repeat(64),
  };
  const reading = { cutId: cut.id, atUtc, method: "microwave", moistureWb: 0.6 };
  // In the band at the end of the window that was told of dry hay: that one came, and the reading meets the course too.
  const told = doc.chances.find(({ route }: { route: string }) => route === "dry-hay");
  expect(told).toMatchObject({ what: "window", cutUtc: cut.doc.plannedUtc });
  const dry = { ...reading, atUtc: told.toUtc, moistureWb: told.bandWb[1] };
  const readings = [
    { id: "met", ...at, doc: reading },
    { id: "dry", ...at, doc: dry },
  ];
  const document = { format: "swathclock-book", version: 1, exportedUtc: atUtc, entries: { readings } };
  expect(await ask("import", { method: "POST", body: JSON.stringify(document) })).toMatchObject({ added: 2 });
  expect((await ask("record")).counts).toEqual({ moisture: 2, chances: 1, days: 2 });
  await page.getByText("How right it was: the record").click();
  await page
    .getByText(
      "2 forecasts met a reading, and of 1 told window it is known whether it came: too few to say, 2",
    )
    .waitFor();

  await book.getByText("Forecasts, weather files, crew plans").click();
  const issued = book.getByRole("region", { name: "Forecasts issued" });
  expect(await issued.locator("li p").first().textContent()).toContain("kept cut");
  expect(await graveFaults(page, ".book")).toEqual([]);
  await issued
    .getByRole("button", { name: /^Remove/ })
    .first()
    .click();
  await issued.getByRole("button", { name: /^Yes, remove/ }).click();
  await expect.poll(async () => (await forecastsOf(cut.id)).length).toBe(0);
});
