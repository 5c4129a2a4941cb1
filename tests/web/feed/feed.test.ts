import { describe, expect, test } from "vitest";
import { feedCheck, NITRATE_TABLES } from "../../../model/feed/index.ts";
import {
  emptied,
  exampleFeeds,
  type FeedInputs,
  FIRST_FEED_INPUTS,
  firstFeedInputs,
  inUnits,
  readFeedInputs,
} from "../../../web/feed/feed-inputs.ts";
import {
  asFedWords,
  dilutionSentence,
  feedSentences,
  prussicSentences,
  refusalWords,
  tableName,
} from "../../../web/feed/feed-words.ts";
import { readerWords } from "../../../web/feed/TablesPicture.tsx";

const MANNER = { locale: "en" } as const;

function answered(inputs: FeedInputs) {
  const { request, errors } = readFeedInputs(inputs);
  if (request === null) throw new Error(JSON.stringify(errors));
  const answer = feedCheck(request);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

function withFeed(change: Partial<FeedInputs["feeds"][number]>, more: Partial<FeedInputs> = {}): FeedInputs {
  const [first, ...rest] = FIRST_FEED_INPUTS.feeds;
  if (!first) throw new Error("no feed");
  return { ...FIRST_FEED_INPUTS, ...more, feeds: [{ ...first, ...change }, ...rest] };
}

describe("what is said first", () => {
  test("the invented ration: a verdict a feed, by the table that is strictest, and no share of the high one", () => {
    const answer = answered(FIRST_FEED_INPUTS);
    expect(feedSentences(answer, MANNER)).toEqual([
      "Oat hay: 2,711 ppm. By Clemson University (no year): not to be fed: never to pregnant stock.",
      "Straw: 100 ppm. By Clemson University (no year): not restricted by this table.",
    ]);
    expect(dilutionSentence(answer, MANNER)).toBe(
      "No ration is weighed out: Oat hay is not to be fed to this animal in any share by the strictest table, whatever it is mixed with.",
    );
  });

  test("prussic acid over a line: the gravest advice first, all three sources, no share and no weights", () => {
    const hay = { id: "Sudan hay", nitrate: "0.2", hcnPpm: "1500", hcnBasis: "dm" } as const;
    const answer = answered(withFeed(hay, { pregnant: false }));
    const { over, under } = prussicSentences(answer, MANNER);
    expect(under).toEqual([]);
    expect(over[0]).toMatch(
      /^Sudan hay: prussic acid 1,500 ppm of dry matter, 1,320 as fed: do not feed \(.*; may kill \(Pennsylvania.*; not as the only feed \(Kansas State/,
    );
    expect(dilutionSentence(answer, MANNER)).toMatch(
      /^No ration is weighed out: Sudan hay holds 1500 ppm of prussic acid/,
    );
    expect(asFedWords(answer, { units: "us", locale: "en" })).toBe("");
    const low = answered(withFeed({ ...hay, hcnPpm: "100" }, { pregnant: false }));
    expect(prussicSentences(low, MANNER)).toMatchObject({ over: [] });
    expect(dilutionSentence(low, MANNER)).toMatch(/^At most 100 %/);
  });

  test("a table is named by its author and year, never by its key", () => {
    for (const { key } of NITRATE_TABLES)
      expect(tableName(key)).toMatch(/^[A-Za-z, ]+( \d{4}| \(no year\))$/);
    expect(tableName("cornell")).toBe("Cornell, reported 2012");
    const open = withFeed(
      { nitrate: "1900", ion: "NO3-N", unit: "ppm" },
      { pregnant: false, table: "clemson" },
    );
    expect(dilutionSentence(answered(open), MANNER)).toContain(
      "not restricted by Clemson University (no year)",
    );
  });

  test("of two limits, a table's share and the dilution, the stricter is said", () => {
    const open = { pregnant: false, table: "clemson" };
    // 1900 ppm: Clemson allows half; to stay at 1000 ppm beside straw of 100 the formula allows half as well.
    const thin = answered(withFeed({ nitrate: "1900", ion: "NO3-N", unit: "ppm" }, open));
    expect(dilutionSentence(thin, MANNER)).toMatch(
      /^At most 50 % of the dry matter may be oat hay, to stay at 1,000 ppm/,
    );
    const capped = answered(
      withFeed({ nitrate: "1900", ion: "NO3-N", unit: "ppm" }, { ...open, target: "1800" }),
    );
    expect(dilutionSentence(capped, MANNER)).toMatch(
      /^At most 50 % .* the tables' own limit, stricter than the dilution to 1,800 ppm/,
    );
  });

  test("the target's words close no bracket twice; a silent table is not said to free anything", () => {
    const low = { nitrate: "900", ion: "NO3-N", unit: "ppm" } as const;
    const cow = { pregnant: false };
    expect(dilutionSentence(answered(withFeed(low, cow)), MANNER)).toMatch(
      /to stay at 678 ppm, not restricted by Manitoba Agriculture \(no year\)\./,
    );
    const kansas = answered(withFeed({ ...low, nitrate: "1500" }, { ...cow, table: "kansas" }));
    expect(dilutionSentence(kansas, MANNER)).toMatch(/where warning begins by Kansas State \(no year\)\./);
  });

  test("the picture says for whom its tables are made", () => {
    expect(readerWords({ class: "beef-cow" })).toBe("open cattle");
    expect(readerWords({ class: "heifer", pregnant: true })).toBe("pregnant or tender cattle");
    expect(readerWords({ class: "horse" })).toMatch(/^tables made for cattle, read for a horse/);
    expect(readerWords({ class: "ewe" })).toMatch(/^tables made for cattle, read for a ewe/);
  });

  test("a result that lacks a label is told in words", () => {
    expect(refusalWords(answered(withFeed({ basis: "", ion: "" })))).toEqual([
      "Oat hay cannot be read: it lacks what was measured (NO3, NO3-N or KNO3) and the basis (dry matter or as fed).",
    ]);
    expect(refusalWords(answered(withFeed({ nitrate: "", quickTest: "positive" })))).toEqual([
      "Oat hay cannot be read: it lacks a laboratory's number: a field test gives none.",
    ]);
    expect(dilutionSentence(answered(withFeed({ basis: "" })), MANNER)).toMatch(
      /the nitrate of Oat hay is not known/,
    );
  });
});

describe("what is typed", () => {
  test.each([
    [withFeed({ dmPct: "0" }), "feed 1 dmPct", /Got 0, must be above 0 and at most 100 %/],
    [withFeed({ dmKg: "" }), "feed 1 dmKg", /Empty/],
    [withFeed({ dmKg: "-3" }), "feed 1 dmKg", /Got -3/],
    [withFeed({ nitrate: "120" }), "feed 1 nitrate", /at most 100 %/],
    [
      withFeed({ nitrate: "90", basis: "as-fed", dmPct: "30" }),
      "feed 1 nitrate",
      /300 % NO3 of the dry matter, must be at most 100 %/,
    ],
    [withFeed({ nitrate: "abc" }), "feed 1 nitrate", /Got "abc", must be a number/],
    [withFeed({ id: "Straw" }), "feed 2 id", /twice/],
    [withFeed({}, { kg: "6" }), "kg", /Got 6, must be at least 10/],
    [withFeed({}, { litres: "60" }), "water", /Empty/],
    [withFeed({}, { target: "0" }), "target", /above 0/],
  ])("%#: is told beside its field, and nothing is asked", (inputs, field, message) => {
    const { errors, request } = readFeedInputs(inputs);
    expect(request).toBeNull();
    expect(errors[field]).toMatch(message);
  });

  test("a decimal comma is one where commas are typed; pounds and gallons mean what they say, there and back", () => {
    const german = readFeedInputs(firstFeedInputs("de-DE"), "de-DE");
    expect(firstFeedInputs("de-DE").feeds[0]?.nitrate).toBe("1,2");
    expect(german.request).toEqual(readFeedInputs(FIRST_FEED_INPUTS).request);
    expect(readFeedInputs(withFeed({ nitrate: "1,2" })).errors["feed 1 nitrate"]).toMatch(
      /Type 1\.2, with a point/,
    );
    expect(exampleFeeds(firstFeedInputs("de-DE"))).toEqual([1, 2]);
    const us = inUnits({ ...FIRST_FEED_INPUTS, litres: "60", water: "20", waterIon: "NO3" }, "us");
    expect([us.kg, us.litres, us.feeds[0]?.dmKg]).toEqual(["1322.8", "15.9", "17.6"]);
    const { request } = readFeedInputs(us);
    expect(request?.animal.kg).toBeCloseTo(600, 0);
    expect(request?.feeds[0]?.dmKg).toBeCloseTo(8, 1);
    expect(request?.water?.litres).toBeCloseTo(60, 0);
    expect(inUnits(us, "metric")).toMatchObject({ units: "metric", kg: "600", litres: "60.2" });
    expect(readFeedInputs({ ...us, kg: "5" }).errors.kg).toMatch(/at least 22 and at most 3,?307 lb/);
  });
});

describe("the invented example", () => {
  test("stays known as such, whatever animal eats how much of it in whatever units, until a name or result is changed", () => {
    expect(exampleFeeds(FIRST_FEED_INPUTS)).toEqual([1, 2]);
    expect(exampleFeeds(inUnits(withFeed({ dmKg: "3" }, { animal: "ewe", kg: "70" }), "us"))).toEqual([1, 2]);
    expect(exampleFeeds(withFeed({ nitrate: "0.4" }))).toEqual([2]);
    expect(exampleFeeds(withFeed({ id: "Oats, lower field" }))).toEqual([2]);
  });

  test("is gone from an empty ration, which asks for what it lacks", () => {
    const empty = emptied(FIRST_FEED_INPUTS);
    expect(exampleFeeds(empty)).toEqual([]);
    expect(readFeedInputs(empty).request).toBeNull();
    expect(readFeedInputs(empty).errors["feed 1 dmKg"]).toMatch(/Empty/);
  });
});
