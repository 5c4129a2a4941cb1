import { describe, expect, test } from "vitest";
import { cutMoments } from "../../../model/harvest/options.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import { workSpans } from "../../../model/harvest/work-hours.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { Site } from "../../../model/weather/series.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";
import { ask, drawnCourse, firstRoute, plainRequest } from "./requests.ts";

const HOUR = 3_600_000;
const at = (iso: string) => Date.parse(iso);
const hoursOf = (spans: readonly { startMs: number; endMs: number }[]) =>
  spans.map(({ startMs, endMs }) => (endMs - startMs) / HOUR);

// South Dakota (America/Chicago): forward on 8 March 2026 at 02:00, back on 1 November 2026 at 02:00.
const CHICAGO = "America/Chicago";
const SPRING = { from: at("2026-03-07T06:00:00Z"), to: at("2026-03-10T05:00:00Z") };
const AUTUMN = { from: at("2026-10-31T05:00:00Z"), to: at("2026-11-03T06:00:00Z") };

function weatherOf(site: Site, fromUtc: string, hours: number) {
  const prepared = prepareWeather(inventedSpell(site, fromUtc, hours));
  if (!prepared.ok) throw new Error("refused");
  return prepared.value.weather;
}

const dryFromTheStart = (request: WindowsRequest): WindowsRequest => ({
  ...request,
  swath: { ...request.swath, initialMoistureWb: 0.14 },
});

describe("working days across a clock change", () => {
  test.each([
    ["spring", SPRING],
    ["autumn", AUTUMN],
  ])("by day no working hour is lost or counted twice: %s", (_, { from, to }) => {
    expect(hoursOf(workSpans(CHICAGO, { from: "07:00", to: "20:00" }, from, to))).toEqual([13, 13, 13]);
  });

  test("a night shift has the hours that truly pass", () => {
    const night = { from: "20:00", to: "06:00" };
    // The first span began the evening before the stretch; the night of the change is the second.
    expect(hoursOf(workSpans(CHICAGO, night, SPRING.from, SPRING.to))).toEqual([10, 9, 10, 10]);
    expect(hoursOf(workSpans(CHICAGO, night, AUTUMN.from, AUTUMN.to))).toEqual([10, 11, 10, 10]);
  });

  test("whole days have 23 and 25 hours and meet without a gap", () => {
    const whole = { from: "00:00", to: "24:00" };
    for (const [{ from, to }, hours] of [
      [SPRING, [24, 23, 24]],
      [AUTUMN, [24, 25, 24]],
    ] as const) {
      const spans = workSpans(CHICAGO, whole, from, to);
      expect(hoursOf(spans)).toEqual(hours);
      for (let i = 1; i < spans.length; i++) expect(spans[i]?.startMs).toBe(spans[i - 1]?.endMs);
    }
  });

  test("a reading that is jumped over is taken at the jump", () => {
    const [, changed] = workSpans(CHICAGO, { from: "02:30", to: "12:00" }, SPRING.from, SPRING.to);
    expect(changed?.startMs).toBe(at("2026-03-08T08:00:00Z"));
    expect(hoursOf(changed ? [changed] : [])).toEqual([9]);
  });

  test("a reading that comes twice opens the day the first time and closes it the second", () => {
    const [, opens] = workSpans(CHICAGO, { from: "01:30", to: "12:00" }, AUTUMN.from, AUTUMN.to);
    expect(opens?.startMs).toBe(at("2026-11-01T06:30:00Z"));
    const nights = workSpans(CHICAGO, { from: "20:00", to: "01:30" }, AUTUMN.from, AUTUMN.to);
    expect(nights.some(({ endMs }) => endMs === at("2026-11-01T07:30:00Z"))).toBe(true);
  });

  test("two days never share an hour, even where the shift fills nearly the whole day", () => {
    const spans = workSpans(CHICAGO, { from: "01:30", to: "01:15" }, AUTUMN.from, AUTUMN.to);
    for (let i = 1; i < spans.length; i++) {
      expect(spans[i]?.startMs).toBeGreaterThanOrEqual(spans[i - 1]?.endMs ?? 0);
    }
    const worked = hoursOf(spans).reduce((sum, hours) => sum + hours, 0);
    const span = ((spans.at(-1)?.endMs ?? 0) - (spans[0]?.startMs ?? 0)) / HOUR;
    expect(worked).toBeLessThanOrEqual(span);
  });
});

