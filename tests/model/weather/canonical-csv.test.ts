import { describe, expect, test } from "vitest";
import { parseCanonicalCsv } from "../../../model/weather/canonical-csv.ts";
import { CANONICAL_CSV_TEMPLATE } from "../../../model/weather/csv-template.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { DAKOTA } from "./make-series.ts";

const PLACE = { site: DAKOTA, windHeightM: 10 };
const parse = (text: string, place = PLACE) => parseCanonicalCsv(text, place);
const lines = CANONICAL_CSV_TEMPLATE.trimEnd().split("\n");
const edit = (change: (lines: string[]) => void) => {
  const copy = [...lines];
  change(copy);
  return copy.join("\n");
};
/** The template with one cell changed: `row` is the line of the file. */
const cell = (row: number, column: string, value: string) =>
  edit((copy) => {
    const cells = (copy[row - 1] as string).split(",");
    cells[(lines[0] as string).split(",").indexOf(column)] = value;
    copy[row - 1] = cells.join(",");
  });
const codes = (text: string, place = PLACE) =>
  parse(text, place).problems.map(
    ({ row, column, code, severity }) => `${severity} ${row ?? "-"} ${column ?? "-"} ${code}`,
  );

describe("a good file", () => {
  test("the template itself", () => {
    const { series, problems, understood, counts } = parse(CANONICAL_CSV_TEMPLATE);
    expect(problems).toEqual([]);
    expect(counts).toEqual({ rows: 30, hours: 30, filled: 0, missing: 0 });
    expect(understood[0]).toEqual({ column: "startUtc", as: "startUtc", unit: "ISO 8601", basis: "header" });
    expect(understood[1]).toEqual({ column: "airTempC", as: "airTempC", unit: "°C", basis: "header" });
    expect(series?.origin).toBe("upload");
    expect(series?.hours.startUtc[0]).toBe("2026-06-08T05:00:00Z");
    expect(series && prepareWeather(series).ok).toBe(true);
  });
  const plain = parse(CANONICAL_CSV_TEMPLATE).series;
  test.each([
    ["byte order mark and CRLF", `\uFEFF${lines.join("\r\n")}\r\n`],
    ["both kinds of line ends", `${lines.slice(0, 9).join("\r\n")}\r\n${lines.slice(9).join("\n")}`],
    ["old Mac line ends", lines.join("\r")],
    [
      "blank lines at the end and between",
      `${lines.slice(0, 5).join("\n")}\n\n${lines.slice(5).join("\n")}\n\n \n`,
    ],
    ["trailing commas", lines.map((line) => `${line},,`).join("\n")],
    [
      "quoted cells",
      lines
        .map((line) =>
          line
            .split(",")
            .map((text) => `"${text}"`)
            .join(","),
        )
        .join("\n"),
    ],
    [
      "semicolons and decimal commas",
      lines.map((line) => line.replaceAll(",", ";").replaceAll(".", ",")).join("\n"),
    ],
    ["tabs", lines.map((line) => line.replaceAll(",", "\t")).join("\n")],
    [
      "tabs and decimal commas",
      lines.map((line) => line.replaceAll(",", "\t").replaceAll(".", ",")).join("\n"),
    ],
    [
      "header in capitals with spaces",
      [` ${(lines[0] as string).toUpperCase().replaceAll(",", " , ")}`, ...lines.slice(1)].join("\n"),
    ],
    [
      "local times with an offset",
      lines
        .map((line, i) =>
          i === 0
            ? line
            : line.replace(
                /^[^,]+/,
                (label) => `${new Date(Date.parse(label) - 5 * 3.6e6).toISOString().slice(0, 16)}-05:00`,
              ),
        )
        .join("\n"),
    ],
  ])("%s gives the same series", (_, text) => {
    const { series, problems } = parse(text);
    expect(problems).toEqual([]);
    expect(series?.hours).toEqual(plain?.hours);
  });
  test("rows across the end of summer time keep both hours of one o'clock", () => {
    const header = "startUtc,airTempC,relHumidityPct,windSpeedMps,cloudPct,rainMm";
    const rows = ["00:30-05:00", "01:30-05:00", "01:30-06:00", "02:30-06:00"].map(
      (time) => `2026-11-01T${time},9,80,2,50,0`,
    );
    const { series, problems } = parse([header, ...rows].join("\n"));
    expect(problems).toEqual([]);
    expect(series?.hours.startUtc).toEqual([5, 6, 7, 8].map((hour) => `2026-11-01T0${hour}:30:00Z`));
  });
  test("9 000 rows in under a second", () => {
    const start = Date.parse("2026-01-01T00:00:00Z");
    const rows = Array.from({ length: 9000 }, (_, i) => {
      const label = new Date(start + i * 3.6e6).toISOString();
      return `${label},${(10 + 5 * Math.sin(i / 4)).toFixed(1)},60,2.5,${i % 24 > 8 ? 40 : 60},0`;
    });
    const text = ["startUtc,airTempC,relHumidityPct,windSpeedMps,cloudPct,rainMm", ...rows].join("\n");
    const runs = [1, 2, 3].map(() => {
      const from = performance.now();
      parse(text);
      return performance.now() - from;
    });
    expect(Math.min(...runs)).toBeLessThan(1000);
    const { series } = parse(text);
    expect(series?.hours.startUtc).toHaveLength(9000);
  });
});

