import { describe, expect, test } from "vitest";
import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../../model/harvest/answer.ts";
import { findWindows, findWindowsWith } from "../../../model/harvest/board.ts";
import { findWindowsWithOdds } from "../../../model/harvest/board-odds.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import type { Outcome } from "../../../model/limits.ts";
import { tenths } from "../../../model/odds/in-ten.ts";
import { localDayKey } from "../../../model/weather/clock.ts";
import { boardCells, boardHeads } from "../../../web/board/BoardTable.tsx";
import { reasonWordings } from "../../../web/board/reasons.ts";
import { ribbonColour } from "../../../web/board/ribbon.ts";
import { boardSentence, windowReasons } from "../../../web/board/sentences.ts";
import { toBoard } from "../../../web/board/to-board.ts";
import { LEAST_TOUCH_PX, spread, vesselPath, withTouch } from "../../../web/board/vessels.ts";
import { recordedDrying } from "../../../web/worker/ribbons.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { exampleWindows } from "../../support/requests.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

function answered<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

const request: WindowsRequest = {
  ...exampleWindows(),
  routes: [
    { route: "dry-hay", package: "round" },
    { route: "wrapped-bales" },
    { route: "wilted-chop", store: "bunker" },
    { route: "direct-chop" },
  ],
};
const { tools, ribbonOf } = recordedDrying();
const answer = answered(findWindowsWith(tools, request));
const ribbons = Object.fromEntries(
  answer.options.flatMap((option) => {
    const ribbon = ribbonOf(option);
    return ribbon ? [[option.id, ribbon] as const] : [];
  }),
);
const manner = metric24(request.weather.site.timeZone);
const board = (widthPx: number, opts = {}) =>
  toBoard(answer, request.weather, ribbons, manner, widthPx, opts);

