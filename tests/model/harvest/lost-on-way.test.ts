import { describe, expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/board.ts";
import { chainPct } from "../../../model/harvest/losses/index.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import { plainRequest } from "./requests.ts";

function answerOf(request: WindowsRequest) {
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value.options.flatMap(({ routes }) => routes);
}

const THREE: WindowsRequest["routes"] = [
  { route: "dry-hay", package: "round" },
  { route: "wrapped-bales", package: "round" },
  { route: "wilted-chop", store: "bunker" },
];

describe("what a route loses from standing to fed out", () => {
  const routes = answerOf(
    plainRequest({ routes: THREE, treatments: undefined, field: { areaHa: 2 } }, { hours: 192 }),
  );

  test("a route with a window tells its steps in their order, and they multiply to the total", () => {
    const told = routes.filter(({ windows }) => windows.length > 0);
    expect(new Set(told.map(({ route }) => route))).toEqual(
      new Set(["dry-hay", "wrapped-bales", "wilted-chop"]),
    );
    for (const { lossPct, lossSteps } of told) {
      expect(lossPct).toMatchObject({ p10: null, p90: null });
      expect(chainPct((lossSteps ?? []).map(({ pct }) => pct))).toBeCloseTo(lossPct?.p50 ?? Number.NaN, 9);
    }
    const steps = (route: string) =>
      told.find((each) => each.route === route)?.lossSteps?.map(({ step }) => step);
    expect(steps("wilted-chop")).toEqual([
      "mowing",
      "respiration",
      "rain",
      "chopping",
      "storage",
      "feeding-out",
    ]);
    expect(steps("dry-hay")).toContain("rake");
  });

  test("a route without a window tells nothing", () => {
    const none = answerOf(plainRequest({ routes: THREE }, { hours: 48, dewPointC: 22 })).filter(
      ({ windows }) => windows.length === 0,
    );
    expect(none.length).toBeGreaterThan(0);
    for (const { lossPct, lossSteps } of none) expect([lossPct, lossSteps]).toEqual([null, null]);
  });

  test("standing routes lose to the machine, the store and the feeding, not to a swath", () => {
    const [chop] = answerOf(
      plainRequest({ routes: [{ route: "green-chop" }], standing: { moistureWb: 0.78, dailyNeedKgDm: 900 } }),
    );
    expect(chop?.lossSteps?.map(({ step }) => step)).toEqual(["chopping", "feeding-out"]);
  });
});

test("hay in a band wetter than it keeps is dosed, paid for and said; too wet for any dose is said as well", () => {
  const of = (bandWb: readonly [number, number]) =>
    answerOf(
      plainRequest(
        {
          field: { areaHa: 2 },
          treatments: undefined,
          routes: [{ route: "dry-hay", package: "small-square", bandWb }],
        },
        { hours: 192 },
      ),
    ).find(({ windows }) => windows.length > 0);
  expect(of([0.12, 0.18])?.why.some(({ code }) => code === "preservative")).toBe(false);
  const wet = of([0.12, 0.24])?.why.find(({ code }) => code === "preservative");
  expect(wet?.text).toMatch(/hay does not keep by itself\. 0\.5 % of the wet weight/);
  expect(wet?.moistureWb).toBeGreaterThan(0.2);
  const tooWet = of([0.12, 0.4])?.why.find(({ code }) => code === "preservative");
  expect(tooWet?.text).toMatch(/Too wet for any dose/);
});
