import { chromium, type Page } from "playwright";
import { CHROMIUM_FLAGS, findChromium } from "../support/chromium.mjs";
import { startServer } from "../support/server.ts";
import { type Timing, timingOf } from "./measure.ts";

/** Times of the page in a real browser. */
export interface PageTimes {
  /** From opening the address to the first board painted, four times slower CPU, nothing cached. */
  readonly firstBoard: Timing;
  /** From the click on a lever to the frame that shows the new board and course. */
  readonly lever: Timing;
  /** Longest of the lever's rounds, ms. */
  readonly leverWorstMs: number;
  readonly rounds: number;
}

const LOADS = 9;
/** Levers that are clicked in turn, each away from its usual choice and back. */
const LEVERS = ["Wet", "Moist", "Spread 90 %", "Wide 70 %", "Impeller", "Rollers", "Next day", "Same day"];
const CLICKS = 5 * LEVERS.length;

/** Resolves to the time when a picture later than `after` has been painted. */
function waitForPicture(page: Page, after: number): Promise<number> {
  return page.evaluate(
    (last) =>
      new Promise<number>((resolve) => {
        // Functions in the page stay nameless: the runner of TypeScript wraps named ones in a helper the page lacks.
        const seen = new MutationObserver(() => {
          const id = Number(document.querySelector("main")?.dataset.picture ?? 0);
          if (id <= last || document.querySelector("[data-row]") === null) return;
          seen.disconnect();
          // The first task after the frame in which it is drawn.
          requestAnimationFrame(() => setTimeout(() => resolve(performance.now()), 0));
        });
        seen.observe(document, { subtree: true, childList: true, attributeFilter: ["data-picture"] });
      }),
    after,
  );
}

/** Clicks a lever inside the page and waits there for the frame of its picture, ms. */
function leverMs(page: Page, label: string): Promise<number> {
  return page.evaluate(
    (text) =>
      new Promise<number>((resolve, reject) => {
        const main = document.querySelector("main");
        const labels = [...document.querySelectorAll(".lever-choices label")];
        const choice = labels.find((one) => one.textContent === text)?.querySelector("input");
        if (!main || !choice) {
          reject(new Error(`no lever "${text}"`));
          return;
        }
        const before = main.dataset.picture;
        const startMs = performance.now();
        choice.click();
        const seen = new MutationObserver(() => {
          if (main.dataset.picture === before) return;
          seen.disconnect();
          requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - startMs), 0));
        });
        seen.observe(main, { attributeFilter: ["data-picture"] });
      }),
    label,
  );
}

/** Drives the built page; null where no Chromium is found. */
export async function pageTimes(): Promise<PageTimes | null> {
  const executablePath = findChromium();
  if (executablePath === null) return null;
  const server = await startServer();
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  try {
    const loads: number[] = [];
    for (let round = 0; round < LOADS; round += 1) {
      const context = await browser.newContext({
        viewport: { width: 390, height: 844 },
        serviceWorkers: "block",
      });
      const page = await context.newPage();
      const session = await context.newCDPSession(page);
      await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      await page.goto(server.url, { waitUntil: "commit" });
      loads.push(await waitForPicture(page, 0));
      await context.close();
    }
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
    await page.goto(server.url);
    await waitForPicture(page, 0);
    // Levers and course come once the board is painted.
    await page.waitForSelector(".lever-choices label");
    await page.waitForSelector(".below canvas[role=img]");
    const clicks: number[] = [];
    for (let round = 0; round < CLICKS; round += 1) {
      const ms = await leverMs(page, LEVERS[round % LEVERS.length] ?? "");
      if (round >= LEVERS.length) clicks.push(ms);
      await page.waitForTimeout(50);
    }
    return {
      firstBoard: timingOf(loads),
      lever: timingOf(clicks),
      leverWorstMs: Math.max(...clicks),
      rounds: clicks.length,
    };
  } finally {
    await browser.close();
    await server.stop();
  }
}
