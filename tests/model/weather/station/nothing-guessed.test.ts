import { describe, expect, test } from "vitest";
import { readStation, readWeatherFile } from "../../../../model/weather/station/index.ts";
import { csv, type InventedRow, PLACE, wallText } from "../../../support/invented-station.ts";
import { FIRST, file, ROWS, roles, seriesOf } from "./invented-file.ts";

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
