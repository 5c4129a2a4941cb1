import { expect } from "vitest";
import { graveFaults, test } from "../support/journey.ts";

/** The adviser asks whether it may be fed: a screen by every table, a refusal where a label is missing, a plan to sample. */

test("feed check on a phone: the verdicts, a missing label, another animal, a wrong field, the sampling plan", async ({
  open,
}) => {
  const page = await open("", { width: 390 });
  await page.getByText("May it be fed? Nitrate, prussic acid, sampling").click();
  const result = page.locator(".feed-result");
  await result.waitFor();
  expect(await result.textContent()).toContain(
    "Oat hay: 2,711 ppm. By Clemson University (no year): not to be fed: never to pregnant stock.",
  );
  expect(await result.textContent()).not.toMatch(/\bsafe/i);
  expect(await result.textContent()).toContain("Who decides: laboratory, veterinarian");
  expect(await graveFaults(page, "details.feed")).toEqual([]);

  const oats = page.locator(".feed-fields", { hasText: "Oat hay" }).first();
  await oats.getByLabel("Basis", { exact: true }).selectOption("");
  await expect.poll(() => result.textContent()).toContain("Oat hay cannot be read: it lacks the basis");
  await oats.getByLabel("Basis", { exact: true }).selectOption("dm");
  await page.getByLabel("Pregnant", { exact: true }).uncheck();
  await expect.poll(() => result.textContent()).not.toContain("never to pregnant stock");
  const weight = page.locator("details.feed").getByLabel("Weight");
  await weight.fill("6");
  await page.getByText(/Got 6, must be at least 10 and at most 1,?500 kg/).waitFor();
  expect(await result.textContent()).toContain("Oat hay: 2,711 ppm");
  await weight.fill("600");
  await page.getByText("What every table says").click();
  await expect.poll(() => page.locator("details.feed table tbody tr").count()).toBe(14);
  expect(await page.locator(".sampling").textContent()).toContain("1 lot, 24 bales, 24 cores of each.");
  await page.locator(".sampling").getByLabel("Together").fill("300");
  await expect.poll(() => page.locator(".sampling .feed-share").textContent()).toContain("3 lots");
});
