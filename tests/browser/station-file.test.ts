import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { csv, inventedRows, SITE, wallText } from "../support/invented-station.ts";
import { type RunningServer, startServer } from "../support/server.ts";

/** The file that a station wrote: what was understood is looked at and corrected before it is used, and remembered. */

let server: RunningServer;
let browser: Browser;

beforeAll(async () => {
  server = await startServer();
  browser = await chromium.launch({ executablePath: findChromium() ?? "chromium", args: CHROMIUM_FLAGS });
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const FILE = csv(
  "Time,Temp,Humidity (%),Wind (km/h),Solar Rad (W/m2),Rain (mm)",
  inventedRows("2026-06-10T05:00:00Z", 12).map((row) =>
    [
      wallText(row.utcMs, "daylight"),
      Math.round((row.tempC * 1.8 + 32) * 10) / 10,
      row.humidity,
      row.windMps * 3.6,
      row.solarWm2,
      row.rainMm,
    ].join(","),
  ),
);

test("a station's file: a question, the columns with their reasons, the first rows; used on the second press; the next one needs no question", async () => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    timezoneId: "Asia/Tokyo",
    locale: "en-GB",
    reducedMotion: "reduce",
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  const sent: string[] = [];
  page.on("request", (request) => {
    if (request.method() === "POST") sent.push(request.url());
  });
  await page.goto(server.url);
  await page.locator(".answer h1").waitFor();
  for (const [label, value] of [
    ["Latitude", String(SITE.latitude)],
    ["Longitude", String(SITE.longitude)],
    ["Elevation", "400"],
    ["Wind measured at", "2"],
    ["Time zone of the farm", SITE.timeZone],
  ] as const)
    await page.locator("#own").getByLabel(label).fill(value);
  const give = () =>
    page
      .getByLabel("CSV file")
      .setInputFiles({ name: "station.csv", mimeType: "text/csv", buffer: Buffer.from(FILE, "utf8") });
  const press = () => page.getByRole("button", { name: "Use this weather" }).click();
  await give();
  await press();
  const questions = page.locator(".questions");
  await questions.waitFor();
  expect(await questions.textContent()).toContain("In which unit is Temp?");
  const understood = page.locator(".understood");
  expect(await understood.textContent()).toMatch(/288 rows, 5 columns of weather/);
  await questions.getByLabel("°F", { exact: true }).check();
  await questions.waitFor({ state: "detached" });
  await page.getByText("Look at what was understood, then press the button once more.").waitFor();
  expect(await understood.locator("tr", { hasText: "Wind (km/h)" }).textContent()).toMatch(
    /by the header: its name and unit/,
  );
  expect(await understood.textContent()).toMatch(/clear days the radiation's middle stands/);
  expect(await understood.getByLabel("Unit of Temp").inputValue()).toBe("degF");
  const { violations } = await new AxeBuilder({ page }).include("#own").analyze();
  expect(violations.filter(({ impact }) => impact === "serious" || impact === "critical")).toEqual([]);
  await press();
  const bar = page.locator(".weather-bar");
  await expect.poll(() => bar.textContent()).toContain("Your file: station.csv");
  await expect.poll(() => page.locator("main").getAttribute("aria-busy")).toBe("false");
  expect(await page.locator("[data-row]").count()).toBeGreaterThan(3);

  // What was said of this header is remembered by the device.
  await give();
  await press();
  await page.getByText("Look at what was understood, then press the button once more.").waitFor();
  expect(await understood.getByLabel("Unit of Temp").inputValue()).toBe("degF");
  // And can be taken back: rain as a counter is another rain.
  await understood.getByLabel("What Rain (mm) is").selectOption("rainTotalMm");
  await expect
    .poll(() => understood.locator("tr", { hasText: "Rain (mm)" }).textContent())
    .toContain("by you");
  expect(sent).toEqual([]);
  await context.close();
});
