import { describe, expect, test } from "vitest";
import type { WindowLimit } from "../../../model/harvest/answer.ts";
import type { CourseOf } from "../../../model/harvest/drying-store.ts";
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
    why: "This weather ends on Sunday 00:00 with the crop at 30 %; 16 % may come later",
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

  test("over-dry names fewer hours in the band than the work needs, by day or night", () => {
    // 16 % to 12 % from 22:00 to 00:00: two hours, four are needed.
    const drawn = { wb: through([0, 0.78], [10, 0.3], [11, 0.16], [13, 0.12], [14, 0.05]) };
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse(drawn)));
    expect(route.limitedBy).toBe("over-dry");
    const text = route.why.find(({ code }) => code === "over-dry")?.text ?? "";
    const [, held, needed] = /for ([\d.]+) hours at the longest .* takes ([\d.]+) hours/.exec(text) ?? [];
    expect(Number(held)).toBe(2);
    expect(Number(needed)).toBe(4);
    expect(text).toContain("From Wednesday 22:00 to Thursday 00:00 it is damp enough");
    expect(text).toContain("accept drier hay (a lower foot of the band than 12 %) with more leaf lost");
  });

  test("a band held long enough that the night and dew break up is never called over-dry", () => {
    // In the band from 22:00 to 09:00, 11 h; the film is off at 08:00, which leaves one hour of work.
    const filmMm = (hours: number) => (hours >= 11 && hours <= 20 ? 0.1 : 0);
    const wb = through([0, 0.78], [10, 0.3], [11, 0.16], [22, 0.12], [23, 0.05]);
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse({ wb, filmMm })));
    expect(route.limitedBy).toBe("too-few-hours");
    const text = route.why[0]?.text ?? "";
    expect(text).toMatch(
      /^The longest span is 1\.\d hours, Thursday 07:\d\d to 09:00\. The work takes 4 hours/,
    );
    expect(text).toContain("The moisture alone would do Wednesday 22:00 to Thursday 09:00");
  });

  test("a band that is held at night alone, under dew, is a matter of working hours", () => {
    const filmMm = (hours: number) => (hours >= 13 && hours <= 17 ? 0.1 : 0);
    const wb = through([0, 0.78], [10, 0.3], [11, 0.16], [18, 0.12], [19, 0.05]);
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse({ wb, filmMm })));
    expect(route.limitedBy).toBe("working-hours");
    expect(route.why[0]?.text).toContain(
      "It is at 12 % to 16 % only outside the working hours (Wednesday 22:00 to Thursday 05:00)",
    );
  });

  test("working hours: the first span that would do is told, not a longer one later", () => {
    const wb = through(
      [0, 0.78],
      [10, 0.3],
      [11, 0.16],
      [12, 0.14],
      [17, 0.14],
      [18, 0.1],
      [33, 0.1],
      [34, 0.12],
      [42, 0.14],
      [43, 0.05],
    );
    const route = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse({ wb })));
    expect(route.limitedBy).toBe("working-hours");
    expect(route.why[0]?.text).toContain("ready Wednesday 22:00 to Thursday 04:30");
    expect(route.why[0]?.text).toContain("work through the night");
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
  test("a moment more than five days after the cut carries its date", () => {
    const far = { wb: through([0, 0.78], [142, 0.3], [143, 0.15]) };
    const route = firstRoute(ask(plainRequest(ONE_CUT, { hours: 240 }), drawnCourse(far)));
    expect(route.why[0]?.text).toMatch(/^Tuesday 7 Jul 09:\d\d to 20:00 it can be baled dry/);
  });

  test("thick stems are told beside their leaves before the chopper goes in", () => {
    const course: CourseOf = (...asked) => {
      const drawn = drawnCourse({ wb: through([0, 0.78], [22, 0.7], [40, 0.66]) })(...asked);
      drawn.stemMoistureWb.fill(0.78);
      drawn.leafMoistureWb.fill(0.3);
      return drawn;
    };
    const told = (crop: "corn" | "alfalfa") => {
      const plain = plainRequest({
        ...ONE_CUT,
        routes: [{ route: "wilted-chop", bandWb: [0.65, 0.7], haPerH: 3 }],
      });
      const route = firstRoute(ask({ ...plain, swath: { ...plain.swath, crop } }, course));
      return route.why.find(({ code }) => code === "stems-wetter")?.text;
    };
    expect(told("corn")).toBe("Stems are still at 78 % while leaves are at 30 %: chop a sample and test it.");
    expect(told("alfalfa")).toBeUndefined();
  });

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
      "Down to 16 % after 31 hours or later; 1 of 2 estimates does not get there within this weather.",
    );
    expect(open.opinionHours.earliest).toBeCloseTo(31, 9);
    expect(open.opinionHours.latest).toBeNull();
    const rained = firstRoute(ask(plainRequest(ONE_CUT, { rainMm: { 38: 3 } }), model, opinions(later)));
    expect(rained.why.find(({ code }) => code === "estimates")?.text).toContain(
      "published formulas (the formulas do not count rain).",
    );
    const wet = firstRoute(ask(plainRequest(ONE_CUT), drawnCourse({ wb: NEVER }), opinions(never)));
    expect(wet.opinionHours).toEqual({ earliest: null, latest: null });
  });
});
