import { expect } from "vitest";
import { csv, inventedRows, wallText } from "../support/invented-station.ts";
import { chooseFile, fillPlace, graveFaults, settled, test } from "../support/journey.ts";

/** The file that a station wrote: what was understood is looked at and corrected before it is used, and remembered. */

const FILE = csv(
  "Time,Temp,Humidity (%),Wind (km/h),Solar Rad (W/m2),Rain (mm)",
  inventedRows("2026-06-10T05:00:00Z", 12).map((row) =>
    [
      wallText(row.utcMs, "daylight"),
      Math.round((row.tempC * 1.8 + 32) * 10) / 10,
      row.humidity,
      row.windMps * 3.6,
      row.solarWm2,
      row.rainMm,
    ].join(","),
  ),
);

test("a station's file: a question, the columns with their reasons, the first rows; used on the second press; the next one needs no question", async ({
  open,
}) => {
  const page = await open("", { width: 390 });
  const sent: string[] = [];
  page.on("request", (request) => {
    if (request.method() === "POST") sent.push(request.url());
  });
  await fillPlace(page, { windHeightM: "2" });
  const press = () => page.getByRole("button", { name: "Use this weather" }).click();
  await chooseFile(page, "station.csv", FILE);
  const questions = page.locator(".questions");
  await questions.waitFor();
  expect(await questions.textContent()).toContain("In which unit is Temp?");
  const understood = page.locator(".understood");
  expect(await understood.textContent()).toMatch(/288 rows, 5 columns of weather/);
  await questions.getByLabel("°F", { exact: true }).check();
  await questions.waitFor({ state: "detached" });
  await page.getByText("Look at what was understood, then use this weather.").waitFor();
  expect(await understood.locator("tr", { hasText: "Wind (km/h)" }).textContent()).toMatch(
    /by the header: its name and unit/,
  );
  expect(await understood.textContent()).toMatch(/clear days the radiation's middle stands/);
  expect(await understood.getByLabel("Unit of Temp").inputValue()).toBe("degF");
  expect(await graveFaults(page, "#own")).toEqual([]);
  await press();
  const bar = page.locator(".weather-bar");
  await expect.poll(() => bar.textContent()).toContain("Your file: station.csv");
  await settled(page);
  expect(await page.locator("[data-row]").count()).toBeGreaterThan(3);

  // What was said of this header is remembered by the device.
  await chooseFile(page, "station.csv", FILE);
  await page.getByText("Look at what was understood, then use this weather.").waitFor();
  expect(await understood.getByLabel("Unit of Temp").inputValue()).toBe("degF");
  // And can be taken back: rain as a counter is another rain.
  await understood.getByLabel("What Rain (mm) is").selectOption("rainTotalMm");
  await expect
    .poll(() => understood.locator("tr", { hasText: "Rain (mm)" }).textContent())
    .toContain("by you");
  expect(sent).toEqual([]);
});
