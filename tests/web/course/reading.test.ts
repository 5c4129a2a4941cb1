import { describe, expect, test } from "vitest";
import { drydown } from "../../../model/drying/drydown.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { estimateRange } from "../../../web/course/course-sentence.ts";
import { keptLine } from "../../../web/course/kept-line.ts";
import {
  hourNear,
  moistureWbAt,
  type ReadFrom,
  readCourse,
  readingText,
} from "../../../web/course/reading.ts";
import { oddsBand, opinionRange } from "../../../web/course/spread.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { exampleDrydown } from "../../support/requests.ts";

const request = exampleDrydown();
const outcome = drydown(request);
if (!outcome.ok) throw new Error("the example has a course");
const course = outcome.value;
const cutMs = Date.parse(request.cutUtc);
const firstMs = Date.parse(course.hours.startUtc[0] ?? "");
const series = request.weather;
const manner = metric24(series.site.timeZone);
const from: ReadFrom = { course, cutMs, initialMoistureWb: 0.78, series, manner };

describe("the hour that is read", () => {
  test("has the moisture at its start, the end of the hour before", () => {
    expect(moistureWbAt(course, firstMs + HOUR_MS)).toBe(course.hours.moistureWb[0]);
    expect(moistureWbAt(course, firstMs + 5 * HOUR_MS)).toBe(course.hours.moistureWb[4]);
    expect(moistureWbAt(course, firstMs)).toBeNull();
    expect(readCourse(from, cutMs).moisture).toBe("78 %");
    expect(readCourse(from, cutMs - HOUR_MS).moisture).toBe("not cut yet");
    expect(readCourse(from, firstMs + 1000 * HOUR_MS).moisture).toBe("past the end of the course");
  });

  test("is told to five minutes, as the board tells the start of a window at which it is read", () => {
    expect(readCourse(from, cutMs + 0.54 * HOUR_MS).hour).toMatch(/:35$/);
    expect(readCourse(from, cutMs + HOUR_MS).hour).toMatch(/:00$/);
  });

  test("has the air of the hour that begins, in the reader's units", () => {
    const i = series.hours.startUtc.findIndex((start) => Date.parse(start) === cutMs);
    const { airTempC, relHumidityPct } = series.hours;
    const text = readingText(readCourse(from, cutMs));
    expect(text).toMatch(/^\w+day \d\d:00: swath 78 %(, water on it .*)?; air /);
    expect(text).toContain(
      `air ${Math.round(airTempC[i] ?? 0)} °C, humidity ${Math.round(relHumidityPct[i] ?? 0)} %, wind`,
    );
    const us = readingText(readCourse({ ...from, manner: us12(manner.zone) }, cutMs));
    expect(us).toContain(`air ${Math.round((airTempC[i] ?? 0) * 1.8 + 32)} °F`);
    expect(us).toMatch(/mph/);
  });

  test("says what is missing by leaving it out, and names an hour without any weather", () => {
    const bare = { ...series, hours: { ...series.hours, airTempC: series.hours.airTempC.map(() => null) } };
    expect(readCourse({ ...from, series: bare }, cutMs).air).toMatch(/^humidity/);
    expect(readCourse(from, firstMs + 5000 * HOUR_MS).air).toBe("no weather for this hour");
  });

  test("tells no air of hours that are not used", () => {
    const endMs = firstMs + 30 * HOUR_MS;
    const short = { ...from, course: { ...course, usableUntilUtc: new Date(endMs).toISOString() } };
    expect(readCourse(short, endMs - HOUR_MS).air).toMatch(/°C/);
    expect(readCourse(short, endMs).air).toBe("not used here");
  });

  test("says between which whole per cents eight and five of ten courses lie", () => {
    const all = (wb: number) => course.hours.moistureWb.map(() => wb);
    const odds = { p10: all(0.136), p25: all(0.163), p50: all(0.2), p75: all(0.24), p90: all(0.284) };
    const text = readingText(readCourse({ ...from, odds }, firstMs + 5 * HOUR_MS));
    expect(text).toContain(", between 14 and 28 % in 8 of 10, between 16 and 24 % in 5 of 10");
    const sure = { ...odds, p25: all(0.201), p75: all(0.204) };
    expect(readCourse({ ...from, odds: sure }, firstMs + 5 * HOUR_MS).band).toMatch(/, 20 % in 5 of 10$/);
  });

  test("reads the kept cut where it is drawn", () => {
    const kept = { course, shiftMs: 2 * HOUR_MS };
    const reading = readCourse({ ...from, kept }, firstMs + 7 * HOUR_MS);
    expect(reading.kept).toBe(`${Math.round((course.hours.moistureWb[4] ?? 0) * 100)} %`);
    expect(readingText(reading)).toContain("; kept cut ");
  });

  test("snaps to whole hours and stays in the picture", () => {
    expect(hourNear(firstMs + 1.4 * HOUR_MS, firstMs, firstMs + 9 * HOUR_MS)).toBe(firstMs + HOUR_MS);
    expect(hourNear(firstMs - HOUR_MS, firstMs, firstMs + 9 * HOUR_MS)).toBe(firstMs);
    expect(hourNear(firstMs + 99 * HOUR_MS, firstMs, firstMs + 9.5 * HOUR_MS)).toBe(firstMs + 9 * HOUR_MS);
  });
});

