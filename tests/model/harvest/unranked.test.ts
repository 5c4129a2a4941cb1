import { expect, test } from "vitest";
import { findWindowsWithOdds, type WindowsRequest } from "../../../model/harvest/index.ts";
import { unrankedSentence } from "../../../web/answer/unranked.ts";
import { us12 } from "../../support/manners.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";
import { ROLLED_ALFALFA } from "./requests.ts";

/** Rain every six hours from so many hours on, mm. */
function rainFrom(hour: number) {
  const rainMm: Record<number, number> = {};
  for (let h = hour; h < 120; h += 6) rainMm[h] = 3;
  return inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120, { rainMm });
}

const dry = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120);

/** A main forecast that stays wet, and 14 of 20 members that stay dry. */
function ask(wetFromHour: number, change: Partial<WindowsRequest>) {
  const wet = rainFrom(wetFromHour);
  const members = Array.from({ length: 20 }, (_, i) => ({
    rainMm: i < 14 ? dry.hours.rainMm : wet.hours.rainMm,
  }));
  const outcome = findWindowsWithOdds({
    weather: { ...wet, members },
    field: { areaHa: 6 },
    swath: ROLLED_ALFALFA,
    cutHours: [9],
    seed: 7,
    ...change,
  });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

const PLACE = { fieldName: "Creek field", manner: us12("America/Chicago"), fromUtc: "2026-07-01T05:00:00Z" };

test("where only draws have a window nothing is ranked, and what is worth most on average is told", () => {
  const answer = ask(30, { routes: [{ route: "dry-hay" }] });
  const { unranked, first } = answer.odds ?? {};
  expect(answer.best.overall).toBeNull();
  expect(first).toBeNull();
  expect(unranked).toMatchObject({ route: "dry-hay", chance: 0.7 });
  const values = answer.options.flatMap(({ routes }) => routes.map(({ valuePerHa }) => valuePerHa ?? 0));
  expect(unranked?.valuePerHa).toBe(Math.max(...values));
  expect(unranked?.text).toMatch(
    /^Worth more on average than leaving it, with no hour to plan: cut Wednesday 1 Jul 09:00, dry hay, \d+ a hectare\. The main forecast has no window for it, 7 in 10 of its courses have one\.$/,
  );
  expect(unrankedSentence(answer, PLACE)).toMatch(/cut Wednesday 9 am, dry hay, \d+ an acre\. The main/);
  expect(unrankedSentence(answer, { ...PLACE, past: true })).toBe("");
});

test("beside a first place it is told only where it is worth more", () => {
  const routes = [{ route: "dry-hay" as const }, { route: "wilted-chop" as const }];
  const dear = ask(30, { field: { areaHa: 2 }, routes, prices: { "wilted-chop": 60 } });
  expect(dear.odds?.first?.route).toBe("wilted-chop");
  const { unranked, first } = dear.odds ?? {};
  expect(unranked?.route).toBe("dry-hay");
  expect(unranked?.valuePerHa).toBeGreaterThan(first?.valuePerHa ?? Number.POSITIVE_INFINITY);
  expect(unranked?.text).toMatch(
    /^Worth more on average, with no hour to plan: .* a hectare against -?\d+\./,
  );
  expect(
    ask(30, { field: { areaHa: 2 }, routes, prices: { "wilted-chop": 900 } }).odds?.unranked,
  ).toBeUndefined();
});
