import { expect, test } from "vitest";
import type { ReadingRequest } from "../../../model/drying/index.ts";
import {
  answerOf,
  findBoard,
  findWindows,
  findWindowsWithOdds,
  type WindowsRequest,
} from "../../../model/harvest/index.ts";
import { drydownWithOdds } from "../../../model/odds/index.ts";
import { recordedDrying } from "../../../web/worker/ribbons.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";
import { ROLLED_ALFALFA } from "./requests.ts";

/** Cut Wednesday 1 July 09:00 in South Dakota (14:00 UTC); now is the next day 17:00. */
const CUT_UTC = "2026-07-01T14:00:00Z";
const NOW_UTC = "2026-07-02T22:00:00Z";
const weather = {
  ...inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 168),
  issuedUtc: "2026-07-01T05:00:00Z",
};
const request: WindowsRequest = {
  weather,
  nowUtc: NOW_UTC,
  field: { areaHa: 6 },
  swath: ROLLED_ALFALFA,
  cutHours: [9],
  routes: [{ route: "dry-hay" }, { route: "wrapped-bales" }],
  madeCuts: [{ cutUtc: CUT_UTC }],
  draws: 24,
  seed: 7,
};
const readCut = (moistureWb: number, atUtc = "2026-07-02T20:00:00Z", more: Partial<ReadingRequest> = {}) => ({
  cutUtc: CUT_UTC,
  route: "dry-hay" as const,
  readings: [{ atUtc, method: "oven" as const, moistureWb, ...more }],
});

/** Wetter than nearly all draws, and borne out by another method: one reading alone would change nothing. */
const READ_TWICE = {
  ...readCut(0.36),
  readings: [
    ...readCut(0.36, "2026-07-02T19:00:00Z").readings,
    ...readCut(0.36, "2026-07-02T20:00:00Z", { method: "microwave" }).readings,
  ],
};

