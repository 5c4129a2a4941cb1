import { describe, expect, test } from "vitest";
import {
  findWindows,
  type RouteAnswer,
  type WindowAnswer,
  type WindowsAnswer,
  type WindowsRequest,
} from "../../../model/harvest/index.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { bestOf, type Candidate, type Chosen, candidatesOf } from "../../../web/panel/best-change.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { sampleSeries } from "../../support/samples.ts";

const manner: Manner = { units: "metric", hour12: false, locale: "en", zone: "America/Chicago" };
const weather = sampleSeries("settled-dry");

function requestOf(inputs: Inputs): WindowsRequest {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("no question");
  return { ...question, weather };
}

function answerOf(request: WindowsRequest): WindowsAnswer {
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no answer");
  return outcome.value;
}

const slow: Inputs = {
  ...DEMO_INPUTS,
  conditioning: "none",
  texts: { ...DEMO_INPUTS.texts, swathWidthM: { text: "1.35", units: "metric" } },
};
const request = requestOf(slow);
const answer = answerOf(request);
const cutUtc = answer.options[0]?.cutUtc ?? "";
const chosen: Chosen = { cutUtc, route: "dry-hay" };

describe("what is tried", () => {
  const found = candidatesOf(slow, request, chosen, manner);

  test("at most four changes, of the chosen route and cut hour alone", () => {
    expect(found.map(({ change }) => change)).toEqual(["wider", "condition", "ted"]);
    for (const { request: asked } of found) {
      expect(asked.cutHours).toHaveLength(1);
      expect(asked.routes?.map(({ route }) => route)).toEqual(["dry-hay"]);
    }
  });

  test("a click sets what was tried", () => {
    for (const { inputs, request: asked } of found)
      expect(readInputs(inputs).question).toMatchObject({ swath: asked.swath });
    expect(readInputs(found[0]?.inputs ?? slow).coveredFraction).toBeCloseTo(0.9, 6);
  });

  test("nothing for a crop that stands, and nothing that is there already", () => {
    expect(candidatesOf(slow, request, { ...chosen, route: "direct-chop" }, manner)).toEqual([]);
    const done: Inputs = {
      ...DEMO_INPUTS,
      ted: "morning-after",
      texts: { ...DEMO_INPUTS.texts, swathWidthM: { text: "2.7", units: "metric" } },
    };
    expect(candidatesOf(done, requestOf(done), chosen, manner)).toEqual([]);
  });

  test("in the model: the best of them really comes sooner", () => {
    const answers = found.map((one) => answerOf(one.request));
    const best = bestOf(chosen, answer, found, answers);
    expect(best?.gainH).toBeGreaterThanOrEqual(1);
    expect(best?.text).toMatch(/: dry hay \d+ h sooner\.$/);
    const applied = answerOf(requestOf(best?.candidate.inputs ?? slow));
    const start = (from: WindowsAnswer) =>
      Date.parse(
        from.options
          .find((option) => option.cutUtc === cutUtc)
          ?.routes.find(({ route }) => route === "dry-hay")?.windows[0]?.startUtc ?? "",
      );
    expect((start(answer) - start(applied)) / 3_600_000).toBeCloseTo(best?.gainH ?? Number.NaN, 9);
  });
});

describe("which is best", () => {
  const [first, second] = candidatesOf(slow, request, chosen, manner);
  if (!first || !second) throw new Error("no candidates");
  const pair: readonly Candidate[] = [first, second];

  /** The shown answer with another first window of the chosen route; null = none. */
  function withFirst(window: Partial<WindowAnswer> | null): WindowsAnswer {
    const route = (old: RouteAnswer): RouteAnswer =>
      old.route === chosen.route
        ? {
            ...old,
            windows:
              window === null
                ? []
                : [{ startUtc: "", endUtc: "", workHours: 5, chance: null, rainedOn: false, ...window }],
          }
        : old;
    const options = answer.options.map((option) => ({ ...option, routes: option.routes.map(route) }));
    return { ...answer, options };
  }
  const at = (hour: string, rainedOn = false) =>
    withFirst({ startUtc: `2026-07-18T${hour}:00:00Z`, rainedOn });

  test("the one that comes soonest", () => {
    const best = bestOf(chosen, at("20"), pair, [at("17"), at("11")]);
    expect(best?.candidate.change).toBe("condition");
    expect(best?.gainH).toBe(9);
    expect(best?.text).toBe("Condition with rollers: dry hay 9 h sooner.");
  });

  test("less than an hour is not worth a change, later is none", () => {
    expect(bestOf(chosen, at("20"), pair, [at("20"), at("21")])).toBeNull();
    expect(bestOf(chosen, at("20"), pair, [null, withFirst(null)])).toBeNull();
  });

  test("without the rain before sooner with it", () => {
    const best = bestOf(chosen, at("15", true), pair, [at("10", true), at("20")]);
    expect(best?.text).toBe("Condition with rollers: dry hay before the rain.");
    expect(bestOf(chosen, at("15"), pair, [at("10", true), null])).toBeNull();
  });

  test("a window where there was none", () => {
    const best = bestOf(chosen, withFirst(null), pair, [at("12"), null]);
    expect(best?.gainH).toBeNull();
    expect(best?.text).toBe("Spread to 90 % of the cut: dry hay would get a window.");
  });
});
