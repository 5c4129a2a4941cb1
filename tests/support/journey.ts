import { AxeBuilder } from "@axe-core/playwright";
import { type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright";
import { test as base, expect, inject } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "./chromium.mjs";

/**
 * What every journey begins with: `test("...", async ({ open }) => { const page = await open(); ... })`. The server and
 * the browser are there already; each page has a browser context of its own, which is closed after the test.
 */

export interface Opening extends BrowserContextOptions {
  /** Width of the window, px; 1280 where not given. */
  readonly width?: number;
  /** The chances from as many draws as on any device, not from the few that are enough for most journeys. */
  readonly allDraws?: boolean;
  /** What the browser's console may complain of, because the journey brings it about. */
  readonly complaints?: RegExp;
}

/** Opens a path of the served page, waits for its answer, and gives the page. */
export type Open = (path?: string, opening?: Opening) => Promise<Page>;

/** What Chromium says of a page that is in order: our blocking of the service worker, and a slow machine's late fonts. */
const NO_FAULT = /Service Worker registration blocked|was preloaded using link preload but not used/;

/** The farm's zone is never the browser's; a service worker is there only where it is asked for. */
const USUAL: BrowserContextOptions = {
  timezoneId: "Asia/Tokyo",
  locale: "en-GB",
  reducedMotion: "reduce",
  serviceWorkers: "block",
};

/** Run in the page: a device that was set to few draws. Half of all that journeys compute are chances. */
function takeFewDraws(): void {
  const key = "swathclock.preferences";
  const kept = JSON.parse(localStorage.getItem(key) ?? "{}");
  localStorage.setItem(key, JSON.stringify({ draws: 12, ...kept }));
}

export const test = base
  .extend("chromiumPath", { scope: "worker" }, () => findChromium() ?? "chromium")
  .extend("browser", { scope: "worker" }, async ({ chromiumPath }, { onCleanup }) => {
    const browser = await chromium.launch({ executablePath: chromiumPath, args: CHROMIUM_FLAGS });
    onCleanup(() => browser.close());
    return browser;
  })
  .extend("open", async ({ browser }, { onCleanup }): Promise<Open> => {
    const contexts: BrowserContext[] = [];
    const complaints: string[] = [];
    onCleanup(async () => {
      // What a page complains of while it goes away is no matter.
      const found = [...complaints];
      await Promise.all(contexts.map((context) => context.close()));
      expect(found, "the browser's console").toEqual([]);
    });
    return async (path = "", { width = 1280, complaints: expected, allDraws = false, ...options } = {}) => {
      const context = await browser.newContext({ viewport: { width, height: 900 }, ...USUAL, ...options });
      contexts.push(context);
      if (!allDraws) await context.addInitScript(takeFewDraws);
      const page = await context.newPage();
      // A slow or busy machine is no fault of the page.
      page.setDefaultTimeout(60_000);
      const complain = (text: string) => {
        if (!NO_FAULT.test(text) && !expected?.test(text)) complaints.push(text);
      };
      page.on("console", (message) => {
        if (message.type() === "error" || message.type() === "warning") complain(message.text());
      });
      page.on("pageerror", (error) => complain(error.message));
      await page.goto(`${inject("serverUrl")}/${path}`);
      await page.locator(".answer h1").waitFor();
      return page;
    };
  });

/** Until the board on the page is the one of what stands in its fields. */
export async function settled(page: Page): Promise<void> {
  await expect.poll(() => page.locator("main").getAttribute("aria-busy")).toBe("false");
}

/**
 * Until the board on the page has its chances: they come once it has rested, and may put another cut first, whose course
 * is then drawn.
 */
export async function oddsTold(page: Page): Promise<void> {
  await page.locator('main[data-odds="told"]:not(:has(.course-coming))').waitFor();
}

/** All that the page tells as its answer: the head, and what stands of it under the board. */
export async function answerTold(page: Page): Promise<string> {
  return (await page.locator(".answer, .answer-more").allTextContents()).join(" ");
}

export interface PlaceOfFile {
  readonly latitude: string;
  readonly longitude: string;
  readonly windHeightM: string;
}

/** Says where a file of weather was measured. */
export async function fillPlace(page: Page, place: Partial<PlaceOfFile> = {}): Promise<void> {
  const own = page.locator("#own");
  for (const [label, value] of [
    ["Latitude", place.latitude ?? "44.3"],
    ["Longitude", place.longitude ?? "-98.2"],
    ["Elevation", "400"],
    ["Wind measured at", place.windHeightM ?? "10"],
    ["Time zone of the farm", "America/Chicago"],
  ] as const)
    await own.getByLabel(label).fill(value);
}

/** Chooses a file of weather, which is read at once where its place is known. */
export async function chooseFile(page: Page, name: string, text: string): Promise<void> {
  await page
    .getByLabel("CSV file")
    .setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text, "utf8") });
}

/** Chooses a file of weather and uses it once it is read. */
export async function useFile(page: Page, name: string, text: string): Promise<void> {
  await chooseFile(page, name, text);
  await page.getByRole("button", { name: "Use this weather" }).click();
}

/** The serious faults of accessibility in the page, or in a part of it, each with where it stands. */
export async function graveFaults(page: Page, part?: string): Promise<string[]> {
  // There are no frames to look into, and what is in order need not be told.
  const builder = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ["violations"] });
  if (part !== undefined) builder.include(part);
  const { violations } = await builder.analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`);
}

/** The hours of the cuts on the board, UTC, as its rows name them. */
export async function cutsOnBoard(page: Page): Promise<string[]> {
  const names = await page
    .locator("[data-row]")
    .evaluateAll((rows) => rows.map((row) => row.getAttribute("data-row") ?? ""));
  return names.flatMap((name) => /\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z/.exec(name)?.[0] ?? []);
}
