import { describe, expect, test } from "vitest";
import { findWindows, PLAIN_SAYING, type Saying, type WindowsAnswer } from "../../../model/harvest/index.ts";
import {
  areaRateWords,
  clockWords,
  hoursWords,
  rainWords,
  readingWords,
  spanWords,
  type Teller,
  whenWords,
} from "../../../model/harvest/words.ts";
import { farmClock } from "../../../model/harvest/work-hours.ts";
import { exampleWindows } from "../../support/requests.ts";

const US: Saying = { hour12: true, units: "us", decimalMark: ".", stepMin: 5 };
const at = (utc: string) => Date.parse(utc);
const teller = (saying: Saying): Teller => ({
  clock: farmClock("America/Chicago", at("2026-07-10T00:00:00Z"), at("2026-07-20T00:00:00Z")),
  sinceMs: at("2026-07-15T00:00:00Z"),
  saying,
});

describe("times", () => {
  test.each([
    [0, 0, "12 am"],
    [9, 5, "9:05 am"],
    [12, 0, "noon"],
    [12, 30, "12:30 pm"],
    [23, 0, "11 pm"],
    [24, 0, "12 am"],
  ])("%i h %i min on a 12-hour clock is %s", (hour, minute, words) => {
    expect(clockWords(US, hour, minute)).toBe(words);
  });

  test("a span is rounded inward, so that it is never told longer than it is", () => {
    const from = at("2026-07-16T17:51:20Z");
    const to = at("2026-07-16T22:04:00Z");
    expect(spanWords(teller(PLAIN_SAYING), from, to)).toBe("Thursday 12:51 to 17:04");
    expect(spanWords(teller({ ...PLAIN_SAYING, stepMin: 5 }), from, to)).toBe("Thursday 12:55 to 17:00");
    expect(spanWords(teller(US), from, to)).toBe("Thursday 12:55 pm to 5 pm");
  });

  test("a span of a few minutes is told to the minute, a lone moment never too early", () => {
    expect(spanWords(teller(US), at("2026-07-16T17:51:00Z"), at("2026-07-16T17:54:00Z"))).toBe(
      "Thursday 12:51 pm to 12:54 pm",
    );
    expect(whenWords(teller(US), at("2026-07-16T17:51:00Z"))).toBe("Thursday 12:55 pm");
  });
});

// Exact by definition: an inch is 25.4 mm, an acre 4046.8564224 m².
test("amounts in inches and acres, and with a decimal comma", () => {
  expect([0.4, 12.7, 25.4, 0.1].map((mm) => rainWords(mm, US))).toEqual([
    "0.02 in",
    "0.5 in",
    "1 in",
    "under 0.01 in",
  ]);
  expect(areaRateWords(4.046_856_422_4, US)).toBe("10.0 ac/h");
  expect(readingWords("18:30", US)).toBe("6:30 pm");
  const comma: Saying = { ...PLAIN_SAYING, decimalMark: "," };
  expect([rainWords(0.4, comma), hoursWords(3.5, comma)]).toEqual(["0,4 mm", "3,5 hours"]);
});

describe("an answer said another way", () => {
  const answered = (saying?: Saying): WindowsAnswer => {
    const outcome = findWindows(exampleWindows(), saying);
    if (!outcome.ok) throw new Error("no answer");
    return outcome.value;
  };
  const textsOf = ({ options, assumptions, warnings }: WindowsAnswer) => [
    ...options.flatMap(({ routes }) => routes.flatMap(({ why }) => why.map(({ text }) => text))),
    ...assumptions,
    ...warnings,
  ];

  test("the plain saying is what an answer has without one", () => {
    expect(answered(PLAIN_SAYING)).toEqual(answered());
  });

  test("has the same numbers; no text keeps a 24-hour time or a metric unit", () => {
    const [plain, us] = [answered(), answered(US)];
    const bare = ({ options, best }: WindowsAnswer) => ({
      best,
      options: options.map(({ routes, ...head }) => ({
        ...head,
        routes: routes.map(({ why, ...route }) => ({
          ...route,
          why: why.map((reason) => ({ ...reason, text: "" })),
        })),
      })),
    });
    expect(bare(us)).toEqual(bare(plain));
    expect(textsOf(us)).toHaveLength(textsOf(plain).length);
    for (const text of textsOf(us)) expect(text).not.toMatch(/\d mm\b|ha\/h|\b\d\d:\d\d(?! [ap]m)/);
    expect(textsOf(us).some((text) => /\b\d+(:\d\d)? [ap]m\b/.test(text))).toBe(true);
  });
});
