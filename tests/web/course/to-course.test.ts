import { describe, expect, test } from "vitest";
import { drydown } from "../../../model/drying/drydown.ts";
import type { RouteAnswer } from "../../../model/harvest/answer.ts";
import { findWindows } from "../../../model/harvest/board.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import type { Outcome } from "../../../model/limits.ts";
import { nameForm } from "../../../web/course/band-names.ts";
import type { CourseInput } from "../../../web/course/course-picture.ts";
import { courseRows } from "../../../web/course/course-rows.ts";
import { reachedMs } from "../../../web/course/course-sentence.ts";
import { dampSentence } from "../../../web/course/damp-pass.ts";
import { passesOf } from "../../../web/course/Passes.tsx";
import { toCourse } from "../../../web/course/to-course.ts";
import { shortFullText } from "../../../web/format/farm-time.ts";
import { metric24 } from "../../support/manners.ts";
import { exampleWindows } from "../../support/requests.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

function answered<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

const BANDS = [
  { route: "dry-hay", label: "Dry hay", bandWb: [0.12, 0.16] },
  { route: "wrapped-bales", label: "Wrapped bales", bandWb: [0.45, 0.6] },
] as const;

function inputOf(request: WindowsRequest): CourseInput {
  const answer = answered(findWindows(request));
  const option = answer.options.find(({ id }) => id === answer.best.overall?.optionId);
  const route = option?.routes.find((each) => each.route === "dry-hay") ?? null;
  if (!option?.courseCutUtc) throw new Error("the example has a best cut");
  const course = answered(
    drydown({
      weather: request.weather,
      swath: request.swath,
      cutUtc: option.courseCutUtc,
      operations: route?.operations ?? [],
      targetsWb: [0.16, 0.6],
    }),
  );
  const manner = metric24(request.weather.site.timeZone);
  return { course, option, route, routes: BANDS, manner, series: request.weather, initialMoistureWb: 0.78 };
}

