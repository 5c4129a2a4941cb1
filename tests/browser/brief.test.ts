import type { Page } from "playwright";
import { expect } from "vitest";
import { graveFaults, oddsTold, settled, test } from "../support/journey.ts";

/** The adviser compares the routes, ticks what is settled, screens a feed, and takes all of it along on two sheets. */

/** Pages of a PDF, by its own page tree. */
function pagesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

/** Lays the brief out and gives what it says; it stands until a paper has been printed. */
async function laidOut(page: Page): Promise<string> {
  // A printer that waits: the page is told that it prints, and nothing more happens.
  await page.evaluate(() => {
    window.print = () => {
      dispatchEvent(new Event("beforeprint"));
    };
  });
  await page.getByRole("button", { name: "Print the brief" }).first().click();
  await page.locator("html.printing-brief").waitFor({ state: "attached" });
  return (await page.locator("#brief").textContent()) ?? "";
}

async function sheets(page: Page, format: "A4" | "Letter"): Promise<number> {
  const pdf = await page.pdf({ format, preferCSSPageSize: false, printBackground: true });
  // The page is itself again once the paper is out.
  await page.locator("#brief").waitFor({ state: "detached" });
  return pagesOf(pdf);
}

const ROUTES_FOLD = "details:has(.side-lead)";

async function openRoutes(page: Page): Promise<string> {
  await oddsTold(page);
  await page.getByText("Routes side by side: losses, work, money").click();
  return (await page.locator(".side-lead").textContent()) ?? "";
}

test("the brief of the demonstration is two sheets on either paper, and its invented ration is on none", async ({
  open,
}) => {
  const page = await open();
  expect(await openRoutes(page)).toMatch(/^Wilted chop keeps \d+/);
  // The table of the routes is whole in height: its money is never under an inner edge.
  const hidden = await page
    .locator(".side-scroll")
    .evaluate(({ scrollHeight, clientHeight }) => scrollHeight - clientHeight);
  expect(hidden).toBeLessThanOrEqual(1);
  const told = await laidOut(page);
  // Each sheet is filled, so that its type is as large as its words let it be, the small type hardly under the rest; mm, pt.
  for (const heightMm of await page
    .locator("#brief .brief-in")
    .evaluateAll((parts) => parts.map((part) => part.getBoundingClientRect().height / (96 / 25.4)))) {
    expect(heightMm).toBeGreaterThan(243);
    expect(heightMm).toBeLessThanOrEqual(251);
  }
  for (const part of [".brief-small", ".brief-sources"]) {
    const size = (node: Element) => Number.parseFloat(getComputedStyle(node).fontSize);
    const small = await page.locator(`#brief ${part}`).evaluate(size);
    expect(small / (await page.locator("#brief .brief-in").last().evaluate(size)), part).toBeGreaterThan(0.9);
  }
  expect(told).toContain("No result of a laboratory was entered.");
  expect(told).not.toMatch(/Oat hay|Straw/);
  expect(told).toContain("4 of 4 questions are open");
  expect(told).toContain("No counts were entered; at least: 1 lot");
  expect(told).toContain("Invented demonstration farm and weather");
  expect(await sheets(page, "A4")).toBe(2);
  await laidOut(page);
  expect(await sheets(page, "Letter")).toBe(2);
});

test("an adviser's way: a dearer hay turns the routes, the gate, a feed check, and all of it in the brief", async ({
  open,
}) => {
  const page = await open();
  await openRoutes(page);
  const routes = page.locator(ROUTES_FOLD);
  const lead = routes.locator(".side-lead");
  await routes.getByText("Prices, stores and rates").click();
  await routes.getByRole("textbox", { name: /^Dry hay/ }).fill("900");
  await expect.poll(() => lead.textContent()).toMatch(/^Dry hay keeps \d+/);
  await settled(page);
  await oddsTold(page);

  const gate = page.locator(".gate");
  await gate.getByRole("checkbox", { name: /insurer or adjuster/ }).check();
  await expect.poll(() => gate.locator(".gate-done").textContent()).toBe("1 of 4 settled");
  await expect.poll(() => page.locator(".cautions").textContent()).toContain("adjuster told: ticked.");

  await page.getByText("May it be fed? Nitrate, prussic acid, sampling").click();
  const feeds = page.locator(".feed-fields");
  await page.getByText("Invented as an example: Oat hay and Straw.").waitFor();
  const oats = feeds.nth(1);
  await oats.getByLabel("Name", { exact: true }).fill("Oats, north");
  await oats.getByLabel("Nitrate", { exact: true }).fill("0.6");
  await page.getByText("Invented as an example: Straw.").waitFor();
  await page.locator(".sampling").getByLabel("Bales", { exact: true }).fill("140");

  const parts = [ROUTES_FOLD, ".gate", "details:has(.feed-check)"].join(", ");
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await graveFaults(page, parts), colorScheme).toEqual([]);
  }

  const told = await laidOut(page);
  for (const words of [
    /Creek field: dry hay, wrapped bales or wilted chop\? Alfalfa, .* for a beef cow of 600 kg, pregnant/,
    /Dry hay keeps \d+ %/,
    /Dry hay 900 a tonne; Wrapped bales 210 a tonne \(default\)/,
    /strips left where they ask for them\? Ticked\./,
    /3 of 4 questions are open/,
    /Oats, north: 1,355 ppm\. By /,
    /Invented as an example, not measured: Straw\./,
    /Clemson University \(no year\)/,
    /1 lot, 56 bales, 56 cores of each\./,
    /Before baling hay: Hay keeps the nitrate it was cut with\./,
    /Extension service: /,
    /Local codes: /,
    /Sources.*Purdue University/,
    /farm time \(America\/Chicago\)/,
  ])
    expect(told).toMatch(words);
  expect(told).not.toMatch(/\bsafe\b/i);
  expect(await sheets(page, "Letter")).toBe(2);
});
