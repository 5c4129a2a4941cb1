import { expect, test } from "vitest";
import {
  findWindows,
  findWindowsWithOdds,
  type WindowsAnswer,
  type WindowsRequest,
} from "../../../model/harvest/index.ts";
import { localDayKey } from "../../../model/weather/clock.ts";
import { toAnswerSentence, toChoiceSentence } from "../../../web/answer/sentence.ts";
import { type Manner, sayingOf } from "../../../web/format/manner.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { sampleSeries } from "../../support/samples.ts";

const ZONE = "America/Chicago";

function answerOf(
  id: string,
  change: Partial<WindowsRequest> = {},
  manner: Manner = metric24(ZONE),
): WindowsAnswer {
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const outcome = findWindows({ ...question, weather: sampleSeries(id), ...change }, sayingOf(manner));
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value;
}

const place = (fromUtc: string, manner: Manner = metric24(ZONE)) => ({
  fieldName: "Creek field",
  manner: { nearDay: localDayKey(Date.parse(fromUtc), manner.zone), ...manner },
  fromUtc,
});

test("says the cut, then each route in the order of its time, then why, then the range of the estimates", () => {
  const sentence = toAnswerSentence(answerOf("showers-every-other-day"), null, place("2026-06-20T05:00:00Z"));
  expect(sentence.headline).toBe("Cut Creek field Saturday 09:00.");
  expect(sentence.promise).toMatch(
    /^Wilted chop Saturday from \d\d:\d[05]; wrapped bales from \d\d:\d[05]; dry hay not before Friday 26 Jun, after rain\.$/,
  );
  expect(sentence.why).toMatch(
    /^Rain on Sunday 14:00 reaches the swath at \d+ %: [\d.]+ mm\. Without it dry hay could come sooner\.$/,
  );
  expect(sentence.runnerUp).toMatch(
    /^Runner-up: cut (?!Saturday)\w+day \d\d:00, [\w ]+ \w+day from \d\d:\d[05]\.$/,
  );
  expect(sentence.opinions).toMatch(/dry hay \d+ (to \d+ h|h or more)/);
  expect(sentence.opinions).toMatch(/after cutting, by the model and two published methods\.$/);
});

test("a route without a time says its reason in short, and what may change it", () => {
  const { why } = toAnswerSentence(answerOf("settled-dry"), null, place("2026-06-08T05:00:00Z"));
  expect(why).toMatch(
    /^Wrapped bales: It stays at 45 % to 60 % for .* A faster machine or part of the field may change it\.$/,
  );
});

test("a standing row is told as one: no cut, no swath", () => {
  const answer = answerOf("settled-dry", { routes: [{ route: "dry-hay" }, { route: "grazing" }] });
  const sentence = toAnswerSentence(
    answer,
    { optionId: "standing/grazing", route: null },
    place("2026-06-08T05:00:00Z"),
  );
  expect(sentence.headline).toBe("If Creek field is taken standing:");
  expect(sentence.promise).toMatch(/^Grazing Monday from \d\d:\d[05]\.$/);
  expect(sentence.why).toMatch(/^Nothing lies in a swath\./);
});

test("the same answer on a 12-hour clock and in inches", () => {
  const manner = us12(ZONE);
  const sentence = toAnswerSentence(
    answerOf("showers-every-other-day", {}, manner),
    null,
    place("2026-06-20T05:00:00Z", manner),
  );
  expect(sentence.headline).toBe("Cut Creek field Saturday 9 am.");
  expect(sentence.promise).toMatch(
    /^Wilted chop Saturday from \d+:\d[05] pm; wrapped bales from \d+(:\d[05])? pm; dry hay not before Friday 26 Jun, after rain\.$/,
  );
  expect(sentence.why).toMatch(/^Rain on Sunday 2 pm reaches the swath at \d+ %: 0\.\d+ in\./);
  expect(Object.values(sentence).join(" ")).not.toMatch(/\d mm\b|\b\d\d:\d\d(?! [ap]m)/);
});

test("where no cut can be offered at all, the next look is tomorrow at 9", () => {
  const answer = answerOf("settled-dry");
  const nothing: WindowsAnswer = { ...answer, options: [], best: { overall: null, byRoute: {} } };
  // The day between is 23 h long: clocks go forward on 8 March 2026.
  const { headline } = toAnswerSentence(nothing, null, place("2026-03-07T18:00:00Z"));
  expect(headline).toBe("Leave Creek field standing. Next look Sunday 09:00.");
});

