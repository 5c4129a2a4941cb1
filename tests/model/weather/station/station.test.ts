import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import { readStation, readWeatherFile, type StationReport } from "../../../../model/weather/station/index.ts";
import {
  csv,
  type InventedRow,
  inventedRows,
  PLACE,
  SITE,
  wallText,
} from "../../../support/invented-station.ts";

const FIRST = "2026-06-10T05:00:00Z";
const ROWS = inventedRows(FIRST, 12);
const HEADER = "Timestamp,Outdoor Temperature (°C),Humidity (%),Wind (m/s),Solar (W/m²),Rain (mm)";

/** A file of hourly rows that is named by the start of its hours, on the local clock. */
function file(
  rows: readonly InventedRow[] = ROWS,
  time: (row: InventedRow) => string = (row) => wallText(row.utcMs, "daylight"),
): string {
  return csv(
    HEADER,
    rows.map((row) => [time(row), row.tempC, row.humidity, row.windMps, row.solarWm2, row.rainMm].join(",")),
  );
}

const roles = (report: StationReport) =>
  Object.fromEntries(
    report.understood
      .filter(({ as }) => as !== "ignored")
      .map(({ column, as, unit }) => [column, [as, unit]]),
  );

function seriesOf(report: StationReport) {
  if (report.series === null)
    throw new Error(
      JSON.stringify([report.questions, report.problems.filter(({ severity }) => severity === "error")]),
    );
  return report.series;
}

/** The hour of a series that starts at a moment. */
function at(report: StationReport, utcMs: number) {
  const { hours } = seriesOf(report);
  const i = (utcMs - Date.parse(hours.startUtc[0] ?? "")) / HOUR_MS;
  return {
    tempC: hours.airTempC[i],
    humidity: hours.relHumidityPct?.[i],
    wind: hours.windSpeedMps[i],
    sun: hours.solarWm2?.[i],
    rain: hours.rainMm[i],
  };
}

const WET = ROWS[100];
if (!WET) throw new Error("no wet row");

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

