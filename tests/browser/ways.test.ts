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
  expect(await page.getByLabel("Area").inputValue()).toBe("15.81");
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

test("no serious fault of accessibility in the dark on a phone", async () => {
  const page = await opened("", { colorScheme: "dark", viewport: { width: 390, height: 844 } });
  await page.locator(".course canvas[role=img]").waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  const grave = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  expect(grave.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
  await page.context().close();
});
