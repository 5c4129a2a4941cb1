import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium, type Page } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { csv, inventedRows } from "../support/invented-station.ts";
import { MOCKED_SERVICES } from "../support/mocked-services.ts";
import { type RunningServer, startServer } from "../support/server.ts";

/** A place is given and its forecast is there; where none can be had, the page says why and what to do. */

let server: RunningServer;
let browser: Browser;

beforeAll(async () => {
  server = await startServer(MOCKED_SERVICES);
  browser = await chromium.launch({ executablePath: findChromium() ?? "chromium", args: CHROMIUM_FLAGS });
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function opened(path = "", width = 1280): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width, height: 844 },
    timezoneId: "Asia/Tokyo",
    locale: "en-GB",
    reducedMotion: "reduce",
    serviceWorkers: "block",
    geolocation: { latitude: 44.3012, longitude: -98.2049 },
    permissions: ["geolocation"],
  });
  const page = await context.newPage();
  await page.goto(`${server.url}/${path}`);
  await page.locator(".answer h1").waitFor();
  return page;
}

test("the browser's place, one press, and the board is of today's forecast; the link carries the place", async () => {
  const page = await opened("", 390);
  await page.getByRole("button", { name: "Use my place" }).click();
  await page.getByRole("button", { name: "Find where I am" }).click();
  await page.getByText("Found, to about 1 km.").waitFor();
  await page.getByRole("button", { name: "Get the forecast" }).click();
  const bar = page.locator(".weather-bar");
  await expect.poll(() => bar.textContent()).toContain("44.30° N 98.20° W, Open-Meteo");
  await expect.poll(() => page.locator(".answer").textContent()).toContain("America/Chicago");
  const line = page.locator(".weather-line");
  expect(await line.textContent()).toMatch(/Forecast of Open-Meteo.*looked for/);
  expect(await line.getByRole("link", { name: "Weather data by Open-Meteo.com" }).getAttribute("href")).toBe(
    "https://open-meteo.com/",
  );
  // Ten dry days of the mock leave the ground dry: taken, said, and to be undone.
  expect(await page.locator(".levers").textContent()).toMatch(
    /The last 10 days say dry: 0\smm of rain against/,
  );
  await expect.poll(() => page.getByLabel("Dry", { exact: true }).isChecked()).toBe(true);
  expect(await page.getByRole("button", { name: /^Undo/ }).textContent()).toMatch(/ground/i);
  // Nothing that is past is offered: the first cut lies at or after now.
  const cuts = await page
    .locator("[data-row]")
    .evaluateAll((all) =>
      all.map(
        (row) => /\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z/.exec(row.getAttribute("data-row") ?? "")?.[0] ?? "",
      ),
    );
  expect(cuts.length).toBeGreaterThan(3);
  for (const cut of cuts) expect(Date.parse(cut)).toBeGreaterThan(Date.now() - 3_600_000);
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.filter(({ impact }) => impact === "serious" || impact === "critical")).toEqual([]);

  await expect.poll(() => new URL(page.url()).searchParams.get("weather")).toBe("forecast");
  const { search } = new URL(page.url());
  expect(search).toContain("latitude=44.3");
  const heading = await page.locator(".answer h1").textContent();
  const other = await opened(search);
  await expect.poll(() => other.locator(".weather-bar").textContent()).toContain("44.30° N 98.20° W");
  expect(await other.locator(".answer h1").textContent()).toBe(heading);
  await other.context().close();

  // The place is remembered by the device.
  await page.getByRole("button", { name: "Another place" }).click();
  expect(await page.locator(".saved-places button").textContent()).toContain("44.30° N 98.20° W");
  await page.context().close();
});

test("a station's past and the forecast become one weather, with the seam told", async () => {
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
  const page = await opened();
  for (const [label, value] of [
    ["Latitude", "44.3"],
    ["Longitude", "-98.2"],
    ["Elevation", "400"],
    ["Wind measured at", "2"],
    ["Time zone of the farm", "America/Chicago"],
  ] as const)
    await page.locator("#own").getByLabel(label).fill(value);
  await page
    .getByLabel("CSV file")
    .setInputFiles({ name: "past.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Use this weather" }).click();
  await page.getByRole("button", { name: "Add the forecast" }).click();
  await expect
    .poll(() => page.locator(".weather-bar").textContent())
    .toContain("past.csv, then the forecast for 44.30° N 98.20° W, Open-Meteo");
  await expect
    .poll(() => page.locator(".weather-line").textContent())
    .toMatch(/Your station, then the forecast of Open-Meteo/);
  await page.context().close();
});

test("no service answers: why, service by service, the old board stays, and three ways on", async () => {
  const page = await opened();
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
  await alert.getByRole("button", { name: "Pick a sample" }).click();
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("SELECT");
  await page.context().close();
});

test("a link to a place that cannot be had opens on the demonstration and says so", async () => {
  const page = await opened("?weather=forecast&latitude=-30&longitude=20");
  await expect
    .poll(() => page.locator("main").textContent())
    .toContain("The forecast of this link could not be had: the demo's weather is shown.");
  await page.context().close();
});
