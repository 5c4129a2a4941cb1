import { expect, test } from "vitest";
import { compareRoutes, findWindows, type WindowsRequest } from "../../../model/harvest/index.ts";
import { lossTotal } from "../../../model/harvest/losses/index.ts";
import { waitingSentence } from "../../../web/routes/AgainstWaiting.tsx";
import { usualText } from "../../../web/routes/money-words.ts";
import { toSidePicture } from "../../../web/routes/picture.ts";
import { columnHead, tableGroups } from "../../../web/routes/RoutesTable.tsx";
import type { RouteRow } from "../../../web/routes/route-rows.ts";
import { lostOf } from "../../../web/routes/steps.ts";
import { turnSentence } from "../../../web/routes/turn-words.ts";
import { DEMO_INPUTS, type Inputs, type TextField } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Picture } from "../../../web/state/state.ts";
import { withCrop } from "../../../web/state/with-crop.ts";
import { readSample } from "../../support/samples.ts";

const manner = { units: "metric", locale: "en-GB", hour12: false, zone: "America/Chicago" } as const;
const { series } = readSample("showers-every-other-day");

function typed(texts: Partial<Record<TextField, string>>, units: "metric" | "us" = "metric"): Inputs {
  const own = Object.entries(texts).map(([field, text]) => [field, { text, units }]);
  return { ...DEMO_INPUTS, texts: { ...DEMO_INPUTS.texts, ...Object.fromEntries(own) } };
}

function request(inputs: Inputs): WindowsRequest {
  const { question, errors } = readInputs(inputs);
  if (question === null) throw new Error(JSON.stringify(errors));
  return { ...question, weather: series };
}

const asked = request(typed({ priceDryHay: "500" }));
const outcome = findWindows(asked);
if (!outcome.ok) throw new Error("no answer");
const compared = compareRoutes(asked, outcome.value);
const rows: RouteRow[] = compared.rows.map((row, i) => ({
  ...row,
  lost: lostOf(row.lossSteps),
  first: i === 0,
}));

test("what each step takes of the standing crop adds up to what the chain of the steps loses", () => {
  expect(rows.length).toBeGreaterThan(1);
  for (const { lost, lossSteps } of rows) {
    const sum = lost.reduce((total, { ofStandingPct }) => total + ofStandingPct, 0);
    expect(Math.abs(sum - lossTotal(lossSteps).pct)).toBeLessThan(1e-9);
  }
  // 10 % of all, then 50 % of the 90 that are left.
  expect(
    lostOf([
      { step: "mowing", pct: 10 },
      { step: "storage", pct: 50 },
    ]),
  ).toEqual([
    { group: "mow", ofStandingPct: 10 },
    { group: "store", ofStandingPct: 45 },
  ]);
});

test.each([358, 1232])("bars of %i px: kept and lost fill the whole without a gap", (widthPx) => {
  const picture = toSidePicture(rows, widthPx);
  expect(picture.bars).toHaveLength(rows.length);
  for (const { segments } of picture.bars) {
    expect(segments[0]?.x0).toBe(picture.x0);
    expect(segments.at(-1)?.x1).toBeCloseTo(picture.x1, 6);
    segments.slice(1).forEach(({ x0 }, i) => {
      expect(x0).toBeCloseTo(segments[i]?.x1 ?? Number.NaN, 6);
    });
  }
});

test("a dear hay leads, and the price at which it would not is told", () => {
  expect(rows[0]?.route).toBe("dry-hay");
  const told = compared.turns.flatMap((turn) => turnSentence(turn, manner) ?? []);
  expect(told.join(" ")).toMatch(/would lead if the price of dry hay went from 500 to \d+ a tonne\./);
});

test("prices typed a US ton and an acre reach the model a tonne and a hectare; what is empty is left to it", () => {
  const { prices, rates, stores, leave } = request(typed({ priceDryHay: "100", mowCost: "10" }, "us"));
  // 1 t = 1.10231 short tons, 1 ha = 2.47105 acres.
  expect(prices?.["dry-hay"]).toBeCloseTo(110.231, 3);
  expect(rates?.mowPerHa).toBeCloseTo(24.7105, 3);
  expect(prices).not.toHaveProperty("wrapped-bales");
  expect([stores, leave]).toEqual([undefined, undefined]);
});

