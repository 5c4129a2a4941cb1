import { expect, test } from "vitest";
import { findWindows, type HazardAnswer, type WindowsAnswer } from "../../../model/harvest/index.ts";
import { briefWaits } from "../../../web/brief/BriefButton.tsx";
import { bestDays } from "../../../web/brief/best-days.ts";
import {
  cautionLines,
  deferrals,
  gateLines,
  hazardLines,
  priceLines,
  questionOf,
  sourceLines,
} from "../../../web/brief/brief-lines.ts";
import { feedBrief } from "../../../web/brief/feed-brief.ts";
import { type FeedInputs, FIRST_FEED_INPUTS } from "../../../web/feed/feed-inputs.ts";
import { asFedWords } from "../../../web/feed/feed-words.ts";
import { sideBySide } from "../../../web/routes/route-rows.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Picture } from "../../../web/state/state.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { readSample } from "../../support/samples.ts";

const sample = readSample("showers-every-other-day");
const ZONE = sample.series.site.timeZone;
const manner = metric24(ZONE);

function pictureOf(inputs: Inputs): Picture {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: sample.series };
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no answer");
  return {
    id: 1,
    source: { kind: "sample", ...sample },
    inputs,
    request,
    answer: outcome.value,
    course: null,
    ribbons: {},
  };
}

const picture = pictureOf({
  ...DEMO_INPUTS,
  settled: ["label"],
  texts: { ...DEMO_INPUTS.texts, priceDryHay: { text: "500", units: "metric" } },
});
const side = sideBySide(picture, null);

function withFeeds(...changes: readonly Partial<FeedInputs["feeds"][number]>[]): FeedInputs {
  const feeds = FIRST_FEED_INPUTS.feeds.map((feed, i) => ({ ...feed, ...changes[i] }));
  return { ...FIRST_FEED_INPUTS, pregnant: false, feeds };
}
const own = withFeeds({ id: "Oats, north", nitrate: "0.6" }, { id: "Meadow hay", nitrate: "150" });

test("the invented ration is printed neither untouched nor set before another animal; half of it is named as invented", () => {
  expect(feedBrief(null, manner)).toEqual({ kind: "none" });
  expect(feedBrief(FIRST_FEED_INPUTS, manner)).toEqual({ kind: "none" });
  expect(feedBrief({ ...FIRST_FEED_INPUTS, animal: "ewe", kg: "70", pregnant: false }, manner)).toEqual({
    kind: "none",
  });
  expect(feedBrief(withFeeds({ nitrate: "0.6" }), manner)).toMatchObject({
    kind: "told",
    invented: ["Straw"],
  });
  expect(feedBrief(own, manner)).toMatchObject({ kind: "told", invented: [] });
  expect(feedBrief({ ...own, kg: "" }, manner)).toEqual({ kind: "mend" });
});

test("weights as fed are told in the reader's unit", () => {
  const told = feedBrief(own, manner);
  const pounds = feedBrief(own, us12(ZONE));
  if (told.kind !== "told" || pounds.kind !== "told") throw new Error("nothing told");
  expect(asFedWords(told.answer, manner)).toMatch(/^Oats, north [\d.]+ kg, Meadow hay [\d.]+ kg$/);
  expect(asFedWords(pounds.answer, us12(ZONE))).toMatch(/^Oats, north [\d.]+ lb, Meadow hay [\d.]+ lb$/);
});

test("the question names field, routes, crop, animal and days, in either system", () => {
  const told = feedBrief(own, manner);
  expect(questionOf(picture, told, manner)).toMatch(
    /^Creek field: dry hay, wrapped bales or wilted chop\? Alfalfa, 6.4 ha, 3.8 t\/ha of dry matter, for a beef cow of 600 kg; \w+ \d+ \w+ to \w+ \d+ \w+\.$/,
  );
  expect(questionOf(picture, { kind: "none" }, us12(ZONE))).toMatch(/15\.8 ac, 1\.7 ton\/ac of dry matter; /);
});