test("another row keeps the best of all in sight", () => {
  const answer = answerOf("settled-dry");
  const other = answer.options[4];
  const sentence = toAnswerSentence(
    answer,
    { optionId: other?.id ?? "", route: null },
    place("2026-06-08T05:00:00Z"),
  );
  expect(sentence.runnerUp).toMatch(/^Best: cut Monday \d\d:00, [\w ]+ \w+day from \d\d:\d[05]\.$/);
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
  expect(sentence.headline).toBe("Leave Creek field standing. Next look Saturday 09:00.");
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

test("weather that lies behind is told as what would have been, with dates and their year", () => {
  const past = {
    ...place("2026-06-20T05:00:00Z", { ...metric24(ZONE), thisYear: 2027, nearDay: null }),
    past: true,
  };
  const answer = answerOf("showers-every-other-day");
  const told = toAnswerSentence(answer, null, past);
  expect(told.headline).toBe("Creek field would have been cut Saturday 20 Jun 2026 09:00.");
  expect(told.promise).toMatch(
    /^It would have given wilted chop Saturday 20 Jun from \d\d:\d[05]; .*not before Friday 26 Jun, after rain\.$/,
  );
  // The headline says the year for all that follows.
  expect(Object.values({ ...told, headline: "" }).join(" ")).not.toMatch(/2026/);
  const other = answer.options.find(({ id }) => id !== answer.best.overall?.optionId)?.id ?? "";
  expect(toAnswerSentence(answer, { optionId: other, route: null }, past).headline).toMatch(
    /^If Creek field had been cut \w+day \d+ Jun 2026 \d\d:00:$/,
  );
  const none = { ...answer, best: { ...answer.best, overall: null } };
  expect(toAnswerSentence(none, null, past).headline).toBe("Creek field would have been left standing.");
  // Nothing of it can be changed any more.
  expect(toAnswerSentence(answerOf("settled-dry"), null, past).why).not.toMatch(/may change it/);
});

test("a weekday alone stands only for the six days from now", () => {
  const ahead = place("2026-06-20T05:00:00Z", { ...metric24(ZONE), nearDay: "2026-03-01" });
  expect(toAnswerSentence(answerOf("showers-every-other-day"), null, ahead).headline).toBe(
    "Cut Creek field Saturday 20 Jun 09:00.",
  );
});

test("weather without rain values says so, and never that no rain falls", () => {
  const { hours, ...series } = sampleSeries("settled-dry");
  const weather = { ...series, hours: { ...hours, rainMm: hours.rainMm.map(() => null) } };
  for (const routes of [undefined, [{ route: "wilted-chop" as const }]]) {
    const answer = answerOf("settled-dry", { weather, ...(routes ? { routes } : {}) });
    const { why } = toAnswerSentence(answer, null, { ...place("2026-06-08T05:00:00Z"), noRain: true });
    expect(why).toMatch(
      /^Rain is not in this weather and is taken as dry; any rain would change these times\./,
    );
    expect(why).not.toMatch(/No rain reaches/);
  }
});

/** Every cut held by a wait until a moment. */
function heldUntil(answer: WindowsAnswer, untilUtc: string): WindowsAnswer {
  const wait = {
    code: "nitrate-after-rain",
    level: "wait",
    sinceUtc: "2026-06-20T05:00:00Z",
    untilUtc,
  } as const;
  const options = answer.options.map((option) => ({
    ...option,
    routes: option.routes.map((route) => ({ ...route, hazards: [wait] })),
  }));
  return { ...answer, options };
}

test("a wait that the best cut or the runner-up lies in is named with its end, and none where there is none", () => {
  const answer = answerOf("showers-every-other-day");
  const plain = toAnswerSentence(answer, null, place("2026-06-20T05:00:00Z"));
  expect(`${plain.why} ${plain.runnerUp}`).not.toContain("wait");
  const held = heldUntil(answer, "2026-06-28T02:00:00Z");
  const told = toAnswerSentence(held, null, place("2026-06-20T05:00:00Z"));
  const wait = "lies in a wait: nitrate after rain on a dry crop, until Saturday 27 Jun 21:00.";
  expect(told.why).toBe(`This cut ${wait} ${plain.why}`);
  expect(told.runnerUp).toBe(`${plain.runnerUp} It ${wait}`);
  const other = held.options.find(({ id }) => id !== held.best.overall?.optionId);
  const looked = { optionId: other?.id ?? "", route: null };
  expect(toAnswerSentence(held, looked, place("2026-06-20T05:00:00Z")).runnerUp).toMatch(
    /^Best: cut .* It lies in a wait: /,
  );
  const long = heldUntil(answer, answer.usableUntilUtc);
  expect(toAnswerSentence(long, null, place("2026-06-20T05:00:00Z")).why).toMatch(
    /^This cut lies in a wait: nitrate after rain on a dry crop, past this weather\. /,
  );
});

test("the next best by the chances names its wait too", () => {
  const answer = answerOf("showers-every-other-day");
  const [first, second] = answer.options.flatMap(({ id, routes }) =>
    routes
      .filter(({ rank }) => rank === 1 || rank === 2)
      .map(({ route, rank }) => ({ optionId: id, route, valuePerHa: rank === 1 ? 320 : 300, chance: 0.9 })),
  );
  const odds = { first, runnerUp: second, turnsAtChance: 0.5 } as unknown as NonNullable<
    WindowsAnswer["odds"]
  >;
  const held = { ...heldUntil(answer, "2026-06-28T02:00:00Z"), odds };
  expect(toChoiceSentence(held, place("2026-06-20T05:00:00Z"))).toMatch(
    /worth 20 a hectare less than the best\. It lies in a wait: nitrate .* 21:00\. That cut comes first if the best cut's chance of ever bringing in .* falls from 90 % to 50 %\.$/,
  );
  // Within what the draws can tell, no difference is made of it.
  const even = { ...held, odds: { ...odds, lead: { perHa: 20, sePerHa: 15, withinPerHa: 30, equal: true } } };
  expect(toChoiceSentence(even, place("2026-06-20T05:00:00Z"))).toMatch(
    /^As good as equal: cut .*, worth 20 a hectare less than the best; the chances tell that to 30 either way only\./,
  );
  // A lead that rounds to nothing is told without a sum.
  const none = { ...odds, runnerUp: { ...second, valuePerHa: 319.8 } } as typeof odds;
  expect(toChoiceSentence({ ...held, odds: none }, place("2026-06-20T05:00:00Z"))).toMatch(
    /^As good as equal: cut [^,]*, [^,]*\. It lies in a wait: .* That cut comes first if /,
  );
  // Of two chances that read alike no fall is told in numbers.
  const near = { ...held, odds: { ...odds, turnsAtChance: 0.899 } };
  expect(toChoiceSentence(near, place("2026-06-20T05:00:00Z"))).toMatch(/, now 90 %, falls only a little\.$/);
  // Nor of two that lie a point apart.
  const point = { ...held, odds: { ...odds, turnsAtChance: 0.889 } };
  expect(toChoiceSentence(point, place("2026-06-20T05:00:00Z"))).toMatch(
    /, now 90 %, falls only a little\.$/,
  );
  expect(toChoiceSentence(held, { ...place("2026-06-20T05:00:00Z"), currency: "EUR" })).toContain(
    ", worth EUR 20 a hectare less than the best. ",
  );
});

test("costs that say wait are told in the headline, and the cut stands under it; those that say cut change nothing", () => {
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const told = (waitingPerHa: number) => {
    const asked = { ...question, weather: sampleSeries("settled-dry"), cutHours: [9], draws: 8 };
    const outcome = findWindowsWithOdds({ ...asked, cutRule: { waitingPerHa, rainedOnPerHa: 1000 } });
    if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
    const { odds, best } = outcome.value;
    const cutRules = (odds?.cutRules ?? []).map((rule) => ({ ...rule, cut: waitingPerHa > 1 }));
    const answer = odds === undefined ? outcome.value : { ...outcome.value, odds: { ...odds, cutRules } };
    expect(best.overall).not.toBeNull();
    return (past: boolean) => toAnswerSentence(answer, null, { ...place("2026-06-08T05:00:00Z"), past });
  };
  const wait = told(1);
  expect(wait(false).headline).toBe("By your costs: wait with Creek field.");
  expect(wait(false).promise).toMatch(/^Best cut: \w+day 09:00\. /);
  expect(wait(true).headline).toMatch(/would have been cut/);
  expect(told(500)(false).headline).toMatch(/^Cut Creek field \w+day 09:00\.$/);
});