test("a wrong price is told beside its field with its limit", () => {
  const { errors, question } = readInputs(typed({ priceDryHay: "-5", currency: "EUROPEAN" }));
  expect(question).toBeNull();
  expect(errors.priceDryHay).toMatch(/Got -5, must be at least 0 and at most/);
  expect(errors.currency).toMatch(/at most 6/);
});

test("the table names the currency and gives every route a cell in every line", () => {
  const groups = tableGroups(rows, "EUR", manner);
  expect(groups.map(({ title }) => title)).toHaveLength(4);
  for (const { lines } of groups)
    for (const { cell } of lines) for (const row of rows) expect(cell(row)).not.toMatch(/NaN|undefined|^$/);
  const worth = groups[2]?.lines.find(({ head }) => head.startsWith("Worth a hectare"));
  expect(rows[0] && worth?.cell(rows[0])).toMatch(/^EUR /);
});

test("one loss in every forecast is said so, a spread as numbers; own hours are named as on top of hired work", () => {
  const heads = tableGroups(rows, "", manner).flatMap(({ lines }) => lines);
  const spread = tableGroups(rows, "", manner)[0]?.lines.find(({ head }) => head.includes("10 to 90 %"));
  const [row] = rows;
  if (row === undefined || spread === undefined) throw new Error("no row");
  const of = (p10: number | null, p90: number | null) =>
    spread.cell({ ...row, lossPct: { p10, p50: 18, p90 } });
  expect(of(18.06, 18.14)).toBe("same in every forecast");
  expect(of(17, 18.14)).toBe("17 to 18.1");
  expect(of(null, null)).toBe("–");
  expect(heads.map(({ head }) => head)).toContain("Own hours a hectare, on top of hired machines");
});

test("a column of a route whose share of the field nobody knows is marked in its head and its worth", () => {
  const [row] = rows;
  if (row === undefined) throw new Error("no row");
  const noted = { ...row, note: "No daily need." };
  expect([columnHead(row), columnHead(noted)]).toEqual(["Dry hay", "Dry hay\u202f*"]);
  const worth = tableGroups([noted], "EUR", manner)[2]?.lines.find(({ head }) =>
    head.startsWith("Worth a hectare"),
  );
  expect(worth?.cell(noted)).toMatch(/^EUR [\d,]+\u202f\*$/);
});

test("what was settled for one crop is not settled for another", () => {
  const ticked: Inputs = { ...DEMO_INPUTS, settled: ["insurer", "label"] };
  expect(withCrop(ticked, "drought-corn").settled).toEqual([]);
  expect(withCrop(ticked, ticked.crop).settled).toEqual(["insurer", "label"]);
});

test("cover and packing go with what is heaped: a tower silo gets neither", () => {
  const chop = (store: "bunker" | "stave") => ({
    ...typed({ packingKgM3: "200" }),
    siloCover: "open" as const,
    routes: { ...DEMO_INPUTS.routes, "wilted-chop": { on: true, package: null, store } },
  });
  expect(request(chop("bunker")).stores?.["wilted-chop"]).toEqual({ covered: false, densityKgM3: 200 });
  expect(request(chop("stave")).stores?.["wilted-chop"]).toBeUndefined();
});

test("defaults are said in round figures", () => {
  expect([199.58, 15.53, 1.28, 88.4].map((value) => usualText(value, manner))).toEqual([
    "200",
    "15.5",
    "1.28",
    "88",
  ]);
});

test("waiting is set against the same first place as the routes, forage later at the dearest route's price", () => {
  const inputs = typed({ laterTHa: "2", priceDryHay: "500" });
  const { weather, ...question } = request(inputs);
  const found = findWindows({ ...question, weather });
  if (!found.ok) throw new Error("no answer");
  const sample = { kind: "sample", title: "Showers", series } as unknown as Picture["source"];
  const picture = { inputs, request: question, source: sample, answer: found.value } as unknown as Picture;
  const { leave } = compareRoutes({ ...question, weather }, found.value);
  expect(leave?.standingPerHa).toBe(1000);
  expect(waitingSentence(picture, manner)).toMatch(/by dry hay against 1,000 a hectare by waiting\.$/);
});
