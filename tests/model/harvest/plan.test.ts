import { describe, expect, test } from "vitest";
import type { PlanStep, WindowsRequest } from "../../../model/harvest/request.ts";
import { defaultPlan } from "../../../model/harvest/routes.ts";
import { ask, drawnCourse, firstRoute, plainRequest, through } from "./requests.ts";

/** One cut at 1 July 09:00 local (14:00Z), course from 16:00Z; in the band from 24 h after it. */
const DRAWN = drawnCourse({ wb: through([0, 0.78], [24, 0.16], [25, 0.14]) });

function planned(plan: readonly PlanStep[] | undefined, changes: Partial<WindowsRequest> = {}) {
  const treatments = [
    { id: "t", conditioning: "roll" as const, coveredFraction: 0.7, stubbleCm: 8, ...(plan && { plan }) },
  ];
  return firstRoute(ask(plainRequest({ treatments, nowUtc: "2026-07-01T14:00:00Z", ...changes }), DRAWN));
}

describe("passes by rule", () => {
  test("each rule gives its moment and the cover it leaves, in time order", () => {
    const { operations } = planned([
      { kind: "rake", rule: "before-window", hours: 1.5, coveredFraction: 0.25 },
      { kind: "invert", atUtc: "2026-07-02T15:00:00Z" },
      { kind: "ted", rule: "after-cut", hours: 4 },
      { kind: "ted", rule: "morning-after", hour: 8, coveredFraction: 0.9 },
    ]);
    expect(operations).toEqual([
      { kind: "ted", atUtc: "2026-07-01T20:00:00Z", coveredFraction: 0.95 },
      { kind: "ted", atUtc: "2026-07-02T13:00:00Z", coveredFraction: 0.9 },
      { kind: "rake", atUtc: "2026-07-02T14:30:00Z", coveredFraction: 0.25 },
      { kind: "invert", atUtc: "2026-07-02T15:00:00Z", coveredFraction: 0.25 },
    ]);
  });

  test("a rake that would come before the tedding is not driven: the window is there without either", () => {
    const { operations, windows } = planned([
      { kind: "ted", rule: "morning-after", hour: 14 },
      { kind: "rake", rule: "before-window", hours: 1 },
    ]);
    // The window opens at 16:00Z, the tedding would be at 19:00Z.
    expect(operations.map(({ kind }) => kind)).toEqual(["ted"]);
    expect(windows[0]?.startUtc).toBe("2026-07-02T16:00:00Z");
  });

  test("the window is read again after the pass that waits for it", () => {
    const route = firstRoute(
      ask(
        plainRequest({
          nowUtc: "2026-07-01T14:00:00Z",
          treatments: [
            {
              id: "t",
              conditioning: "roll",
              coveredFraction: 0.7,
              stubbleCm: 8,
              plan: [{ kind: "rake", rule: "before-window", hours: 1 }],
            },
          ],
        }),
        // Raked, it comes into the band two hours later.
        (weather, swath, cutUtcMs, operations) =>
          drawnCourse({
            wb:
              operations.length > 0
                ? through([0, 0.78], [26, 0.16], [27, 0.14])
                : through([0, 0.78], [24, 0.16], [25, 0.14]),
          })(weather, swath, cutUtcMs, operations),
      ),
    );
    expect(route.operations[0]?.atUtc).toBe("2026-07-02T15:00:00Z");
    expect(route.windows[0]?.startUtc).toBe("2026-07-02T18:00:00Z");
    expect(route.elapsedHours.p50).toBeCloseTo(26, 9);
  });

  describe("a pass before a window keeps the working hours", () => {
    const RAKE = (hours: number): PlanStep[] => [{ kind: "rake", rule: "before-window", hours }];
    /** In the band from 20 h after the course's cut, 12:00Z: an hour before the working day of 08:00. */
    const EARLY = drawnCourse({ wb: through([0, 0.78], [20, 0.16], [60, 0.13]) });
    const early = (plan: PlanStep[], changes: Partial<WindowsRequest> = {}) =>
      firstRoute(
        ask(
          plainRequest({
            nowUtc: "2026-07-01T14:00:00Z",
            workHours: { from: "08:00", to: "20:00" },
            treatments: [{ id: "t", conditioning: "roll", coveredFraction: 0.7, stubbleCm: 8, plan }],
            ...changes,
          }),
          EARLY,
        ),
      );

    test("where the window opens with the day, the pass is the day's first work and the window comes after it", () => {
      const { operations, windows } = early(RAKE(1));
      expect(operations[0]?.atUtc).toBe("2026-07-02T13:00:00Z");
      expect(windows[0]?.startUtc).toBe("2026-07-02T13:00:00Z");
    });

    test.each([0.5, 1, 3, 20])("%d h before a window never lie before the working day", (hours) => {
      const { operations, windows } = early(RAKE(hours), { workHours: { from: "06:00", to: "20:00" } });
      const atMs = Date.parse(operations[0]?.atUtc ?? "");
      expect(atMs).toBe(Date.parse("2026-07-02T12:00:00Z") - Math.min(hours, 1) * 3_600_000);
      expect(Date.parse(windows[0]?.startUtc ?? "")).toBeGreaterThanOrEqual(atMs);
    });

    test("a working day through midnight reaches back over it", () => {
      const { operations } = early(RAKE(4), {
        workHours: { from: "22:00", to: "10:00" },
        cutHours: [22],
        nowUtc: "2026-07-01T05:00:00Z",
        // Cut 22:00 of 1 July, course from 05:00Z: the band is reached 20 h later, outside the work, till 03:00Z.
      });
      expect(operations[0]?.atUtc).toBe("2026-07-03T03:00:00Z");
    });

    test("a raked swath that would be fit before its rake is told from the rake on", () => {
      // Raked, it is drawn as in the band from the cut on: only what lies after the rake may count.
      const route = firstRoute(
        ask(
          plainRequest({
            nowUtc: "2026-07-01T14:00:00Z",
            treatments: [
              { id: "t", conditioning: "roll", coveredFraction: 0.7, stubbleCm: 8, plan: RAKE(1) },
            ],
          }),
          (weather, swath, cutUtcMs, operations) =>
            drawnCourse({
              wb: operations.length > 0 ? () => 0.15 : through([0, 0.78], [24, 0.16], [60, 0.13]),
            })(weather, swath, cutUtcMs, operations),
        ),
      );
      expect(route.operations[0]?.atUtc).toBe("2026-07-02T15:00:00Z");
      expect(route.windows[0]?.startUtc).toBe("2026-07-02T15:00:00Z");
    });
  });

  test("without a window the pass that waits for one is left out", () => {
    const route = planned([{ kind: "rake", rule: "before-window", hours: 1 }], {
      routes: [{ route: "dry-hay", bandWb: [0.03, 0.05], haPerH: 3 }],
    });
    expect(route.operations).toEqual([]);
    expect(route.windows).toEqual([]);
  });

  test("a pass before the cut or after the weather is left out; one before a window never precedes the cut", () => {
    // In a band of the day of cutting.
    const { operations, windows } = planned(
      [
        { kind: "ted", atUtc: "2026-07-01T15:00:00Z" },
        { kind: "ted", atUtc: "2026-07-05T05:00:00Z" },
        { kind: "rake", rule: "before-window", hours: 100 },
      ],
      { routes: [{ route: "dry-hay", bandWb: [0.6, 0.76], haPerH: 6 }] },
    );
    expect(operations).toEqual([{ kind: "rake", atUtc: "2026-07-01T16:00:00Z", coveredFraction: 0.3 }]);
    expect(windows[0]?.startUtc.slice(0, 10)).toBe("2026-07-01");
  });

  test("an empty plan is nothing, an absent one the route's default", () => {
    expect(planned([]).operations).toEqual([]);
    expect(planned(undefined).operations.map(({ kind }) => kind)).toEqual(["rake"]);
    expect(
      planned(undefined, { swath: { ...plainRequest().swath, crop: "cool-season-grass" } }).operations,
    ).toMatchObject([{ kind: "ted", atUtc: "2026-07-02T15:00:00Z" }, { kind: "rake" }]);
  });

  test("a morning hour that the clock skips is taken an hour later", () => {
    const request = plainRequest(
      {
        treatments: [
          {
            id: "t",
            conditioning: "roll",
            coveredFraction: 0.7,
            stubbleCm: 8,
            plan: [{ kind: "ted", rule: "morning-after", hour: 2 }],
          },
        ],
      },
      { fromUtc: "2026-03-07T06:00:00Z" },
    );
    expect(firstRoute(ask(request, DRAWN)).operations[0]?.atUtc).toBe("2026-03-08T08:00:00Z");
  });
});

describe("default plans", () => {
  test("common practice, no source: nothing is raked over tall or coarse stubble", () => {
    expect(defaultPlan("dry-hay", "drought-corn", 8, 0.7)).toEqual([]);
    expect(defaultPlan("dry-hay", "cool-season-grass", 20, 0.7)).toEqual([]);
    expect(defaultPlan("dry-hay", "alfalfa", 30, 0.7)).toEqual([]);
  });

  test("only dry hay is tedded or raked by default", () => {
    expect(defaultPlan("wrapped-bales", "ryegrass", 8, 0.7)).toEqual([]);
    expect(defaultPlan("wilted-chop", "ryegrass", 8, 0.7)).toEqual([]);
    expect(defaultPlan("dry-hay", "ryegrass", 8, 0.7).map(({ kind }) => kind)).toEqual(["ted", "rake"]);
  });

  test("a legume is not tedded, and a windrow is not raked again", () => {
    expect(defaultPlan("dry-hay", "alfalfa", 8, 0.7).map(({ kind }) => kind)).toEqual(["rake"]);
    expect(defaultPlan("dry-hay", "alfalfa", 8, 0.45)).toEqual([]);
  });
});
