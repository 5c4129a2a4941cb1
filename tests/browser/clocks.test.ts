import { type Browser, chromium, type Page } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { readSample } from "../support/samples.ts";
import { type RunningServer, startServer } from "../support/server.ts";

/** Weather over the two days a year on which the farm's clock is changed; the browser stands in a third zone. */

const ZONE = "America/Chicago";
const HOUR_MS = 3_600_000;

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

/** A dry spell put on other dates: its hours of UTC stay, so that day and night stay where they are. */
function spellFrom(firstUtc: string): string {
  const { hours } = readSample("settled-dry").series;
  const from = Date.parse(firstUtc);
  const lines = hours.startUtc.map((_, i) =>
    [
      new Date(from + i * HOUR_MS).toISOString().replace(".000Z", "Z"),
      hours.airTempC[i],
      hours.relHumidityPct[i],
      hours.windSpeedMps[i],
      // The spell is one of June; a weaker sun keeps it under a clear sky's in March and November.
      Math.round((hours.solarWm2?.[i] ?? 0) * 0.6),
      hours.rainMm?.[i],
    ].join(","),
  );
  return `startUtc,airTempC,relHumidityPct,windSpeedMps,solarWm2,rainMm\n${lines.join("\n")}\n`;
}

async function boardOf(text: string): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    timezoneId: "Australia/Lord_Howe",
    locale: "en-GB",
    reducedMotion: "reduce",
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  await page.goto(server.url);
  await page.locator(".answer h1").waitFor();
  for (const [label, value] of [
    ["Latitude", "12"],
    ["Longitude", "-92"],
    ["Elevation", "400"],
    ["Wind measured at", "10"],
    ["Time zone of the farm", ZONE],
  ] as const)
    await page.getByLabel(label).fill(value);
  await page
    .getByLabel("CSV file")
    .setInputFiles({ name: "spell.csv", mimeType: "text/csv", buffer: Buffer.from(text, "utf8") });
  await page.getByRole("button", { name: "Use this weather" }).click();
  await page.locator('.sample-picker option:text("Your file: spell.csv")').waitFor({ state: "attached" });
  await expect.poll(() => page.locator("main").getAttribute("aria-busy")).toBe("false");
  return page;
}

/** What a clock on the farm's wall shows, by the platform's own calendar and not by ours. */
function wallClock(utc: string): string {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone: ZONE,
    weekday: "long",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  }).formatToParts(new Date(utc));
  const of = (type: string) => parts.find((part) => part.type === type)?.value;
  return `${of("weekday")} ${of("hour")}:${of("minute")}`;
}

for (const [what, firstUtc, days, changeDay, dayBefore, dayHours] of [
  [
    "is set forward",
    "2026-03-05T06:00:00Z",
    ["Sat 7", "Sun 8", "Mon 9"],
    "Sunday 8 Mar",
    "Saturday 7 Mar",
    23,
  ],
  [
    "is set back",
    "2026-10-29T05:00:00Z",
    ["Sat 31", "Sun 1", "Mon 2"],
    "Sunday 1 Nov",
    "Saturday 31 Oct",
    25,
  ],
] as const) {
  test(`a board over the day on which the clock ${what}: every time is the farm's, and the day has ${dayHours} hours`, async () => {
    const page = await boardOf(spellFrom(firstUtc));
    const rows = await page.locator("[data-row]").evaluateAll((all) =>
      all.map((row) => ({
        id: row.getAttribute("data-row") ?? "",
        label: row.getAttribute("aria-label") ?? "",
      })),
    );
    expect(rows.length).toBeGreaterThan(5);
    const cuts = rows.flatMap(({ id, label }) => {
      const utc = /\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z/.exec(id)?.[0];
      return utc === undefined ? [] : [{ utc, label }];
    });
    expect(cuts.length).toBeGreaterThan(5);
    for (const { utc, label } of cuts) expect(label).toContain(`Cut ${wallClock(utc)}`);
    for (const { label } of cuts) expect(label).toMatch(/^Cut \w+day (09|13|17):00/);

    const columns = await page.locator(".board-picture svg").textContent();
    for (const day of days) expect(columns).toContain(day);
    const strips = await page.locator(".rain-button").evaluateAll((all) =>
      all.slice(1).map((one) => ({
        label: one.getAttribute("aria-label") ?? "",
        width: Number.parseFloat((one as HTMLElement).style.width),
      })),
    );
    const widthOf = (day: string) => strips.find(({ label }) => label.includes(day))?.width ?? Number.NaN;
    expect(widthOf(changeDay) / widthOf(dayBefore)).toBeCloseTo(dayHours / 24, 2);
    await page.context().close();
  });
}
