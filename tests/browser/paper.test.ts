import { type Browser, chromium, type Page } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { type RunningServer, startServer } from "../support/server.ts";

/** What comes out of the printer: two sheets at most, with answer, board, course, cautions and times, and no controls. */

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

async function opened(width: number): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    locale: "en-GB",
    reducedMotion: "reduce",
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  await page.goto(server.url);
  await page.locator(".answer h1").waitFor();
  await page.locator(".below canvas[role=img]").waitFor();
  await page.locator(".print-sheet").waitFor({ state: "attached" });
  return page;
}

/** Pages of a PDF, by its own page tree. */
function pagesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

for (const format of ["A4", "Letter"] as const) {
  test(`${format}: board and course fit two sheets, from a laptop and from a phone`, async () => {
    for (const width of [1280, 390]) {
      const page = await opened(width);
      const pdf = await page.pdf({ format, preferCSSPageSize: false, printBackground: true });
      const pages = pagesOf(pdf);
      expect(pages, `${width} px`).toBeGreaterThan(0);
      expect(pages, `${width} px`).toBeLessThanOrEqual(2);
      await page.context().close();
    }
  });
}

test("on paper: answer, board, course, cautions with their reasons, room to write; no button, no field", async () => {
  const page = await opened(1280);
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  for (const seen of [
    ".answer h1",
    ".board-picture svg",
    ".below canvas[role=img]",
    ".cautions",
    ".print-sheet",
  ])
    expect(await page.locator(seen).first().isVisible(), seen).toBe(true);
  for (const gone of [
    ".levers input",
    ".inputs input",
    ".mast select",
    ".page-tools button",
    ".board-details",
    ".course-details",
  ])
    expect(await page.locator(gone).first().isVisible(), gone).toBe(false);
  const sheet = await page.locator(".print-sheet").textContent();
  expect(sheet).toMatch(/Alfalfa/);
  expect(sheet).toMatch(/Moisture/);
  expect(await page.locator(".cautions").textContent()).toMatch(/Insurer or adjuster told\?/);
  await page.emulateMedia({ media: null });
  await page.getByText("Table of the board").click();
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".board-details table").isVisible()).toBe(true);
  await page.context().close();
});