describe("the board of the example", () => {
  test("has a row a day, best first, and the standing route in a row of its own", () => {
    const picture = board(1232);
    const days = picture.rows.filter(({ kind }) => kind === "day");
    expect(days.length).toBe(new Set(days.map(({ label }) => label)).size);
    expect(picture.rows.filter(({ kind }) => kind === "standing").length).toBe(1);
    expect(picture.rows.filter(({ best }) => best).map(({ optionId }) => optionId)).toEqual([
      answer.best.overall?.optionId,
    ]);
  });

  test("a later window has its number where there is room, and is lower than a first one all the same", () => {
    const { startUtc } = request.weather.hours;
    const endMs = Date.parse(startUtc.at(-1) ?? "");
    const utc = (hoursBefore: number) => new Date(endMs - hoursBefore * 3_600_000).toISOString();
    const hasWindow = (route: RouteAnswer) => route.windows.length > 0;
    const option = answer.options.find(({ kind, routes }) => kind === "swath" && routes.some(hasWindow));
    const withLater = (hours: number): WindowsAnswer => ({
      ...answer,
      options: answer.options.map((one) => ({
        ...one,
        routes: one.routes.map((route) => {
          const [first] = route.windows;
          if (one !== option || !first) return route;
          if (route !== one.routes.find(hasWindow)) return { ...route, windows: [first] };
          return { ...route, windows: [first, { ...first, startUtc: utc(2 + hours), endUtc: utc(2) }] };
        }),
      })),
    });
    const later = withLater(12);
    const route = option?.routes.find(hasWindow)?.route ?? null;
    const chosenOf = (windowUtc?: string) => {
      const selected = { optionId: option?.id ?? "", route, ...(windowUtc ? { windowUtc } : {}) };
      const { rows } = toBoard(later, request.weather, ribbons, manner, 1232, { selected });
      return rows.flatMap(({ vessels }) => vessels).filter(({ chosen }) => chosen);
    };
    // The chosen later window is the one that is marked; one that is not there leaves the first.
    expect(chosenOf(utc(14))).toEqual([expect.objectContaining({ first: false, laterUtc: utc(14) })]);
    for (const gone of [undefined, utc(3)])
      expect(chosenOf(gone)).toEqual([expect.objectContaining({ first: true, laterUtc: null })]);
    for (const [hours, widthPx, labelled] of [
      [12, 1232, true],
      [2, 1232, true],
      [20, 358, true],
    ] as const) {
      const picture = toBoard(withLater(hours), request.weather, ribbons, manner, widthPx, {
        selected: { optionId: option?.id ?? "", route: null },
      });
      const vessels = picture.rows.find(({ optionId }) => optionId === option?.id)?.vessels ?? [];
      const laters = vessels.filter(({ first }) => !first);
      expect(laters).toHaveLength(1);
      for (const later of laters) {
        expect(later.labelled).toBe(labelled);
        // Figures are 12 px at least.
        if (labelled) expect(later.y1 - later.y0).toBeGreaterThan(14);
        for (const { first, y0 } of vessels) if (first) expect(later.y0).toBeGreaterThan(y0 + 4);
      }
    }
  });

  test("unfolding a day adds its other cut hours and nothing else", () => {
    const folded = board(1232);
    const unfold = folded.rows.find((row) => row.unfold)?.unfold;
    expect(unfold?.count).toBe(2);
    const opened = board(1232, { unfolded: [unfold?.dayKey ?? ""] });
    expect(opened.rows.length).toBe(folded.rows.length + 2);
    expect(opened.rows.filter(({ kind }) => kind === "folded").length).toBe(2);
  });

  test("a chosen cut hour that was folded comes into view", () => {
    const hidden = answer.options.find(
      ({ id, kind }) => kind === "swath" && !board(1232).rows.some(({ optionId }) => optionId === id),
    );
    const picture = board(1232, { selected: { optionId: hidden?.id ?? "", route: null } });
    expect(picture.rows.filter(({ chosen }) => chosen).map(({ optionId }) => optionId)).toEqual([hidden?.id]);
  });

  test.each([1232, 700, 358, 300])("everything at %i px lies inside the chart and is finite", (widthPx) => {
    const picture = board(widthPx);
    expect(JSON.stringify(picture)).not.toMatch(/NaN|Infinity/);
    const { x0, x1 } = picture.scale;
    for (const row of picture.rows) {
      for (const vessel of row.vessels) {
        expect(vessel.x0).toBeGreaterThanOrEqual(x0 - 0.01);
        expect(vessel.x1).toBeLessThanOrEqual(x1 + 0.01);
        expect(vessel.x1).toBeGreaterThan(vessel.x0);
        if (picture.narrow && vessel.first) expect(vessel.x1 - vessel.x0).toBeGreaterThanOrEqual(18.99);
      }
      expect(row.y1 - row.y0).toBeGreaterThanOrEqual(picture.narrow ? 64 : 44);
      // Why there is no window stands on the row at every width.
      if (row.vessels.length === 0 && row.route === null && row.kind === "day")
        expect(row.reason?.lines.join(" ") ?? "").not.toBe("");
    }
  });

  test.each([1232, 358])(
    "at %i px every window is touched 44 px wide unless windows stand on both sides",
    (widthPx) => {
      const unfolded = board(1232).rows.flatMap(({ unfold }) => unfold?.dayKey ?? []);
      const { rows, scale } = board(widthPx, { unfolded });
      for (const { vessels, y0, y1 } of rows) {
        expect(y1 - y0).toBeGreaterThanOrEqual(LEAST_TOUCH_PX);
        vessels.forEach((vessel, i) => {
          const [before, after] = [vessels[i - 1], vessels[i + 1]];
          const { x0, x1, touchX0, touchX1 } = vessel;
          expect(touchX0).toBeGreaterThanOrEqual(before?.touchX1 ?? scale.x0 - 0.01);
          expect(touchX0 < (x0 + x1) / 2 && (x0 + x1) / 2 < touchX1).toBe(true);
          if (!before || !after || after.x0 - before.x1 >= 2 * LEAST_TOUCH_PX)
            expect(touchX1 - touchX0).toBeGreaterThanOrEqual(LEAST_TOUCH_PX - 0.01);
        });
      }
    },
  );

  test("says the day's rain and hangs its bars in three-hour blocks", () => {
    const picture = board(1232);
    const wet = picture.days.filter((day) => day.wet);
    expect(wet.map(({ rainWords }) => rainWords)).toEqual(["7 mm"]);
    expect(picture.rain.reduce((sum, { rainMm }) => sum + rainMm, 0)).toBeCloseTo(7, 9);
    expect(picture.days.filter((day) => !day.wet).every(({ rainWords }) => rainWords === "dry")).toBe(true);
  });

  test("a missing hour of rain is hatched, never drawn dry", () => {
    const rainMm = request.weather.hours.rainMm.map((mm, i) => (i < 24 ? null : mm));
    const series = { ...request.weather, hours: { ...request.weather.hours, rainMm } };
    const picture = toBoard(answer, series, {}, manner, 1232);
    expect(picture.days[0]?.rainWords).toBe("no data");
    expect(picture.missing.map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(/: rain missing, the weather is used from there on\.$/),
    ]);
    expect(picture.missing[0]?.stripOnly).toBe(false);
  });

  test("a filled gap and an end before the file's are hatched with what was done", () => {
    const { hours } = request.weather;
    const windSpeedMps = hours.windSpeedMps.map((mps, i) => (i === 30 || i === 31 ? null : mps));
    const rainMm = hours.rainMm.map((mm, i) => (i >= 80 ? null : mm));
    const series = { ...request.weather, hours: { ...hours, windSpeedMps, rainMm } };
    const found = answered(findWindows({ ...request, weather: series }));
    const picture = toBoard(found, series, {}, manner, 1232);
    const [gap, end] = picture.missing;
    expect(picture.missing).toHaveLength(2);
    expect(gap?.sentence).toMatch(
      /^\w+day \d\d:00 to \d\d:00: wind missing, filled between the hours around it\.$/,
    );
    expect((gap?.toMs ?? 0) - (gap?.fromMs ?? 0)).toBe(2 * 3_600_000);
    expect(end?.sentence).toMatch(/^Not used from \w+day \d\d:00 on: rain missing\.$/);
    expect(end?.fromMs).toBe(Date.parse(found.usableUntilUtc));
    expect(end?.x1).toBeCloseTo(picture.scale.x1, 6);
    // Hour 80 lies inside the fourth day: what is known of it is dry, the rest is not called so.
    expect(picture.days.map(({ rainWords }) => rainWords)[3]).toMatch(/\?$|\+$/);
  });

  test("weather without any rain is hatched in its own strip alone", () => {
    const { hours } = request.weather;
    const series = { ...request.weather, hours: { ...hours, rainMm: hours.rainMm.map(() => null) } };
    const found = answered(findWindows({ ...request, weather: series }));
    const { missing } = toBoard(found, series, {}, manner, 1232);
    expect(missing.map(({ stripOnly }) => stripOnly)).toEqual([true]);
    expect(missing[0]?.sentence).toBe("No rain in this weather: it is taken as dry.");
  });

  test("every day of rain is told in words", () => {
    const { days, rainSentence } = board(1232);
    for (const day of days)
      expect(day.sentence).toMatch(
        day.wet ? /: [\d.]+ mm of rain, (\d\d:00 to \d\d:00|from \d\d:00 into the night)\.$/ : /: no rain\.$/,
      );
    expect(rainSentence).toMatch(/^Rain: .*7 mm of rain.* None known on the other \d+ days\.$/);
  });

  test("no time on the board is finer than five minutes, on either clock", () => {
    for (const own of [manner, us12(manner.zone)]) {
      const { rows } = toBoard(answer, request.weather, ribbons, own, 1232);
      const texts = rows.flatMap(({ hour, doneBy, sentence, vessels }) => [
        hour,
        doneBy,
        sentence,
        ...vessels.map((vessel) => vessel.sentence),
      ]);
      for (const text of texts) {
        for (const [, minute] of text.matchAll(/\d:(\d\d)/g)) expect(Number(minute) % 5).toBe(0);
        if (own.hour12) expect(text).not.toMatch(/\d:\d\d(?! [ap]m)/);
      }
      expect(texts.some((text) => (own.hour12 ? /\d [ap]m/ : /\d\d:\d\d/).test(text))).toBe(true);
    }
  });

  test("a row says its reasons; one without a window also what is nearest", () => {
    for (const row of board(1232).rows) {
      expect(row.more.length).toBeGreaterThan(0);
      if (row.vessels.length === 0 && row.route === null && row.cutX !== null)
        expect(row.more.at(-1)).toMatch(/^Nearest cut with a window: \w+day \d\d:\d\d, /);
      for (const { first, more } of row.vessels) if (first) expect(more.at(-1)).toMatch(/^Before /);
    }
  });

  test.each([
    [358, "phone"],
    [936, "paper"],
    [720, "tablet"],
  ])("at %i px (%s) all days are in view, each named, and every row of the wide board", (widthPx) => {
    const picture = board(widthPx);
    expect(picture.days.length).toBe(board(1600).days.length);
    expect(picture.days.every(({ label }) => label !== "")).toBe(true);
    expect(picture.days.every(({ x0, x1 }) => x1 - x0 >= 17)).toBe(true);
    expect(picture.rows.map(({ optionId }) => optionId)).toEqual(
      board(1600).rows.map(({ optionId }) => optionId),
    );
    for (const { label, date } of picture.days) expect(`${label} ${date}`.trim()).toMatch(/^\w{2,3} \d+$/);
  });

  test.each([358, 1232])("at %i px every window stays on its days, and its number is seen", (widthPx) => {
    const unfolded = board(1232).rows.flatMap(({ unfold }) => unfold?.dayKey ?? []);
    const { rows, days } = board(widthPx, { unfolded });
    const dayOf = (ms: number) => days.find(({ dayKey }) => dayKey === localDayKey(ms, manner.zone));
    const windows = answer.options.flatMap(({ routes }) => routes.flatMap((route) => route.windows));
    for (const { vessels } of rows) {
      vessels.forEach(({ key, startMs, x0, x1 }, i) => {
        const endUtc = windows.find(({ startUtc }) => key.endsWith(startUtc))?.endUtc ?? "";
        expect((x0 + x1) / 2).toBeGreaterThanOrEqual((dayOf(startMs)?.x0 ?? Number.NaN) - 0.01);
        expect((x0 + x1) / 2).toBeLessThanOrEqual((dayOf(Date.parse(endUtc) - 1)?.x1 ?? Number.NaN) + 0.01);
        expect(vessels[i + 1]?.x0 ?? Number.POSITIVE_INFINITY).toBeGreaterThan(x1);
      });
    }
  });

  test("a row without a window gives each reason beside its route", () => {
    const route = (key: "dry-hay" | "wrapped-bales" | "wilted-chop", limitedBy: "rain" | "over-dry") => ({
      ...(answer.options[0]?.routes[0] as RouteAnswer),
      route: key,
      limitedBy,
    });
    const routes = [
      route("dry-hay", "rain"),
      route("wrapped-bales", "over-dry"),
      route("wilted-chop", "rain"),
    ];
    const option = { ...(answer.options[0] as CutOptionAnswer), routes };
    for (const words of reasonWordings(option))
      for (const reason of words.split("; "))
        expect(reason).toMatch(/: (rain comes first|too dry too soon)$/);
  });

  test("a narrow board drawn larger pages its days and can reach the last", () => {
    const first = board(358, { larger: true });
    expect(first.pager).toMatchObject({ larger: true });
    const { days, allDays } = first.pager ?? { days: 0, allDays: 0 };
    expect(days).toBeLessThan(allDays);
    const last = board(358, { larger: true, fromDay: 99 });
    expect(last.pager?.fromDay).toBe(allDays - days);
    const seen = new Set(
      Array.from({ length: allDays }, (_, fromDay) => board(358, { larger: true, fromDay }).rows)
        .flat()
        .map(({ optionId }) => optionId),
    );
    for (const { optionId } of board(1232).rows) expect(seen.has(optionId)).toBe(true);
  });

  test("says the best in one sentence, and none where there is none", () => {
    expect(boardSentence(answer, manner)).toMatch(
      /^Best of \d+ cut times: (cut|leave it) .*\d\d:\d\d to .*\d\d:\d\d(, after rain)?\.$/,
    );
    const none: WindowsAnswer = { ...answer, best: { overall: null, byRoute: {} } };
    expect(boardSentence(none, manner)).toMatch(/^None of \d+ cut times has a window in this weather\.$/);
  });

  test("a row's caution goes by the crop, as the caution beside the answer does", () => {
    const wrapped = answer.options
      .flatMap(({ routes }) => routes)
      .find(({ route }) => route === "wrapped-bales");
    if (!wrapped) throw new Error("no wrapped bales");
    expect(windowReasons(wrapped, "sudangrass").at(-1)).toContain("Wait 8 weeks");
    expect(windowReasons(wrapped, "alfalfa").at(-1)).toContain("Wait 6 weeks");
  });

  test("the table has every option with every route and no empty number", () => {
    const rows = answer.options.flatMap((option) =>
      option.routes.map((route) => boardCells(option, route, manner)),
    );
    expect(rows.length).toBe(answer.options.reduce((sum, { routes }) => sum + routes.length, 0));
    expect(rows.flat().some((cell) => /NaN|undefined|null/.test(cell))).toBe(false);
    expect(boardHeads("metric", false)[6]).toBe("Rain on swath, mm");
    expect(boardHeads("metric", true)[6]).toBe("Rain on swath on average, mm");
  });
});

