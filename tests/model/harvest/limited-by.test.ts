import { describe, expect, test } from "vitest";
import type { WindowLimit } from "../../../model/harvest/answer.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import type { SpellOptions } from "../../support/weather.ts";
import { ask, type Drawn, drawnCourse, firstRoute, plainRequest, through } from "./requests.ts";

/** One cut only: 1 July 09:00 local (14:00Z), mowing 3 h, course from 16:00Z = hour 11 of the weather, 11:00 local. */
const ONE_CUT = { nowUtc: "2026-07-01T14:00:00Z" } as const;

interface Case {
  readonly is: WindowLimit;
  readonly why: string;
  readonly code: string;
  readonly drawn: Drawn;
  readonly changes?: Partial<WindowsRequest>;
  readonly spell?: SpellOptions & { readonly hours?: number };
}

const NEVER = through([0, 0.78], [30, 0.6], [200, 0.3]);

const CASES: readonly Case[] = [
  {
    is: "rain",
    code: "rain",
    why: "Without the rain",
    drawn: { wb: NEVER, wbWithoutRain: through([0, 0.78], [24, 0.14]) },
    spell: { rainMm: { 20: 8 } },
  },
  {
    is: "air-too-humid",
    code: "air-too-humid",
    why: "rest at 19 % at best, 16 % is needed",
    drawn: { wb: through([0, 0.78], [48, 0.2]), equilibriumWb: 0.19 },
  },
  {
    is: "over-dry",
    code: "over-dry",
    why: "is too dry by Thursday 11:00",
    // 0.78 -> 0.10 from 22 h to 24 h: seven minutes in the band, at 11 in the morning.
    drawn: { wb: through([0, 0.78], [22, 0.78], [24, 0.1]) },
  },
  {
    is: "dew",
    code: "dew-on-swath",
    why: "Dew lies on the swath",
    drawn: { wb: through([0, 0.78], [24, 0.14]), filmMm: () => 0.05 },
  },
  {
    is: "soil-too-wet",
    code: "soil-too-wet",
    why: "over 10 mm of rain in the 24 hours before",
    // In the band from the first hours, gone the next day; 12 mm fell at 08:00, before the cut.
    drawn: { wb: through([0, 0.15], [12, 0.13], [13, 0.08]) },
    spell: { rainMm: { 8: 12 } },
  },
  {
    is: "working-hours",
    code: "working-hours",
    why: "beyond the working hours: ready Wednesday 22:00 to Thursday 06:00",
    drawn: { wb: through([0, 0.78], [10, 0.3], [11, 0.16], [12, 0.15], [18, 0.15], [19, 0.12], [20, 0.05]) },
  },
  {
    is: "too-few-hours",
    code: "too-few-hours",
    why: "The longest span is 9 hours, Wednesday 11:00 to 20:00. The work takes 20 hours in one day",
    drawn: { wb: through([0, 0.15], [9, 0.15], [10, 0.05]) },
    changes: { routes: [{ route: "dry-hay", bandWb: [0.12, 0.16], haPerH: 0.6 }] },
  },
  {
    is: "slow-drying",
    code: "slow-drying",
    why: "over ten more days away",
    drawn: { wb: through([0, 0.78], [10, 0.6], [84, 0.58]) },
  },
  {
    is: "forecast-too-short",
    code: "forecast-too-short",
    why: "The forecast ends on Sunday 00:00 with the crop at 30 %; 16 % may come later",
    drawn: { wb: through([0, 0.78], [85, 0.3]) },
  },
];