function ask(change: Partial<WindowsRequest> = {}, odds = true) {
  const outcome = (odds ? findWindowsWithOdds : findWindows)({ ...request, ...change });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

function refused(change: Partial<WindowsRequest>) {
  const outcome = findWindows({ ...request, ...change });
  return outcome.ok ? [] : outcome.issues;
}

const madeOf = ({ options }: ReturnType<typeof ask>) => options.find(({ made }) => made);
const routeOf = (option: ReturnType<typeof madeOf>, key = "dry-hay") =>
  option?.routes.find(({ route }) => route === key);

test("a cut that was made stays on the board, out of the ranking, with windows from now on", () => {
  const answer = ask();
  const made = madeOf(answer);
  expect(made).toMatchObject({ cutUtc: CUT_UTC, kind: "swath", made: true });
  expect(answer.options.filter((option) => option.made)).toHaveLength(1);
  for (const { rank, windows } of made?.routes ?? []) {
    expect(rank).toBeNull();
    for (const { startUtc } of windows) expect(startUtc >= NOW_UTC).toBe(true);
  }
  expect(routeOf(made)?.windows.length).toBeGreaterThan(0);
  expect(routeOf(made)?.odds?.chance).toBeGreaterThan(0);
  // What is to be cut next is the same as on a board that knows nothing of it.
  const without = ask({ madeCuts: undefined });
  expect({ best: answer.best, odds: answer.odds }).toEqual({ best: without.best, odds: without.odds });
  expect(answer.options.filter((option) => !option.made)).toEqual(without.options);
  expect(without.options.every(({ cutUtc }) => cutUtc === null || cutUtc >= NOW_UTC)).toBe(true);
});

test("an offered hour that was cut is that cut, once", () => {
  const offered = ask({ nowUtc: CUT_UTC, madeCuts: [{ cutUtc: CUT_UTC }] }, false);
  const same = offered.options.filter(({ cutUtc }) => cutUtc === CUT_UTC);
  expect(same).toHaveLength(1);
  expect(same[0]?.made).toBe(true);
  expect(offered.best.overall?.optionId).not.toBe(same[0]?.id);
});

test("a cut before the weather is named with the way out, never dropped in silence", () => {
  const { madeLeftOut, options, warnings } = ask({ madeCuts: [{ cutUtc: "2026-06-30T19:00:00Z" }] }, false);
  expect(options.some(({ made }) => made)).toBe(false);
  const text = madeLeftOut?.[0]?.text ?? "";
  expect(text).toMatch(/^The cut .*30 Jun 14:00 was made before this weather begins \(.*1 Jul 00:00\)/);
  expect(text).toMatch(/file of a station/);
  expect(warnings).toContain(text);
});

test("what cannot be is refused by path, value and limit", () => {
  const late = refused({ madeCuts: [{ cutUtc: "2026-07-03T14:00:00Z" }] });
  expect(late).toMatchObject([{ path: "madeCuts[0].cutUtc", code: "out-of-range" }]);
  expect(late[0]?.message).toContain(
    "got 2026-07-03T14:00:00Z, must not lie after the hour of nowUtc (2026-07-02T22:00:00Z)",
  );
  const twice = [{ cutUtc: CUT_UTC }, { cutUtc: CUT_UTC }];
  expect(refused({ madeCuts: twice })).toMatchObject([{ path: "madeCuts[1].cutUtc", code: "duplicate" }]);
  expect(refused({ madeCuts: [{ cutUtc: "1 July" }] })[0]).toMatchObject({ code: "bad-time" });
  const many = Array.from({ length: 7 }, (_, i) => ({ cutUtc: `2026-07-01T${10 + i}:00:00Z` }));
  expect(refused({ madeCuts: many })[0]).toMatchObject({ path: "madeCuts", code: "too-many" });
  const { conditioning, coveredFraction, stubbleCm } = request.swath;
  const treatments = ["a", "b"].map((id) => ({ id, conditioning, coveredFraction, stubbleCm }));
  expect(refused({ treatments })[0]).toMatchObject({ path: "madeCuts[0].treatment", code: "required" });
  const ahead = refused({ readCuts: [readCut(0.4, "2026-07-03T20:00:00Z")] });
  expect(ahead).toMatchObject([{ path: "readCuts[0].readings[0].atUtc", code: "out-of-range" }]);
  const once = readCut(0.4).readings;
  const again = refused({ readCuts: [{ ...readCut(0.4), readings: [...once, ...once] }] });
  expect(again).toMatchObject([{ path: "readCuts[0].readings[1]", code: "duplicate" }]);
  expect(again[0]?.message).toContain("got oven 0.4 at 2026-07-02T20:00:00Z a second time");
  const elsewhere = once.map((one) => ({ ...one, place: "north end" }));
  expect(refused({ readCuts: [{ ...readCut(0.4), readings: [...once, ...elsewhere] }], draws: 0 })).toEqual(
    [],
  );
  const learned = { rateLnMean: 0.1, rateLnSd: 0.1, atUtc: "2036-07-01T00:00:00Z" };
  for (const nowUtc of [NOW_UTC, undefined]) {
    const [issue] = refused({ learned, nowUtc, madeCuts: undefined });
    expect(issue).toMatchObject({ path: "learned.atUtc", code: "out-of-range" });
    expect(issue?.message).toMatch(/got 2036-07-01T00:00:00Z, must not lie after .*2026-07-0/);
  }
  expect(refused({ readCuts: [readCut(1.4)] })[0]).toMatchObject({
    path: "readCuts[0].readings[0].moistureWb",
  });
});

test("an odd reading leaves the row of its cut as it was until it is confirmed", () => {
  const before = ask({ draws: 12 });
  const lone = ask({ draws: 12, readCuts: [readCut(0.36)] });
  expect(routeOf(madeOf(lone))?.windows).toEqual(routeOf(madeOf(before))?.windows);
  expect(lone.readings).toMatchObject({ learned: null, cuts: [{ used: 0 }] });
  expect(lone.readings?.text).toMatch(
    /the row stays as it was until you confirm it, or a second reading bears it out/,
  );
  const sure = ask({ draws: 12, readCuts: [readCut(0.36, undefined, { confirmed: true })] });
  expect(routeOf(madeOf(sure))?.windows[0]?.startUtc).not.toBe(routeOf(madeOf(before))?.windows[0]?.startUtc);
  expect(sure.readings?.learned).toBeNull();
});

test("the row of a read cut agrees with its own bent course; the others dry at what the reading taught", () => {
  const before = ask();
  const answer = ask({ readCuts: [READ_TWICE] });
  const [row, old] = [routeOf(madeOf(answer)), routeOf(madeOf(before))];
  const { readings } = answer;
  expect(readings?.cuts[0]).toMatchObject({ optionId: madeOf(answer)?.id, route: "dry-hay", used: 2 });
  expect(readings?.cuts[0]?.beforeUtc).toBe(old?.windows[0]?.startUtc ?? null);
  expect(readings?.cuts[0]?.windowUtc).toBe(row?.windows[0]?.startUtc ?? null);
  expect(row?.windows[0]?.startUtc ?? "9").not.toBe(old?.windows[0]?.startUtc);

  // The same cut asked for by itself, with the same readings: the same course, draws and learned rate.
  const course = drydownWithOdds({
    weather,
    swath: request.swath,
    cutUtc: madeOf(answer)?.courseCutUtc ?? "",
    operations: (row?.operations ?? []).map(({ kind, atUtc, coveredFraction }) => ({
      kind,
      atUtc,
      coveredFraction,
    })),
    readings: READ_TWICE.readings,
    targetsWb: [0.18],
    draws: 24,
    seed: 7,
  });
  if (!course.ok) throw new Error("a course");
  expect(course.value.odds?.readings?.learned?.rateLnMean).toBeCloseTo(readings?.learned?.rateLnMean ?? 9, 2);
  const { tools, ribbonOf } = recordedDrying();
  const board = findBoard(tools, { ...request, readCuts: [READ_TWICE] });
  if (!board.ok) throw new Error("a board");
  const made = madeOf(answerOf(board.value));
  const ribbon =
    made && ribbonOf({ ...made, routes: made.routes.filter(({ route }) => route === "dry-hay") });
  expect([...(ribbon?.moistureWb ?? [])]).toEqual(course.value.hours.moistureWb);
  expect(course.value.odds?.draws).toBe(24);

  const rate = readings?.otherRatePct ?? 0;
  expect(Math.abs(rate)).toBeGreaterThan(1);
  expect(readings?.text).toMatch(/other cuts of this field are now taken to dry \d+ % (slower|faster)\./i);
  // The others are those of a board that was told the learned rate and knows no reading.
  const taught = ask({ learned: readings?.learned ?? undefined });
  expect(answer.options.filter(({ made }) => !made)).toEqual(taught.options.filter(({ made }) => !made));
  expect(answer.best).toEqual(taught.best);
});

test("a reading that counts moves time on: its cut lies, has no window before it and no rule of when to cut", () => {
  const change = {
    nowUtc: undefined,
    field: { areaHa: 2 },
    madeCuts: undefined,
    routes: [{ route: "wilted-chop" as const }],
    cutRule: { waitingPerHa: 40, rainedOnPerHa: 100 },
    draws: 12,
  };
  const read = { ...readCut(0.7, "2026-07-01T17:00:00Z"), route: "wilted-chop" as const };
  const rowOf = ({ options }: ReturnType<typeof ask>) => options.find(({ cutUtc }) => cutUtc === CUT_UTC);
  const plain = rowOf(ask(change));
  expect(plain?.made).toBeUndefined();
  expect((plain?.routes[0]?.windows[0]?.startUtc ?? "9") < "2026-07-01T17:00:00Z").toBe(true);
  const confirmed = { ...read, readings: read.readings.map((one) => ({ ...one, confirmed: true })) };
  const told = ask({ ...change, readCuts: [confirmed] });
  expect(rowOf(told)?.made).toBe(true);
  const route = rowOf(told)?.routes[0];
  expect(route?.rank).toBeNull();
  expect(route?.windows.length).toBeGreaterThan(0);
  for (const { startUtc } of route?.windows ?? []) expect(startUtc >= "2026-07-01T17:00:00Z").toBe(true);
  // In the draws too: 2.5 h after the middle of the mowing.
  expect(route?.elapsedHours.p10).toBeGreaterThan(2);
  expect(told.odds?.cutRules.map(({ optionId }) => optionId)).not.toContain(rowOf(told)?.id);
  expect(told.best.overall?.optionId).not.toBe(rowOf(told)?.id);
  // What was there before it is told as it was, though it is past.
  expect(told.readings?.cuts[0]?.beforeUtc).toBe(plain?.routes[0]?.windows[0]?.startUtc);
  expect(told.readings?.text).toMatch(
    /now from Wed\w* 1 Jul [\d:]+; before the reading Wed\w* 1 Jul [\d:]+, past by then\./,
  );
});

test("a late reading moves the whole board on, as a later now does: no cut, window or rule before it", () => {
  const change = {
    madeCuts: undefined,
    routes: [{ route: "dry-hay" as const }, { route: "wilted-chop" as const }, { route: "grazing" as const }],
    cutHours: [9, 17],
    cutRule: { waitingPerHa: 40, rainedOnPerHa: 100 },
    draws: 12,
  };
  const atUtc = "2026-07-03T15:00:00Z";
  const readCuts = [readCut(0.45, atUtc, { confirmed: true })];
  const moved = ask({ ...change, nowUtc: undefined, readCuts });
  expect(moved.readings?.fromUtc).toBe(atUtc);
  const cut = (id: string) => moved.options.find((option) => option.id === id);
  for (const { cutUtc, made, routes } of moved.options) {
    expect(made || cutUtc === null || cutUtc >= atUtc).toBe(true);
    for (const { windows } of routes)
      for (const { startUtc } of windows) expect(startUtc >= atUtc).toBe(true);
  }
  expect(moved.options.filter(({ made }) => made).map(({ cutUtc }) => cutUtc)).toEqual([CUT_UTC]);
  expect(moved.odds?.rainDays[0]?.dateLocal).toBe("2026-07-03");
  expect(moved.odds?.cutRules.length).toBeGreaterThan(0);
  for (const { optionId } of moved.odds?.cutRules ?? [])
    expect((cut(optionId)?.cutUtc ?? "9") >= atUtc).toBe(true);
  // The same question asked at that hour.
  const asked = ask({ ...change, nowUtc: atUtc, madeCuts: [{ cutUtc: CUT_UTC }], readCuts });
  expect(asked.readings?.fromUtc).toBeUndefined();
  expect({ best: moved.best, odds: moved.odds }).toEqual({ best: asked.best, odds: asked.odds });
  expect(moved.options).toEqual(asked.options);
  // A reading that is questioned moves nothing.
  const lone = ask({ ...change, nowUtc: undefined, readCuts: [readCut(0.9, atUtc)] });
  expect(lone.readings?.fromUtc).toBeUndefined();
  expect(lone.options.some(({ cutUtc }) => cutUtc !== null && cutUtc < atUtc)).toBe(true);
});

test("a measured cut that has no row teaches the others as much as with one; one out of reach is named", () => {
  const withRow = ask({ readCuts: [READ_TWICE] });
  const without = ask({ readCuts: [READ_TWICE], madeCuts: undefined });
  expect(without.options.some(({ cutUtc }) => cutUtc === CUT_UTC)).toBe(false);
  expect(without.readings?.learned).toEqual(withRow.readings?.learned);
  expect(without.readings).toMatchObject({ cuts: [], otherRatePct: withRow.readings?.otherRatePct });
  expect(without.readings?.text).toMatch(
    /^The cut Wed\w* 1 Jul 09:00 has no row here; what was read of it still counts\. Other cuts .* \d+ % slower\.$/,
  );
  expect(without.options).toEqual(withRow.options.filter(({ made }) => !made));
  expect(without.warningCodes).not.toContain("readings-unused");
  const early = ask({ readCuts: [{ ...READ_TWICE, cutUtc: "2026-06-30T14:00:00Z" }], madeCuts: undefined });
  expect(early.readings).toBeUndefined();
  expect(early.warnings[early.warningCodes.indexOf("readings-unused")]).toMatch(
    /^Readings of the cut Tue\w* 30 Jun 09:00 change nothing here: this weather cannot follow that cut/,
  );
});

test("a board with a questioned reading is the board without it, but for what is told of the reading", () => {
  const { readings, ...lone } = ask({ readCuts: [readCut(0.9)] });
  expect(readings).toMatchObject({ cuts: [{ used: 0 }], learned: null, otherRatePct: null });
  expect(lone).toEqual(ask());
  const fits = readCut(0.5, "2026-07-02T16:00:00Z", { method: "microwave", confirmed: true });
  const both = ask({ readCuts: [{ ...fits, readings: [...fits.readings, ...readCut(0.9).readings] }] });
  const { readings: one, ...alone } = ask({ readCuts: [fits] });
  expect(one?.cuts[0]?.used).toBe(1);
  const { readings: two, ...rest } = both;
  expect(rest).toEqual(alone);
  expect(two).toEqual(one);
});
