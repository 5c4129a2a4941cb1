import { expect, test } from "vitest";
import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../../model/harvest/index.ts";
import { oddsChangeText } from "../../../web/answer/odds-change.ts";
import { leverAnswer, leverChange } from "../../../web/panel/lever-answer.ts";
import type { Choice } from "../../../web/state/choice.ts";
import { metric24 } from "../../support/manners.ts";

const manner = metric24("America/Chicago");

/** A row cut on this UTC hour of 22 Jun 2026 whose window opens at that one; null = it has none. */
function row(
  cutH: number,
  opensH: number | null,
  route = "wilted-chop",
  chance: number | null = null,
): Choice {
  const at = (hour: number) => new Date(Date.UTC(2026, 5, 22, hour)).toISOString();
  const windows =
    opensH === null
      ? []
      : [{ startUtc: at(opensH), endUtc: at(opensH + 5), workHours: 5, chance, rainedOn: false }];
  const odds = chance === null ? {} : { odds: { chance } };
  const answer = { route, windows, ...odds } as unknown as RouteAnswer;
  const option = { id: `${cutH}`, cutUtc: at(cutH), kind: "swath", routes: [answer] };
  return { option: option as unknown as CutOptionAnswer, route: answer };
}

test("the chosen row in a line", () => {
  expect(leverAnswer(row(14, 40, "wilted-chop", 0.9), manner)).toBe(
    "Cut Mon 09:00: wilted chop Tue 11:00, 9 in 10 for that window",
  );
  expect(leverAnswer(row(14, null), manner)).toBe("Cut Mon 09:00: no time for wilted chop");
});

test("what a lever did to it", () => {
  const change = (a: Choice | null, b: Choice) => leverChange(a, b, manner);
  expect(change(row(14, 40), row(14, 38))).toBe("2 h sooner");
  expect(change(row(14, 40), row(14, 49))).toBe("9 h later");
  expect(change(row(14, 40), row(14, 40))).toBe("as soon as before");
  expect(change(row(14, null), row(14, 40))).toBe("now it has a time");
  expect(change(row(14, 40), row(14, null))).toBe("no time any more");
  expect(change(row(14, 40), row(38, 60))).toBe("instead of Mon 09:00");
  expect(change(row(14, 40), row(14, 40, "dry-hay"))).toBe("instead of wilted chop");
  expect(change(null, row(14, 40))).toBe("");
});

test("chances that put another row first say so, and why; the same row says nothing", () => {
  const [monday, tuesday] = [row(14, 40, "wilted-chop", 0.5), row(38, 60, "wilted-chop", 0.8)];
  const pair = ({ option }: Choice) => ({ optionId: option.id, route: "wilted-chop" as const });
  const answer = {
    options: [monday.option, tuesday.option],
    best: { overall: pair(tuesday), byRoute: {} },
    odds: {},
  } as unknown as WindowsAnswer;
  expect(oddsChangeText(answer, pair(monday), manner)).toBe(
    "With the chances counted: Tuesday 09:00 instead of Monday 09:00, because wilted chop is then brought in, sooner or later, in 8 in 10, not in 5 in 10.",
  );
  const alike = { ...answer, odds: { asGood: [pair(monday)] } } as unknown as WindowsAnswer;
  expect(oddsChangeText(alike, pair(monday), manner)).toBe(
    "As good as equal too: Monday 09:00, first before the chances were counted.",
  );
  // The choice has said so of the runner-up.
  const second = { ...alike, odds: { ...alike.odds, runnerUp: pair(monday) } } as unknown as WindowsAnswer;
  expect(oddsChangeText(second, pair(monday), manner)).toBe("");
  const sure = row(38, 60, "wilted-chop", 1);
  expect(oddsChangeText({ ...answer, options: [monday.option, sure.option] }, pair(monday), manner)).toMatch(
    / sooner or later, in over 9 in 10, not in 5 in 10\.$/,
  );
  expect(oddsChangeText(answer, pair(tuesday), manner)).toBe("");
  expect(oddsChangeText(answer, undefined, manner)).toBe("");
});
