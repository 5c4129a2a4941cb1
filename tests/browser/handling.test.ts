import { expect } from "vitest";
import { graveFaults, test } from "../support/journey.ts";

/** How a route is stored and worked: fetched when it is opened, fit for the thumb, by day and by night. */

const CORN =
  "?crop=drought-corn&moisturePct=80&stubbleCm=15&plantHeightCm=180&yieldTHa=6&routes=dry-hay,wrapped-bales,grazing&dailyNeedKgDm=900";

test.for([
  ["light", "Dry hay"],
  ["dark", "Wrapped bales"],
] as const)("the storing fold on a phone, %s: %s", async ([colorScheme, route], { open }) => {
  const page = await open(CORN, { width: 390, colorScheme, hasTouch: true });
  await page.getByText("How to store and work it").click();
  const fold = page.locator(".handling");
  await fold.locator(".lever").getByLabel(route).check({ force: true });
  await fold.getByRole("heading", { name: "Cutting height" }).waitFor();
  expect(await graveFaults(page, ".handling")).toEqual([]);
  const low = await fold
    .locator("button, input:not([type=radio]), summary")
    .evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.outerHTML),
    );
  expect(low).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
});
