import { describe, expect, test } from "vitest";
import { runCli } from "../../server/run-cli.ts";
import { windowsAnswer } from "../../server/schemas/windows-answer.ts";
import { theModel } from "../../server/the-model.ts";
import { plainRequest } from "../model/harvest/requests.ts";
import { fakeApp, post } from "../support/app.ts";

const app = fakeApp({ model: theModel });

/** Prices, stores and rates come in by the API and the command line alike, and wrong ones are named. */

const QUESTION = plainRequest(
  {
    field: { areaHa: 2 },
    routes: [
      { route: "dry-hay", package: "round" },
      { route: "wilted-chop", store: null },
      { route: "wrapped-bales" },
    ],
  },
  { hours: 192 },
);

const OWN = {
  prices: { "dry-hay": 180, "wrapped-bales": 150 },
  stores: {
    "dry-hay": "on-ground",
    "wilted-chop": { store: "bag", feeding: "on-ground" },
    "wrapped-bales": { feeding: "bunk" },
  },
  rates: { labourPerH: 25, passPerHa: { rake: 12 }, balePerBale: { round: 9 }, people: 2, baleDmKg: 320 },
} as const;

test("the API and the command line give the same values, and ranks go by them", async () => {
  const asked = { ...QUESTION, ...OWN };
  const response = await post(app, "/api/windows", asked);
  expect(response.status).toBe(200);
  const answer = windowsAnswer.parse(await response.json());
  const input = new TextEncoder().encode(JSON.stringify(asked));
  const { stdout } = await runCli(["windows"], async () => input, theModel);
  expect(JSON.parse(stdout)).toEqual(answer);
  const pairs = answer.options
    .flatMap(({ routes }) => routes)
    .flatMap(({ rank, valuePerHa }) => (rank === null ? [] : [{ rank, valuePerHa }]))
    .sort((a, b) => a.rank - b.rank);
  expect(pairs.length).toBeGreaterThan(3);
  for (const [i, { valuePerHa }] of pairs.entries())
    expect(valuePerHa).toBeLessThanOrEqual(pairs[Math.max(0, i - 1)]?.valuePerHa ?? Number.NaN);
  expect(answer.assumptions.join("\n")).toMatch(
    /Dry hay: kept on ground, .*worth 180 a t of dry matter fed\./,
  );
  expect(answer.assumptions.join("\n")).toMatch(/Wilted chop: kept in a bag, .*\(default, in no currency/);
});

test("a better price, a drier store or cheaper work never lowers what a route is worth", async () => {
  const worth = async (changes: object) => {
    const response = await post(app, "/api/windows", { ...QUESTION, ...changes });
    const answer = windowsAnswer.parse(await response.json());
    const routes = answer.options.flatMap((option) => option.routes);
    return routes.find(({ route, windows }) => route === "dry-hay" && windows.length > 0)?.valuePerHa ?? 0;
  };
  const plain = await worth({});
  expect(await worth({ prices: { "dry-hay": 300 } })).toBeGreaterThan(plain);
  expect(await worth({ stores: { "dry-hay": "on-ground" } })).toBeLessThan(plain);
  expect(await worth({ rates: { mowPerHa: 0 } })).toBeCloseTo(plain + 30.3, 9);
});

describe("what is wrong is named with its limit", () => {
  test.each([
    [{ prices: { "dry-hay": -1 } }, "prices.dry-hay", "out-of-range", /got -1, must be at least 0/],
    [{ prices: { hay: 100 } }, "prices.hay", "unknown-key", /known here: dry-hay/],
    [{ prices: { grazing: "90" } }, "prices.grazing", "wrong-type", /must be a number/],
    [{ stores: { "dry-hay": "barn" } }, "stores.dry-hay", "unknown-value", /must be one of inside, /],
    [
      { stores: { "dry-hay": { store: "bunker" } } },
      "stores.dry-hay.store",
      "unknown-value",
      /must be one of inside, /,
    ],
    [
      { stores: { "wilted-chop": { densityKgM3: 5 } } },
      "stores.wilted-chop.densityKgM3",
      "out-of-range",
      /at least 80 and at most 500/,
    ],
    [
      { stores: { "wilted-chop": { covered: "yes" } } },
      "stores.wilted-chop.covered",
      "wrong-type",
      /true or false/,
    ],
    [
      { stores: { grazing: { store: "bunker" } } },
      "stores.grazing.store",
      "unknown-key",
      /known here: grazing/,
    ],
    [{ rates: { labourPerH: -3 } }, "rates.labourPerH", "out-of-range", /in your currency/],
    [{ rates: { passPerHa: { mow: 3 } } }, "rates.passPerHa.mow", "unknown-key", /ted, rake, invert/],
    [{ rates: { people: 99 } }, "rates.people", "out-of-range", /at most 50 people/],
    [{ rates: { waitPctPerDay: 11 } }, "rates.waitPctPerDay", "out-of-range", /at most 10/],
    [{ leave: { grainChance: 2 } }, "leave.grainChance", "out-of-range", /at most 1/],
    [{ leave: { grain: 2 } }, "leave.grain", "unknown-key", /known here: grainTHa/],
    [{ hazards: { drought: "yes" } }, "hazards.drought", "wrong-type", /true or false/],
    [{ hazards: { regrowthCm: -1 } }, "hazards.regrowthCm", "out-of-range", /at least 0/],
    [
      {
        routes: [{ route: "wilted-chop", store: "bunker" }],
        stores: { "wilted-chop": "bag" },
      },
      "stores.wilted-chop",
      "out-of-order",
      /must agree with the store of the route, "bunker"/,
    ],
  ])("%j", async (changes, path, code, message) => {
    const response = await post(app, "/api/windows", { ...QUESTION, ...changes });
    expect(response.status).toBe(400);
    const { error, issues } = (await response.json()) as {
      error: string;
      issues: { path: string; code: string; message: string }[];
    };
    expect(error).toBe("invalid-request");
    expect(issues.map((one) => [one.path, one.code])).toEqual([[path, code]]);
    expect(issues[0]?.message).toMatch(message);
  });
});