describe("what is missing", () => {
  test("cells are null, counted, and bridged later", () => {
    for (const word of ["", "NA", "n/a", "NaN", "null", "M", "-", "---", "*"]) {
      const { series, problems, counts } = parse(cell(14, "airTempC", word));
      expect(problems).toEqual([]);
      expect(series?.hours.airTempC[12]).toBeNull();
      expect(counts).toEqual({ rows: 30, hours: 30, filled: 1, missing: 1 });
    }
  });
  test("a logger's -9999 is missing, and said", () => {
    const { series, problems } = parse(cell(14, "airTempC", "-9999"));
    expect(series?.hours.airTempC[12]).toBeNull();
    expect(problems[0]?.message).toContain("-9999");
    expect(problems[0]?.severity).toBe("warning");
  });
  test("99 % of humidity is a value", () => {
    expect(parse(cell(14, "relHumidityPct", "99")).series?.hours.relHumidityPct[12]).toBe(99);
  });
  test("hours without a row become null hours and are counted", () => {
    const { series, problems, counts } = parse(edit((copy) => copy.splice(10, 2)));
    expect(counts).toEqual({ rows: 28, hours: 30, filled: 0, missing: 2 });
    expect(series?.hours.rainMm.slice(8, 12)).toEqual([0, null, null, 0]);
    expect(problems.map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      "warning missing-hours",
      "warning look-at-this",
    ]);
  });
  test("a rain column that is empty or absent: a warning, not an error", () => {
    const rain = (lines[0] as string).split(",").indexOf("rainMm");
    const drop = lines.map((line) =>
      line
        .split(",")
        .filter((_, i) => i !== rain)
        .join(","),
    );
    const { series, problems } = parse(drop.join("\n"));
    expect(series?.hours.rainMm.every((mm) => mm === null)).toBe(true);
    expect(series?.marks?.rainMm?.every((mark) => mark === "assumed")).toBe(true);
    expect(problems.map(({ column, code }) => `${column} ${code}`)).toEqual(["rainMm no-rain"]);
    expect(problems.map(({ message }) => message)).toEqual([
      "No rain was given: assumed dry throughout. A shower would change every answer.",
    ]);
  });
});

