import type { Page } from "playwright";
import { expect } from "vitest";
import type { ColumnName } from "../../model/weather/index.ts";
import {
  answerTold,
  chooseFile,
  fillPlace,
  graveFaults,
  oddsTold,
  settled,
  test,
  useFile,
} from "../support/journey.ts";
import { readSample } from "../support/samples.ts";

/** The first visit: an answer, its levers, a file of weather, the rows of the board; on a laptop and on a phone. */

const answerOf = (page: Page) => () => answerTold(page);
const FOLDS = [
  "The book",
  "Take a reading",
  "At which chance to cut",
  "How right it was",
  "Routes side by side",
  "How to store and work it",
  "Crew plan:",
  "May it be fed?",
];
const rowsOf = (page: Page) => page.locator("[data-row]");

/** The canonical file of a sample, with what should be changed in a cell. */
function csvOf(id: string, cell: (column: ColumnName, value: number | null, row: number) => string): string {
  const { hours } = readSample(id).series;
  const columns: ColumnName[] = [
    "airTempC",
    "relHumidityPct",
    "windSpeedMps",
    "solarWm2",
    "rainMm",
    "cloudPct",
  ];
  const lines = hours.startUtc.map((startUtc, i) =>
    [startUtc, ...columns.map((column) => cell(column, hours[column]?.[i] ?? null, i))].join(","),
  );
  return `${[["startUtc", ...columns].join(","), ...lines].join("\n")}\n`;
}

test("opens on an answer in the farm's time, and says that it is invented", async ({ open }) => {
  const page = await open("", { allDraws: true });
  const answer = answerOf(page);
  const text = await answer();
  expect(text).toContain("Cut Creek field Saturday 09:00.");
  expect(text).toContain("America/Chicago");
  expect(text).toMatch(/\d+ to \d+\sh/);
  expect(text).toContain("One forecast, no spread yet");
  expect(await page.getByText("Invented demonstration farm and weather").isVisible()).toBe(true);
  expect(await rowsOf(page).count()).toBeGreaterThan(3);
  // An answer and one line, then the board.
  expect((await page.locator(".board").boundingBox())?.y).toBeLessThan(320);
  expect(await page.locator(".cautions").textContent()).toMatch(/Insurer or adjuster told\?/);
});

test("levers: another swath width gives another answer; a wrong moisture is told beside its field, and all stays", async ({
  open,
}) => {
  const page = await open();
  await oddsTold(page);
  const answer = answerOf(page);
  const first = await answer();
  await page.getByLabel("Swath width").fill("0.9");
  await page.getByText("The swath covers 30 % of the cut.").waitFor();
  await expect.poll(answer).not.toBe(first);
  await oddsTold(page);
  const before = await answer();
  const field = page.getByLabel("Moisture at cutting");
  await field.fill("0.78");
  const error = page.locator(".field.wrong .field-error");
  expect(await error.textContent()).toMatch(
    /Got 0\.78, must be at least 5 and at most 92 %\. Did you mean 78\?/,
  );
  expect(await field.getAttribute("aria-invalid")).toBe("true");
  expect(await field.inputValue()).toBe("0.78");
  await page.waitForTimeout(400);
  expect(await answer()).toBe(before);
  expect(await rowsOf(page).count()).toBeGreaterThan(3);
  await field.fill("78");
  await error.waitFor({ state: "detached" });
});

test("files: a wrong place and a wrong cell are told and nothing is lost; a good file without rain gives a board", async ({
  open,
}) => {
  const page = await open();
  await oddsTold(page);
  const answer = answerOf(page);
  const before = await answer();
  let sent = 0;
  page.on("request", (request) => {
    if (request.url().includes("/api/weather/check")) sent++;
  });
  await page.getByLabel("Latitude").fill("444");
  await page.getByLabel("Time zone of the farm").fill("Mars/Olympus");
  await page.getByRole("button", { name: "Read the file" }).click();
  const own = await page.locator("#own").textContent();
  expect(own).toMatch(/Got 444, must be at least -90 and at most 90/);
  expect(own).toMatch(/Got "Mars\/Olympus", must be an IANA zone name/);
  expect(own).toMatch(/No file is chosen/);
  expect(sent).toBe(0);

  await fillPlace(page);
  await chooseFile(
    page,
    "wrong.csv",
    csvOf("settled-dry", (column, value, row) =>
      column === "airTempC" && row === 4 ? "99" : String(value ?? ""),
    ),
  );
  const problems = page.locator(".problems.wrong");
  await problems.waitFor();
  const text = await problems.textContent();
  expect(text).toContain("wrong.csv was not used");
  expect(text).toMatch(/Row 6, column airTempC, value 99.*at least -60 and at most 60 °C/);
  expect(await answer()).toBe(before);

  const otherName = csvOf("settled-dry", (_column, value) => String(value ?? "")).replace(
    "rainMm",
    "rain_mm",
  );
  await chooseFile(page, "other-name.csv", otherName);
  const question = page.locator(".question");
  await question.waitFor();
  expect(await question.textContent()).toContain("Does rain_mm hold the rain of each hour in mm?");
  expect(await page.locator(".problems.wrong").textContent()).toContain("is not used yet: a question stands");
  expect(await answer()).toBe(before);
  await question.getByLabel("rain_mm", { exact: true }).check();
  await page.getByRole("button", { name: "Use this weather" }).click();
  await page.locator(".weather-bar").getByText("Your file: other-name.csv").waitFor();
  await question.waitFor({ state: "detached" });

  await useFile(
    page,
    "own.csv",
    csvOf("showers-every-other-day", (column, value) => (column === "rainMm" ? "" : String(value ?? ""))),
  );
  await page.locator(".chip.warn").getByText("No rain in this weather: assumed dry").waitFor();
  expect(await page.getByText("Invented demonstration farm and weather").count()).toBe(0);
  expect(await page.locator(".chip.warn").allTextContents()).toContain(
    "Field and crop are still the invented demonstration's",
  );
  expect(await rowsOf(page).count()).toBeGreaterThan(3);
  expect(await page.locator(".problems").textContent()).toMatch(/own\.csv is used/);
});