describe("clocks and places", () => {
  test.each([
    ["clock goes forward", PLACES.southDakota, "2026-03-06T06:00:00Z", 23],
    ["clock goes back", PLACES.southDakota, "2026-10-30T05:00:00Z", 25],
    ["half-hour zone", PLACES.india, "2026-10-09T18:30:00Z", 24],
  ])("%s: days keep their true length", (_, site, fromUtc, hours) => {
    const weather = inventedSpell(site, fromUtc, 7 * 24);
    const own: WindowsRequest = { ...exampleWindows(), weather, cutHours: [9, 13] };
    const found = answered(findWindows(own));
    const picture = toBoard(found, weather, {}, metric24(site.timeZone), 1232);
    const pxPerHour = (picture.scale.x1 - picture.scale.x0) / (7 * 24);
    expect(picture.days.some(({ x0, x1 }) => Math.abs((x1 - x0) / pxPerHour - hours) < 0.01)).toBe(true);
    for (const { hour, kind } of picture.rows) if (kind !== "standing") expect(hour).toMatch(/^(09|13):00$/);
  });

  test("polar day has no night, polar night no day", () => {
    const summer = inventedSpell(PLACES.arctic, "2026-06-18T22:00:00Z", 72);
    const winter = inventedSpell(PLACES.arctic, "2026-12-18T23:00:00Z", 72);
    const nothing: WindowsAnswer = { ...answer, options: [], best: { overall: null, byRoute: {} } };
    expect(toBoard(nothing, summer, {}, metric24("Europe/Oslo"), 1232).nights).toEqual([]);
    const { nights, scale } = toBoard(nothing, winter, {}, metric24("Europe/Oslo"), 1232);
    expect(nights.reduce((sum, { x0, x1 }) => sum + x1 - x0, 0)).toBeCloseTo(scale.x1 - scale.x0, 6);
  });
});

