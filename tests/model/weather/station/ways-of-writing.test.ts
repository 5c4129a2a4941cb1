import { describe, expect, test } from "vitest";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import { readStation } from "../../../../model/weather/station/index.ts";
import { csv, type InventedRow, inventedRows, PLACE, wallText } from "../../../support/invented-station.ts";
import { at, FIRST, file, ROWS, roles, seriesOf, WET } from "./invented-file.ts";

describe("the ways of writing a file", () => {
  const answers = { clock: "standard", label: "start" };
  const standard = (row: InventedRow) => wallText(row.utcMs, "standard");

  test("semicolons, decimal commas, a byte order mark, a row of units, points in the dates", () => {
    const comma = (value: number) => String(value).replace(".", ",");
    const lines = ROWS.map((row) => {
      const [date = "", time = ""] = standard(row).split(" ");
      return [
        date.split("-").reverse().join("."),
        time,
        comma(row.tempC),
        row.humidity,
        comma(row.windMps * 3.6),
        row.solarWm2,
        comma(row.rainMm),
      ].join(";");
    });
    const text = `\uFEFFDatum;Uhrzeit;Lufttemperatur;Luftfeuchte;Windgeschwindigkeit;Globalstrahlung;Niederschlag\r\n;;°C;%;km/h;W/m2;mm\r\n${lines.join("\r\n")}\r\n`;
    const report = readStation(text, { ...PLACE, answers });
    expect(roles(report)).toMatchObject({
      Lufttemperatur: ["airTempC", "°C"],
      Luftfeuchte: ["relHumidityPct", "%"],
      Windgeschwindigkeit: ["windSpeedMps", "km/h"],
      Globalstrahlung: ["solarWm2", "W/m²"],
      Niederschlag: ["rainMm", "mm"],
    });
    expect(at(report, WET.utcMs)).toMatchObject({ rain: 2, tempC: WET.tempC });
    expect(at(report, WET.utcMs).wind).toBeCloseTo(WET.windMps, 3);
    // Line 1 is the header, line 2 the units.
    expect(report.preview[0]?.row).toBe(3);
  });

  test("two header lines, American dates and clock, degF, mph, inches: a home station's export", () => {
    const lines = ROWS.map((row) => {
      const [date = "", time = ""] = standard(row).split(" ");
      const [y, m, d] = date.split("-").map(Number);
      const [h = 0, min = 0] = time.split(":").map(Number);
      const half = h < 12 ? "a" : "p";
      return [
        `${m}/${d}/${y}`,
        `${h % 12 || 12}:${String(min).padStart(2, "0")} ${half}`,
        (row.tempC * 1.8 + 32).toFixed(2),
        row.humidity,
        (row.windMps / 0.44704).toFixed(3),
        (row.rainMm / 25.4).toFixed(4),
        row.solarWm2,
        "---",
      ].join("\t");
    });
    const text = `\t\tTemp\tOut\tWind\t\tSolar\tHi\nDate\tTime\tOut\tHum\tSpeed\tRain\tRad.\tTemp\n${lines.join("\n")}`;
    const report = readStation(text, {
      ...PLACE,
      answers: {
        ...answers,
        "unit.Temp Out": "degF",
        "unit.Wind Speed": "mph",
        "unit.Rain": "inch",
        "unit.Solar Rad.": "Wm2",
      },
    });
    expect(roles(report)).toMatchObject({
      "Temp Out": ["airTempC", "°F"],
      "Out Hum": ["relHumidityPct", "%"],
    });
    const hour = at(report, WET.utcMs);
    expect(hour.rain).toBeCloseTo(2, 2);
    expect(hour.tempC).toBeCloseTo(WET.tempC, 2);
    expect(hour.wind).toBeCloseTo(WET.windMps, 2);
  });

  test("hours counted 1 to 24 name their end; day of the year; 24:00 is the next day", () => {
    const lines = ROWS.map((row) => {
      const end = new Date(row.utcMs - 6 * HOUR_MS + HOUR_MS);
      const hour = end.getUTCHours() === 0 ? 24 : end.getUTCHours();
      const day = new Date(hour === 24 ? end.getTime() - HOUR_MS : end.getTime());
      const doy = Math.floor((day.getTime() - Date.UTC(day.getUTCFullYear(), 0, 1)) / 86_400_000) + 1;
      return [
        day.getUTCFullYear(),
        doy,
        hour,
        row.tempC,
        row.humidity / 100,
        row.windMps,
        (row.solarWm2 * 0.0036).toFixed(4),
        row.rainMm,
      ].join(",");
    });
    const report = readStation(
      csv("Year,DOY,Hour,Air_Temp_C,RH,Wind_Speed_m/s,Solar Radiation (MJ/m2),Precip (mm)", lines),
      {
        ...PLACE,
        answers: { clock: "standard" },
      },
    );
    expect(report.clock.label).toBe("end");
    expect(roles(report).RH).toEqual(["relHumidityPct", "0-1"]);
    expect(report.understood.find(({ column }) => column === "RH")).toMatchObject({ basis: "data" });
    const hour = at(report, WET.utcMs);
    expect(hour).toMatchObject({ rain: 2, tempC: WET.tempC });
    expect(hour.sun).toBeCloseTo(WET.solarWm2, 0);
  });

  test("a counter of rain with its reset at midnight, and a rate", () => {
    let counter = 0;
    const counted = ROWS.map((row) => {
      if (standard(row).endsWith("00:00")) counter = 0;
      counter += row.rainMm;
      return `${standard(row)},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${counter}`;
    });
    const head = "Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2)";
    const total = readStation(csv(`${head},Daily Rain (mm)`, counted), { ...PLACE, answers });
    expect(roles(total)["Daily Rain (mm)"]).toEqual(["rainTotalMm", "mm"]);
    expect(at(total, WET.utcMs).rain).toBe(2);
    expect(seriesOf(total).hours.rainMm.reduce((sum: number, mm) => sum + (mm ?? 0), 0)).toBeCloseTo(4, 6);
    const rates = ROWS.map(
      (row) =>
        `${standard(row)},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${row.rainMm / 25.4}`,
    );
    const rate = readStation(csv(`${head},Hourly Rain (in/hr)`, rates), { ...PLACE, answers });
    expect(roles(rate)["Hourly Rain (in/hr)"]).toEqual(["rainRateMmH", "in/h"]);
    expect(at(rate, WET.utcMs).rain).toBeCloseTo(2, 6);
  });

  test("of several rain columns one is read, and the others say which", () => {
    const lines = ROWS.map(
      (row) =>
        `${standard(row)},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},9,${row.rainMm},99`,
    );
    const report = readStation(
      csv("Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Rain Rate (mm/h),Rain (mm),Yearly Rain (mm)", lines),
      { ...PLACE, answers },
    );
    expect(roles(report)["Rain (mm)"]).toEqual(["rainMm", "mm"]);
    expect(report.understood.find(({ column }) => column === "Rain Rate (mm/h)")).toMatchObject({
      as: "ignored",
      why: "Rain (mm) is read for it",
    });
  });

  test("quarter hours become hours: means of states, sums of rain, and three of four are enough", () => {
    const quarters = inventedRows(FIRST, 12, 15);
    const lines = quarters.map(
      (row) => `${standard(row)},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${row.rainMm}`,
    );
    // One quarter of the hour 200 and two of the hour 201 are not there.
    const text = csv(
      "Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)",
      lines.filter((_, i) => i !== 801 && i !== 804 && i !== 805),
    );
    const report = readStation(text, { ...PLACE, answers });
    expect(at(report, WET.utcMs).rain).toBeCloseTo(2, 6);
    const { hours } = seriesOf(report);
    expect(hours.airTempC[200]).toBeCloseTo(
      quarters
        .slice(800, 804)
        .filter((_, i) => i !== 1)
        .reduce((sum, row) => sum + row.tempC, 0) / 3,
      3,
    );
    expect(hours.airTempC[201]).toBeNull();
    expect(report.gaps[0]).toMatchObject({
      hours: 1,
      columns: expect.arrayContaining(["airTempC", "rainMm"]),
    });
  });

  test("missing codes and words, a trace of rain, 99 %, letters where a number should be", () => {
    const cells = [
      ["-9999", "99", "NA", "0", "T"],
      ["20", "-99", "---", "5", "0"],
      ["x7", "50", "3", "32767", "0.2"],
    ];
    const lines = ROWS.map(
      (row, i) =>
        `${standard(row)},${(cells[i] ?? [row.tempC, row.humidity, row.windMps, row.solarWm2, row.rainMm]).join(",")}`,
    );
    const report = readStation(csv("Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)", lines), {
      ...PLACE,
      answers,
    });
    const { hours } = seriesOf(report);
    expect(hours.airTempC.slice(0, 3)).toEqual([null, 20, null]);
    expect(hours.windSpeedMps.slice(0, 3)).toEqual([null, null, 3]);
    expect(hours.solarWm2?.slice(0, 3)).toEqual([0, 5, null]);
    expect(hours.rainMm.slice(0, 3)).toEqual([0, 0, 0.2]);
    expect(report.problems).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ code: "trace-rain" }),
        expect.objectContaining({ code: "not-a-number", row: 4, value: "x7" }),
      ]),
    );
  });

  test("a file that begins with the newest row, dew point instead of humidity, langleys, knots, inches of mercury", () => {
    const dew = (row: InventedRow) => {
      const e = 0.6108 * Math.exp((17.27 * row.tempC) / (row.tempC + 237.3)) * (row.humidity / 100);
      const x = Math.log(e / 0.6108);
      return (237.3 * x) / (17.27 - x);
    };
    const lines = ROWS.map(
      (row) =>
        `${standard(row)},${row.tempC},${dew(row)},${row.windMps / 0.514444},${row.solarWm2 / 11.63},29.1`,
    ).reverse();
    const report = readStation(
      csv("Time,Temp (C),Dew Point (C),Wind Speed (kn),Solar Radiation (Ly/h),Station Pressure", lines),
      { ...PLACE, answers },
    );
    expect(roles(report)).toMatchObject({
      "Wind Speed (kn)": ["windSpeedMps", "knots"],
      "Solar Radiation (Ly/h)": ["solarWm2", "langley an hour"],
      "Station Pressure": ["pressureHpa", "inHg"],
    });
    const hour = at(report, WET.utcMs);
    expect(hour.humidity).toBeCloseTo(WET.humidity, 1);
    expect(hour.wind).toBeCloseTo(WET.windMps, 3);
    expect(hour.sun).toBeCloseTo(WET.solarWm2, 0);
    expect(report.problems.some(({ code }) => code === "no-rain")).toBe(true);
  });

  test("offsets in the stamps are believed", () => {
    const report = readStation(
      file(ROWS, (row) => `${wallText(row.utcMs - HOUR_MS, "utc").replace(" ", "T")}:00-01:00`),
      { ...PLACE, answers: { label: "start" } },
    );
    expect(report.clock).toMatchObject({ timeZone: "UTC" });
    expect(seriesOf(report).hours.startUtc[0]).toBe(FIRST);
  });

  test("no header at all: the columns are asked for by number", () => {
    const text = file().split("\n").slice(1).join("\n");
    const report = readStation(text, PLACE);
    expect(report.questions.map(({ id }) => id)).toEqual(
      expect.arrayContaining(["column.airTempC", "column.dateTime"]),
    );
    const said = readStation(text, {
      ...PLACE,
      answers: {
        "column.dateTime": "column 1",
        "column.airTempC": "column 2",
        "column.relHumidityPct": "column 3",
        "column.windSpeedMps": "column 4",
        "column.solarWm2": "column 5",
        "as.column 6": "rainMm",
        "unit.column 2": "degC",
        "unit.column 4": "mps",
        "unit.column 5": "Wm2",
        "unit.column 6": "mm",
        clock: "daylight",
        label: "start",
      },
    });
    expect(at(said, WET.utcMs)).toMatchObject({ rain: 2, tempC: WET.tempC });
  });

  test("tenths and UT of the Dutch hourly files; the counter and codes of a western US network", () => {
    const dutch = ROWS.map((row) => {
      const start = new Date(row.utcMs);
      const day = start.toISOString().slice(0, 10).replaceAll("-", "");
      return `  310,${day},${start.getUTCHours() + 1},240,${row.windMps * 10},${Math.round(row.tempC * 10)},${Math.round(row.solarWm2 * 0.36)},${row.rainMm > 0 ? row.rainMm * 10 : -1},${row.humidity}`;
    });
    const report = readStation(csv("# STN,YYYYMMDD,   HH,   DD,   FH,    T,    Q,   RH,    U", dutch), PLACE);
    expect(report.questions).toEqual([]);
    expect(report.clock).toMatchObject({ timeZone: "UTC", label: "end" });
    expect(at(report, WET.utcMs)).toMatchObject({ rain: 2, tempC: WET.tempC, humidity: WET.humidity });
    expect(at(report, WET.utcMs + HOUR_MS).rain).toBe(0);
  });
});
