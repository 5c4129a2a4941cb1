import { describe, expect, test } from "vitest";
import type { RouteRequest, WindowsRequest } from "../../../model/harvest/request.ts";
import { daysToBand } from "../../../model/harvest/standing.ts";
import { ask, drawnCourse, firstRoute, plainRequest } from "./requests.ts";

const NEVER = drawnCourse({ wb: () => 0.7 });

function standing(
  route: RouteRequest,
  changes: Partial<WindowsRequest> = {},
  rainMm: Record<number, number> = {},
) {
  const request = plainRequest({ routes: [route], standing: { moistureWb: 0.7 }, ...changes }, { rainMm });
  return ask(request, NEVER);
}

describe("direct chop", () => {
  test("opens when the standing crop comes down to the band", () => {
    // 70 % at Wednesday 00:00, 1 point a day: 68 % after 48 h, Friday 00:00; work begins at 07:00.
    const answer = standing(
      { route: "direct-chop", bandWb: [0.65, 0.68], haPerH: 3 },
      { standing: { moistureWb: 0.7, dryDownPointsPerDay: 1 } },
    );
    const route = firstRoute(answer);
    expect(route.windows.map(({ startUtc, endUtc }) => [startUtc, endUtc])).toEqual([
      ["2026-07-03T12:00:00Z", "2026-07-04T01:00:00Z"],
      ["2026-07-04T12:00:00Z", "2026-07-05T01:00:00Z"],
    ]);
    expect(route.opinionHours.earliest).toBeCloseTo(48, 9);
    expect(route.why.map(({ text }) => text).join(" ")).toContain("comes down to 68 % on Friday 00:00");
    expect(answer.best).toEqual({
      overall: { optionId: "standing/direct-chop", route: "direct-chop" },
      byRoute: { "direct-chop": "standing/direct-chop" },
    });
  });

  test("says in how many days it is in band, past the weather too", () => {
    const told = (moistureWb: number) =>
      firstRoute(
        standing(
          { route: "direct-chop", bandWb: [0.65, 0.68], haPerH: 3 },
          { standing: { moistureWb, dryDownPointsPerDay: 0.6 } },
        ),
      ).why.find(({ code }) => code === "standing-moisture");
    // 5.4 points at 0.6 a day.
    expect(told(0.734)?.text).toContain("after this weather: in band in about 9 days unless it rains");
    expect(told(0.734)?.atUtc).toBeNull();
    expect(told(0.686)?.text).toContain("in band in about a day unless it rains");
    expect(told(0.67)?.text).toContain("is at 67 % now");
    expect(daysToBand(0.734, 0.68, 0.6)).toBeCloseTo(9, 9);
    expect([daysToBand(0.6, 0.68, 0), daysToBand(0.7, 0.68, 0)]).toEqual([0, null]);
  });

  test("the moisture holds at now, inside an hour too", () => {
    const route = firstRoute(
      standing(
        { route: "direct-chop", bandWb: [0.65, 0.695], haPerH: 12 },
        { nowUtc: "2026-07-01T13:30:00Z", standing: { moistureWb: 0.7, dryDownPointsPerDay: 4 } },
      ),
    );
    // 0.5 points at 4 a day = 3 h.
    expect(route.windows[0]?.startUtc).toBe("2026-07-01T16:30:00Z");
    expect(route.elapsedHours.p50).toBeCloseTo(3, 9);
  });

  test("without a given rate the hours are told as the range of the published rates", () => {
    const { opinionHours } = firstRoute(standing({ route: "direct-chop", bandWb: [0.6, 0.69], haPerH: 3 }));
    expect(opinionHours.earliest).toBeCloseTo(24 / 0.9, 6);
    expect(opinionHours.latest).toBeCloseTo(24 / 0.5, 6);
  });

  test("a crop that is past the band is over-dry", () => {
    const route = firstRoute(standing({ route: "direct-chop", bandWb: [0.72, 0.75], haPerH: 3 }));
    expect(route.limitedBy).toBe("over-dry");
  });

  test("needs the whole area in one day, and rain and soil close it", () => {
    const slow = firstRoute(standing({ route: "direct-chop", bandWb: [0.6, 0.7], haPerH: 0.4 }));
    expect(slow.limitedBy).toBe("too-few-hours");
    const wet = firstRoute(
      standing({ route: "direct-chop", bandWb: [0.6, 0.7], haPerH: 3 }, {}, { 9: 1, 20: 12 }),
    );
    // Hour 9 is 09:00 local: two hours before it are too few, ten after it enough. Thursday the soil is wet till 21:00.
    expect(wet.windows.map(({ startUtc }) => startUtc)).toEqual([
      "2026-07-01T15:00:00Z",
      "2026-07-03T12:00:00Z",
      "2026-07-04T12:00:00Z",
    ]);
    const rained = firstRoute(
      standing({ route: "direct-chop", bandWb: [0.6, 0.7], haPerH: 1 }, {}, { 13: 1, 37: 1, 61: 1, 85: 1 }),
    );
    expect(rained.limitedBy).toBe("rain");
  });
});

describe("green chop and grazing", () => {
  test("go by the day's need, one turn a working day, for as long as the field feeds", () => {
    // 12 ha x 3.2 t = 38.4 t; 15 t a day feeds 3 days (rounded up); 4.69 ha a day at 1 ha/h = 4.69 h.
    const route = firstRoute(
      standing({ route: "green-chop", haPerH: 1 }, { standing: { moistureWb: 0.8, dailyNeedKgDm: 15_000 } }),
    );
    expect(route.windows.map(({ startUtc }) => startUtc)).toEqual([
      "2026-07-01T12:00:00Z",
      "2026-07-02T12:00:00Z",
      "2026-07-03T12:00:00Z",
    ]);
  });

  test("a day's need that takes longer than any day is said", () => {
    const route = firstRoute(
      standing(
        { route: "green-chop", haPerH: 0.15 },
        { standing: { moistureWb: 0.8, dailyNeedKgDm: 15_000 } },
      ),
    );
    expect(route.limitedBy).toBe("too-few-hours");
  });

  test("the turn is told as a day's, not as the whole work", () => {
    const texts = firstRoute(standing({ route: "grazing" }))
      .why.map(({ text }) => text)
      .join(" ");
    expect(texts).toContain("Each day's turn takes 1 hour.");
    expect(texts).not.toContain("The work takes");
  });

  test("carry their caution first, in words", () => {
    const green = firstRoute(standing({ route: "green-chop" })).why[0];
    expect(green?.code).toBe("caution");
    for (const words of ["Laboratory result first", "Never hold it overnight", "after every rain"]) {
      expect(green?.text).toContain(words);
    }
    const grazing = firstRoute(standing({ route: "grazing" })).why[0];
    for (const words of ["Laboratory nitrate", "veterinarian", "stock lightly", "frost"]) {
      expect(grazing?.text).toContain(words);
    }
  });

  test("nothing that is said calls a feed safe", () => {
    for (const route of ["green-chop", "grazing", "direct-chop"] as const) {
      expect(JSON.stringify(standing({ route }))).not.toMatch(/\bsafe\b/i);
    }
  });
});