describe("cut options across a clock change", () => {
  const whole = { from: "00:00", to: "24:00" };
  const cuts = (fromUtc: string, hour: number) => {
    const weather = weatherOf(PLACES.southDakota, fromUtc, 96);
    const end = weather.startUtcMs + 96 * HOUR;
    const days = workSpans(CHICAGO, whole, weather.startUtcMs, end);
    return cutMoments(weather, days, [hour], weather.startUtcMs, 1).moments.map(({ cutUtcMs }) =>
      new Date(cutUtcMs).toISOString(),
    );
  };

  test("an hour that the clock skips is dropped", () => {
    expect(cuts("2026-03-07T06:00:00Z", 2)).toEqual(["2026-03-07T08:00:00.000Z", "2026-03-09T07:00:00.000Z"]);
  });

  test("an hour that the clock doubles is taken the first time", () => {
    expect(cuts("2026-10-31T05:00:00Z", 1)).toEqual([
      "2026-10-31T06:00:00.000Z",
      "2026-11-01T06:00:00.000Z",
      "2026-11-02T07:00:00.000Z",
    ]);
  });

  test("windows of the change day still have the whole working day", () => {
    const request = dryFromTheStart(plainRequest({}, { fromUtc: "2026-03-07T06:00:00Z" }));
    const answer = ask(request, drawnCourse({ wb: () => 0.14 }));
    expect(firstRoute(answer).windows.map(({ workHours }) => workHours)).toEqual([9, 13, 13, 13]);
  });
});

describe("the course of the middle of the mowing", () => {
  const hours = [9];
  const cut = (site: Site, fromUtc: string, mowHours: number) => {
    const weather = weatherOf(site, fromUtc, 60);
    const days = workSpans(
      site.timeZone,
      { from: "06:00", to: "22:00" },
      weather.startUtcMs,
      weather.startUtcMs + 60 * HOUR,
    );
    const [first] = cutMoments(weather, days, hours, weather.startUtcMs, mowHours).moments;
    return first && [new Date(first.cutUtcMs).toISOString(), new Date(first.courseCutUtcMs).toISOString()];
  };

  test.each([
    [3, "2026-07-01T16:00:00.000Z"], // 1.5 h on: half hours later
    [2.8, "2026-07-01T15:00:00.000Z"],
    [0.5, "2026-07-01T14:00:00.000Z"],
    [1, "2026-07-01T15:00:00.000Z"],
  ])("mowing %f h from 14:00 is the course of %s", (mowHours, courseCut) => {
    expect(cut(PLACES.southDakota, "2026-07-01T05:00:00Z", mowHours)).toEqual([
      "2026-07-01T14:00:00.000Z",
      courseCut,
    ]);
  });

  test("in a half-hour zone the cut keeps the half hour and the course falls on an hour of the weather", () => {
    expect(cut(PLACES.india, "2026-07-01T00:00:00Z", 2)).toEqual([
      "2026-07-01T03:30:00.000Z",
      "2026-07-01T05:00:00.000Z",
    ]);
    expect(cut(PLACES.india, "2026-07-01T00:30:00Z", 2)).toEqual([
      "2026-07-01T03:30:00.000Z",
      "2026-07-01T04:30:00.000Z",
    ]);
  });
});

describe("working hours that do not fall on hours of the weather", () => {
  test("in a half-hour zone windows open and close at the local hour", () => {
    const request = plainRequest({}, { site: PLACES.india, fromUtc: "2026-07-01T00:00:00Z" });
    const { windows } = firstRoute(ask(request, drawnCourse({ wb: () => 0.14 })));
    expect(windows[1]).toMatchObject({
      startUtc: "2026-07-02T01:30:00Z",
      endUtc: "2026-07-02T14:30:00Z",
      workHours: 13,
    });
  });

  test("night baling in dry air is one window through midnight", () => {
    const request = dryFromTheStart(
      plainRequest({ workHours: { from: "19:30", to: "08:00" }, cutHours: [20] }),
    );
    // Damp enough from 22:00 to 06:00 local (03:00Z to 11:00Z), too dry by day. The course begins at 22:00 local.
    const night = (hours: number) =>
      hours % 24 > 0 && hours % 24 <= 8 ? 0.14 : hours % 24 === 0 ? 0.12 : 0.06;
    const { windows } = firstRoute(ask(request, drawnCourse({ wb: night })));
    expect(windows[0]).toMatchObject({ startUtc: "2026-07-02T03:00:00Z", endUtc: "2026-07-02T11:15:00Z" });
    expect(windows[1]).toMatchObject({ startUtc: "2026-07-03T03:00:00Z", endUtc: "2026-07-03T11:15:00Z" });
    expect(windows.length).toBe(3);
  });

  test("under the midnight sun nothing depends on a sunset", () => {
    const request = dryFromTheStart(
      plainRequest({}, { site: PLACES.arctic, fromUtc: "2026-06-20T22:00:00Z", hours: 120 }),
    );
    const answer = ask(request, drawnCourse({ wb: () => 0.14 }));
    expect(answer.options.length).toBe(4);
    expect(firstRoute(answer).windows.map(({ workHours }) => workHours)).toEqual([9, 13, 13, 13, 13]);
  });
});
