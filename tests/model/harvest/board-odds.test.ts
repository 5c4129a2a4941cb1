import { expect, test } from "vitest";
import { runSweepCourse } from "../../../model/drying/course.ts";
import { secondOpinions } from "../../../model/drying/second-opinions.ts";
import {
  findBoard,
  findWindowsWithOdds,
  oddsSteps,
  type WindowsAnswer,
  type WindowsRequest,
} from "../../../model/harvest/index.ts";
import { runCli } from "../../../server/run-cli.ts";
import { theModel } from "../../../server/the-model.ts";
import { recordedDrying } from "../../../web/worker/ribbons.ts";
import { fakeApp, post } from "../../support/app.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";
import { ROLLED_ALFALFA } from "./requests.ts";

const weather = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120, { rainMm: { 60: 4 } });
const request: WindowsRequest = {
  weather,
  field: { areaHa: 6 },
  swath: ROLLED_ALFALFA,
  cutHours: [9],
  routes: [{ route: "dry-hay" }, { route: "wrapped-bales" }],
  cutRule: { waitingPerHa: 40, rainedOnPerHa: 100 },
  draws: 12,
  seed: 7,
};

function ask(change: Partial<WindowsRequest> = {}) {
  const outcome = findWindowsWithOdds({ ...request, ...change });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

/** The same field a day after the first cut, which lies and was measured. */
const lying: WindowsRequest = {
  ...request,
  weather: { ...weather, issuedUtc: "2026-07-01T05:00:00Z" },
  nowUtc: "2026-07-02T21:00:00Z",
  madeCuts: [{ cutUtc: "2026-07-01T14:00:00Z" }],
  readCuts: [
    {
      cutUtc: "2026-07-01T14:00:00Z",
      readings: [{ atUtc: "2026-07-02T19:00:00Z", method: "oven", moistureWb: 0.4 }],
    },
  ],
};

test.each([
  ["as it stands", request],
  ["with a cut that lies and was measured", lying],
])(
  "server, command line and the page's worker give the same odds and ranks for the same seed: %s",
  async (_, asked) => {
    const told = ({ odds, options, best, readings }: WindowsAnswer) => ({ odds, options, best, readings });
    const outcome = findWindowsWithOdds(asked);
    if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
    const own = JSON.parse(JSON.stringify(outcome.value));
    const served = await (await post(fakeApp({ model: theModel }), "/api/windows", asked)).json();
    const { stdout } = await runCli(
      ["windows"],
      async () => new TextEncoder().encode(JSON.stringify(asked)),
      theModel,
    );
    const board = findBoard(recordedDrying().tools, asked);
    if (!board.ok) throw new Error("a board");
    const steps = oddsSteps(board.value);
    let step = steps.next();
    while (!step.done) step = steps.next();
    for (const answer of [served, JSON.parse(stdout), JSON.parse(JSON.stringify(step.value))])
      expect(told(answer)).toEqual(told(own));
    expect(ask({ seed: 8 }).options).not.toEqual(ask().options);
  },
);

test("chances, quantiles and ranks hold together", () => {
  const { options, best, odds } = ask();
  const pairs = options.flatMap(({ id, routes }) => routes.map((route) => ({ id, ...route })));
  for (const { odds: own, neverShare, rainMm, windows, valuePerHa } of pairs) {
    expect((own?.chance ?? 0) + (neverShare ?? 0)).toBeCloseTo(1, 12);
    for (const { chance } of windows) expect(chance).toBeLessThanOrEqual(own?.chance ?? 0);
    const [over1, over5, over10] = own?.rainChances.map(({ chance }) => chance) ?? [];
    expect(over1).toBeGreaterThanOrEqual(over5 as number);
    expect(over5).toBeGreaterThanOrEqual(over10 as number);
    expect(rainMm.p90).not.toBeNull();
    if (valuePerHa === null || !own) continue;
    // The expected value is the chance's mean of both ends.
    const mean = own.chance * (own.broughtPerHa ?? 0) + (1 - own.chance) * own.leftPerHa;
    expect(valuePerHa).toBeCloseTo(mean, 6);
  }
  const ranked = pairs.filter(({ rank }) => rank !== null).sort((a, b) => (a.rank ?? 0) - (b.rank ?? 0));
  for (const [i, { valuePerHa }] of ranked.entries())
    if (i > 0) expect(valuePerHa).toBeLessThanOrEqual(ranked[i - 1]?.valuePerHa ?? 0);
  expect(odds?.first?.valuePerHa).toBe(ranked[0]?.valuePerHa);
  expect(odds?.first?.optionId).toBe(best.overall?.optionId);
  expect(odds?.choiceText).toMatch(/^(Next best|As good as equal): cut \w+day/);
});

test("a pair that only draws have a window for has its loss and value, no rank, and says so", () => {
  const wet = { rainMm: { ...Object.fromEntries(Array.from({ length: 100 }, (_, i) => [20 + i, 1])) } };
  const main = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120, wet);
  const members = [{ rainMm: main.hours.rainMm }, { rainMm: main.hours.rainMm.map(() => 0) }];
  const { options } = ask({ weather: { ...main, members }, draws: 12 });
  const pair = options.flatMap(({ routes }) => routes).find(({ odds }) => odds?.text != null);
  expect(pair).toMatchObject({ windows: [], rank: null, lossSteps: null, takenAtWb: null });
  const { odds, valuePerHa, lossPct } = pair ?? {};
  expect(odds?.chance).toBe(0.5);
  expect(odds?.text).toBe("No window in the main forecast; 5 in 10 of its draws have one.");
  expect(valuePerHa).toBeCloseTo(0.5 * (odds?.broughtPerHa ?? 0) + 0.5 * (odds?.leftPerHa ?? 0), 9);
  expect(odds?.valuePerHa?.p10).toBeLessThan(odds?.valuePerHa?.p90 ?? 0);
  expect(lossPct?.p10).toBeLessThanOrEqual(lossPct?.p90 ?? 0);
});

