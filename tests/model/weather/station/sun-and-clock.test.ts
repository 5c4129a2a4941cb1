import { describe, expect, test } from "vitest";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import { readStation } from "../../../../model/weather/station/index.ts";
import { inventedRows, PLACE, SITE, wallText } from "../../../support/invented-station.ts";
import { at, FIRST, file, ROWS, seriesOf, WET } from "./invented-file.ts";

describe("the sun tells clock and label, with basis data", () => {
  test.each([
    ["utc", "start"],
    ["utc", "end"],
    ["standard", "start"],
    ["standard", "end"],
    ["daylight", "end"],
  ] as const)("%s, named by the %s", (clock, label) => {
    const shift = label === "end" ? HOUR_MS : 0;
    const report = readStation(
      file(ROWS, (row) => wallText(row.utcMs + shift, clock)),
      PLACE,
    );
    expect(report.questions).toEqual([]);
    // By the same sun, summer time with one label is standard time with the other: the hours are the same.
    expect(at(report, WET.utcMs)).toMatchObject({ rain: 2, tempC: WET.tempC, wind: WET.windMps });
    const time = report.understood.find(({ column }) => column === "Timestamp");
    expect(time?.basis).toBe("data");
    expect(time?.why).toMatch(/on \d+ clear days the radiation's middle stands/);
    expect(Math.abs(report.clock.centroidH ?? 9)).toBeLessThan(0.7);
  });

  test("a whole year proves daylight saving by the step between the seasons", () => {
    const year = inventedRows("2025-01-01T06:00:00Z", 365);
    const report = readStation(file(year), PLACE);
    expect(report.clock).toMatchObject({ dst: true, label: "start", timeZone: SITE.timeZone });
    expect(report.understood[0]?.why).toMatch(/from winter to summer time it moves by \+1\.0/);
    const standard = readStation(
      file(year, (row) => wallText(row.utcMs, "standard")),
      PLACE,
    );
    expect(standard.clock).toMatchObject({ dst: false, label: "start" });
    // The hour that autumn shows twice stands there twice, so nothing is lost; the one that spring skips is not.
    expect(report.problems.filter(({ code }) => code === "lost-hour" || code === "skipped-hour")).toEqual([]);
    expect(seriesOf(report).hours.startUtc).toHaveLength(365 * 24);
  });

  test("rows of their moment: an hour is the mean of its two ends", () => {
    const instants = inventedRows(FIRST, 12).map((row, i, all) => ({
      ...row,
      solarWm2: ((all[i - 1]?.solarWm2 ?? 0) + row.solarWm2) / 2,
    }));
    const report = readStation(
      file(instants, (row) => wallText(row.utcMs, "standard")),
      PLACE,
    );
    expect(report.clock.label).toBe("instant");
    const [a, b] = [instants[50], instants[51]];
    expect(at(report, a?.utcMs ?? 0).tempC).toBeCloseTo(((a?.tempC ?? 0) + (b?.tempC ?? 0)) / 2, 4);
  });

  test("what the data say can be corrected", () => {
    const report = readStation(file(), { ...PLACE, answers: { clock: "utc", label: "start" } });
    expect(report.clock).toMatchObject({ timeZone: "UTC", dst: false, label: "start" });
    expect(report.understood[0]?.basis).toBe("user");
    expect(at(report, WET.utcMs - 5 * HOUR_MS).rain).toBe(2);
  });

  test("without sun enough, clock and label are asked for", () => {
    const report = readStation(file(ROWS.slice(0, 30)), PLACE);
    expect(report.series).toBeNull();
    expect(report.questions.map(({ id }) => id)).toEqual(["clock"]);
    const next = readStation(file(ROWS.slice(0, 30)), { ...PLACE, answers: { clock: "daylight" } });
    expect(next.questions.map(({ id }) => id)).toEqual(["label"]);
    const done = readStation(file(ROWS.slice(0, 30)), {
      ...PLACE,
      answers: { clock: "daylight", label: "start" },
    });
    expect(seriesOf(done).hours.startUtc[0]).toBe(FIRST);
  });

  test("a longitude of the wrong sign is told", () => {
    const report = readStation(file(), { ...PLACE, site: { ...SITE, longitude: 98.2 } });
    expect(report.questions[0]?.ask).toMatch(/no clock fits\. Check clock, longitude and time zone/);
  });
});

describe("the clock is changed within the file", () => {
  test("the doubled hour is both, a hidden one is told, a skipped one cannot have been", () => {
    const autumn = inventedRows("2026-10-31T05:00:00Z", 3);
    const answers = { clock: "daylight", label: "start" };
    const whole = readStation(file(autumn), { ...PLACE, answers });
    expect(seriesOf(whole).hours.startUtc).toHaveLength(72);
    expect(seriesOf(whole).hours.airTempC.includes(null)).toBe(false);
    const lost = readStation(file(autumn.filter((_, i) => i !== 26)), { ...PLACE, answers });
    expect(lost.problems.some(({ code }) => code === "lost-hour")).toBe(true);
    expect(seriesOf(lost).hours.airTempC[26]).toBeNull();
    const spring = inventedRows("2026-03-07T06:00:00Z", 3);
    const impossible = file(spring, (row) => wallText(row.utcMs, "standard"));
    const told = readStation(impossible, { ...PLACE, answers });
    expect(told.problems.find(({ code }) => code === "skipped-hour")?.message).toMatch(
      /set forward over this hour/,
    );
  });
});
