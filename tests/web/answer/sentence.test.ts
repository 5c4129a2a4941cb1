import { expect, test } from "vitest";
import { findWindows, type WindowsAnswer, type WindowsRequest } from "../../../model/harvest/index.ts";
import { toAnswerSentence } from "../../../web/answer/sentence.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { metric24 } from "../../support/manners.ts";
import { sampleSeries } from "../../support/samples.ts";

const ZONE = "America/Chicago";

function answerOf(id: string, change: Partial<WindowsRequest> = {}): WindowsAnswer {
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const outcome = findWindows({ ...question, weather: sampleSeries(id), ...change });
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value;
}

const place = (fromUtc: string) => ({ fieldName: "Creek field", manner: metric24(ZONE), fromUtc });

test("says the cut, then each route in the order of its time, then why, then the range of the estimates", () => {
  const sentence = toAnswerSentence(answerOf("showers-every-other-day"), null, place("2026-06-20T05:00:00Z"));
  expect(sentence.headline).toBe("Cut Creek field Saturday 09:00.");
  expect(sentence.promise).toMatch(
    /^Wilted chop Saturday from \d\d:\d\d; wrapped bales not before Saturday \d\d:\d\d; dry hay not before Friday 26 Jun \d\d:\d\d, after rain\.$/,
  );
  expect(sentence.why).toMatch(/^Rain on Sunday 14:00 reaches the swath at \d+ %/);
  expect(sentence.opinions).toMatch(/dry hay \d+ (to \d+ h|h or more)/);
  expect(sentence.opinions).toMatch(/after cutting, by the model and two published methods\.$/);
});

test("a chosen row that is not the best says if, not do", () => {
  const answer = answerOf("settled-dry");
  const other = answer.options[4];
  if (!other) throw new Error("no row");
  const { headline } = toAnswerSentence(
    answer,
    { optionId: other.id, route: null },
    place("2026-06-08T05:00:00Z"),
  );
  expect(headline).toBe("If Creek field is cut Tuesday 13:00:");
});

test("a weekday that could be two carries its date", () => {
  const answer = answerOf("settled-dry");
  const last = answer.options.at(-1);
  const { headline } = toAnswerSentence(
    answer,
    { optionId: last?.id ?? "", route: null },
    place("2026-06-08T05:00:00Z"),
  );
  expect(headline).toMatch(/Tuesday 16 Jun 17:00/);
});

test("where nothing has a time, the field is left standing, with the reason", () => {
  const answer = answerOf("humid-cloudy-dew", {
    routes: [{ route: "dry-hay" }],
    swath: { ...(readInputs(DEMO_INPUTS).question as WindowsRequest).swath, dryMatterTHa: 20 },
  });
  expect(answer.best.overall).toBeNull();
  const sentence = toAnswerSentence(answer, null, place("2026-07-10T05:00:00Z"));
  expect(sentence.headline).toBe("Leave Creek field standing.");
  expect(sentence.why).toMatch(/^Dry hay: .+/);
});

test("an estimate that never gets there is told as open, not as a bare range", () => {
  const answer = answerOf("humid-cloudy-dew");
  for (const option of answer.options) {
    const text = toAnswerSentence(
      answer,
      { optionId: option.id, route: null },
      place("2026-07-10T05:00:00Z"),
    );
    for (const { route, why, opinionHours } of option.routes) {
      const told = why.find(({ code }) => code === "estimates")?.text ?? "";
      if (route === "dry-hay" && /do(es)? not get there/.test(told)) {
        expect([opinionHours.earliest === null, opinionHours.latest]).toEqual([false, null]);
        expect(text.opinions).toMatch(/dry hay \d+ h or more/);
      }
    }
  }
});

test("never a chance and never a promise of safety", () => {
  for (const id of ["settled-dry", "showers-every-other-day", "humid-cloudy-dew", "drought-heat"]) {
    const words = Object.values(toAnswerSentence(answerOf(id), null, place("2026-06-08T05:00:00Z"))).join(
      " ",
    );
    expect(words).not.toMatch(/\bin 10\b|\bsafe\b|NaN|undefined|null/);
  }
});
