import { expect, test } from "vitest";
import { findWindowsWithOdds } from "../../model/harvest/index.ts";
import { drydownWithOdds } from "../../model/odds/index.ts";
import { runCli } from "../../server/run-cli.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post } from "../support/app.ts";
import { SCENARIOS } from "../support/scenarios.ts";

const app = fakeApp({ model: theModel });

async function printed(verb: string, request: object): Promise<unknown> {
  const input = new TextEncoder().encode(JSON.stringify(request));
  const { exitCode, stdout, stderr } = await runCli([verb], async () => input, theModel);
  expect([exitCode, stderr]).toEqual([0, ""]);
  return JSON.parse(stdout);
}

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

const [scenario] = SCENARIOS;
if (scenario === undefined) throw new Error("no scenario");
const { drydown, windows } = scenario;
const readAt = (cutUtc: string, hours: number) =>
  new Date(Date.parse(cutUtc) + hours * 3_600_000).toISOString().replace(".000Z", "Z");

test("a course bent to readings is the same by the model, the API and the command line", async () => {
  const readings = [
    { atUtc: readAt(drydown.cutUtc, 7), method: "oven", moistureWb: 0.6, confirmed: true },
    { atUtc: readAt(drydown.cutUtc, 8), method: "windrow-probe", moistureWb: 0.55 },
  ] as const;
  const request = { ...drydown, readings, draws: 40, seed: 5 };
  const direct = drydownWithOdds(request);
  if (!direct.ok) throw new Error(direct.issues.map(({ message }) => message).join("; "));
  expect(direct.value.odds?.readings?.readings[0]?.used).toBe(true);
  const wanted = plain(direct.value);
  expect(await (await post(app, "/api/drydown", request)).json()).toEqual(wanted);
  expect(await printed("drydown", request)).toEqual(wanted);
});

test("so is a board with its odds and a measured cut", async () => {
  const base = { ...windows, draws: 12, seed: 5 };
  const before = findWindowsWithOdds(base);
  const cut = before.ok ? before.value.options.find(({ kind }) => kind === "swath") : undefined;
  if (!cut?.cutUtc || cut.treatment === null) throw new Error("no cut");
  const { cutUtc, treatment } = cut;
  const readings = [{ atUtc: readAt(cutUtc, 8), method: "oven", moistureWb: 0.5, confirmed: true }] as const;
  const request = { ...base, readCuts: [{ cutUtc, treatment, readings }] };
  const direct = findWindowsWithOdds(request);
  if (!direct.ok) throw new Error(direct.issues.map(({ message }) => message).join("; "));
  expect(direct.value.readings?.cuts[0]?.used).toBe(1);
  // Who asks from outside gets the routes side by side too.
  const { comparison, ...answer } = (await printed("windows", request)) as Record<string, unknown>;
  expect(answer).toEqual(plain(direct.value));
  const api = await (await post(app, "/api/windows", request)).json();
  expect(api).toEqual({ ...answer, comparison });
});