describe("the reason for a missing window", () => {
  test.each(CASES)("$is", ({ is, code, why, drawn, changes, spell }) => {
    const inBandAtCut = drawn.wb(1) < 0.3;
    const plain = plainRequest({ ...ONE_CUT, ...changes }, spell);
    const swath = { ...plain.swath, initialMoistureWb: inBandAtCut ? 0.15 : 0.78 };
    const route = firstRoute(ask({ ...plain, swath }, drawnCourse(drawn)));
    expect(route.windows).toEqual([]);
    expect(route.limitedBy).toBe(is);
    const told = route.why.find((reason) => reason.code === code);
    expect(told?.text).toContain(why);
    expect([route.elapsedHours.p50, route.rank]).toEqual([null, null]);
  });

  test("standing-too-wet", () => {
    const request = plainRequest({
      standing: { moistureWb: 0.8 },
      routes: [{ route: "direct-chop", store: "bunker" }],
    });
    const route = firstRoute(ask(request, drawnCourse({ wb: NEVER })));
    expect(route.limitedBy).toBe("standing-too-wet");
    expect(route.why.map(({ text }) => text).join(" ")).toContain("still at 78 % on Sunday 00:00");
  });

  test("a humid-air verdict is not given to a swath that came into the band all the same", () => {
    const drawn = { wb: through([0, 0.78], [30, 0.15], [31, 0.2]), equilibriumWb: 0.19 };
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse(drawn)));
    expect(route.limitedBy).not.toBe("air-too-humid");
  });

  test("dew and wet soil together are not blamed on the forecast", () => {
    const drawn = { wb: through([0, 0.15], [12, 0.13], [13, 0.08]), filmMm: () => 0.1 };
    const plain = plainRequest(ONE_CUT, { rainMm: { 8: 12 } });
    const request = { ...plain, swath: { ...plain.swath, initialMoistureWb: 0.15 } };
    expect(firstRoute(ask(request, drawnCourse(drawn))).limitedBy).toBe("dew");
  });

  test("rain before the cut is not rain on the swath", () => {
    const route = firstRoute(
      ask(plainRequest(ONE_CUT, { rainMm: { 8: 12 } }), drawnCourse({ wb: through([0, 0.78], [24, 0.14]) })),
    );
    expect(route.windows[0]?.rainedOn).toBe(false);
    expect(route.rainMm.mean).toBe(0);
    expect(route.why.some(({ code }) => code === "rain-on-swath")).toBe(false);
  });
});

describe("the reasons beside a window", () => {
  const drawn = { wb: through([0, 0.78], [25, 0.45], [27, 0.4], [50, 0.14]) };

  test("rain is told with its day, hour and the moisture it meets", () => {
    // Hour 38 of the weather is Thursday 14:00 local, 27 h after the course's cut.
    const request = plainRequest(ONE_CUT, { rainMm: { 38: 3, 39: 1.5 } });
    const route = firstRoute(ask(request, drawnCourse(drawn)));
    expect(route.why).toContainEqual({
      code: "rain-on-swath",
      atUtc: "2026-07-02T19:00:00Z",
      moistureWb: 0.4,
      text: "Rain on Thursday 14:00 reaches the swath at 40 %: 4.5 mm.",
    });
    expect(route.windows[0]?.rainedOn).toBe(true);
    expect(route.rainMm).toEqual({ mean: 4.5, p90: null });
  });

  test("dew that keeps the window shut is told with the hour it opens", () => {
    // Dry enough all Friday morning, wet until 10:20: the film falls through 0.02 mm a third into an hour.
    const filmMm = (hours: number) => (hours <= 47 ? 0.03 : 0);
    const wet = { wb: through([0, 0.78], [40, 0.14]), filmMm };
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse(wet)));
    expect(route.windows[0]?.startUtc).toBe("2026-07-03T15:20:00Z");
    expect(route.why.find(({ code }) => code === "dew-on-swath")?.text).toBe(
      "Dew or rain lies on the swath until Friday 10:20.",
    );
  });

  test("the estimates are told as a range, and one that never arrives leaves it open", () => {
    const later = through([0, 0.78], [60, 0.14]);
    const never = NEVER;
    const opinions =
      (...curves: readonly ((h: number) => number)[]) =>
      (...[weather, , cutUtcMs]: Parameters<ReturnType<typeof drawnCourse>>) => {
        const count = weather.count - (cutUtcMs - weather.startUtcMs) / 3_600_000;
        return curves.map((curve, k) => ({
          name: `formula ${k}`,
          moistureWb: Float64Array.from({ length: count }, (_, i) => curve(i + 1)),
        }));
      };
    const model = drawnCourse({ wb: through([0, 0.78], [31, 0.16], [32, 0.15]) });
    const both = firstRoute(ask(plainRequest(ONE_CUT), model, opinions(later)));
    expect(both.opinionHours.earliest).toBeCloseTo(31, 9);
    expect(both.opinionHours.latest).toBeCloseTo(58.125, 9);
    expect(both.why.find(({ code }) => code === "estimates")?.text).toBe(
      "Down to 16 % between 31 hours and 58 hours after the cut, by the model and published formulas.",
    );
    const open = firstRoute(ask(plainRequest(ONE_CUT), model, opinions(never)));
    expect(open.why.find(({ code }) => code === "estimates")?.text).toContain(
      "later than the forecast: 1 of 2",
    );
    const wet = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse({ wb: NEVER }), opinions(never)));
    expect(wet.opinionHours).toEqual({ earliest: null, latest: null });
  });
});
