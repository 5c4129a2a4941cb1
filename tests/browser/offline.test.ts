import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type ServerType, serve } from "@hono/node-server";
import { serveStatic } from "@hono/node-server/serve-static";
import type { Page } from "playwright";
import { expect } from "vitest";
import { readSamples } from "../../server/samples.ts";
import { fakeApp } from "../support/app.ts";
import { test as journey, oddsTold } from "../support/journey.ts";
import { ROOT } from "../support/root.ts";

/** A server of its own for each test, whose built page can be made a newer version, and a browser that keeps it. */
const test = journey.extend("site", async ({ browser }, { onCleanup }) => {
  const folder = mkdtempSync(join(tmpdir(), "swathclock-page-"));
  cpSync(join(ROOT, "web", "dist"), folder, { recursive: true });
  const samples = await readSamples(join(ROOT, "weather-samples"));
  const app = fakeApp({ samples, page: serveStatic({ root: folder }) });
  let server: ServerType | undefined;
  const url = await new Promise<string>((resolve) => {
    server = serve({ fetch: app.fetch, hostname: "127.0.0.1", port: 0 }, ({ port }) =>
      resolve(`http://127.0.0.1:${port}/`),
    );
  });
  const context = await browser.newContext({ timezoneId: "Asia/Tokyo", reducedMotion: "reduce" });
  onCleanup(async () => {
    await context.close();
    await new Promise((resolve) => {
      server?.close(resolve);
      if (server && "closeAllConnections" in server) server.closeAllConnections();
    });
    rmSync(folder, { recursive: true, force: true });
  });
  const open = async (path = ""): Promise<Page> => {
    const page = await context.newPage();
    await page.goto(`${url}${path}`);
    await page.locator(".answer h1").waitFor();
    return page;
  };
  return { folder, url, context, open };
});

/** Until the service worker of the page has all it needs. */
async function kept(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (navigator.serviceWorker.controller === null) await new Promise((next) => setTimeout(next, 20));
  });
}

/** Every file that the device keeps, as "GET /path". */
function keptNames(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const found: string[] = [];
    for (const name of await caches.keys())
      for (const { url: address, method } of await (await caches.open(name)).keys())
        found.push(`${method} ${new URL(address).pathname}`);
    return found.sort();
  });
}

/** Writes the next version of the page over the one that is served. */
function publish(folder: string, title: string): void {
  const page = join(folder, "index.html");
  writeFileSync(page, readFileSync(page, "utf8").replace(/<title>.*<\/title>/, `<title>${title}</title>`));
  const worker = join(folder, "sw.js");
  const text = readFileSync(worker, "utf8");
  expect(text).toMatch(/"version":"[0-9a-f]{12}"/);
  writeFileSync(worker, text.replace(/"version":"[^"]*"/, `"version":"${title}"`));
}

/** What the built service worker keeps: at a first visit, and when there is time. */
function shellOf(folder: string): { readonly first: readonly string[]; readonly files: readonly string[] } {
  const [shell = "{}"] = /\{.*?\}/.exec(readFileSync(join(folder, "sw.js"), "utf8")) ?? [];
  return JSON.parse(shell);
}

async function newVersionWaits(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    while (registration.waiting === null) await new Promise((next) => setTimeout(next, 20));
  });
}

test("without a network, and without the server, the page opens on its last answer", async ({ site }) => {
  const page = await site.open();
  await kept(page);
  await oddsTold(page);
  const answer = await page.locator(".answer h1").textContent();
  await site.context.setOffline(true);
  await page.reload();
  await oddsTold(page);
  expect(await page.locator(".answer h1").textContent()).toBe(answer);
  // The course has its script from the same shell.
  await page.locator(".course canvas").first().waitFor();
  // What nobody opened comes once the chances are told, and is there without a network too.
  await site.context.setOffline(false);
  await page.reload();
  const { files } = shellOf(site.folder);
  await expect.poll(async () => (await keptNames(page)).length).toBe(files.length + 1);
  await site.context.setOffline(true);
  await page.reload();
  await page.getByText("Crew plan: many fields, few machines").click();
  await page.locator(".crew-fold h3, .crew-fold button").first().waitFor();
  // Another address of the same page too.
  await page.goto(`${site.url}?weather=settled-dry`);
  await page.locator(".answer h1").waitFor();
});

test("after the shortest first visit a reading can be taken in the field, and what lacks is told for what it is", async ({
  site,
}) => {
  // A visit too short for the rest: it is never asked for.
  const hurried = readFileSync(join(site.folder, "sw.js"), "utf8").replace(
    /"keep-rest"|`keep-rest`/g,
    '"never"',
  );
  writeFileSync(join(site.folder, "sw.js"), hurried);
  const { first } = shellOf(site.folder);
  expect(first.some((name) => name.includes("/TakeReading-"))).toBe(true);
  expect(first.some((name) => name.includes("/CrewPlan-"))).toBe(false);
  const page = await site.open();
  await kept(page);
  await site.context.setOffline(true);
  await page.reload();
  await page.locator(".answer h1").waitFor();
  const reading = page.locator("details.feed", { hasText: "Take a reading: measure the swath" });
  await reading.locator("summary").first().click();
  await reading.locator("input, select").first().waitFor();
  await page.getByText("Crew plan: many fields, few machines").click();
  // Parts after the board may lack too, by how far the first visit came.
  const lacking = page.locator(".crew-fold").getByText("not on this device yet: it needs a connection once");
  await lacking.waitFor();
  await site.context.setOffline(false);
  await page.locator(".crew-fold h3, .crew-fold button").first().waitFor();
});

test("what is kept is the shell and the samples, and never what was sent to be checked", async ({ site }) => {
  const page = await site.open();
  await kept(page);
  const status = await page.evaluate(async () => {
    const response = await fetch("api/weather/check", { method: "POST", body: "x" });
    await fetch("api/model");
    return response.status;
  });
  expect(status).toBeGreaterThanOrEqual(400);
  const names = await keptNames(page);
  expect(names.filter((name) => name.includes("/api/"))).toEqual(["GET /api/samples"]);
  expect(names).toContain("GET /index.html");
  expect(
    names.filter((name) => !/^GET \/(assets\/|api\/samples$|index\.html$|icon\.svg$|manifest)/.test(name)),
  ).toEqual([]);
});

test("a new version comes in at the next visit, and never under a page that is open", async ({ site }) => {
  const page = await site.open();
  await kept(page);
  const second = await site.open();
  publish(site.folder, "next");
  await newVersionWaits(page);
  // Two pages of the old version are open: opening one again must not part them.
  await page.reload();
  await oddsTold(page);
  expect(await page.title()).not.toBe("next");
  await second.close();
  await page.reload();
  // At once, whichever of the two workers brings it: when the old one rests is the browser's to say.
  await page.locator(".answer h1").waitFor();
  expect(await page.title()).toBe("next");
  await page.close();
  const later = await site.open();
  expect(await later.title()).toBe("next");
  const shells = () =>
    later.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith("shell-")));
  await expect.poll(shells, { timeout: 60_000 }).toEqual(["shell-next"]);
});

test("a version that cannot be had whole is not taken", async ({ site }) => {
  const page = await site.open();
  await kept(page);
  publish(site.folder, "broken");
  const worker = join(site.folder, "sw.js");
  writeFileSync(worker, readFileSync(worker, "utf8").replace('"files":[', '"files":["assets/gone.js",'));
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update().catch(() => {});
    await new Promise((next) => setTimeout(next, 500));
  });
  await page.reload();
  await oddsTold(page);
  expect(await page.title()).not.toBe("broken");
});
