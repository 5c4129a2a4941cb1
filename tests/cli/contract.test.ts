import { describe, expect, test } from "vitest";
import { runCli } from "../../server/run-cli.ts";
import { drydownAnswer } from "../../server/schemas/drydown-answer.ts";
import { windowsAnswer } from "../../server/schemas/windows-answer.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post } from "../support/app.ts";
import { farmTime, minuteOf } from "../support/farm-clock.ts";
import { CUT_HOURS, SCENARIOS, WORK_HOURS } from "../support/scenarios.ts";

const HOUR_MS = 3_600_000;
const app = fakeApp({ model: theModel });

const answers = new Map<object, Promise<unknown>>();

/** What the command line prints for a request; each request of one verb alone, and so asked once. */
function answerOf(verb: string, request: object): Promise<unknown> {
  const known = answers.get(request) ?? printed(verb, request);
  answers.set(request, known);
  return known;
}

async function printed(verb: string, request: object): Promise<unknown> {
  const input = new TextEncoder().encode(JSON.stringify(request));
  const { exitCode, stdout, stderr } = await runCli([verb], async () => input, theModel);
  expect(stderr).toBe("");
  expect(exitCode).toBe(0);
  return JSON.parse(stdout);
}

describe.each(SCENARIOS)("$name", ({ drydown, windows, weather }) => {
  const { timeZone } = weather.site;

  test("drydown: the shape, the hours, the bounds, the water", async () => {
    const { hours, targets } = drydownAnswer.parse(await answerOf("drydown", drydown));
    const cutMs = Date.parse(drydown.cutUtc);
    const starts = hours.startUtc.map((utc) => Date.parse(utc));
    const first = starts[0] ?? Number.NaN;
    expect(first <= cutMs && cutMs < first + HOUR_MS).toBe(true);
    for (const [i, start] of starts.entries()) expect(start).toBe(first + i * HOUR_MS);
    for (const [name, column] of Object.entries(hours))
      expect([name, column.length]).toEqual([name, starts.length]);
    for (const moisture of [
      hours.moistureWb,
      hours.leafMoistureWb,
      hours.stemMoistureWb,
      hours.equilibriumWb,
    ]) {
      expect(Math.min(...moisture)).toBeGreaterThan(0);
      expect(Math.max(...moisture)).toBeLessThan(1);
    }
    expect(targets.map(({ targetWb }) => targetWb)).toEqual(drydown.targetsWb);

    const at = (column: readonly number[], i: number) => column[i] ?? Number.NaN;
    const waterMm = (i: number) => {
      const moisture = at(hours.moistureWb, i);
      return (at(hours.dryMatterGM2, i) / 1000) * (moisture / (1 - moisture)) + at(hours.freeWaterMm, i);
    };
    for (let i = 1; i < starts.length; i += 1) {
      const gained = at(hours.interceptedMm, i) + at(hours.dewMm, i) + at(hours.vapourUptakeMm, i);
      const lost = at(hours.drainedMm, i) + at(hours.evaporationMm, i);
      const change = gained - lost + at(hours.operationMm, i);
      expect(Math.abs(waterMm(i) - waterMm(i - 1) - change)).toBeLessThan(1e-9);
    }
  });

  test("windows: the shape, the working hours, every cut of every day", async () => {
    const answer = windowsAnswer.parse(await answerOf("windows", windows));
    expect(answer.counts.options).toBe(answer.options.length);
    const windowsSeen = answer.options.flatMap(({ routes }) => routes.flatMap((route) => route.windows));
    expect(windowsSeen.length).toBeGreaterThan(0);
    for (const { startUtc, endUtc, workHours } of windowsSeen) {
      const start = farmTime(startUtc, timeZone);
      const end = farmTime(endUtc, timeZone);
      expect(end.day).toBe(start.day);
      expect(start.minute).toBeGreaterThanOrEqual(minuteOf(WORK_HOURS.from));
      expect(end.minute).toBeLessThanOrEqual(minuteOf(WORK_HOURS.to));
      expect(workHours).toBeGreaterThan(0);
      expect(Date.parse(endUtc) - Date.parse(startUtc)).toBeGreaterThanOrEqual(workHours * HOUR_MS - 1);
    }

    const swathOptions = answer.options.filter(({ kind }) => kind === "swath");
    const cuts = swathOptions.flatMap(({ cutUtc }) => (cutUtc === null ? [] : [farmTime(cutUtc, timeZone)]));
    expect(new Set(cuts.map(({ minute }) => minute / 60))).toEqual(new Set(CUT_HOURS));
    const days = [...new Set(cuts.map(({ day }) => day))];
    expect(days.length).toBeGreaterThanOrEqual(5);
    const treatments = windows.treatments?.length ?? 1;
    for (const day of days.slice(1, -1)) {
      expect([day, cuts.filter((cut) => cut.day === day).length]).toEqual([
        day,
        CUT_HOURS.length * treatments,
      ]);
    }

    const ranks = answer.options.flatMap(({ routes }) => routes.flatMap(({ rank }) => rank ?? []));
    expect([...ranks].sort((a, b) => a - b)).toEqual(ranks.map((_, i) => i + 1));
    const { overall } = answer.best;
    if (ranks.length === 0) expect(overall).toBeNull();
    else {
      const best = answer.options.find(({ id }) => id === overall?.optionId);
      expect(best?.routes.find(({ route }) => route === overall?.route)?.rank).toBe(1);
    }
  });

  test("the command line and the API answer alike", async () => {
    for (const [verb, request] of [
      ["drydown", drydown],
      ["windows", windows],
    ] as const) {
      const response = await post(app, `/api/${verb}`, request);
      expect(response.status).toBe(200);
      expect(await response.json()).toEqual(await answerOf(verb, request));
    }
  });
});

test("the shipped examples are answered, and the demo board has a window", async () => {
  const { exampleDrydown, exampleWindows } = await import("../support/requests.ts");
  drydownAnswer.parse(await answerOf("drydown", exampleDrydown()));
  const board = windowsAnswer.parse(await answerOf("windows", exampleWindows()));
  expect(board.best.overall).not.toBeNull();
});