describe("a bad file", () => {
  test.each([
    ["empty", ""],
    ["blank", " \r\n\n"],
    ["only a byte order mark", "\uFEFF"],
  ])("%s", (_, text) => {
    const { series, problems, counts } = parse(text);
    expect(series).toBeNull();
    expect(problems.map(({ code }) => code)).toEqual(["empty-file"]);
    expect(counts).toEqual({ rows: 0, hours: 0, filled: 0, missing: 0 });
  });
  test("a header and nothing under it", () => {
    expect(codes(lines[0] as string)).toEqual(["error - - no-rows"]);
  });
  test("a header without what is needed names it", () => {
    expect(codes("startUtc,airTempF,rainMm\n2026-07-01T05:00:00Z,70,0")).toEqual([
      "warning - airTempF unknown-column",
      "error - airTempC missing-column",
      "error - windSpeedMps missing-column",
      "error - relHumidityPct missing-column",
      "error - solarWm2 or cloudPct missing-column",
    ]);
  });
  test("no header at all", () => {
    const { series, problems } = parse(lines.slice(1).join("\n"));
    expect(series).toBeNull();
    expect(problems.some(({ code, column }) => code === "missing-column" && column === "startUtc")).toBe(
      true,
    );
  });
  test("a column twice", () => {
    expect(codes(lines.map((line, i) => `${line},${i === 0 ? "airTempC" : "1"}`).join("\n"))).toEqual([
      "error - airTempC duplicate-column",
    ]);
  });
  test("names of JavaScript's own are unknown columns like any other", () => {
    const { series, problems } = parse(
      lines
        .map((line, i) => `${line},${i === 0 ? "__proto__" : "1"},${i === 0 ? "constructor" : "2"}`)
        .join("\n"),
    );
    expect(problems.map(({ column, code }) => `${column} ${code}`)).toEqual([
      "__proto__ unknown-column",
      "constructor unknown-column",
    ]);
    expect(Object.keys(series?.hours ?? {})).not.toContain("__proto__");
  });
  test("text in place of a number: row, column, value, limit", () => {
    const { series, problems } = parse(cell(7, "windSpeedMps", "breezy"));
    expect(series).toBeNull();
    expect(problems).toEqual([
      {
        row: 7,
        column: "windSpeedMps",
        value: "breezy",
        limit: "must be at least 0 and at most 60 m/s",
        code: "not-a-number",
        severity: "error",
        message: 'row 7, windSpeedMps: got "breezy", must be a number or empty',
      },
    ]);
  });
  test.each(["1,5", "0x1F", "1e999", "12 345", "Infinity"])("%j is no number between commas", (text) => {
    expect(parse(cell(7, "rainMm", `"${text}"`)).series).toBeNull();
  });
  test("a value out of range: row, column, value, limit", () => {
    const { problems } = parse(cell(9, "rainMm", "-2"));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      row: 9,
      column: "rainMm",
      value: "-2",
      limit: "must be at least 0 and at most 150 mm in the hour",
    });
    expect(problems[0]?.message).toBe(
      "row 9, rainMm: got -2, must be at least 0 and at most 150 mm in the hour",
    );
  });
  test("one wrong column: ten rows are told, the rest counted", () => {
    const column = (lines[0] as string).split(",").indexOf("rainMm");
    const text = lines.map((line, i) =>
      i === 0
        ? line
        : line
            .split(",")
            .map((value, k) => (k === column ? "x" : value))
            .join(","),
    );
    const { problems } = parse(text.join("\n"));
    expect(problems).toHaveLength(11);
    expect(problems[10]?.message).toContain("20 more rows");
  });
  test.each([
    ["2026-06-08T10:00", "time-without-zone"],
    ["2026-06-08 10:00:00", "time-without-zone"],
    ["08/06/2026 10:00", "not-a-time"],
    ["2026-06-08T24:00:00Z", "not-a-time"],
    ["2026-06-31T10:00:00Z", "not-a-time"],
    ["", "not-a-time"],
  ])("the time %j", (value, code) => {
    const { series, problems } = parse(cell(7, "startUtc", value));
    expect(series).toBeNull();
    expect(problems[0]).toMatchObject({ row: 7, column: "startUtc", value, code, severity: "error" });
  });
  test("a duplicate hour names both rows", () => {
    const { problems } = parse(edit((copy) => copy.splice(8, 0, copy[7] as string)));
    expect(problems[0]).toMatchObject({ row: 9, code: "duplicate-hour" });
    expect(problems[0]?.message).toContain("the same hour as in row 8");
  });
  test("shuffled hours", () => {
    const text = edit((copy) => copy.splice(8, 2, copy[9] as string, copy[8] as string));
    expect(codes(text)).toEqual(["error 10 startUtc not-increasing"]);
  });
  test("half hours between hours", () => {
    expect(codes(cell(9, "startUtc", "2026-06-08T12:30:00Z"))).toContain("error 9 startUtc not-hourly");
  });
  test("a year mistyped does not fill a century with missing hours", () => {
    const { problems, counts } = parse(cell(31, "startUtc", "2126-06-09T10:00:00Z"));
    expect(problems[0]).toMatchObject({ row: 31, code: "gap-too-long" });
    expect(counts.hours).toBeLessThan(31);
  });
  test("a row with too many cells", () => {
    expect(codes(edit((copy) => copy.splice(4, 1, `${copy[4]},7`)))).toEqual(["error 5 - too-many-cells"]);
  });
  test("a quotation mark that is never closed", () => {
    expect(parse(cell(6, "airTempC", '"12')).problems.map(({ code }) => code)).toContain("open-quote");
  });
  test("latitude 444 and the zone Mars/Olympus", () => {
    const site = { ...DAKOTA, latitude: 444, timeZone: "Mars/Olympus" };
    const { series, problems } = parse(CANONICAL_CSV_TEMPLATE, { site, windHeightM: 10 });
    expect(series).toBeNull();
    expect(problems.map(({ column, code }) => `${column} ${code}`)).toEqual([
      "site.latitude out-of-range",
      "site.timeZone unknown-time-zone",
    ]);
  });
});

