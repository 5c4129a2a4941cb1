import { expect } from "vitest";
import { graveFaults, test } from "../support/journey.ts";

test("a contractor's way: the plan, a work moved and held, planned around, proved, told, written, changed and kept", {
  timeout: 90_000,
}, async ({ open }) => {
  const page = await open("");
  page.setDefaultTimeout(30_000);
  const fold = page.locator(".crew-fold");
  await fold.locator("> summary").click();
  const idle = fold.getByRole("button", { name: "Look for a better plan" });
  await idle.waitFor();
  expect(await fold.locator(".crew-answer").textContent()).toMatch(/^\d of 6 fields in by/);
  expect(await fold.locator(".crew-note").first().textContent()).toMatch(/^Invented demonstration crew/);

  const job = fold.locator('[data-job$="/bale"]').first();
  const before = await job.getAttribute("aria-label");
  await job.focus();
  for (let i = 0; i < 8; i++) await page.keyboard.press("ArrowLeft");
  expect(await job.getAttribute("aria-label")).not.toBe(before);
  await expect.poll(() => fold.locator(".crew-faults").textContent()).toMatch(/That breaks something/);
  await fold.getByRole("button", { name: "Put all back" }).click();
  await page.keyboard.press("Tab");
  await job.focus();
  await page.keyboard.press("Enter");
  await fold.getByRole("button", { name: "Hold it here" }).click();
  await fold.getByRole("button", { name: "Plan again around what is held" }).click();
  await idle.waitFor();

  await idle.click();
  await idle.waitFor();
  expect(await fold.locator(".crew").textContent()).toMatch(/No plan can be/);
  const saved = page.waitForEvent("download");
  await fold.getByRole("button", { name: "Calendar file" }).click();
  expect((await saved).suggestedFilename()).toBe("crew-plan.ics");
  expect(await graveFaults(page, ".crew-fold")).toEqual([]);

  await fold.getByText("Change fields, machines and people").click();
  const area = fold.getByLabel("Area").first();
  await area.fill("0");
  expect(await fold.locator(".field-error").first().textContent()).toMatch(/must be above 0/);
  await area.fill("4");
  await fold.getByRole("button", { name: "Plan with these" }).click();
  expect(await fold.locator(".crew-note").first().textContent()).toMatch(/^Your crew, kept on this device/);
});