test("what is ticked and what is open is told as such; own prices are told apart from defaults", () => {
  expect(gateLines(picture).map(({ ticked }) => ticked)).toEqual([false, true, false, false]);
  const [prices] = priceLines(picture, manner);
  expect(prices).toContain("Dry hay 500 a tonne; Wrapped bales 210 a tonne (default)");
});

test("hazards of one kind are one line with their routes, two spans and a count", () => {
  const at = (day: number, hour: string) => `2026-07-0${day}T${hour}:00:00Z`;
  const hazards = [1, 2, 3, 4].flatMap((day) =>
    (["dry-hay", "grazing"] as const).map(
      (route): HazardAnswer => ({
        route,
        code: "soil-too-wet",
        level: "wait",
        startUtc: at(day, "06"),
        endUtc: at(day, "18"),
        sinceUtc: at(day, "06"),
        text: "Too soft.",
        source: "",
      }),
    ),
  );
  expect(hazardLines({ ...picture.answer, hazards }, metric24("UTC"))).toEqual([
    "Wait (dry hay and grazing), Wed 1 Jul 06:00 to 18:00, Thu 2 Jul 06:00 to 18:00 and 2 more: Too soft.",
  ]);
});

test("a wait of nine days is told by dates: two weekdays would read as two days", () => {
  const long: HazardAnswer = {
    route: "wilted-chop",
    code: "nitrate-after-rain-late",
    level: "wait",
    startUtc: "2026-06-28T16:00:00Z",
    endUtc: "2026-07-07T00:00:00Z",
    sinceUtc: "2026-06-28T16:00:00Z",
    text: "Growth restarted.",
    source: "",
  };
  expect(hazardLines({ ...picture.answer, hazards: [long] }, metric24("UTC"))).toEqual([
    "Wait (wilted chop), Sun 28 Jun 16:00 to Tue 7 Jul 00:00: Growth restarted.",
  ]);
});

test("the board of the brief keeps its best days and the chosen one, and every cut of those", () => {
  const { answer } = picture;
  const last = answer.options.filter(({ kind }) => kind === "swath").at(-1) ?? null;
  const best = bestDays(answer, last, manner);
  expect(best.shown).toBe(5);
  expect(best.days).toBeGreaterThan(5);
  expect(best.answer.options).toContain(last);
  expect(best.answer.options.some(({ id }) => id === answer.best.overall?.optionId)).toBe(true);
});

test("sources stand once each, with those of the losses under what they are of", () => {
  const lines = sourceLines(side, picture, [
    "Penn State University, A title",
    "Penn State University, A title, no year",
  ]);
  expect(new Set(lines).size).toBe(lines.length);
  expect(lines.filter((line) => line.startsWith("Penn State University, A title"))).toHaveLength(1);
  expect(lines.some((line) => line.startsWith("Mowing: "))).toBe(true);
  expect(lines.join(" ")).not.toMatch(/undefined|null/);
});

test("no caution is said twice, every one who decides is named, and nothing is called safe", () => {
  const told = feedBrief(own, manner);
  const cautions = cautionLines(side, told, "alfalfa");
  expect(new Set(cautions).size).toBe(cautions.length);
  expect(cautions.some((line) => line.startsWith("Before baling hay:"))).toBe(true);
  expect(cautions.some((line) => line.startsWith("Mix physically"))).toBe(true);
  const who = deferrals(picture);
  expect(who.map(([one]) => one)).toEqual([
    "Laboratory",
    "Veterinarian",
    "Nutritionist or adviser",
    "Label",
    "Local codes",
    "Extension service",
  ]);
  expect([...cautions, ...who.flat()].join(" ")).not.toMatch(/\bsafe/i);
  const nothing: Pick<WindowsAnswer, "hazards"> = { hazards: [] };
  expect(hazardLines({ ...picture.answer, ...nothing }, manner)).toEqual([]);
});

test("the brief waits for chances that are under work, and for none that do not come", () => {
  const { odds: _told, ...answer } = picture.answer;
  const bare = { ...picture, answer };
  expect(briefWaits({ picture: bare, odds: { id: 1, done: 3, of: 20 } })).toBe(true);
  expect(briefWaits({ picture: bare, odds: null })).toBe(false);
  expect(briefWaits({ picture: null, odds: null })).toBe(false);
});
