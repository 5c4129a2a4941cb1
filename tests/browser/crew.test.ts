import { readFile } from "node:fs/promises";
import type { Download, Locator, Page } from "playwright";
import { expect } from "vitest";
import { graveFaults, test } from "../support/journey.ts";
import { lettersOfPages } from "../support/pdf-words.ts";

/** The crew's fold, opened, with a plan that is worked out to the end. */
async function openCrew(page: Page): Promise<{ readonly fold: Locator; readonly idle: Locator }> {
  const fold = page.locator(".crew-fold");
  await fold.locator("> summary").click();
  const idle = fold.getByRole("button", { name: "Look for a better plan" });
  await idle.waitFor();
  return { fold, idle };
}

async function saved(page: Page, fold: Locator, button: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent("download") as Promise<Download>,
    fold.getByRole("button", { name: button }).click(),
  ]);
  return readFile(await download.path(), "utf8");
}

/** What the sheets on paper say, a machine a page: the browser that prints is the one that makes the pages here. */
async function sheetsOnPaper(page: Page, fold: Locator): Promise<readonly string[]> {
  await page.evaluate(() => {
    window.print = () => {
      dispatchEvent(new Event("beforeprint"));
      document.body.dataset.printed = "";
    };
  });
  await fold.getByRole("button", { name: "Print a day sheet" }).click();
  await page.locator("body[data-printed]").waitFor({ state: "attached" });
  await page.emulateMedia({ media: "print" });
  // As long as its works are: the next machine's sheet is not printed over it.
  const sheets = page.locator(".crew-paper .crew-sheet");
  expect(await sheets.first().evaluate((sheet) => getComputedStyle(sheet).maxHeight)).toBe("none");
  // Read in a cab: nothing on them is small print.
  const sizes = await page
    .locator(".crew-paper *")
    .evaluateAll((parts) => parts.map((part) => Number.parseFloat(getComputedStyle(part).fontSize)));
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(16);
  const moisture = page.locator(".crew-moisture b").first();
  expect(await moisture.evaluate((part) => Number.parseFloat(getComputedStyle(part).fontSize))).toBe(18);
  await page.emulateMedia({ media: null });
  return lettersOfPages(await page.pdf({ format: "A4" }));
}