test("rows: one is chosen with the keyboard, answer and course follow; another sample gives another answer", async ({
  open,
}) => {
  const page = await open();
  await oddsTold(page);
  const answer = answerOf(page);
  const before = await answer();
  await page.locator('[data-row][tabindex="0"]').focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect.poll(answer).not.toBe(before);
  expect(await page.locator(".answer h1").textContent()).toMatch(/^If Creek field is cut /);
  await page.getByRole("button", { name: /^Best: cut/ }).click();
  await expect.poll(answer).toBe(before);
  await page.getByLabel("Weather", { exact: true }).selectOption("settled-dry");
  await expect.poll(answer).toMatch(/Cut Creek field Monday \d\d:00\./);
});

test("rows: the heavy frame goes where the choice goes, also as the chances come", async ({ open }) => {
  const page = await open("?weather=settled-dry");
  const heavy = () =>
    page.locator(".row-frame").evaluateAll((frames) =>
      frames.flatMap((frame) => {
        const row = frame.closest(".board-row");
        const isHeavy = getComputedStyle(frame).strokeWidth === "2.4px";
        return isHeavy ? [row?.querySelector(".hour-block") ? "chosen" : row?.textContent] : [];
      }),
    );
  await oddsTold(page);
  await expect.poll(heavy).toEqual(["chosen"]);
  const rows = page.locator("[data-row]");
  for (const row of [(await rows.count()) - 1, 1, 0]) {
    await rows.nth(row).click({ position: { x: 24, y: 20 } });
    await settled(page);
    await expect.poll(heavy).toEqual(["chosen"]);
  }
});

test("no serious fault of accessibility, also with errors shown", async ({ open }) => {
  const page = await open();
  await page.getByLabel("Moisture at cutting").fill("0.78");
  await page.locator(".field.wrong").waitFor();
  await page.getByText("How it is worked out").click();
  expect(await graveFaults(page)).toEqual([]);
});

test("fits a phone of 390 px, with targets for a thumb", async ({ open }) => {
  const page = await open("", { width: 390 });
  const width = () => page.evaluate(() => document.documentElement.scrollWidth);
  expect(await width()).toBeLessThanOrEqual(390);
  const small = await page.evaluate(() =>
    [
      ...document.querySelectorAll(
        "input:not([type=radio], [type=checkbox]), select, .upload .main, .check, summary",
      ),
    ]
      .filter((element) => element.checkVisibility() && element.getBoundingClientRect().height < 43.5)
      .map((element) => element.outerHTML.slice(0, 80)),
  );
  expect(small).toEqual([]);
  await page.getByLabel("Moisture at cutting").fill("0.78");
  await page.locator(".field.wrong").waitFor();
  expect(await width()).toBeLessThanOrEqual(390);
});

test("every folded section of a phone's page opens, and the page goes on answering", async ({ open }) => {
  const page = await open("", { width: 390 });
  await oddsTold(page);
  for (const name of FOLDS) {
    const fold = page.locator("details", { has: page.locator(`:scope > summary:has-text("${name}")`) });
    await fold.locator(":scope > summary").click();
    await expect
      .poll(() => fold.textContent())
      .toMatch(/^(?!.*being fetched)(?!.*could not be fetched).{120}/s);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  const before = await answerOf(page)();
  await page.getByLabel("Weather", { exact: true }).selectOption("settled-dry");
  await expect.poll(answerOf(page)).not.toBe(before);
});
