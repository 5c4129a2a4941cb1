import type { Page } from "playwright";
import { expect } from "vitest";
import { answerTold, graveFaults, oddsTold, settled, test } from "../support/journey.ts";

/** The ways of using the page that are not the first one: other units, a sent link, a comparison, the dark. */

test("an American browser is spoken to in inches, acres and a 12-hour clock; the switch is remembered", async ({
  open,
}) => {
  const page = await open("", { locale: "en-US" });
  expect(await page.locator(".answer h1").textContent()).toMatch(
    /^(So far: )?Cut Creek field Saturday 9 am\.$/,
  );
  await expect.poll(() => answerTold(page)).toMatch(/0\.27\sin/);
  expect(await page.getByLabel("Area").inputValue()).toBe("15.8");
  await page.getByLabel("Metric", { exact: true }).check();
  await expect.poll(() => answerTold(page)).toMatch(/6\.8\smm/);
  expect(await page.getByLabel("Area").inputValue()).toBe("6.4");
  await page.reload();
  await page.locator(".answer h1").waitFor();
  expect(await page.getByLabel("Area").inputValue()).toBe("6.4");
});

test("a lever, its undo, and the link that carries it to another browser", async ({ open }) => {
  const page = await open();
  await oddsTold(page);
  const first = await answerTold(page);
  await page.getByLabel(/^Windrow 45 %/).check();
  await page.getByText("The swath covers 45 % of the cut.").waitFor();
  await expect.poll(() => answerTold(page)).not.toBe(first);
  await oddsTold(page);
  const changed = await page.locator(".answer h1, .answer .promise").allTextContents();
  await expect.poll(() => new URL(page.url()).search).toContain("swathWidthM");
  const other = await open(new URL(page.url()).search, { width: 390 });
  await oddsTold(other);
  expect(await other.locator(".answer h1, .answer .promise").allTextContents()).toEqual(changed);
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect.poll(() => answerTold(page)).toBe(first);
});

test("a link that is wrong is told in words and opens on the demonstration", async ({ open }) => {
  const page = await open("?crop=wheat&__proto__=1&areaHa=%E0%A4%A");
  expect(await page.locator("main").textContent()).toContain('The link\'s crop: "wheat" is not known');
  expect(await page.locator(".answer h1").textContent()).toMatch(
    /^(So far: )?Cut Creek field Saturday 09:00\.$/,
  );
});

test("a cut kept aside is compared in a sentence with what is chosen then", async ({ open }) => {
  const page = await open();
  await page.getByRole("button", { name: "Keep this cut to compare" }).click();
  await page.getByLabel(/^Windrow 45 %/).check();
  const compare = page.locator(".compare");
  await expect.poll(() => compare.textContent()).toMatch(/h (sooner|later) to \d+/);
  await page.getByRole("button", { name: "Stop comparing" }).click();
  await page.getByRole("button", { name: "Keep this cut to compare" }).waitFor();
});

test("in another zone than the farm's the page keeps the farm's clock, and never takes the browser's for it", async ({
  open,
}) => {
  const here = await open("", { timezoneId: "America/Chicago" });
  const far = await open("", { timezoneId: "Pacific/Auckland" });
  await Promise.all([oddsTold(here), oddsTold(far)]);
  const told = (page: Page) =>
    page.locator(".answer h1, .answer .promise, .board-sentence").allTextContents();
  expect(await told(far)).toEqual(await told(here));
  expect(await far.locator(".board-zone").textContent()).toBe("times of America/Chicago");
  const zone = far.getByLabel("Time zone of the farm");
  expect(await zone.inputValue()).toBe("");
  await far.getByLabel("Latitude").fill("48.2");
  await far.getByLabel("Longitude").fill("16.4");
  await expect.poll(() => zone.inputValue()).toBe("Europe/Vienna");
});

test("a later window and a comparison are in the link, and whoever opens it sees them", async ({ open }) => {
  const page = await open("?weather=settled-dry");
  await settled(page);
  const later = page.locator(".vessel-button.later").first();
  const words = (await later.getAttribute("aria-label")) ?? "";
  await later.click();
  await page.getByRole("button", { name: /against a windrow/ }).click();
  const table = page.locator(".compare-table");
  await table.waitFor();
  await expect.poll(() => page.url()).toMatch(/&window=.*&compare=windrow/);
  const { search } = new URL(page.url());
  const compared = await table.textContent();

  const other = await open(search);
  await other.locator(".compare-table").waitFor();
  expect(await other.locator(".compare-table").textContent()).toBe(compared);
  const chosen = other.locator('.vessel-button.later[aria-pressed="true"]');
  await expect.poll(() => chosen.getAttribute("aria-label")).toContain(words);
  expect(await other.locator(".board-line p").first().textContent()).toContain(words.slice(0, 20));
  await expect.poll(() => new URL(other.url()).search).toBe(search);
});

test("a pass is dragged along the course by a finger, and becomes a rule", async ({ open }) => {
  const page = await open("?weather=settled-dry&ted=morning-after", {
    width: 390,
    hasTouch: true,
    isMobile: true,
  });
  await page.locator('[data-vessel^="dry-hay/"]').first().dispatchEvent("click");
  const handle = page.locator('[data-pass="ted"]');
  await handle.waitFor();
  await handle.scrollIntoViewIfNeeded();
  const name = page.locator(".pass-name").filter({ hasText: /^Ted/i });
  const before = await name.textContent();
  const box = await handle.boundingBox();
  if (box === null) throw new Error("no handle");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = await page.context().newCDPSession(page);
  const at = (type: "touchStart" | "touchMove", dx: number) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: [{ x: x + dx, y }] });
  await at("touchStart", 0);
  for (const dx of [3, 6, 9]) await at("touchMove", dx);
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await expect.poll(() => page.locator(".pass-told").textContent()).toMatch(/^Ted .* after the cut/);
  await expect.poll(() => name.textContent()).not.toBe(before);
  await expect.poll(() => new URL(page.url()).search).toMatch(/[?&]ted/);
});

test.for([
  ["a phone", 390],
  ["a laptop", 1280],
] as const)("no serious fault of accessibility in the dark on %s", async ([_device, width], { open }) => {
  const page = await open("", { colorScheme: "dark", width });
  await page.locator(".course canvas[role=img]").waitFor();
  expect(await graveFaults(page)).toEqual([]);
});

test("with every fold open each part of the page has a name of its own", async ({ open }) => {
  const page = await open("", { colorScheme: "dark", width: 390 });
  const shut = page.locator("details:not([open]) > summary:visible");
  // What is opened brings folds of its own.
  await expect
    .poll(async () => {
      for (const summary of (await shut.all()).reverse()) await summary.click();
      await page.waitForTimeout(300);
      return shut.count();
    })
    .toBe(0);
  await page.locator(".book-due").nth(1).waitFor();
  const names = await page
    .locator("section[aria-label]:visible")
    .evaluateAll((sections) => sections.map((section) => section.getAttribute("aria-label")));
  expect(names.length).toBeGreaterThan(5);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  expect(await graveFaults(page)).toEqual([]);
});