test("another seed gives the same first place, or one that is told as good as equal", () => {
  const asked = [1, 2, 3].map((seed) => ask({ seed }));
  for (const { best, odds } of asked)
    for (const other of asked) {
      const known = odds?.asGood.some(({ optionId }) => optionId === other.best.overall?.optionId);
      expect(best.overall?.optionId === other.best.overall?.optionId || known).toBe(true);
    }
});

test("a lead that another sample may turn around is told as none, with its error", () => {
  const { odds } = ask();
  const { lead, first, runnerUp, asGood, choiceText } = odds ?? {};
  expect(lead?.perHa).toBeCloseTo((first?.valuePerHa ?? 0) - (runnerUp?.valuePerHa ?? 0), 9);
  expect(lead?.equal).toBe(Math.abs(lead?.perHa ?? 9) <= (lead?.withinPerHa ?? 0));
  const second = { optionId: runnerUp?.optionId, route: runnerUp?.route };
  expect(asGood?.some((pair) => JSON.stringify(pair) === JSON.stringify(second))).toBe(lead?.equal);
  expect(choiceText?.startsWith("As good as equal: ")).toBe(lead?.equal);
  expect(choiceText).not.toMatch(/falls from (\d+ %) to \1/);
});

test("a next best that lies in a wait says so, with the end of it", () => {
  const wet = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120, { rainMm: { 3: 15 } });
  const corn = { ...request.swath, crop: "drought-corn" } as const;
  const { odds, options, usableUntilUtc } = ask({
    weather: wet,
    swath: corn,
    routes: [{ route: "wilted-chop" }],
    hazards: { drought: true },
    draws: 4,
  });
  const second = options
    .find(({ id }) => id === odds?.runnerUp?.optionId)
    ?.routes.find(({ route }) => route === odds?.runnerUp?.route);
  const waits = second?.hazards.filter(({ level }) => level === "wait") ?? [];
  expect(waits.length).toBeGreaterThan(0);
  expect(waits.some(({ untilUtc }) => untilUtc < usableUntilUtc)).toBe(false);
  expect(odds?.choiceText).toMatch(
    /It lies in a wait: .*nitrate after rain on a dry crop, past this weather\./,
  );
});

