import { describe, expect, test } from "vitest";
import { SWATH_LIMITS } from "../../../model/drying/index.ts";
import { findWindows } from "../../../model/harvest/index.ts";
import { FIELD_LIMITS } from "../../../web/state/field-limits.ts";
import { DEMO_INPUTS, type Inputs, type TextField } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { sampleSeries } from "../../support/samples.ts";

function typed(texts: Partial<Record<TextField, string>>, more: Partial<Inputs> = {}): Inputs {
  const metric = Object.entries(texts).map(([field, text]) => [field, { text, units: "metric" }] as const);
  return { ...DEMO_INPUTS, ...more, texts: { ...DEMO_INPUTS.texts, ...Object.fromEntries(metric) } };
}

test("the demonstration field is a question the model answers", () => {
  const { question, errors, coveredFraction } = readInputs(DEMO_INPUTS);
  expect(errors).toEqual({});
  expect(coveredFraction).toBeCloseTo(0.7, 12);
  expect(question?.swath.initialMoistureWb).toBe(0.78);
  if (question === null) throw new Error("no question");
  const outcome = findWindows({ ...question, weather: sampleSeries("settled-dry") });
  expect(outcome.ok).toBe(true);
});

test("a share typed for a percentage names the value, the limit and the likely meaning", () => {
  const { errors, question } = readInputs(typed({ moisturePct: "0.78" }));
  expect(question).toBeNull();
  expect(errors).toEqual({ moisturePct: "Got 0.78, must be at least 5 and at most 92 %. Did you mean 78?" });
});

test("a comma is a decimal point", () => {
  expect(readInputs(typed({ yieldTHa: "4,2" })).question?.swath.dryMatterTHa).toBe(4.2);
  expect(readInputs(typed({ moisturePct: "77,5" })).question?.swath.initialMoistureWb).toBe(0.775);
});

test.each<[TextField, string, RegExp]>([
  ["moisturePct", "", /Empty/],
  ["moisturePct", "wet", /"wet".*number/],
  ["moisturePct", "99", /99.*at most 92/],
  ["yieldTHa", "0", /Got 0,.*above 0 and at most 30 t\/ha/],
  ["stubbleCm", "-1", /-1.*at least 0/],
  ["areaHa", "0", /above 0/],
  ["mowHaPerH", "1000", /1,000.*at most 60/],
  ["swathWidthM", "3.4", /3.4 m, must be 0.15 to 3 m at a cut of 3 m/],
  ["swathWidthM", "0.01", /0\.01 m, must be 0.15 to 3 m.*at least 5 %/],
  ["swathWidthM", "0", /Got 0, must be 0.15 to 3 m/],
  ["mowerCutM", "0", /at least 0.5 and at most 30 m/],
  ["mowerCutM", "1e9", /must be a number in digits/],
  ["workFrom", "25", /"25".*HH:MM/],
  ["workFrom", "", /^Empty; the start of the working day is needed, must be a time HH:MM/],
  ["workTo", " ", /^Empty; the end of the working day/],
  ["cutHours", "3,5", /"3,5", must be whole hours from 0 to 23.*"3 5" for two/],
  ["cutHours", "9 24", /"24".*0 to 23/],
  ["cutHours", "", /at least 1/],
  ["cutHours", "9.5", /"9.5".*whole/],
])("%s typed as %j is refused beside its field", (field, text, message) => {
  const { errors, question } = readInputs(typed({ [field]: text }));
  expect(question).toBeNull();
  expect(Object.keys(errors)).toEqual([field]);
  expect(errors[field]).toMatch(message);
});

test("a day of work that ends as it begins is told at both ends, on the reader's clock", () => {
  const same = typed({ workFrom: "8 pm", workTo: "20:00" });
  const words = "Got 8 pm for start and end, which must differ. Midnight to midnight is the whole day.";
  expect(readInputs(same, { hour12: true })).toMatchObject({
    question: null,
    errors: { workFrom: words, workTo: words },
  });
  expect(readInputs(same).errors.workTo).toMatch(/^Got 20:00 .*00:00 to 24:00/);
});

test("a name has a length", () => {
  const { errors, question } = readInputs({ ...DEMO_INPUTS, fieldName: "x".repeat(300) });
  expect(question).toBeNull();
  expect(errors).toEqual({ fieldName: "Got 300 characters, must be at most 120." });
});

test("the limits are the model's", () => {
  expect(FIELD_LIMITS.yieldTHa).toBe(SWATH_LIMITS.dryMatterTHa);
  expect(FIELD_LIMITS.moisturePct.max).toBe(SWATH_LIMITS.initialMoistureWb.max * 100);
});

describe("routes and passes", () => {
  test("no route ticked is an error", () => {
    const none = Object.fromEntries(
      Object.entries(DEMO_INPUTS.routes).map(([key, choice]) => [key, { ...choice, on: false }]),
    ) as Inputs["routes"];
    expect(readInputs({ ...DEMO_INPUTS, routes: none }).errors.routes).toMatch(/at least 1/);
  });

  test("a baler's rate goes to baled routes, a chopper's to chopped ones, an empty one to none", () => {
    const { question } = readInputs(typed({ balerHaPerH: "2", chopperHaPerH: "4" }));
    expect(question?.routes?.map(({ route, haPerH }) => [route, haPerH])).toEqual([
      ["dry-hay", 2],
      ["wrapped-bales", 2],
      ["wilted-chop", 4],
    ]);
    expect(readInputs(DEMO_INPUTS).question?.routes?.every(({ haPerH }) => haPerH === undefined)).toBe(true);
  });

  test("usual passes are left to the model, passes by hand are planned", () => {
    expect(readInputs(DEMO_INPUTS).question?.treatments).toBeUndefined();
    const by = readInputs({ ...DEMO_INPUTS, ted: "morning-after", rake: "none" }).question?.treatments?.[0];
    expect(by?.plan?.map(({ kind }) => kind)).toEqual(["ted"]);
    const raked = readInputs({ ...DEMO_INPUTS, ted: "morning-after", rake: "before-window" }).question;
    expect(raked?.treatments?.[0]?.plan?.map(({ kind, routes }) => [kind, routes])).toEqual([
      ["ted", undefined],
      ["rake", ["dry-hay"]],
    ]);
    const none = readInputs({ ...DEMO_INPUTS, ted: "none", rake: "none" }).question?.treatments?.[0];
    expect(none?.plan).toEqual([]);
  });

  test("a rake set by hand is driven for hay alone", () => {
    const { question } = readInputs({ ...DEMO_INPUTS, rake: "before-window" });
    if (question === null) throw new Error("no question");
    const outcome = findWindows({ ...question, cutHours: [9], weather: sampleSeries("settled-dry") });
    if (!outcome.ok) throw new Error("no answer");
    const raked = new Set(
      outcome.value.options.flatMap(({ routes }) =>
        routes
          .filter(({ operations }) => operations.some(({ kind }) => kind === "rake"))
          .map(({ route }) => route),
      ),
    );
    expect([...raked]).toEqual(["dry-hay"]);
  });
});