describe("the range of the estimates", () => {
  const place = { xOf: (ms: number) => (ms - firstMs) / HOUR_MS, hoursAcross: 48 };

  test("holds the model and every second opinion, hour by hour", () => {
    const range = opinionRange(course, place);
    expect(range).toHaveLength(48);
    range.forEach(({ x, lo, hi }, i) => {
      expect(x).toBe(i + 1);
      for (const hours of [course.hours, ...course.secondOpinions.map((each) => each.hours)]) {
        const pct = (hours.moistureWb[i] ?? Number.NaN) * 100;
        expect(pct).toBeGreaterThanOrEqual(lo - 1e-9);
        expect(pct).toBeLessThanOrEqual(hi + 1e-9);
      }
    });
    expect(opinionRange({ ...course, secondOpinions: [] }, place)).toEqual([]);
  });

  test("in hours counts those that never get there", () => {
    const range = estimateRange(course, 0.5);
    expect(range?.asked).toBe(1 + course.secondOpinions.length);
    expect(range && range.latestMs >= range.earliestMs).toBe(true);
    expect(estimateRange(course, 0.001)).toBeNull();
  });

  test("bands of chance keep their edges", () => {
    const { moistureWb } = course.hours;
    const band = oddsBand(
      course,
      moistureWb.map((wb) => wb * 0.9),
      moistureWb.map((wb) => Math.min(0.95, wb * 1.1)),
      place,
    );
    expect(band[3]?.lo).toBeCloseTo((moistureWb[3] ?? 0) * 90, 9);
    expect(band[3]?.hi).toBeCloseTo((moistureWb[3] ?? 0) * 110, 9);
  });
});

describe("the kept course", () => {
  const xOf = (ms: number) => (ms - firstMs) / HOUR_MS;
  const kept = { course, mowMs: cutMs, cutMs, initialMoistureWb: 0.78 };

  test("lies by the calendar, with a cut of its own where it differs", () => {
    const line = keptLine({ ...kept, align: "calendar" }, cutMs - 6 * HOUR_MS, xOf, 48, manner);
    expect(line.cutX).toBe(xOf(cutMs));
    expect(line.points[1]).toEqual({ x: 1, y: (course.hours.moistureWb[0] ?? 0) * 100 });
    expect(line.points.every(({ x }) => x >= 0 && x <= 48)).toBe(true);
    expect(line.label).toMatch(/^Kept cut \w{3} \d\d:\d\d$/);
    expect(keptLine({ ...kept, align: "calendar" }, cutMs, xOf, 48, manner).cutX).toBeNull();
  });

  test("from the cut both begin at one place", () => {
    const nowCutMs = cutMs + 30 * HOUR_MS;
    const line = keptLine({ ...kept, align: "cut" }, nowCutMs, xOf, 96, manner);
    expect(line.points[0]).toEqual({ x: xOf(nowCutMs), y: 78 });
    expect(line.cutX).toBeNull();
  });
});
