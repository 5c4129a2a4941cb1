import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Locator, Page } from "playwright";
import { expect } from "vitest";
import { graveFaults, test as journey } from "../support/journey.ts";
import { type RunningServer, startServer } from "../support/server.ts";

/** The book by hand, against real servers whose book is a file that outlives them. */

const test = journey
  .extend("servers", async ({ browser: _browser }, { onCleanup }) => {
    const folder = mkdtempSync(join(tmpdir(), "swathclock-book-journey-"));
    const running = new Set<RunningServer>();
    onCleanup(async () => {
      await Promise.all([...running].map(({ stop }) => stop()));
      rmSync(folder, { recursive: true, force: true });
    });
    return {
      start: async (env: Readonly<Record<string, string>> = {}) => {
        const server = await startServer({ SWATHCLOCK_BOOK: join(folder, "book.sqlite"), ...env });
        running.add(server);
        const stop = async () => {
          running.delete(server);
          return server.stop();
        };
        return { ...server, stop, port: new URL(server.url).port };
      },
    };
  })
  .extend("context", async ({ browser }, { onCleanup }) => {
    const context = await browser.newContext({
      viewport: { width: 390, height: 900 },
      timezoneId: "Asia/Tokyo",
      locale: "en-GB",
      reducedMotion: "reduce",
    });
    onCleanup(() => context.close());
    return context;
  });

async function openBook(page: Page): Promise<Locator> {
  await page.getByText("The book: fields, cuts").click();
  const book = page.locator(".book");
  await book.getByRole("button", { name: /^Add a/ }).waitFor();
  return book;
}

test("a field is added, a reading is logged without a signal and outlives a reload; both are there after a restart of the server", {
  timeout: 120_000,
}, async ({ servers, context }) => {
  const first = await servers.start();
  const page = await context.newPage();
  await page.goto(first.url);
  await page.locator(".answer h1").waitFor();
  // The page opens without a network once its service worker has all it needs.
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (navigator.serviceWorker.controller === null) await new Promise((next) => setTimeout(next, 20));
  });
  let book = await openBook(page);
  await book.getByRole("button", { name: "Add a field" }).click();
  await book.getByRole("button", { name: "Keep this field" }).click();
  expect(await book.locator(".field-error").first().textContent()).toBe("Empty; it is needed.");
  await book.getByLabel("Name").fill("River field");
  await book.getByLabel("Area").fill("7.5");
  await book.getByRole("button", { name: "Keep this field" }).click();
  await book.getByText("River field").first().waitFor();
  await book.locator(".book-waiting").waitFor({ state: "detached" });

  await context.setOffline(true);
  await book.getByRole("button", { name: /^Readings/ }).click();
  await book.getByRole("button", { name: "Add a reading" }).click();
  await book.getByLabel("Moisture, wet basis").fill("31.5");
  await book.getByRole("button", { name: "Keep this reading" }).click();
  await book.getByText("Waits for signal (1)").waitFor();
  expect(await graveFaults(page, ".book")).toEqual([]);

  // Still without a signal the page is opened anew, while the server is exchanged for another on the same book.
  await page.reload();
  await page.getByText("The book: Waits for signal (1)").waitFor();
  expect(await first.stop()).toBe(0);
  const second = await servers.start({ PORT: first.port });
  await context.setOffline(false);
  await expect.poll(() => page.locator("p.waits").textContent()).toBe("");

  expect(await second.stop()).toBe(0);
  await servers.start({ PORT: first.port });
  await page.reload();
  await page.locator(".answer h1").waitFor();
  book = await openBook(page);
  await book.getByText("River field").first().waitFor();
  await book.getByRole("button", { name: /^Readings 1/ }).click();
  await book.getByText(/^31\.5 %/).waitFor();
});

const EDIT = "edit-key-of-sixteen-or-more";
const VIEW = "view-key-of-sixteen-or-more";

test("a shared server asks for a key: one may look, the other change, and a wrong one is told", {
  timeout: 120_000,
}, async ({ servers, context }) => {
  const server = await servers.start({ SWATHCLOCK_KEYS: `anna:edit:${EDIT},barn:view:${VIEW}` });
  const page = await context.newPage();
  await page.goto(server.url);
  const signIn = async (key: string) => {
    await page.getByLabel("Key", { exact: true }).fill(key);
    await page.getByRole("button", { name: "Sign in" }).click();
  };
  await signIn("wrong-key-of-sixteen-or-more");
  await page.getByText("That key is not one of this server's").waitFor();
  await signIn(VIEW);
  await page.locator(".answer h1").waitFor();
  await page.getByText("The book: fields, cuts").click();
  const book = page.locator(".book");
  await book.getByText("Signed in as barn: may look, not change. Editing is off.").waitFor();
  await book.getByText(/No field yet/).waitFor();
  expect(await book.getByRole("button", { name: /^(Add|Edit|Keep)/ }).count()).toBe(0);
  expect((await context.cookies()).map(({ httpOnly, sameSite }) => [httpOnly, sameSite])).toEqual([
    [true, "Strict"],
  ]);

  await book.getByRole("button", { name: "Sign out" }).click();
  await page.getByRole("button", { name: "Sign in" }).waitFor();
  expect(await graveFaults(page, ".sign-in")).toEqual([]);
  await signIn(EDIT);
  await book.getByText("Signed in as anna: may look and change.").waitFor();
  await book.getByRole("button", { name: "Keep the field on the page" }).click();
  await book.locator(".book-entries").getByText("Creek field").first().waitFor();
});
