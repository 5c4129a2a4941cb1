import { describe, expect, test } from "vitest";
import { CANONICAL_CSV_TEMPLATE, parseCanonicalCsv } from "../../../model/weather/index.ts";
import { cleaned, excerpt, shown } from "../../../model/weather/shown.ts";
import { DAKOTA } from "./make-series.ts";

const lines = CANONICAL_CSV_TEMPLATE.trimEnd().split("\n");
const header = (lines[0] as string).split(",");
const parse = (text: string, answers = {}) =>
  parseCanonicalCsv(text, { site: DAKOTA, windHeightM: 2, answers });

/** The template with a column's values passed through a function, or with columns added at the end. */
const mapped = (column: string, change: (value: number) => string) =>
  lines
    .map((line, i) =>
      i === 0
        ? line
        : line
            .split(",")
            .map((text, k) => (header[k] === column ? change(Number(text)) : text))
            .join(","),
    )
    .join("\n");
const beside = (name: string, value: string) =>
  lines.map((line, i) => `${line},${i === 0 ? name : value}`).join("\n");

describe("the limit that a problem names is the one that was broken", () => {
  test("dew points that disagree", () => {
    const { problems } = parse(beside("dewPointC", "-12"));
    expect(problems[0]).toMatchObject({
      code: "unit-suspect",
      limit: "dew points within 3 °C of each other",
    });
    expect(problems[0]?.message).toContain("at most 3 °C is plausible");
  });
  test("humidity as a fraction", () => {
    const { problems } = parse(mapped("relHumidityPct", (value) => String(value / 100)));
    expect(problems[0]).toMatchObject({
      column: "relHumidityPct",
      code: "unit-suspect",
      limit: "per cent of 0-100, not a fraction of 0-1",
    });
    expect(problems[0]?.message).toContain("the most humid hour has 0.85 %");
  });
});

describe("hours in disorder are told against the row above", () => {
  test("a row moved to the top: one problem, at the row after it", () => {
    const moved = [lines[0], lines[20], ...lines.slice(1, 20), ...lines.slice(21)].join("\n");
    const { series, problems } = parse(moved);
    expect(series).toBeNull();
    expect(problems).toMatchObject([
      { row: 3, code: "not-increasing", limit: "must come after row 2 above it, 2026-06-09T00:00:00Z" },
    ]);
    expect(problems[0]?.message).toBe(
      "row 3, startUtc: got 2026-06-08T05:00:00Z, earlier than row 2 above it, 2026-06-09T00:00:00Z; sort the rows by time",
    );
  });
  test("each step back is told against its own neighbour", () => {
    const order = [7, 3, 4, 9, 1, 2];
    const { problems } = parse([lines[0], ...order.map((i) => lines[i])].join("\n"));
    expect(problems.map(({ row, limit }) => [row, limit])).toEqual([
      [3, "must come after row 2 above it, 2026-06-08T11:00:00Z"],
      [6, "must come after row 5 above it, 2026-06-08T13:00:00Z"],
    ]);
  });
  test("a year mistyped accuses one row alone", () => {
    const text = [...lines.slice(0, 9), (lines[9] as string).replace("2026", "2126"), ...lines.slice(10)];
    expect(parse(text.join("\n")).problems.map(({ row, code }) => [row, code])).toEqual([
      [10, "gap-too-long"],
    ]);
  });
  test("a duplicate hour names its own limit", () => {
    const { problems } = parse([...lines.slice(0, 8), lines[7], ...lines.slice(8)].join("\n"));
    expect(problems[0]).toMatchObject({ row: 9, limit: "each hour must stand once" });
  });
});

describe("a column too short", () => {
  test("is an error that names the column, how many rows, and the first", () => {
    const short = lines.map((line, i) => (i >= 20 ? line.split(",").slice(0, -2).join(",") : line));
    const { series, problems } = parse(short.join("\n"));
    expect(series).toBeNull();
    expect(
      problems.map(({ row, column, value, limit, code, severity }) => ({
        row,
        column,
        value,
        limit,
        code,
        severity,
      })),
    ).toEqual(
      ["rainMm", "cloudPct"].map((column) => ({
        row: 21,
        column,
        value: "5",
        limit: "must have 7 cells",
        code: "too-few-cells",
        severity: "error",
      })),
    );
    expect(problems[0]?.message).toContain(
      "column rainMm: too short, 11 of 30 rows have no cell for it, the first is row 21 with 5 cells",
    );
  });
  test("a single row cut short is one too", () => {
    const { series, problems } = parse(
      lines.map((line, i) => (i === 4 ? line.replace(/,\d+$/, "") : line)).join("\n"),
    );
    expect(series).toBeNull();
    expect(problems).toMatchObject([{ row: 5, column: "cloudPct", code: "too-few-cells" }]);
  });
  test("an empty cell between separators stays a missing value", () => {
    const { series, problems } = parse(
      lines.map((line, i) => (i === 4 ? line.replace(/\d+$/, "") : line)).join("\n"),
    );
    expect(series?.hours.cloudPct?.[3]).toBeNull();
    expect(problems).toEqual([]);
  });
  test("a column without a name may end early", () => {
    expect(parse([`${lines[0]},,`, ...lines.slice(1)].join("\n")).problems).toEqual([]);
  });
});

describe("what messages show", () => {
  test("numbers are rounded to two decimals, unless that would hide the fault", () => {
    expect(shown(51.016999999999996)).toBe("51.02");
    expect(shown(12)).toBe("12");
    const limit = { min: 0, max: 60, unit: "°C" };
    expect([shown(60.004, limit), shown(60.2345, limit)]).toEqual(["60.004", "60.23"]);
  });
  test("a temperature converted from °F is rounded in its message", () => {
    const { problems } = parse(
      mapped("airTempC", () => "150.13"),
      { airTempC: "degF" },
    );
    expect(problems[0]?.message).toContain("got 65.63, must be at least -60");
    const humid = parse(mapped("airTempC", (value) => (value * 3.111).toString()));
    expect(humid.problems[0]?.message).not.toMatch(/\d\.\d{3}/);
  });
  test("control signs of a binary file never reach a message", () => {
    const noise = String.fromCharCode(0, 1, 28, 27, 127, 155);
    const { series, problems } = parse(`${noise.repeat(300)},a${noise}b\n${noise},${noise}`);
    expect(series).toBeNull();
    for (const { message, column, value, limit } of problems) {
      expect(`${message}${column}${value}${limit}`).not.toMatch(/\p{Cc}/u);
      expect(message.length).toBeLessThan(300);
    }
    expect(problems.map(({ column }) => column)).toContain("a·b");
    expect(cleaned("a\u0000\u0007b")).toBe("a·b");
    expect(excerpt("x".repeat(100))).toHaveLength(60);
  });
});
