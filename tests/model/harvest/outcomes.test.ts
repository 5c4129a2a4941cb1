import { expect, test } from "vitest";
import type { Brought } from "../../../model/harvest/lost-on-way.ts";
import { leftPerHa, NOTHING_BROUGHT, toldOutcome } from "../../../model/harvest/outcomes.ts";
import { ratesWith } from "../../../model/harvest/value/prices.ts";
import { routeValue } from "../../../model/harvest/value/route-value.ts";

/** From what each member brings in to what is told: losses by quantiles, value by its mean. */

function brought(rainPct: number): Brought {
  const step = (key: "mowing" | "rain", pct: number) => ({
    step: key,
    pct,
    lowPct: pct,
    highPct: pct,
    source: "",
  });
  const steps = [step("mowing", 0), step("rain", rainPct)];
  const value = routeValue({
    route: "wilted-chop",
    package: "round",
    dryMatterTHa: 4,
    steps,
    passes: [],
    mowHaPerH: 4,
    haPerH: 3,
    takenAtWb: 0.65,
    prices: { "wilted-chop": 100 },
    rates: { mowPerHa: 30, chopPerHa: 0, fillPerHa: 0, labourPerH: 0 },
  });
  return { takenAtWb: 0.65, takenShare: 1, turnHPerHa: null, steps, value };
}

test("one forecast: its own loss and value, no other quantiles", () => {
  expect(toldOutcome(brought(10))).toMatchObject({
    lossPct: { p10: null, p25: null, p50: expect.closeTo(10, 9), p75: null, p90: null },
    valuePerHa: expect.closeTo(360 - 30, 9),
  });
});

test("members: the mean of their values, those that bring nothing in at what is left; quantiles of the loss over those that do", () => {
  const members = [brought(0), null, brought(20), brought(10)];
  const told = toldOutcome(brought(5), members, -30);
  // 400 - 30, -30, 320 - 30, 360 - 30.
  expect(told.valuePerHa).toBeCloseTo((370 - 30 + 290 + 330) / 4, 9);
  // Those of the members, 0, 10 and 20 %: the main forecast's 5 % is none of theirs.
  expect(told.lossPct?.p50).toBeCloseTo(10, 9);
  expect(told.lossPct?.p10).toBeCloseTo(2, 9);
  expect(told.lossPct?.p25).toBeCloseTo(5, 9);
  expect(told.lossPct?.p75).toBeCloseTo(15, 9);
  expect(told.lossPct?.p90).toBeCloseTo(18, 9);
});

test("a cut that brings nothing in has cost its mowing, a standing crop nothing; without a window in any weather nothing is told", () => {
  const rates = ratesWith({ mowPerHa: 41 });
  expect(leftPerHa("dry-hay", { rates })).toBe(-41);
  expect(leftPerHa("grazing", { rates })).toBe(0);
  expect(toldOutcome(null)).toBe(NOTHING_BROUGHT);
  expect(toldOutcome(null, [null, null], -41)).toBe(NOTHING_BROUGHT);
});

test("a window of members alone has their loss and value; the main forecast's steps stay untold", () => {
  expect(toldOutcome(null, [brought(10), null], -30)).toEqual({
    ...NOTHING_BROUGHT,
    lossPct: Object.fromEntries(["p10", "p25", "p50", "p75", "p90"].map((p) => [p, expect.closeTo(10, 9)])),
    // 400 - 10 % - 30, and -30.
    valuePerHa: expect.closeTo((330 - 30) / 2, 9),
  });
});