describe("vessels and ribbon", () => {
  test("every route has a form of its own", () => {
    const box = { x0: 0, x1: 40, y0: 0, y1: 30 };
    const routes = [
      "dry-hay",
      "wrapped-bales",
      "wilted-chop",
      "direct-chop",
      "green-chop",
      "grazing",
    ] as const;
    expect(new Set(routes.map((route) => vesselPath(route, box))).size).toBe(routes.length);
  });

  test("a chance is never 0 and never 10", () => {
    expect([0, 0.04, 0.05, 0.5, 0.94, 0.95, 1].map(tenths)).toEqual(["<1", "<1", "1", "5", "9", ">9", ">9"]);
  });

  test("neighbours are moved apart and keep their order", () => {
    const placed = spread(
      [
        { x0: 10, x1: 14 },
        { x0: 12, x1: 16 },
      ],
      34,
      2,
      0,
      200,
    );
    expect((placed[1]?.x0 ?? 0) - (placed[0]?.x1 ?? 0)).toBeGreaterThanOrEqual(1.9);
    expect(placed[0]?.x0).toBeGreaterThanOrEqual(0);
  });

  test("a neighbour is moved no further than it may be; then both give up their edges", () => {
    const stay = { x0: 105, x1: 112 };
    const [left, right] = spread(
      [
        { x0: 100, x1: 119, stay },
        { x0: 102, x1: 122, stay },
      ],
      19,
      2,
      0,
      200,
    );
    expect(left).toMatchObject({ x0: 95.5 });
    expect(right).toMatchObject({ x1: 122 });
    expect((right?.x0 ?? 0) - (left?.x1 ?? 0)).toBeCloseTo(2, 9);
  });

  test("a window between two others is touched wider than it is drawn, and never over the middle of another", () => {
    // Borders of the free space: 121 and 144, 23 px; a quarter of 19 px is taken from each neighbour.
    const row = [0, 23, 46].map((x) => ({ x0: 100 + x, x1: 119 + x }));
    const touched = withTouch(row, 0, 300).map(({ touchX0, touchX1 }) => [touchX0, touchX1]);
    expect(touched[1]).toEqual([116.25, 148.75]);
  });

  test("what is touched reaches outward where windows stand close, and never over the middle of the gap", () => {
    const close = [
      { x0: 100, x1: 119 },
      { x0: 121, x1: 140 },
    ];
    expect(withTouch(close, 90, 300).map(({ touchX0, touchX1 }) => [touchX0, touchX1])).toEqual([
      [90, 120],
      [120, 164],
    ]);
    expect(withTouch([{ x0: 100, x1: 110 }], 0, 300)).toEqual([
      { x0: 100, x1: 110, touchX0: 83, touchX1: 127 },
    ]);
  });

  test("colour runs through the named greens and straws", () => {
    expect(ribbonColour(0.78)).toBe("#2d6430");
    expect(ribbonColour(0.45)).toBe("#a0ac48");
    expect(ribbonColour(0.05)).toBe("#f0dea0");
    expect(ribbonColour(0.9)).toBe("#2d6430");
  });
});