describe("degrees Fahrenheit under a Celsius name", () => {
  const inFahrenheit = (shiftC: number) => {
    const column = (lines[0] as string).split(",").indexOf("airTempC");
    return lines
      .map((line, i) =>
        i === 0
          ? line
          : line
              .split(",")
              .map((value, k) => (k === column ? ((Number(value) + shiftC) * 1.8 + 32).toFixed(1) : value))
              .join(","),
      )
      .join("\n");
  };
  test("a warm file is implausible", () => {
    const { series, problems } = parse(inFahrenheit(0));
    expect(series).toBeNull();
    expect(problems[0]).toMatchObject({
      column: "airTempC",
      code: "out-of-range",
      limit: "must be at least -60 and at most 60 °C",
    });
    expect(problems[0]?.message).toContain("°F");
  });
  test("a cool file is caught by the dew point it implies, at a row", () => {
    const { series, problems } = parse(inFahrenheit(-11));
    expect(series).toBeNull();
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      column: "airTempC",
      code: "unit-suspect",
      limit: "a dew point of at most 36 °C",
    });
    const row = problems[0]?.row ?? 0;
    expect(problems[0]?.value).toBe(inFahrenheit(-11).split("\n")[row - 1]?.split(",")[1]);
    expect(problems[0]?.message).toMatch(/^row \d+, airTempC: .*dew point.*°F/);
  });
});

test("a file that is no table at all: short problems, few of them", () => {
  const noise = Array.from({ length: 5000 }, (_, i) => String.fromCharCode(32 + ((i * 7919) % 90))).join("");
  const { series, problems } = parse(`${"x".repeat(5000)},${noise}\n${noise}`);
  expect(series).toBeNull();
  expect(problems.length).toBeLessThan(30);
  for (const { message, value, column } of problems) {
    expect(message.length).toBeLessThanOrEqual(400);
    expect((value ?? "").length + (column ?? "").length).toBeLessThanOrEqual(120);
  }
});
