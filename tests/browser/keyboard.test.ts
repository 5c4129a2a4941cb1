import type { Page } from "playwright";
import { expect } from "vitest";
import { answerTold, oddsTold, test } from "../support/journey.ts";

/** The whole journey without a pointer: answer, row, lever, undo, comparison, file's place, link. */

/** What has the focus: its own name, or that of the label around it. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const one = document.activeElement as HTMLElement | null;
    if (one === null || one === document.body) return "";
    const id = one.id;
    const label =
      one.getAttribute("aria-label") ??
      one.closest("label")?.textContent ??
      (id === "" ? null : document.querySelector(`label[for="${id}"]`)?.textContent) ??
      one.textContent;
    return (label ?? "").trim();
  });
}

/** Presses Tab until what has the focus is called so; fails where it never comes. */
async function tabTo(page: Page, name: RegExp, key = "Tab"): Promise<string> {
  const passed: string[] = [];
  for (let i = 0; i < 90; i += 1) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (name.test(now)) return now;
    passed.push(now.slice(0, 40));
  }
  throw new Error(`${name} was not reached by ${key}; passed ${passed.join(" | ")}`);
}

/** The ring that shows where the keys are, as drawn. */
function hasRing(page: Page): Promise<boolean> {
  return page.evaluate(() => {
    const one = document.activeElement;
    if (one === null) return false;
    const drawn = [one, one.parentElement, one.nextElementSibling, one.closest("label")].filter(
      (element) => element !== null,
    );
    return drawn.some((element) => {
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
      return (outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2) || boxShadow !== "none";
    });
  });
}

test("from the first Tab to another cut, a lever, its undo, a comparison and the link, by keys alone", async ({
  open,
}) => {
  const page = await open("", { permissions: ["clipboard-read", "clipboard-write"] });
  await page.getByLabel("Swath width").waitFor();
  // Chances draw the rows anew.
  await oddsTold(page);
  const heading = () => page.locator(".answer h1").textContent();
  const first = await heading();

  // Another row: down, and chosen.
  expect(await tabTo(page, /^Cut .*the best/)).toMatch(/^Cut \w+day \d\d:00/);
  await expect.poll(() => hasRing(page)).toBe(true);
  await page.keyboard.press("ArrowDown");
  const row = /^Cut (\w+day \d\d:\d\d)/.exec(await focused(page))?.[1] ?? "no row";
  await page.keyboard.press("Enter");
  await expect.poll(heading).toContain(row);
  expect(await heading()).not.toBe(first);

  // The course's hours by the arrows.
  await tabTo(page, /^Hour of the course/);
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  expect(await page.locator(".below").textContent()).toMatch(/\d+(\.\d)?\s%/);

  // A cut kept aside, a lever, the comparison in a sentence.
  await tabTo(page, /^Keep this cut to compare/);
  await page.keyboard.press("Enter");
  await tabTo(page, /^Rollers/);
  await oddsTold(page);
  const before = await answerTold(page);
  await page.keyboard.press("ArrowLeft");
  expect(await focused(page)).toMatch(/^None/);
  await expect.poll(() => answerTold(page)).not.toBe(before);
  await expect.poll(() => page.locator(".compare").textContent()).toMatch(/h (sooner|later) to \d+/);

  // Undo names what it takes back.
  expect(await tabTo(page, /^Undo/, "Shift+Tab")).toMatch(/conditioning/i);
  await page.keyboard.press("Enter");
  await expect.poll(() => answerTold(page)).toBe(before);

  // The link, from the top of the page.
  await tabTo(page, /^Copy link/, "Shift+Tab");
  await page.keyboard.press("Enter");
  await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toMatch(/^http.*\?.*=/);
});