test("a contractor's way: a work dragged, given out as dragged, held and planned around, proved, in the book, changed", {
  timeout: 240_000,
}, async ({ open }) => {
  const page = await open("");
  const { fold, idle } = await openCrew(page);
  expect(await fold.locator(".crew-answer").textContent()).toMatch(/^\d of 6 fields in by/);
  expect(await fold.locator(".crew-note").first().textContent()).toMatch(/^Invented demonstration crew/);

  const job = fold.locator('[data-job="long-acre/bale"]').first();
  const planned = await job.getAttribute("aria-label");
  const plainCsv = await saved(page, fold, "CSV");
  await job.scrollIntoViewIfNeeded();
  const box = await job.boundingBox();
  if (box === null) throw new Error("no block");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 50, y, { steps: 4 });
  await page.mouse.up();
  expect(await job.getAttribute("aria-label")).not.toBe(planned);
  await expect.poll(() => fold.locator(".crew-faults").textContent()).toMatch(/That breaks something/);
  expect(await fold.locator(".crew-warned").textContent()).toMatch(
    /as you moved them; .+ cannot be carried out/,
  );

  const csv = await saved(page, fold, "CSV");
  const lineOf = (text: string) =>
    text.split("\n").find((line) => line.startsWith("long-acre,Long acre,bale"));
  expect(lineOf(csv)).not.toBe(lineOf(plainCsv));
  const startLocal = lineOf(csv)?.split(",")[9] ?? "none";
  const calendar = await saved(page, fold, "Calendar file");
  expect(calendar).toContain(`:${startLocal.replaceAll("-", "").replace(" ", "T").replace(":", "")}00`);
  // The table went out once before: a calendar must see that this is newer.
  expect(calendar).toContain("SEQUENCE:1");

  await fold.getByRole("button", { name: "Put all back" }).click();
  expect(await job.getAttribute("aria-label")).toBe(planned);
  await job.focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowRight");
  await fold.getByLabel("Who").selectOption("Driver three");
  expect(await fold.locator(".crew-panel").textContent()).toContain("Baler, Driver three");
  await fold.getByText("1 changed work is not held: it would be planned anew.").waitFor();
  await fold.getByRole("button", { name: "Hold it here" }).click();
  await fold.getByRole("button", { name: "Put the plan into the book" }).click();
  await fold.getByText("version 1.").waitFor();
  const address = await fold.getByLabel("Calendar subscription").inputValue();
  const subscribed = async () => (await page.request.get(address)).text();
  const first = await subscribed();
  expect(first).toContain("BEGIN:VEVENT");
  await fold.getByRole("button", { name: "Plan again around what is held" }).click();
  await idle.waitFor();
  // Held with whom it was given to.
  await expect.poll(() => fold.locator(".crew-panel").textContent()).toMatch(/Baler, Driver three, held/);

  await idle.click();
  await idle.waitFor();
  await expect.poll(() => fold.locator(".crew").textContent()).toMatch(/No plan can be/);
  const comparison = fold.locator("details", { hasText: "Plans compared" }).last();
  await comparison.locator("> summary").click();
  await expect
    .poll(() => comparison.textContent(), { timeout: 20_000 })
    .toMatch(/As promised before: .*Best: .*Robust \(/);
  expect(await graveFaults(page, ".crew-fold")).toEqual([]);

  await fold.getByText("Change fields, machines and people").click();
  await fold.locator(".crew-one > summary", { hasText: "Creek field" }).click();
  await fold.getByRole("checkbox", { name: "Mow" }).first().click();
  expect(await fold.locator(".crew-ops .field-error").textContent()).toMatch(/must begin with mow/);
  expect(await fold.getByRole("button", { name: "Plan with these" }).isDisabled()).toBe(true);
  await fold.getByRole("checkbox", { name: "Mow" }).first().click();
  const area = fold.getByLabel("Area").first();
  await area.fill("0");
  expect(await fold.locator(".field-error").first().textContent()).toMatch(/must be above 0/);
  await area.fill("4");
  // Without its baler from the first day on, the field is out of the plan or moves: the list says so, the calendar follows.
  await fold.locator(".crew-one > summary", { hasText: "Baler" }).click();
  await fold.getByRole("button", { name: "Broken or away" }).click();
  await fold.getByLabel("until").fill("2030-01-01T00:00");
  await fold.getByRole("button", { name: "Plan with these" }).click();
  await idle.waitFor();
  expect(await fold.locator(".crew-note").first().textContent()).toMatch(/^Your crew, kept on this device/);
  await expect.poll(() => fold.locator(".crew-changes").textContent()).toMatch(/What moved:.*baling/);
  await expect.poll(subscribed).toMatch(/STATUS:CANCELLED/);
  const sequence = (text: string) => Number(/SEQUENCE:(\d+)/.exec(text)?.[1]);
  expect(sequence(await subscribed())).toBeGreaterThan(sequence(first));
});