test("on a phone the longest label has its room beside the calendar, also with a date", () => {
  for (const own of [metric24(manner.zone), us12(manner.zone)])
    for (const nearDay of ["2026-06-20", null]) {
      const { rows, scale } = toBoard(answer, request.weather, ribbons, { ...own, nearDay }, 358);
      const dated = rows.filter(({ doneShort }) => /^[A-Z] [A-Z][a-z] \d+ /.test(doneShort));
      if (nearDay === null) expect(dated.length).toBeGreaterThan(0);
      // 7.1 px is the widest that a character of these labels was measured.
      for (const { doneShort } of rows) expect(7 + 7.1 * doneShort.length).toBeLessThan(scale.x0 - 4);
    }
});

describe("the chances of rain along the top", () => {
  const odds = answered(
    findWindowsWithOdds({ ...request, draws: 8, cutHours: [9], routes: [{ route: "dry-hay" }] }),
  ).odds;
  const known = odds?.rainDays ?? [];
  const withOdds: WindowsAnswer = odds === undefined ? answer : { ...answer, odds };
  const drawn = (widthPx: number, found = withOdds, own = manner) =>
    toBoard(found, { ...request.weather, origin: "forecast" }, ribbons, own, widthPx);

  test("stand under each day in tens, never 0 and never 10", () => {
    const { days, rainOdds, rainTitle } = drawn(1232);
    expect(days.map(({ dayKey }) => dayKey)).toEqual(known.map(({ dateLocal }) => dateLocal));
    for (const [i, { oddsWords, sentence }] of days.entries()) {
      const chance = known[i]?.chance ?? Number.NaN;
      const number = chance < 0.05 ? "<1" : chance > 0.95 ? ">9" : String(Math.round(10 * chance));
      // Where a day has the room, with the amount that 9 in 10 stay under.
      expect(oddsWords.replace(/, to \d+ mm$/, "")).toBe(`${number} in 10`);
      if (chance < 0.05) expect(oddsWords).not.toContain(", to ");
      expect(sentence).toMatch(
        /(under 1|over 9|[1-9]) in 10 for more than 1 mm(, 9 in 10 stay under .* mm)?\./,
      );
      expect(sentence.includes("9 in 10 stay under")).toBe(chance >= 0.05);
    }
    for (const { oddsWords, dayKey } of drawn(1800).days) {
      const { chance = 0, p90Mm = 0 } = known.find(({ dateLocal }) => dateLocal === dayKey) ?? {};
      if (chance >= 0.05) expect(oddsWords).toMatch(new RegExp(`in 10, to ${Math.ceil(p90Mm)} mm$`));
    }
    expect(rainTitle).toBe("Forecast's rain");
    const key =
      "Along the top: the forecast's own rain, and under it the chance of more than 1 mm that day, in 10";
    expect(rainOdds).toEqual({ title: "Over 1 mm", key });
    // An amount is explained where a day has the room for one.
    expect(drawn(1800).rainOdds?.key).toBe(`${key}; "to" is what 9 in 10 stay under`);
  });

  test("have a number alone where days are narrow, and the farm's units", () => {
    const { days, rainOdds, rainTitle } = drawn(300);
    expect(days.every(({ oddsWords }) => /^(<1|>9|[1-9])$/.test(oddsWords))).toBe(true);
    expect(rainOdds?.title).toBe("Chance in 10");
    expect(rainTitle).toBe("Forecast, mm");
    expect(drawn(1232, withOdds, us12(request.weather.site.timeZone)).rainOdds?.title).toBe("Over 0.04 in");
  });

  test("a day that is told dry and may turn wet is among the days named", () => {
    const days = known.map(({ dateLocal }) => ({ dateLocal, chance: 0.3, p90Mm: 14 }));
    const { rainSentence } = drawn(
      1232,
      odds === undefined ? answer : { ...answer, odds: { ...odds, rainDays: days } },
    );
    expect(rainSentence).toContain("no rain, 3 in 10 for more than 1 mm, 9 in 10 stay under 14 mm");
    expect(rainSentence).not.toContain("None known");
  });

  test("after the hours that are used nothing is told, and their last day has no chance of its own", () => {
    const { startUtc } = request.weather.hours;
    const days = drawn(1232).days;
    // Two hours into the fourth day.
    const at = startUtc.findIndex((utc) => localDayKey(Date.parse(utc), manner.zone) === days[3]?.dayKey) + 2;
    const cut = { ...withOdds, usableUntilUtc: startUtc[at] ?? "" };
    const wet = {
      ...request.weather,
      hours: {
        ...request.weather.hours,
        rainMm: startUtc.map((_, i) => (i === at - 1 ? 2 : i >= at ? 5 : 0)),
      },
    };
    for (const widthPx of [1232, 390, 300]) {
      const picture = toBoard(cut, wet, ribbons, manner, widthPx);
      const [whole, last, ...after] = picture.days.slice(2);
      expect(whole?.oddsWords).not.toBe("");
      expect(last?.oddsWords).toBe("");
      expect(last?.sentence).toContain(" until 02:00: 2 mm of rain, 01:00 to 02:00, ");
      expect(after.length).toBeGreaterThan(0);
      expect(
        after.map(({ rainWords, oddsWords, wet, mayRain }) => [rainWords, oddsWords, wet, mayRain]),
      ).toEqual(after.map(() => ["", "", false, false]));
      expect(after.every(({ sentence }) => sentence.endsWith(": this weather is not used."))).toBe(true);
      expect(picture.rain.every(({ x0 }) => x0 < picture.scale.x(cut.usableUntilUtc))).toBe(true);
    }
    const [, , , last] = toBoard(cut, wet, ribbons, manner, 1232).days;
    expect(last?.rainWords).toBe("2 mm+");
  });

  test("an old forecast doubts its chances in words too; past its time it calls no cut the best", () => {
    const told: WindowsAnswer = {
      ...withOdds,
      options: withOdds.options.map((option) => ({
        ...option,
        routes: option.routes.map((route) => ({
          ...route,
          windows: route.windows.map((window) => ({ ...window, chance: 0.8 })),
        })),
      })),
    };
    const aged = (age?: "doubted" | "expired") =>
      toBoard(told, request.weather, ribbons, manner, 1232, { age });
    const toldOf = (picture: ReturnType<typeof aged>) =>
      picture.rows.flatMap(({ sentence, vessels }) => [
        sentence,
        ...vessels.map((vessel) => vessel.sentence),
      ]);
    const chances = toldOf(aged("doubted")).filter((one) => one.includes("for this window"));
    expect(chances.length).toBeGreaterThan(3);
    for (const one of chances) expect(one).not.toMatch(/10 for this window/);
    expect(toldOf(aged()).join()).not.toContain("?");
    expect(aged("doubted").rows.filter(({ best }) => best)).toHaveLength(1);
    const expired = aged("expired");
    expect(expired.rows.some(({ best, mark }) => best || mark === "best")).toBe(false);
    expect(expired.rows.some(({ vessels }) => vessels.some(({ best }) => best))).toBe(false);
    expect(expired.sentence).toBe("This forecast is too old to decide by.");
  });

  test("amounts of a file are the file's, not a forecast's", () => {
    const file = { ...request.weather, origin: "upload" } as const;
    const { rainTitle, rainOdds } = toBoard(withOdds, file, ribbons, manner, 1232);
    expect(rainTitle).toBe("Rain in the file");
    expect(rainOdds?.key).toContain("the rain of the file");
    expect(toBoard(withOdds, file, ribbons, manner, 300).rainTitle).toBe("In file, mm");
  });

  test("without odds, or of weather that is past, none is told, and nothing moves when they come", () => {
    const past: WindowsAnswer =
      odds === undefined ? answer : { ...answer, odds: { ...odds, weather: "known" } };
    for (const found of [answer, past]) {
      const { days, rainOdds, rainTitle, heightPx } = drawn(1232, found);
      expect(days.every(({ oddsWords }) => oddsWords === "")).toBe(true);
      expect(rainOdds).toBeNull();
      expect(rainTitle).toBe("Rain");
      expect(heightPx).toBe(drawn(1232).heightPx);
    }
  });
});
