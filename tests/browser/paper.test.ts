import type { Page } from "playwright";
import { expect } from "vitest";
import { type Open, oddsTold, test } from "../support/journey.ts";
import { lettersOfPages } from "../support/pdf-words.ts";

/** What comes out of the printer: answer, board, course, cautions and times on the first sheets, then tables, and no controls. */

async function openedWhole(open: Open, width: number, path = "", locale = "en-GB"): Promise<Page> {
  const page = await open(path, { width, locale });
  // The chances may put another row first, whose course is then drawn anew.
  await oddsTold(page);
  await page.locator(".below canvas[role=img]").waitFor();
  await page.locator(".print-sheet").waitFor({ state: "attached" });
  return page;
}

/** The letters of each sheet, as the printer is given them. */
async function sheets(page: Page, format: "A4" | "Letter"): Promise<string[]> {
  return lettersOfPages(await page.pdf({ format, preferCSSPageSize: false, printBackground: true }));
}

/** On which sheets something stands. */
const on = (pages: readonly string[], what: RegExp) =>
  pages.flatMap((letters, i) => (what.test(letters) ? [i] : []));

/** Answer, board and course share the first sheet; what it was worked out for follows, then the tables. */
function expectWhole(pages: readonly string[], headline: RegExp): void {
  expect(pages[0]).toMatch(headline);
  // The head of the right column is not cut, and the row of rain says whose it is.
  expect(pages[0]).toMatch(/Cuttimesandwindows.*Bestroute,ends,worth.*best/);
  expect(pages[0]).toMatch(/Forecast'srain/);
  // What a canvas draws is printed on every sheet that it reaches.
  for (const part of [/Courseoftheswath/, /Moisture,%wetbasis/, /astheairallows/])
    expect(on(pages, part), String(part)).toEqual([0]);
  expect(on(pages, /Workedoutfor/)).toEqual([1]);
  expect(on(pages, /Seeninthefield/)).toEqual([1]);
  const [board = -1] = on(pages, /Tableoftheboard/);
  const [course = -1] = on(pages, /Tableofthecourse/);
  expect(board).toBeGreaterThan(0);
  expect(course).toBeGreaterThan(board);
  expect(pages.length).toBeLessThanOrEqual(4);
}

async function chooseAnother(page: Page): Promise<void> {
  await page.locator("[data-row][aria-pressed=false]").nth(3).press("Enter");
  await expect.poll(() => page.locator(".answer h1").textContent()).toMatch(/^If /);
  await page.locator("main:not(:has(.course-coming)) .below canvas[role=img]").waitFor();
}

test("the best row on A4, another on Letter: answer, board and course on one sheet, the tables last", async ({
  open,
}) => {
  const page = await openedWhole(open, 1280, "", "en-US");
  expectWhole(await sheets(page, "A4"), /CutCreekfield/);
  await chooseAnother(page);
  expectWhole(await sheets(page, "Letter"), /IfCreekfieldiscut/);
});

test("the same from a phone, of corn in a drought, in metric units and with decimal commas", async ({
  open,
}) => {
  const page = await openedWhole(open, 390, "?weather=drought-heat&crop=corn", "de-DE");
  await chooseAnother(page);
  expectWhole(await sheets(page, "A4"), /IfCreekfieldiscut/);
});

test("on paper: answer, board, course, cautions with their reasons, room to write; no button, no field", async ({
  open,
}) => {
  const page = await openedWhole(open, 1280);
  await page.locator("[data-vessel]").first().focus();
  await page.locator(".board-hair").waitFor({ state: "attached" });
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
    ".pass-handle",
  ])
    expect(await page.locator(gone).first().isVisible(), gone).toBe(false);
  const sheet = await page.locator(".print-sheet").textContent();
  expect(sheet).toMatch(/Alfalfa/);
  expect(sheet).toMatch(/Moisture/);
  expect(await page.locator(".cautions").textContent()).toMatch(/Insurer or adjuster told\?/);
  // An hour that was looked at on the screen is no part of it.
  for (const part of [".board-hair", ".crosshair"])
    expect(
      await page.locator(part).evaluateAll((all) => all.filter((one) => one.checkVisibility()).length),
    ).toBe(0);
  expect(await page.locator(".print-tables .board-table tbody tr").count()).toBeGreaterThan(20);
  expect(await page.locator(".print-tables .course-table tbody tr").count()).toBeGreaterThan(60);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  await expect.poll(() => page.locator(".print-tables").count()).toBe(0);
});