test("on a phone: dragged by thumb or chosen from the list, a bad file changes nothing, sheets on paper", {
  timeout: 180_000,
}, async ({ open }) => {
  const page = await open("", { width: 390, hasTouch: true, colorScheme: "dark" });
  const { fold } = await openCrew(page);
  const work = fold.getByLabel("Work", { exact: true });
  await work.selectOption("long-acre/bale");
  const job = fold.locator('[data-job="long-acre/bale"]').first();
  const planned = await job.getAttribute("aria-label");
  const box = await job.boundingBox();
  if (box === null) throw new Error("no block");
  // Chosen in the list, it was brought into sight.
  expect(box.x).toBeGreaterThan(0);
  expect(box.x + box.width).toBeLessThanOrEqual(390);
  // In sight of the chart stands what was chosen, and from there it goes to where it is changed.
  const line = fold.locator(".crew-chosen");
  expect(await line.textContent()).toMatch(/^Bale Long acre, .*, Baler, Driver/);
  await line.getByRole("button", { name: "Change" }).click();
  expect(await fold.locator(".crew-panel").evaluate((panel) => panel === document.activeElement)).toBe(true);
  await job.scrollIntoViewIfNeeded();
  const at = await job.boundingBox();
  if (at === null) throw new Error("no block");
  const cdp = await page.context().newCDPSession(page);
  const point = (dx: number) => [{ x: at.x + at.width / 2 + dx, y: at.y + at.height / 2 }];
  await cdp.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: point(0) });
  for (const dx of [10, 25, 40])
    await cdp.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: point(dx) });
  await cdp.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await expect.poll(() => job.getAttribute("aria-label")).not.toBe(planned);
  const dragged = await job.getAttribute("aria-label");
  await fold.getByRole("button", { name: "Earlier" }).click();
  expect(await job.getAttribute("aria-label")).not.toBe(dragged);
  await fold.getByRole("button", { name: "Put all back" }).click();

  await fold.getByText("Change fields, machines and people").click();
  const file = fold.locator('input[type="file"]');
  const give = (name: string, text: string) =>
    file.setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  const answer = await fold.locator(".crew-answer").textContent();
  await give("bad.json", '{"sites":{},"fields":[{"id":3}],"machines":[],"people":"x"}');
  await fold.getByText("bad.json was not taken in; your crew is as it was.").waitFor();
  expect(await fold.locator(".crew-wrong").textContent()).toMatch(/people: got "x", must be a list/);
  expect(await fold.locator(".crew-answer").textContent()).toBe(answer);
  expect(await graveFaults(page, ".crew-fold")).toEqual([]);

  const question = await saved(page, fold, "JSON of the question");
  const mowing = (await saved(page, fold, "CSV"))
    .split("\n")
    .find((line) => line.startsWith("long-acre,Long acre,mow"));
  const fixed = [{ fieldId: "long-acre", op: "mow", machineId: "mower-1", startUtc: mowing?.split(",")[7] }];
  const asked = JSON.parse(question);
  const slower = { id: "mower-2", name: "Mower two", kind: "mower", haPerH: 2 };
  const held = JSON.stringify({ ...asked, machines: [...asked.machines, slower], fixed });
  await give("good.json", held.replace('"Long acre"', '"The long acre"'));
  await fold.getByText("good.json was taken in.").waitFor();
  await fold.locator(".crew-name", { hasText: "The long acre" }).waitFor();
  // What the file holds is held here too, and can be let go.
  await work.selectOption("long-acre/mow");
  expect(await fold.locator(".crew-panel").textContent()).toMatch(/, held.*Plan again around what is held/);
  const panel = fold.locator(".crew-panel");
  const withMower = panel.locator("p", { hasText: /^Mow The long acre/ });
  await panel.getByLabel("Machine").selectOption("Mower two");
  // 6 ha at 2 ha/h, at the hour that it had; it stays held, and is checked at once.
  await expect.poll(() => withMower.textContent()).toMatch(/, Mower two, .*, held$/);
  await expect
    .poll(() => fold.locator(".crew-faults").textContent())
    .toMatch(/can be carried out|breaks something/);
  expect(await saved(page, fold, "CSV")).toMatch(/\nlong-acre,The long acre,mow,.*Mower two/);
  await panel.getByLabel("Who").selectOption("Driver three");
  await expect.poll(() => withMower.textContent()).toMatch(/, Mower two, Driver three, held$/);
  await fold.getByRole("button", { name: "Put all back" }).click();
  await expect.poll(() => withMower.textContent()).toMatch(/, Mower, .*, held$/);
  // With a mouse a block is dragged onto the other mower's row.
  const block = fold.locator('[data-job="long-acre/mow"]').nth(1);
  await block.scrollIntoViewIfNeeded();
  const [from, to] = [await block.boundingBox(), await fold.getByText("Mower two").first().boundingBox()];
  if (from === null || to === null) throw new Error("no block, no row");
  await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(from.x + from.width / 2, to.y + to.height / 2, { steps: 4 });
  await page.mouse.up();
  await expect.poll(() => withMower.textContent()).toMatch(/, Mower two, .*, held$/);
  await fold.getByRole("button", { name: "Put all back" }).click();
  await fold.getByRole("button", { name: "Let it go" }).click();
  await fold.getByRole("button", { name: "Plan again", exact: true }).waitFor();
  expect(await fold.locator(".crew-panel").textContent()).not.toContain("held");
  const pages = await sheetsOnPaper(page, fold);
  expect(pages.length).toBeGreaterThanOrEqual(5);
  expect(pages.some((letters) => letters.includes("Baler") && letters.includes("Thelongacre"))).toBe(true);
  expect(pages.some((letters) => letters.includes("baleat"))).toBe(true);
  // The heads of a table stand over it, wherever the page was scrolled to: nothing floats on paper.
  const baler = pages.find((letters) => letters.includes("baleat")) ?? "";
  expect(baler.indexOf("MoistureDone")).toBeLessThan(baler.indexOf("baleat"));
  expect(pages.every((letters) => !letters.includes("Plancutdays"))).toBe(true);
  // The head of every page is the crew's, and the page is itself again when all is printed.
  expect(pages.every((letters) => letters.startsWith("Crewplan,daysheets"))).toBe(true);
  expect(pages.every((letters) => letters.includes("farmtime,America/Chicago"))).toBe(true);
  await page.locator(".crew-paper").waitFor({ state: "detached" });
});