describe("the course of the example's best cut", () => {
  const input = inputOf(exampleWindows());
  const picture = toCourse(input);

  test("has no rain after the weather that is used", () => {
    const { startUtc } = input.series.hours;
    const wet = { ...input.series, hours: { ...input.series.hours, rainMm: startUtc.map(() => 2) } };
    const untilUtc = startUtc[60] ?? "";
    const { rain, fromMs } = toCourse({
      ...input,
      series: wet,
      course: { ...input.course, usableUntilUtc: untilUtc },
    });
    expect(rain.length).toBeGreaterThan(0);
    expect(Math.max(...rain.map(({ x1 }) => x1))).toBe((Date.parse(untilUtc) - fromMs) / 3_600_000);
  });

  test("is said in words", () => {
    expect(picture.sentence).toMatch(
      /^Cut \w+day \d\d:00.* at 78 %\. Reaches wrapped bales \(45–60 %\) \w+day/,
    );
    expect(picture.sentence).toMatch(/Second opinions differ by up to \d+ h\.$/);
  });

  test("a pass after the window is drawn as one of a crop that still lies, and cannot be moved", () => {
    const route = input.option.routes.find(({ windows }) => windows.length > 0);
    const [first] = route?.windows ?? [];
    if (!first || !route) throw new Error("the example has a window");
    const pass = (atUtc: string) => ({ kind: "ted" as const, atUtc, coveredFraction: 0.9 });
    const { marks } = toCourse({
      ...input,
      route: { ...route, operations: [pass(first.startUtc), pass(first.endUtc)] },
    });
    const teds = marks.filter(({ kind }) => kind === "ted");
    expect(teds.map(({ gone }) => gone ?? false)).toEqual([false, true]);
    expect(teds[1]?.label).toMatch(/^Ted .+, if it still lies$/);
    expect(passesOf({ ...picture, marks })).toHaveLength(1);
  });

  test("the hour of a pass says what it lacks", () => {
    const { startUtc } = input.course.hours;
    const hours = (freeWaterMm: number, equilibriumWb: number) => ({
      ...input.course,
      hours: {
        ...input.course.hours,
        freeWaterMm: startUtc.map(() => freeWaterMm),
        dewMm: startUtc.map(() => 0),
        moistureWb: startUtc.map(() => 0.3),
        equilibriumWb: startUtc.map(() => equilibriumWb),
      },
    });
    const atMs = Date.parse(startUtc[4] ?? "");
    expect(dampSentence(hours(0.1, 0.1), atMs)).toBe("Dew or rain lies on the swath then.");
    expect(dampSentence(hours(0, 0.4), atMs)).toBe("The air takes up nothing from the swath then.");
    expect(dampSentence(hours(0, 0.1), atMs)).toBe("");
    expect(dampSentence(hours(0.1, 0.1), atMs - 99 * 3_600_000)).toBe("");
  });

  test("a band's name stands over its range, beside it, or alone, as there is room", () => {
    expect(nameForm(30, 90, 120)).toBe("over");
    expect(nameForm(20, 130, 120)).toBe("beside");
    expect(nameForm(20, 110, 120)).toBe("alone");
  });

  test("starts from the cut and stays on the chart", () => {
    expect(picture.tissue[0]?.y).toBeCloseTo(78, 9);
    for (const { x, y } of [...picture.tissue, ...picture.opinions.flatMap(({ points }) => points)]) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(picture.hoursAcross + 1e-6);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(100);
    }
    expect(JSON.stringify(picture)).not.toMatch(/NaN|Infinity|null,null/);
  });

  test("names each second opinion, operation and band", () => {
    expect(picture.opinions.map(({ name }) => name)).toEqual(
      input.course.secondOpinions.map(({ name }) => name),
    );
    const operations = picture.marks.filter(({ kind }) => kind !== "cut" && kind !== "window");
    expect(operations.length).toBe(input.route?.operations.length);
    expect(picture.bands.map(({ range }) => range)).toEqual(["12–16 %", "45–60 %"]);
  });

  test("with odds the line is their middle between two bands, and the table has a column for each", () => {
    expect(picture.chances).toEqual([]);
    const { moistureWb } = input.course.hours;
    const at = (factor: number) => moistureWb.map((wb) => wb * factor);
    const odds = { p10: at(0.8), p25: at(0.9), p50: at(0.97), p75: at(1), p90: at(1.1) };
    const likely = toCourse({ ...input, odds });
    expect(likely.tissue[5]?.y).toBeCloseTo((moistureWb[4] ?? 0) * 97, 9);
    expect(likely.chances.map(([first]) => first && [first.lo, first.hi])).toEqual([
      [(odds.p10[0] ?? 0) * 100, (odds.p90[0] ?? 0) * 100],
      [(odds.p25[0] ?? 0) * 100, (odds.p75[0] ?? 0) * 100],
    ]);
    const { heads, rows } = courseRows({ ...input, odds });
    expect(heads.filter((head) => head.includes("in 100"))).toHaveLength(5);
    expect(rows.every((row) => row.length === heads.length)).toBe(true);
  });

  test("its table is in the reader's units, with the decimal mark of the locale", () => {
    const manner = { ...input.manner, units: "us" as const, locale: "de-DE" };
    const { heads, rows } = courseRows({ ...input, manner });
    expect(heads).toContain("Rain in");
    expect(rows[0]?.[1]).toMatch(/^\d\d,\d$/);
  });

  test("the brief table keeps every third hour and each in which something happens", () => {
    const all = courseRows(input).rows;
    const brief = courseRows(input, true).rows;
    expect(brief.length).toBeGreaterThanOrEqual(all.length / 3);
    expect(brief.length).toBeLessThan(all.length / 2);
    const { heads } = courseRows(input);
    const [rain, work] = [heads.findIndex((head) => head.startsWith("Rain")), heads.indexOf("Operation")];
    const hours = brief.map(([hour]) => hour);
    all.forEach((row, i) => {
      if (row[work] === "" && !/[1-9]/.test(row[rain] ?? "")) return;
      expect(hours).toContain(shortFullText(input.course.hours.startUtc[i] ?? "", input.manner));
    });
  });

  test("the brief table has no column in which nothing stands, and says what is done in an hour", () => {
    const atUtc = input.course.hours.startUtc[7] ?? "";
    const withWork = (operations: RouteAnswer["operations"]) =>
      courseRows({ ...input, route: input.route && { ...input.route, operations } }, true);
    const { heads, rows } = withWork([{ kind: "ted", atUtc, coveredFraction: 0.9 }]);
    const at = heads.indexOf("Operation");
    expect(rows.map((row) => row[at]).filter((cell) => cell !== "")).toEqual(["ted"]);
    expect(withWork([]).heads).toEqual(heads.filter((head) => head !== "Operation"));
  });

  test("its table has an hour a row and every pass once", () => {
    const { heads, rows } = courseRows(input);
    expect(rows.length).toBe(input.course.hours.startUtc.length);
    expect(rows.every((row) => row.length === heads.length)).toBe(true);
    const at = heads.indexOf("Operation");
    const passes = rows.map((row) => row[at]).filter((cell) => cell !== "");
    expect(passes.length).toBe(input.route?.operations.length);
    expect(new Set(rows.map(([hour]) => hour)).size).toBe(rows.length);
  });
});