// By hand: waiting 40 of 100 lost: wait while the chance of no window is above 0.4, so cut above 0.6.
test("the user's costs set the chance at which to cut, in a sentence", () => {
  const rule = ask().odds?.cutRules[0];
  expect(rule?.cutAbove).toBeCloseTo(0.6, 12);
  expect(rule?.text).toMatch(
    /^Cut when the chance is above 60 %: it is \d+ %, so (cut|wait)\. That is the chance to come in before more than 1 mm of rain\.$/,
  );
  expect(rule?.text).toContain(rule?.cut ? "so cut" : "so wait");
  expect(ask({ cutRule: undefined }).odds?.cutRules).toEqual([]);
  const empty = ask({ cutRule: {} });
  expect(empty.odds?.cutRules).toEqual([]);
  expect(empty.warnings.join(" ")).toContain("what a day of waiting costs is not said");
  expect(empty.warnings.join(" ")).not.toContain("loses nothing");
});

test("no rule is told of routes that take a part a day: nothing of them is waited for", () => {
  const routes = [
    { route: "dry-hay" as const },
    { route: "grazing" as const },
    { route: "green-chop" as const },
  ];
  const cutRule = { waitingPerHa: 40, rainedOnPerHa: 100 };
  expect(ask({ routes, cutRule }).odds?.cutRules.map(({ route }) => route)).toEqual(["dry-hay"]);
  const only = ask({ routes: routes.slice(1), cutRule });
  expect(only.odds?.cutRules).toEqual([]);
  expect(only.warnings[only.warningCodes.indexOf("no-cut-rule")]).toMatch(/take a part each day/);
});

test("odds of a few draws say that they are few", () => {
  const few = "not show how far it may turn: take no chance of so few as sure, however high or low.";
  expect(ask({ draws: 1 }).odds?.text).toContain(`One draw alone does ${few}`);
  expect(ask({ draws: 19 }).odds?.text).toContain(`19 draws do ${few}`);
  expect(ask({ draws: 20 }).odds?.text).not.toContain("so few");
});

test("the rule's chance is that of what its cost is of: a cut that is rained on and baled days later is none that went well", () => {
  const dry = { rainMm: weather.hours.rainMm.map(() => 0) };
  const wet = { rainMm: weather.hours.rainMm.map((_, i) => (i > 12 && i < 40 ? 1 : 0)) };
  const { options, odds } = ask({
    cutRule: { waitingPerHa: 40 },
    weather: { ...weather, members: [dry, wet, dry, wet] },
  });
  const [hay] = (options[0]?.routes ?? []).filter(({ route }) => route === "dry-hay");
  const { chance, beforeRain } = hay?.odds ?? {};
  expect(beforeRain?.chance).toBeLessThanOrEqual(0.5);
  expect(beforeRain?.chance).toBeLessThan(chance ?? 0);
  const rule = odds?.cutRules[0];
  const own = options
    .find(({ id }) => id === rule?.optionId)
    ?.routes.find(({ route }) => route === rule?.route)?.odds;
  expect(rule?.chance).toBe(own?.beforeRain.chance);
  expect(rule?.rainedOnPerHa).toBeCloseTo(
    (own?.beforeRain.valuePerHa ?? 0) - (own?.beforeRain.elsePerHa ?? own?.leftPerHa ?? 0),
    9,
  );
});

test("costs that make no rule are refused by their names", () => {
  const issueOf = (cutRule: WindowsRequest["cutRule"]) => {
    const outcome = findWindowsWithOdds({ ...request, cutRule, draws: 0 });
    return outcome.ok ? null : outcome.issues[0];
  };
  expect(issueOf({ rainedOnPerHa: 100 })).toMatchObject({ path: "cutRule.waitingPerHa", code: "required" });
  expect(issueOf({ waitingPerHa: 40, rainedOnPerHa: 0 })).toMatchObject({ path: "cutRule.rainedOnPerHa" });
  expect(issueOf({ waitingPerHa: -3 })).toMatchObject({ path: "cutRule.waitingPerHa" });
});

test("without draws the board is that of the main forecast alone", () => {
  const plain = ask({ draws: 0 });
  expect(plain.odds).toBeUndefined();
  expect(plain.options[0]?.routes[0]?.neverShare).toBeNull();
  const board = findBoard({ course: runSweepCourse, opinions: secondOpinions }, { ...request, draws: 2000 });
  expect(board.ok ? [] : board.issues[0]).toMatchObject({ path: "draws", code: "out-of-range" });
});