describe("nothing ambiguous is guessed", () => {
  const plain = (head: string) =>
    csv(
      head,
      ROWS.map(
        (row) =>
          `${wallText(row.utcMs, "standard")},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${row.rainMm}`,
      ),
    );

  test("units that the file does not say are asked for, each by its column", () => {
    const report = readStation(plain("Time,Temp,RH,Wind Speed,Solar,Rain"), PLACE);
    expect(report.questions.map(({ id }) => id)).toEqual([
      "unit.Temp",
      "unit.Wind Speed",
      "unit.Solar",
      "unit.Rain",
    ]);
    expect(report.questions[0]?.choices.slice(0, 2)).toEqual(["degC", "degF"]);
    expect(report.series).toBeNull();
  });

  test("day and month: told apart where a day above 12 occurs, else asked for", () => {
    const rows = ROWS.slice(0, 40);
    const dated = (order: "dmy" | "mdy", shift: number) =>
      file(rows, (row) => {
        const [date = "", time] = wallText(row.utcMs + shift, "standard").split(" ");
        const [y, m, d] = date.split("-");
        return `${order === "dmy" ? `${d}/${m}` : `${m}/${d}`}/${y} ${time}`;
      });
    const answers = { clock: "standard", label: "start" };
    const early = -6 * 86_400_000;
    expect(readStation(dated("dmy", early), { ...PLACE, answers }).questions.map(({ id }) => id)).toEqual([
      "dateOrder",
    ]);
    for (const order of ["dmy", "mdy"] as const) {
      const said = readStation(dated(order, early), { ...PLACE, answers: { ...answers, dateOrder: order } });
      expect(Date.parse(seriesOf(said).hours.startUtc[0] ?? "")).toBe(Date.parse(FIRST) + early);
      const found = readStation(dated(order, 6 * 86_400_000), { ...PLACE, answers });
      expect(Date.parse(seriesOf(found).hours.startUtc[0] ?? "")).toBe(Date.parse(FIRST) + 6 * 86_400_000);
    }
  });

  test("degrees C by the header that look like F are asked about", () => {
    const text = csv(
      "Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2)",
      ROWS.map(
        (row) =>
          `${wallText(row.utcMs, "standard")},${Math.round((row.tempC - 14) * 1.8 + 32)},${row.humidity},${row.windMps},${row.solarWm2}`,
      ),
    );
    const report = readStation(text, { ...PLACE, answers: { clock: "standard", label: "start" } });
    expect(report.questions).toEqual([expect.objectContaining({ id: "unit.Temp (C)" })]);
    const said = readStation(text, {
      ...PLACE,
      answers: { clock: "standard", label: "start", "unit.Temp (C)": "degF" },
    });
    expect(said.series).not.toBeNull();
  });

  test("daily values, and months of different years, are refused in words", () => {
    const daily = csv(
      "Date,Temp (C),RH (%),Wind (m/s),Solar (W/m2)",
      Array.from({ length: 9 }, (_, i) => `2026-06-${String(i + 10)},20,50,3,250`),
    );
    expect(readStation(daily, PLACE).problems[0]?.message).toMatch(
      /1 days apart; they must be an hour apart or less/,
    );
    const mixed = [
      ...ROWS.slice(0, 100).map((row) => ({ ...row, utcMs: row.utcMs + 3 * 365 * 86_400_000 })),
      ...ROWS.slice(100),
    ];
    expect(
      readStation(file(mixed), { ...PLACE, answers: { clock: "daylight", label: "start" } }).problems.map(
        ({ code }) => code,
      ),
    ).toContain("not-increasing");
  });

  test("a counter under a plain name is read as one, by its data; the user may say otherwise", () => {
    let counter = 79.7;
    const lines = ROWS.map((row) => {
      counter += row.rainMm;
      return `${wallText(row.utcMs, "standard")},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${counter}`;
    });
    const text = csv("Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)", lines);
    const answers = { clock: "standard", label: "start" };
    const report = readStation(text, { ...PLACE, answers });
    expect(report.understood.find(({ column }) => column === "Rain (mm)")).toMatchObject({
      as: "rainTotalMm",
      unit: "mm",
      basis: "data",
    });
    expect(seriesOf(report).hours.rainMm.reduce((sum: number, mm) => sum + (mm ?? 0), 0)).toBeCloseTo(4, 6);
    const said = readStation(text, { ...PLACE, answers: { ...answers, "as.Rain (mm)": "rainMm" } });
    expect(roles(said)["Rain (mm)"]).toEqual(["rainMm", "mm"]);
  });

  test("a counter that dips by a tip: noise, told; one that may be either is asked", () => {
    const line = (row: InventedRow, rain: number) =>
      `${wallText(row.utcMs, "standard")},${row.tempC},${row.humidity},${row.windMps},${row.solarWm2},${rain}`;
    const head = "Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2)";
    const answers = { clock: "standard", label: "start" };
    const dips = ROWS.map((row, i) => line(row, i % 40 === 7 ? 1.99 : 2));
    const noisy = readStation(csv(`${head},Total Rain (in)`, dips), { ...PLACE, answers });
    expect(seriesOf(noisy).hours.rainMm.reduce((sum: number, mm) => sum + (mm ?? 0), 0)).toBe(0);
    expect(noisy.problems.map(({ code }) => code)).toContain("counter-noise");
    const daily = ROWS.map((row, i) => line(row, i % 24 < 14 ? 0 : Math.floor((i % 24) / 2)));
    const asked = readStation(csv(`${head},Rain (mm)`, daily), { ...PLACE, answers });
    expect(asked.questions).toMatchObject([{ id: "as.Rain (mm)", choices: ["rainMm", "rainTotalMm"] }]);
  });

  test("a fraction with a code for missing values among it is still a fraction", () => {
    const lines = ROWS.map(
      (row, i) =>
        `${wallText(row.utcMs, "standard")},${row.tempC},${i === 50 ? 999 : row.humidity / 100},${row.windMps},${row.solarWm2},${row.rainMm}`,
    );
    const report = readStation(csv("Time,Temp (C),RH,Wind (m/s),Solar (W/m2),Rain (mm)", lines), {
      ...PLACE,
      answers: { clock: "standard", label: "start" },
    });
    expect(roles(report).RH).toEqual(["relHumidityPct", "0-1"]);
    expect(seriesOf(report).hours.relHumidityPct?.[51]).toBeCloseTo(ROWS[51]?.humidity ?? 0, 6);
    expect(report.problems.map(({ code }) => code)).toContain("missing-code");
  });

  test("a column said to be another quantity keeps the unit of its header", () => {
    const report = readStation(plain("Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Gauge (in)"), {
      ...PLACE,
      answers: { clock: "standard", label: "start", "as.Gauge (in)": "rainMm" },
    });
    expect(report.questions).toEqual([]);
    expect(roles(report)["Gauge (in)"]).toEqual(["rainMm", "in"]);
  });

  test("an answer for a column that is not there names it and those that are", () => {
    const report = readStation(file(), {
      ...PLACE,
      answers: { clock: "daylight", label: "start", "unit.nonsense": "degC", "column.airTempC": "Tmp" },
    });
    const told = report.problems.filter(({ code }) => code === "unknown-answer");
    expect(told.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^unit\.nonsense: the file has no column "nonsense"; it has Timestamp, Outdoor/),
      expect.stringMatching(/^column\.airTempC: the file has no column "Tmp"; it has /),
    ]);
  });

  test("a cell is shown as the file has it; what no machine can hold is no number", () => {
    const cells = new Map([
      [5, "212"],
      [6, "1e999"],
      [7, "999"],
    ]);
    const lines = ROWS.map(
      (row, i) =>
        `${wallText(row.utcMs, "standard")},${cells.get(i) ?? row.tempC * 1.8 + 32},${row.humidity},${row.windMps},${row.solarWm2},${row.rainMm}`,
    );
    const report = readStation(csv("Time,Temp (F),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)", lines), {
      ...PLACE,
      answers: { clock: "standard", label: "start" },
    });
    const messages = report.problems.map(({ message }) => message);
    expect(messages).toContainEqual(
      expect.stringMatching(/^row 7, Temp \(F\): got 212 °F \(100\), must be .*°C/),
    );
    expect(messages).toContainEqual(expect.stringMatching(/^row 8, Temp \(F\): got "1e999", no number/));
    expect(messages).toContainEqual(expect.stringMatching(/1 values such as/));
  });

  test("a picture under another name is no text, and says so alone", () => {
    const bytes = Uint8Array.from({ length: 6000 }, (_, i) => (i * 7919 + (i >> 3)) % 256);
    const text = new TextDecoder("windows-1252").decode(bytes);
    const report = readWeatherFile(text, { ...PLACE, encoding: "windows-1252" });
    expect(report.problems[0]).toMatchObject({ code: "not-text", severity: "error" });
    expect(report.questions).toEqual([]);
    expect(report.series).toBeNull();
  });

  test("a clock that the sun contradicts: how far it stands off is told, and the hours are as the user says", () => {
    const report = readStation(file(), { ...PLACE, answers: { clock: "utc", label: "start" } });
    expect(report.series).not.toBeNull();
    expect(Math.abs(report.clock.centroidH ?? 0)).toBeGreaterThan(3);
    const time = report.understood.find(({ column }) => column === "Timestamp");
    expect(time?.why).toMatch(/from solar noon by UTC: the sun does not fit this clock/);
  });

  test("German and Coloradan names", () => {
    const report = readStation(
      plain("Datum,tc (c),rel. Feuchte (%),Wind (m/s),Globalstrahlung (W/m2),pp (mm)"),
      {
        ...PLACE,
        answers: { clock: "standard", label: "start" },
      },
    );
    expect(Object.values(roles(report)).map(([as]) => as)).toEqual([
      expect.stringMatching(/^date/),
      "airTempC",
      "relHumidityPct",
      "windSpeedMps",
      "solarWm2",
      "rainMm",
    ]);
  });

  test("answers that mean nothing are told by name and limit", () => {
    const report = readStation(file(), {
      ...PLACE,
      answers: { clock: "sundial", "unit.Wind (m/s)": "warp", "as.Rain (mm)": "tea" },
    });
    expect(
      report.problems.filter(({ code }) => code === "unknown-answer").map(({ message }) => message),
    ).toEqual([
      expect.stringMatching(/unit\.Wind \(m\/s\): got "warp", must be one of mps, kmh/),
      expect.stringMatching(/as\.Rain \(mm\): got "tea"/),
      expect.stringMatching(/clock: got "sundial", must be one of utc, standard, daylight/),
    ]);
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
    { numRuns: 400 },
  );
});
