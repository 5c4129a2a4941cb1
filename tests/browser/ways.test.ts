import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { type RunningServer, startServer } from "../support/server.ts";

/** The ways of using the page that are not the first one: other units, a sent link, a comparison, the dark. */

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

async function opened(path: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    timezoneId: "Asia/Tokyo",
    locale: "en-GB",
    reducedMotion: "reduce",
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  await page.goto(`${server.url}/${path}`);
  await page.locator(".answer h1").waitFor();
  return page;
}

test("an American browser is spoken to in inches, acres and a 12-hour clock; the switch is remembered", async () => {
  const page = await opened("", { locale: "en-US" });
  expect(await page.locator(".answer h1").textContent()).toBe("Cut Creek field Saturday 9 am.");
  expect(await page.locator(".answer").textContent()).toMatch(/0\.27\sin/);
  expect(await page.getByLabel("Area").inputValue()).toBe("15.8");
  await page.getByLabel("Metric", { exact: true }).check();
  await expect.poll(() => page.locator(".answer").textContent()).toMatch(/6\.8\smm/);
  expect(await page.getByLabel("Area").inputValue()).toBe("6.4");
  await page.reload();
  await page.locator(".answer h1").waitFor();
  expect(await page.getByLabel("Area").inputValue()).toBe("6.4");
  await page.context().close();
});

test("a lever, its undo, and the link that carries it to another browser", async () => {
  const page = await opened("");
  const first = await page.locator(".answer").textContent();
  await page.getByLabel(/^Windrow 45 %/).check();
  await page.getByText("The swath covers 45 % of the cut.").waitFor();
  await expect.poll(() => page.locator(".answer").textContent()).not.toBe(first);
  const changed = await page.locator(".answer h1, .answer .promise").allTextContents();
  await expect.poll(() => new URL(page.url()).search).toContain("swathWidthM");
  const other = await opened(new URL(page.url()).search, { viewport: { width: 390, height: 844 } });
  expect(await other.locator(".answer h1, .answer .promise").allTextContents()).toEqual(changed);
  await other.context().close();
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect.poll(() => page.locator(".answer").textContent()).toBe(first);
  await page.context().close();
});

test("a link that is wrong is told in words and opens on the demonstration", async () => {
  const page = await opened("?crop=wheat&__proto__=1&areaHa=%E0%A4%A");
  expect(await page.locator("main").textContent()).toContain('crop got "wheat", not known');
  expect(await page.locator(".answer h1").textContent()).toBe("Cut Creek field Saturday 09:00.");
  await page.context().close();
});

test("a cut kept aside is compared in a sentence with what is chosen then", async () => {
  const page = await opened("");
  await page.getByRole("button", { name: "Keep this cut to compare" }).click();
  await page.getByLabel(/^Windrow 45 %/).check();
  const compare = page.locator(".compare");
  await expect.poll(() => compare.textContent(), { timeout: 10_000 }).toMatch(/h (sooner|later) to \d+/);
  await page.getByRole("button", { name: "Stop comparing" }).click();
  await page.getByRole("button", { name: "Keep this cut to compare" }).waitFor();
  await page.context().close();
});

test("in another zone than the farm's the page keeps the farm's clock, and never takes the browser's for it", async () => {
  const [here, far] = [
    await opened("", { timezoneId: "America/Chicago" }),
    await opened("", { timezoneId: "Pacific/Auckland" }),
  ];
  const told = (page: Page) =>
    page.locator(".answer h1, .answer .promise, .board-sentence").allTextContents();
  expect(await told(far)).toEqual(await told(here));
  expect(await far.locator(".board-zone").textContent()).toBe("times of America/Chicago");
  const zone = far.getByLabel("Time zone of the farm");
  expect(await zone.inputValue()).toBe("");
  await far.getByLabel("Latitude").fill("48.2");
  await far.getByLabel("Longitude").fill("16.4");
  await expect.poll(() => zone.inputValue()).toBe("Europe/Vienna");
  await here.context().close();
  await far.context().close();
});

test("a pass is dragged along the course by a finger, and becomes a rule", async () => {
  const page = await opened("", { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await page.locator('[data-vessel^="dry-hay/"]').first().dispatchEvent("click");
  const handle = page.locator('[data-pass="rake"]');
  await handle.waitFor();
  await handle.scrollIntoViewIfNeeded();
  const before = await page.locator(".pass-name").textContent();
  const box = await handle.boundingBox();
  if (box === null) throw new Error("no handle");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = await page.context().newCDPSession(page);
  const at = (type: "touchStart" | "touchMove", dx: number) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: [{ x: x + dx, y }] });
  await at("touchStart", 0);
  for (const dx of [-4, -8, -12, -16]) await at("touchMove", dx);
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await expect.poll(() => page.locator(".pass-told").textContent()).toMatch(/^Rake .* before the window/);
  await expect.poll(() => page.locator(".pass-name").textContent()).not.toBe(before);
  await expect.poll(() => new URL(page.url()).search).toContain("rake=before-window");
  await page.context().close();
});

test.each([
  ["a phone", 390, 844],
  ["a laptop", 1280, 900],
] as const)("no serious fault of accessibility in the dark on %s", async (_name, width, height) => {
  const page = await opened("", { colorScheme: "dark", viewport: { width, height } });
  await page.locator(".course canvas[role=img]").waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  const grave = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  expect(grave.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
  await page.context().close();
});
