import type { Page } from "playwright";
import { expect } from "vitest";
import { type Open, test } from "../support/journey.ts";

/** What comes out of the printer: two sheets at most, with answer, board, course, cautions and times, and no controls. */

async function openedWhole(open: Open, width: number): Promise<Page> {
  const page = await open("", { width });
  await page.locator(".below canvas[role=img]").waitFor();
  await page.locator(".print-sheet").waitFor({ state: "attached" });
  return page;
}

/** Pages of a PDF, by its own page tree. */
function pagesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

for (const [width, device] of [
  [1280, "a laptop"],
  [390, "a phone"],
] as const) {
  test(`board and course fit two sheets, A4 or Letter, from ${device}`, async ({ open }) => {
    const page = await openedWhole(open, width);
    for (const format of ["A4", "Letter"]) {
      const pages = pagesOf(await page.pdf({ format, preferCSSPageSize: false, printBackground: true }));
      expect(pages, format).toBeGreaterThan(0);
      expect(pages, format).toBeLessThanOrEqual(2);
    }
  });
}

test("on paper: answer, board, course, cautions with their reasons, room to write; no button, no field", async ({
  open,
}) => {
  const page = await openedWhole(open, 1280);
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
});