describe("the board's hours across", () => {
  const input = inputOf(exampleWindows());
  const cutMs = Date.parse(input.option.cutUtc ?? "");
  const HOUR_MS = 3_600_000;

  test("are shared where a day of the cut lies in them", () => {
    const span = { fromMs: cutMs - 9 * HOUR_MS, toMs: cutMs + 87 * HOUR_MS };
    const { shared, fromMs, hoursAcross, marks, tissue } = toCourse({ ...input, span });
    expect([shared, fromMs, hoursAcross]).toEqual([true, span.fromMs, 96]);
    expect(marks[0]?.x).toBe(9);
    expect(tissue.every(({ x }) => x >= 9 && x <= 96)).toBe(true);
  });

  test("are left where the cut is out of sight", () => {
    for (const shiftH of [1, -96]) {
      const fromMs = cutMs + shiftH * HOUR_MS;
      const picture = toCourse({ ...input, span: { fromMs, toMs: fromMs + 96 * HOUR_MS } });
      expect(picture.shared).toBe(false);
      expect(picture).toEqual(toCourse(input));
    }
  });
});

test("all days of the weather are drawn on asking, from its first hour to the end of the course", () => {
  const input = inputOf(exampleWindows());
  const part = toCourse(input);
  const whole = toCourse({ ...input, whole: true });
  expect([part.days.more, whole.days.more]).toEqual([true, false]);
  expect(whole.days.count).toBe(part.days.count);
  expect(whole.fromMs).toBe(Date.parse(input.series.hours.startUtc[0] ?? ""));
  expect(whole.tissue.length).toBe(input.course.hours.startUtc.length + 1);
  expect(whole.hoursAcross).toBeGreaterThan(part.hoursAcross);
});

test("ticks stand on the farm's six-hour marks through a clock change and in a half-hour zone", () => {
  for (const [site, fromUtc] of [
    [PLACES.southDakota, "2026-03-06T06:00:00Z"],
    [PLACES.india, "2026-10-09T18:30:00Z"],
  ] as const) {
    const weather = inventedSpell(site, fromUtc, 7 * 24, { meanTempC: 24, dewPointC: 6 });
    const { ticks, fromMs } = toCourse(inputOf({ ...exampleWindows(), weather }));
    const clock = new Intl.DateTimeFormat("en-GB", {
      timeZone: site.timeZone,
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
    });
    expect(ticks.length).toBeGreaterThan(8);
    for (const { x, label } of ticks) expect(clock.format(fromMs + x * 3_600_000)).toBe(`${label}:00`);
    expect(new Set(ticks.map(({ label }) => label))).toEqual(new Set(["00", "06", "12", "18"]));
  }
});

test("reading a moisture off an hourly course is straight inside the hour", () => {
  const hours = {
    startUtc: ["2026-07-01T10:00:00Z", "2026-07-01T11:00:00Z"],
    moistureWb: [0.7, 0.6],
  };
  expect(reachedMs(hours, 0.65)).toBe(Date.parse("2026-07-01T11:30:00Z"));
  expect(reachedMs(hours, 0.5)).toBeNull();
});