test("a chance does not fall when a wet member is made dry", () => {
  const dry = { rainMm: weather.hours.rainMm.map(() => 0) };
  const wet = { rainMm: weather.hours.rainMm.map((_, i) => (i > 12 && i < 100 ? 1 : 0)) };
  const chanceOf = (dryOnes: number) => {
    const members = [0, 1, 2].map((i) => (i < dryOnes ? dry : wet));
    return ask({ weather: { ...weather, members } }).options[0]?.routes[0]?.odds?.chance as number;
  };
  const chances = [0, 1, 2, 3].map(chanceOf);
  for (const [i, chance] of chances.entries()) expect(chance).toBeGreaterThanOrEqual(chances[i - 1] ?? 0);
});

// The runs of a cut are shared among its routes and stop where nothing more is asked: neither may show.
test.each(["alfalfa", "cool-season-grass"] as const)(
  "a route of %s has the same odds alone as beside others",
  (crop) => {
    const routes = request.routes ?? [];
    const of = (one: typeof routes) => ask({ routes: one, swath: { ...request.swath, crop } }).options;
    const rankless = (options: ReturnType<typeof of>, route: string) =>
      options
        .map(({ routes: each }) => each.filter((own) => own.route === route))
        .map(([own]) => ({ ...own, rank: 0 }));
    const together = of(routes);
    for (const one of routes) expect(rankless(of([one]), one.route)).toEqual(rankless(together, one.route));
    expect(of([...routes].reverse())).toEqual(together);
  },
);

test("few members are gone through several times, and no chance of theirs passes for sure", () => {
  const dry = { rainMm: weather.hours.rainMm.map(() => 0) };
  const { odds } = ask({ weather: { ...weather, members: [dry] } });
  // One weather tells no error of a lead.
  expect(odds?.lead).toMatchObject({ sePerHa: null, equal: null });
  expect(odds?.choiceText).toMatch(/One weather alone does not tell how sure that is\./);
  expect(odds).toMatchObject({ members: 1, draws: 12 });
  expect(odds?.text).toMatch(/^Odds from 1 member of the forecast.*take no chance of them as sure/);
});

test("the farm's days carry their chance of rain, from the weathers that the odds are drawn from", () => {
  const days = ask().odds?.rainDays ?? [];
  expect(days.map(({ dateLocal }) => dateLocal)).toEqual([
    "2026-07-01",
    "2026-07-02",
    "2026-07-03",
    "2026-07-04",
    "2026-07-05",
  ]);
  // 4 mm are told for the third day, 12:00.
  const chances = days.map(({ chance }) => chance);
  for (const { chance, p90Mm } of days) expect(chance > 0.15 ? p90Mm > 1 : p90Mm < 50).toBe(true);
  expect(Math.max(...chances)).toBe(chances[2]);
  for (const chance of chances) expect(Math.abs(chance * 12 - Math.round(chance * 12))).toBeLessThan(1e-9);
});

test("what swaths taught changes the odds of swaths, not those of the standing crop", () => {
  const asked: Partial<WindowsRequest> = {
    weather: { ...weather, origin: "archive" },
    standing: { moistureWb: 0.7, dryDownPointsPerDay: 2 },
    routes: [{ route: "dry-hay" }, { route: "direct-chop", bandWb: [0.6, 0.66] }],
  };
  const learned = { rateLnMean: 0.5, rateLnSd: 0.05, atUtc: "2026-06-30T12:00:00Z" };
  const oddsOf = (route: string, change: Partial<WindowsRequest> = {}) =>
    ask({ ...asked, ...change })
      .options.flatMap(({ routes }) => routes)
      .filter((one) => one.route === route)
      .map(({ odds, lossPct, valuePerHa }) => ({ odds, lossPct, valuePerHa }));
  expect(oddsOf("direct-chop")[0]?.odds?.chance).toBeGreaterThan(0);
  expect(oddsOf("direct-chop", { learned })).toEqual(oddsOf("direct-chop"));
  expect(oddsOf("dry-hay", { learned })).not.toEqual(oddsOf("dry-hay"));
});
