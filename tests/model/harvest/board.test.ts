import { describe, expect, test } from "vitest";
import { runCourse } from "../../../model/drying/course.ts";
import { findWindows } from "../../../model/harvest/board.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { ask, drawnCourse, firstRoute, plainRequest, through } from "./requests.ts";

const HOUR = 3_600_000;

function found(request: WindowsRequest) {
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

const TREATMENTS = [
  { id: "wide", conditioning: "roll", coveredFraction: 0.8, stubbleCm: 8 },
  { id: "narrow", conditioning: "none", coveredFraction: 0.4, stubbleCm: 8 },
] as const;
const ROUTES = [
  { route: "grazing" },
  { route: "wilted-chop", bandWb: [0.5, 0.7], haPerH: 6 },
  { route: "dry-hay", bandWb: [0.1, 0.2], haPerH: 6 },
  { route: "green-chop" },
  { route: "wrapped-bales", haPerH: 6 },
  { route: "direct-chop", bandWb: [0.6, 0.79], haPerH: 6 },
] as const;

const FULL = plainRequest(
  {
    cutHours: [9, 13],
    treatments: TREATMENTS,
    routes: ROUTES,
    standing: { moistureWb: 0.78, dailyNeedKgDm: 900 },
  },
  { hours: 144, rainMm: { 60: 2 } },
);

describe("the whole board", () => {
  const answer = found(FULL);

  test("the order of routes, treatments and cut hours in the request changes nothing", () => {
    const turned = {
      ...FULL,
      cutHours: [13, 9, 13],
      treatments: [...TREATMENTS].reverse(),
      routes: [...ROUTES].reverse(),
    };
    expect(found(turned)).toEqual(answer);
  });

  test("the same question twice gives the same answer, to the last byte", () => {
    expect(JSON.stringify(found(structuredClone(FULL)))).toBe(JSON.stringify(answer));
  });

  test("every rank from 1 on is given once, to pairs with a window and to no others", () => {
    const routes = answer.options.flatMap((option) => option.routes);
    const ranks = routes.flatMap(({ rank }) => (rank === null ? [] : [rank])).sort((a, b) => a - b);
    expect(ranks).toEqual(ranks.map((_, i) => i + 1));
    for (const { rank, windows, limitedBy } of routes) {
      expect(rank === null).toBe(windows.length === 0);
      expect(limitedBy === null).toBe(windows.length > 0);
    }
  });

  test("the best overall is rank 1, and each route's best is its lowest rank", () => {
    const pairs = answer.options.flatMap((option) =>
      option.routes.map((route) => ({ id: option.id, route })),
    );
    const { overall, byRoute } = answer.best;
    expect(pairs.find(({ route }) => route.rank === 1)).toMatchObject({
      id: overall?.optionId,
      route: { route: overall?.route },
    });
    for (const { route } of ROUTES) {
      const ranked = pairs.filter((pair) => pair.route.route === route && pair.route.rank !== null);
      ranked.sort((a, b) => (a.route.rank ?? 0) - (b.route.rank ?? 0));
      expect(byRoute[route]).toBe(ranked[0]?.id ?? null);
    }
  });

  test("green chop and grazing come after every route that brings in the whole field", () => {
    const rankOf = (keys: readonly string[]) =>
      answer.options
        .flatMap((option) => option.routes)
        .flatMap(({ route, rank }) => (rank !== null && keys.includes(route) ? [rank] : []));
    const fresh = rankOf(["green-chop", "grazing"]);
    const whole = rankOf(["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop"]);
    expect(fresh.length).toBe(2);
    expect(Math.min(...fresh)).toBeGreaterThan(Math.max(...whole));
  });

  test("a swath option has the swath routes, a standing route is an option of its own", () => {
    const swath = answer.options.filter(({ kind }) => kind === "swath");
    expect(swath.every(({ routes }) => routes.length === 3)).toBe(true);
    expect(answer.options.filter(({ kind }) => kind === "standing")).toMatchObject([
      { id: "standing/direct-chop", cutUtc: null, courseCutUtc: null, treatment: null },
      { id: "standing/green-chop", cutUtc: null, courseCutUtc: null, treatment: null },
      { id: "standing/grazing", cutUtc: null, courseCutUtc: null, treatment: null },
    ]);
    expect(answer.counts).toEqual({ options: answer.options.length, members: 0 });
    expect(new Set(answer.options.map(({ id }) => id)).size).toBe(answer.options.length);
  });

  test("windows come from the course of courseCutUtc with the listed operations, edges inside the band", () => {
    const prepared = prepareWeather(FULL.weather);
    if (!prepared.ok) throw new Error("refused");
    let looked = 0;
    for (const option of answer.options.filter(({ kind }) => kind === "swath").slice(0, 6)) {
      for (const route of option.routes) {
        const treatment = TREATMENTS.find(({ id }) => id === option.treatment);
        if (!treatment) throw new Error("unknown treatment");
        const cutMs = Date.parse(option.courseCutUtc ?? "");
        const course = runCourse(
          prepared.value.weather,
          { ...FULL.swath, conditioning: treatment.conditioning, coveredFraction: treatment.coveredFraction },
          cutMs,
          route.operations.map(({ kind, atUtc, coveredFraction }) => ({
            kind,
            atUtcMs: Date.parse(atUtc),
            coveredFraction,
          })),
        );
        const wbAt = (ms: number) => {
          const hours = (ms - course.startUtcMs) / HOUR;
          const i = Math.max(0, Math.ceil(hours) - 1);
          const before = i === 0 ? FULL.swath.initialMoistureWb : (course.moistureWb[i - 1] ?? 0);
          return before + ((course.moistureWb[i] ?? 0) - before) * (hours - i);
        };
        const band =
          route.route === "dry-hay" ? [0.1, 0.2] : route.route === "wilted-chop" ? [0.5, 0.7] : [0.45, 0.6];
        for (const { startUtc, endUtc } of route.windows) {
          for (const ms of [Date.parse(startUtc), Date.parse(endUtc)]) {
            expect(wbAt(ms)).toBeGreaterThanOrEqual((band[0] ?? 0) - 1e-9);
            expect(wbAt(ms)).toBeLessThanOrEqual((band[1] ?? 0) + 1e-9);
            looked++;
          }
        }
      }
    }
    expect(looked).toBeGreaterThan(5);
  });

  test("one forecast has no chances, only the middle quantile", () => {
    for (const { windows, elapsedHours, neverShare, rainMm } of answer.options.flatMap(
      ({ routes }) => routes,
    )) {
      expect(windows.every(({ chance }) => chance === null)).toBe(true);
      expect([elapsedHours.p10, elapsedHours.p90, neverShare, rainMm.p90]).toEqual([null, null, null, null]);
    }
  });
});

describe("what the answer says beside the board", () => {
  const drawn = drawnCourse({ wb: through([0, 0.78], [24, 0.14]) });

  test("members are counted", () => {
    const plain = plainRequest();
    const member = { rainMm: plain.weather.hours.rainMm };
    const answer = ask({ ...plain, weather: { ...plain.weather, members: [member, member] } }, drawn);
    expect(answer.counts.members).toBe(2);
  });

  test("a field that no working day can mow gives no cut and says so", () => {
    const answer = ask(plainRequest({ field: { areaHa: 60 } }), drawn);
    expect(answer.options).toEqual([]);
    expect(answer.best).toEqual({ overall: null, byRoute: { "dry-hay": null } });
    expect(answer.warnings[0]).toBe(
      "Mowing takes 15 hours: no cut hour leaves room for it in the working hours, so there is no cut to offer.",
    );
  });

  test("options before now and those with under 24 h of weather left are not offered", () => {
    const answer = ask(plainRequest({ nowUtc: "2026-07-02T14:00:00.500Z", cutHours: [9, 20] }), drawn);
    expect(answer.options.map(({ cutUtc }) => cutUtc)).toEqual(["2026-07-03T14:00:00Z"]);
    const later = ask(plainRequest({}, { hours: 81 }), drawn);
    expect(later.options.map(({ cutUtc }) => cutUtc)).toEqual([
      "2026-07-01T14:00:00Z",
      "2026-07-02T14:00:00Z",
      "2026-07-03T14:00:00Z",
    ]);
  });

  test("defaults are filled in and named", () => {
    const { weather, field, swath } = plainRequest();
    const answer = ask({ weather, field, swath }, drawn);
    expect(answer.options[0]?.routes.map(({ route }) => route)).toEqual([
      "dry-hay",
      "wrapped-bales",
      "wilted-chop",
    ]);
    const said = answer.assumptions.join("\n");
    for (const word of ["12-16 %", "45-60 %", "60-70 %", "07:00-20:00", "ha/h", "no more than 10 mm"]) {
      expect(said).toContain(word);
    }
  });

  test("each route asked for carries its caution", () => {
    const answer = ask(plainRequest(), drawn);
    expect(answer.warnings.some((text) => text.includes("keeps the nitrate it was cut with"))).toBe(true);
  });

  test("wet soil and a stated limit change what the soil carries", () => {
    // 6 mm on Thursday 05:00, before the window of that day.
    const plain = plainRequest({ nowUtc: "2026-07-01T14:00:00Z" }, { rainMm: { 29: 6 } });
    const start = (request: WindowsRequest) => firstRoute(ask(request, drawn)).windows[0]?.startUtc;
    expect(start(plain)).toBe("2026-07-02T15:15:00Z");
    expect(start({ ...plain, swath: { ...plain.swath, soil: "wet" } })).toBe("2026-07-03T12:00:00Z");
    expect(start({ ...plain, soilCarry: { maxRainMm24h: 5.9 } })).toBe("2026-07-03T12:00:00Z");
  });
});
