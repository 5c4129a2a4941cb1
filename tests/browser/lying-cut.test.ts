import { expect, inject } from "vitest";
import { graveFaults, settled, test } from "../support/journey.ts";

/** A cut is made, the clock passes it, it is measured: the row stays and goes with its course. */

const HOUR_MS = 3_600_000;
/** A field of its own: what is learned of one that another journey put into the book would go there, from a later day. */
const FORECAST = "?weather=forecast&latitude=44.3012&longitude=-98.2049&field=Stony%20meadow";

test("a cut that was made stays on the board when the clock has passed it, and its reading moves its row", async ({
  open,
}) => {
  const page = await open("", { allDraws: true });
  // Yesterday afternoon at the farm: the mock's weather reaches ten days back.
  const nowMs = Math.floor(Date.now() / (24 * HOUR_MS)) * 24 * HOUR_MS - 4 * HOUR_MS;
  // The server's clock is today's: the forecast was had by the clock of the page, an hour before.
  let pageMs = nowMs;
  await page.route("**/api/forecast?*", async (route) => {
    const response = await route.fetch();
    const fetchedUtc = new Date(pageMs - HOUR_MS).toISOString();
    await route.fulfill({ response, json: { ...(await response.json()), fetchedUtc } });
  });
  const at = async (ms: number) => {
    pageMs = ms;
    await page.clock.setFixedTime(ms);
    await page.goto(`${inject("serverUrl")}/${FORECAST}`);
    await page.locator(".weather-bar", { hasText: "Open-Meteo" }).waitFor();
    await settled(page);
  };
  // A day and a bit ago: mowing begins now, at an hour that the board does not offer.
  await at(nowMs - 27 * HOUR_MS);
  await page.getByRole("button", { name: "This cut is made" }).click();
  await page.getByRole("button", { name: "Keep it on the board" }).click();
  const row = page.locator(".row-button[aria-label^='Lying since']");
  await row.waitFor();
  const id = await row.getAttribute("data-row");
  expect(await page.locator(".answer h1").textContent()).toMatch(/lies since/);

  await at(nowMs);
  expect(await row.getAttribute("data-row")).toBe(id);
  await row.click({ position: { x: 24, y: 24 } });
  await page.getByText(/^Lying since.*Not made$/).waitFor();
  const dayOf = async () => /Dry hay, (\w+day)/.exec((await row.getAttribute("aria-label")) ?? "")?.[1];
  const before = await dayOf();
  await page.getByText("Take a reading: measure the swath").click();
  await page.getByLabel("Moisture, wet basis").fill("45");
  await page.getByRole("button", { name: "Bend the course to it" }).click();
  await page.locator(".readings-change").waitFor();
  await page.locator(".odds-told").waitFor();
  // 45 % is drier than was expected: the row opens sooner, on the day that the sentence names, and so does the course.
  const after = await dayOf();
  expect(after).not.toBe(before);
  const told = (await page.locator(".readings-change").textContent()) ?? "";
  const day = /now from (\w+day) \d+ \w+ [\d:]+; before the reading/.exec(told)?.[1];
  expect(after).toBe(day);
  expect(told).toMatch(/Other cuts of this field are now taken to dry \d+\s% faster/);
  // The fold and the row tell one day.
  expect(await page.locator(".odds-told").textContent()).toMatch(
    new RegExp(`16\\s% is now due ${day}[^,]*, \\d+ h sooner`),
  );
  expect(await graveFaults(page, ".made-cut")).toEqual([]);

  // Taken back, the row goes; what was measured in it still counts, also after a reload.
  await page.getByRole("button", { name: "Not made" }).click();
  await row.waitFor({ state: "detached" });
  const others = page.locator(".readings-change", { hasText: "has no row here; what was read of it still" });
  await others.waitFor();
  const rate = /now taken to dry \d+\s% faster/;
  expect(await others.textContent()).toMatch(rate);
  expect(rate.exec((await others.textContent()) ?? "")?.[0]).toBe(rate.exec(told)?.[0]);
  await at(nowMs);
  await others.waitFor();
  expect(rate.exec((await others.textContent()) ?? "")?.[0]).toBe(rate.exec(told)?.[0]);

  // The forecast that met it is scored, from when it was had: Open-Meteo does not tell when it was issued.
  await page.getByText("How right it was: the record").click();
  const record = page.locator(".record");
  await record.getByRole("radio", { name: "This device" }).check({ force: true });
  await record.getByText("1 forecast met a reading: too few to say, 1 of 20 days.").waitFor();
  await record.getByText("Of these the service told no time of issue").waitFor();
});
