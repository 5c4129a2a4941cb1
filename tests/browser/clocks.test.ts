import { expect } from "vitest";
import { fillPlace, settled, test, useFile } from "../support/journey.ts";
import { readSample } from "../support/samples.ts";

/** Weather over the two days a year on which the farm's clock is changed; the browser stands in a third zone. */

const ZONE = "America/Chicago";
const HOUR_MS = 3_600_000;

/** A dry spell put on other dates: its hours of UTC stay, so that day and night stay where they are. */
function spellFrom(firstUtc: string): string {
  const { hours } = readSample("settled-dry").series;
  const from = Date.parse(firstUtc);
  const lines = hours.startUtc.map((_, i) =>
    [
      new Date(from + i * HOUR_MS).toISOString().replace(".000Z", "Z"),
      hours.airTempC[i],
      hours.relHumidityPct[i],
      hours.windSpeedMps[i],
      // The spell is one of June; a weaker sun keeps it under a clear sky's in March and November.
      Math.round((hours.solarWm2?.[i] ?? 0) * 0.6),
      hours.rainMm?.[i],
    ].join(","),
  );
  return `startUtc,airTempC,relHumidityPct,windSpeedMps,solarWm2,rainMm\n${lines.join("\n")}\n`;
}

/** The cut as calendar and clock on the farm's wall show it, by the platform's own and not by ours. */
function wallClock(utc: string): RegExp {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone: ZONE,
    weekday: "long",
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  }).formatToParts(new Date(utc));
  const of = (type: string) => parts.find((part) => part.type === type)?.value;
  const date = `( ${of("day")} ${of("month")}( ${of("year")})?)?`;
  return new RegExp(`^Cut ${of("weekday")}${date} ${of("hour")}:${of("minute")}\\b`);
}

for (const [what, firstUtc, days, changeDay, dayBefore, dayHours] of [
  [
    "is set forward",
    "2026-03-05T06:00:00Z",
    ["Sat 7", "Sun 8", "Mon 9"],
    "Sunday 8 Mar",
    "Saturday 7 Mar",
    23,
  ],
  [
    "is set back",
    "2026-10-29T05:00:00Z",
    ["Sat 31", "Sun 1", "Mon 2"],
    "Sunday 1 Nov",
    "Saturday 31 Oct",
    25,
  ],
] as const) {
  test(`a board over the day on which the clock ${what}: every time is the farm's, and the day has ${dayHours} hours`, async ({
    open,
  }) => {
    const page = await open("", { timezoneId: "Australia/Lord_Howe" });
    await fillPlace(page, { latitude: "12", longitude: "-92" });
    await useFile(page, "spell.csv", spellFrom(firstUtc));
    await page.locator('.sample-picker option:text("Your file: spell.csv")').waitFor({ state: "attached" });
    await settled(page);
    const rows = await page.locator("[data-row]").evaluateAll((all) =>
      all.map((row) => ({
        id: row.getAttribute("data-row") ?? "",
        label: row.getAttribute("aria-label") ?? "",
      })),
    );
    expect(rows.length).toBeGreaterThan(5);
    const cuts = rows.flatMap(({ id, label }) => {
      const utc = /\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z/.exec(id)?.[0];
      return utc === undefined ? [] : [{ utc, label }];
    });
    expect(cuts.length).toBeGreaterThan(5);
    for (const { utc, label } of cuts) expect(label).toMatch(wallClock(utc));
    for (const { label } of cuts) expect(label).toMatch(/^Cut \w+day .*?(09|13|17):00/);

    const columns = await page.locator(".board-picture svg").textContent();
    for (const day of days) expect(columns).toContain(day);
    const strips = await page.locator(".rain-button").evaluateAll((all) =>
      all.slice(1).map((one) => ({
        label: one.getAttribute("aria-label") ?? "",
        width: Number.parseFloat((one as HTMLElement).style.width),
      })),
    );
    const widthOf = (day: string) => strips.find(({ label }) => label.includes(day))?.width ?? Number.NaN;
    expect(widthOf(changeDay) / widthOf(dayBefore)).toBeCloseTo(dayHours / 24, 2);
  });
}
