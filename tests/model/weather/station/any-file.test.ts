import fc from "fast-check";
import { expect, test } from "vitest";
import { readStation, readWeatherFile } from "../../../../model/weather/station/index.ts";
import { inventedRows, PLACE } from "../../../support/invented-station.ts";
import { file, ROWS } from "./invented-file.ts";

test("a year of hours in under a second, a year of five minutes in under five, with progress", () => {
  const time = (text: string) => {
    const shares: number[] = [];
    const before = performance.now();
    const report = readStation(text, PLACE, (share) => shares.push(share));
    expect(report.questions).toEqual([]);
    expect(report.series).not.toBeNull();
    expect(shares.at(-1)).toBe(1);
    expect(shares.length).toBeGreaterThan(5);
    return performance.now() - before;
  };
  const hourly = time(file(inventedRows("2025-01-01T06:00:00Z", 365)));
  const fine = time(file(inventedRows("2025-01-01T06:00:00Z", 365, 5)));
  expect(hourly).toBeLessThan(1000);
  expect(fine).toBeLessThan(5000);
});

test("the same header has the same key, another has not", () => {
  const key = readStation(file(), PLACE).headerKey;
  expect(readStation(file(ROWS.slice(0, 50)), PLACE).headerKey).toBe(key);
  expect(readStation(file().replace("Rain", "Regen"), PLACE).headerKey).not.toBe(key);
});

test("any bytes yield a report, never an exception", () => {
  const cell = fc.oneof(
    fc.string({ maxLength: 8 }),
    fc.double().map(String),
    fc.constantFrom("2026-06-10 05:00", "NA", "-9999", "24:00", '"', "\0", "12/31/2026"),
  );
  const header = fc.constantFrom(
    "Timestamp",
    "Date",
    "Time",
    "Hour",
    "YEAR",
    "Temp (C)",
    "OB",
    "WS",
    "RH",
    "Rain (mm)",
    "Solar",
    "startUtc",
    "airTempC",
    "#",
    "",
  );
  const table = fc
    .tuple(
      fc.constantFrom(",", ";", "\t", "|", " "),
      fc.array(header, { minLength: 1, maxLength: 8 }),
      fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 12 }),
    )
    .map(([sign, names, rows]) => [names, ...rows].map((row) => row.join(sign)).join("\n"));
  const soup = fc.oneof(fc.string({ maxLength: 400 }), fc.string({ unit: "binary", maxLength: 200 }), table);
  fc.assert(
    fc.property(
      soup,
      fc.dictionary(
        fc.constantFrom("clock", "label", "dateOrder", "as.Temp (C)", "unit.RH", "column.airTempC"),
        fc.string({ maxLength: 6 }),
      ),
      (text, said) => {
        const report = readWeatherFile(text, { ...PLACE, stationAnswers: said });
        expect(Array.isArray(report.problems)).toBe(true);
        if (report.series === null)
          expect(report.questions.length + report.problems.length).toBeGreaterThan(0);
      },
    ),
    { seed: 21, numRuns: 250 },
  );
});
