import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/board.ts";
import { compareRoutes } from "../../../model/harvest/compare-routes.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import { plainRequest } from "./requests.ts";

/** Routes side by side from a question and its answer. */

const REQUEST: WindowsRequest = plainRequest(
  {
    field: { areaHa: 2 },
    treatments: undefined,
    standing: { moistureWb: 0.78, dailyNeedKgDm: 900 },
    routes: [
      { route: "dry-hay", package: "round" },
      { route: "wrapped-bales", package: "round" },
      { route: "wilted-chop", store: "bunker" },
      { route: "grazing" },
    ],
  },
  { hours: 192 },
);

function answerOf(request: WindowsRequest) {
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value;
}

const ANSWER = answerOf(REQUEST);
const COMPARED = compareRoutes(REQUEST, ANSWER);

test("rows are the best cut of each route, best value first, worked out as the board did", () => {
  expect(COMPARED.rows.map(({ route }) => route).toSorted()).toEqual([
    "dry-hay",
    "grazing",
    "wilted-chop",
    "wrapped-bales",
  ]);
  for (const [i, { valuePerHa, value, optionId, route, keptFraction, lossPct }] of COMPARED.rows.entries()) {
    expect(value.valuePerHa).toBeCloseTo(valuePerHa ?? Number.NaN, 9);
    expect(100 * (1 - keptFraction)).toBeCloseTo(lossPct?.p50 ?? Number.NaN, 9);
    expect(optionId).toBe(ANSWER.best.byRoute[route]);
    expect(valuePerHa).toBeLessThanOrEqual(COMPARED.rows[Math.max(0, i - 1)]?.valuePerHa ?? Number.NaN);
  }
  expect(COMPARED.rows[0]?.optionId).toBe(ANSWER.best.overall?.optionId);
});

test("the sentence names what is kept and the dry days, best first; the gate stands before it", () => {
  expect(COMPARED.sentence).toMatch(/keeps? \d\d %/);
  expect(COMPARED.sentence).toMatch(/dry hay keeps \d\d % and needs (one|two|three|four|five) dry days?/i);
  expect(COMPARED.gate.map(({ key }) => key)).toEqual(["insurer", "label", "nitrate", "worth-waiting"]);
});

test("bales, film, hours and costs stand in the rows of those routes that have them", () => {
  const row = (route: string) => COMPARED.rows.find((one) => one.route === route);
  expect(row("wrapped-bales")?.layers).toBe(6);
  // Mower 4 and baler at their rates; a pass adds its own machine's time.
  const hay = row("dry-hay");
  const passes = (hay?.lossSteps ?? []).filter(({ step }) => step === "ted" || step === "rake").length;
  expect(passes).toBeGreaterThan(0);
  expect(hay?.value.machineHours).toBeGreaterThan(1 / 4 + (hay?.value.labourHours ?? 0));
  expect(row("dry-hay")?.layers).toBeNull();
  expect(row("dry-hay")?.value.bales).toBeGreaterThan(5);
  expect(row("wilted-chop")?.value.bales).toBe(0);
  expect(row("grazing")?.daysLying).toBeNull();
  expect(row("dry-hay")?.daysLying).toBeGreaterThanOrEqual(1);
});

test("each turning point, put into the question, changes the first place, and short of it does not", () => {
  const leader = COMPARED.rows[0]?.route;
  const prices = COMPARED.turns.filter(({ key }) => key.startsWith("prices."));
  expect(prices.length).toBeGreaterThan(1);
  for (const { key, from, to, leader: then } of prices.slice(0, 2)) {
    const route = key.slice("prices.".length);
    const first = (price: number) => {
      // Held to the same cuts: only the price moves.
      const moved = { ...REQUEST, prices: { [route]: price } };
      const byRoute = (asked: string) =>
        ANSWER.best.byRoute[asked as keyof typeof ANSWER.best.byRoute] ?? null;
      return compareRoutes(moved, answerOf(moved), byRoute).rows[0]?.route;
    };
    expect(first(to + (to - from) * 1e-6)).toBe(then);
    expect(first(to - (to - from) * 1e-6)).toBe(leader);
  }
  expect(COMPARED.turns.map(({ share }) => share)).toEqual(
    COMPARED.turns.map(({ share }) => share).toSorted((a, b) => a - b),
  );
});

test("rain on the swath can cost the lead, and a route that cannot be brought in has no row", () => {
  const dear = { ...REQUEST, prices: { "dry-hay": 400 } };
  const { turns, rows } = compareRoutes(dear, answerOf(dear));
  expect(rows[0]?.route).toBe("dry-hay");
  const rain = turns.find(({ key }) => key === "moreRainMm.dry-hay");
  expect(rain?.to ?? 99).toBeGreaterThan(0);
  const none = compareRoutes(REQUEST, ANSWER, () => null);
  expect([none.rows, none.sentence, none.turns]).toEqual([[], "", []]);
});

test("each step carries its spread and source, and what it costs in quality; spreads are those of the steps' own makers", () => {
  const row = COMPARED.rows.find(({ route }) => route === "dry-hay");
  for (const { step, pct, lowPct, highPct, source } of row?.lossSteps ?? []) {
    expect(lowPct, step).toBeLessThanOrEqual(pct + 1e-12);
    expect(highPct, step).toBeGreaterThanOrEqual(pct - 1e-12);
    expect(source.length, step).toBeGreaterThan(10);
  }
  const total = row?.lossPct?.p50 ?? Number.NaN;
  expect(row?.lossRangePct.low).toBeLessThan(total);
  expect(row?.lossRangePct.high).toBeGreaterThan(total);
  expect(row?.quality.proteinPoints).toBeGreaterThan(0);
  const breath = row?.lossSteps.find(({ step }) => step === "respiration");
  expect((breath?.highPct ?? 0) / (breath?.pct ?? 1)).toBeCloseTo(2, 9);
});

test("leaving it: grain by its chance and later forage, against the best route; nothing said, nothing told", () => {
  expect(COMPARED.leave).toBeNull();
  const leave = { grainTHa: 4, grainPricePerT: 200, grainCostPerHa: 150, grainChance: 0.5 };
  const { leave: told } = compareRoutes({ ...REQUEST, leave }, ANSWER);
  expect(told?.standingPerHa).toBeCloseTo(0.5 * (4 * 200 - 150), 9);
  const best = COMPARED.rows[0]?.valuePerHa ?? 0;
  expect(told?.differencePerHa).toBeCloseTo(best - 325, 9);
  expect(told?.better).toBe(best > 325 ? "harvest" : "leave");
  const later = compareRoutes({ ...REQUEST, leave: { laterForageTHa: 3 } }, ANSWER);
  expect(later.leave?.standingPerHa).toBeCloseTo(3 * 220, 9);
});

test("where no daily need is given, grazing stands behind what takes the whole field, as on the board", () => {
  const { standing: _none, ...rest } = REQUEST;
  const answer = answerOf(rest);
  const { rows, turns, sentence } = compareRoutes(rest, answer);
  expect(rows.at(-1)?.route).toBe("grazing");
  expect(sentence).toMatch(/Set last, as no daily need is given: grazing keeps \d\d % of what is taken\.$/);
  expect(rows.map(({ note }) => note === null)).toEqual(rows.map(({ route }) => route !== "grazing"));
  expect(rows[0]?.optionId).toBe(answer.best.overall?.optionId);
  expect(turns.some(({ leader }) => leader === "grazing")).toBe(false);
});
