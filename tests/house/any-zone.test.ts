import { afterEach, expect, test } from "vitest";
import { runCli } from "../../server/run-cli.ts";
import { theModel } from "../../server/the-model.ts";
import { SCENARIOS } from "../support/scenarios.ts";
import { sourceFiles, withoutComments } from "./sources.ts";

/** Whole answers, asked in one process whose own clock is put into other zones: none may tell which one it was in. */

const before = process.env.TZ;
afterEach(() => {
  process.env.TZ = before;
});

/** Minutes that each zone's clock is behind UTC in July; one has half hours, and one a clock change of half an hour. */
const ELSEWHERE = { "Asia/Kolkata": -330, "America/St_Johns": 150, "Australia/Lord_Howe": -630 };

async function printed(verb: string, request: object): Promise<string> {
  const input = new TextEncoder().encode(JSON.stringify(request));
  const { stdout, stderr } = await runCli([verb], async () => input, theModel);
  expect(stderr).toBe("");
  return stdout;
}

test.each(SCENARIOS.filter(({ name }) => /forward|back|half-hour/.test(name)))(
  "$name: the same answers, letter for letter, in whatever zone the machine is",
  async ({ drydown, windows }) => {
    const answers = async () => [await printed("drydown", drydown), await printed("windows", windows)];
    process.env.TZ = "UTC";
    expect(new Date("2026-07-01T00:00:00Z").getTimezoneOffset() + 0).toBe(0);
    const here = await answers();
    for (const [zone, minutes] of Object.entries(ELSEWHERE)) {
      process.env.TZ = zone;
      expect(new Date("2026-07-01T00:00:00Z").getTimezoneOffset(), zone).toBe(minutes);
      expect(await answers(), zone).toEqual(here);
    }
  },
);

/** Ways of a date that answer by the machine's own zone. */
const OF_THE_MACHINE =
  /\.(?:get|set)(?:Hours|Minutes|Day|Date|Month|FullYear|TimezoneOffset)\(|\bnew Date\([^()]*,|\.toLocale(?:Date|Time)String\(|\.to(?:Date|Time)String\(/;

test("no source asks a date for what it is in the machine's own zone", () => {
  const sources = sourceFiles(/\.(ts|tsx)$/).filter(({ path }) => /^(model|server|web)\//.test(path));
  expect(sources.length).toBeGreaterThan(200);
  const found = sources.flatMap(({ path, text }) => {
    const first = OF_THE_MACHINE.exec(withoutComments(text));
    return first === null ? [] : [`${path}: ${first[0]}`];
  });
  expect(found).toEqual([]);
});
