import { expect, test } from "vitest";
import { draftOf, draftOfFile, earlyIn, requestOf } from "../../../web/crew/crew-draft.ts";
import { readCrewFile } from "../../../web/crew/crew-file.ts";
import { helpWords } from "../../../web/crew/help-words.ts";
import { crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const question = crewRequest();
const told = (text: string) => {
  const outcome = readCrewFile(text);
  return outcome.ok ? [] : outcome.issues.map(({ path }) => path);
};
const changed = (change: (file: Record<string, unknown>) => void) => {
  const file = JSON.parse(JSON.stringify(question)) as Record<string, unknown>;
  change(file);
  return told(JSON.stringify(file));
};

test("a question comes back from its file as it was", () => {
  const outcome = readCrewFile(JSON.stringify(question));
  expect(outcome.ok && outcome.value).toEqual(JSON.parse(JSON.stringify(question)));
});

test("what is wrong with a file is said at its place, shape first, then by the plan's own checks", () => {
  expect(told("{")).toEqual([""]);
  expect(told("[]")).toEqual([""]);
  expect(changed((file) => delete file.people)).toEqual(["people"]);
  expect(changed((file) => Object.assign(file, { peple: [] }))).toEqual(["peple"]);
  expect(changed((file) => Object.assign(file, { seed: "1", slotMin: 45 }))).toEqual(["slotMin", "seed"]);
  const field = (part: object) =>
    changed((file) => Object.assign((file.fields as readonly object[])[1] ?? {}, part));
  expect(field({ areaHa: -2 })).toEqual(["fields[1].areaHa"]);
  expect(field({ siteId: "elsewhere" })).toEqual(["fields[1].siteId"]);
  expect(field({ ops: ["rake", "bale"] })).toEqual(["fields[1].ops"]);
  expect(field({ dueUtc: "tomorrow" })).toEqual(["fields[1].dueUtc"]);
  expect(field({ latenessPerDay: -1 })).toEqual(["fields[1].latenessPerDay"]);
  expect(changed((file) => Object.assign(file, { timeLimitS: 500 }))).toEqual(["timeLimitS"]);
});

test("a crew from a file keeps its places and weather; one typed here stands in the page's, each place where it was put", () => {
  const page = spellWithMembers(4, 0);
  const own = requestOf(draftOfFile({ ...question, nowUtc: "2026-07-02T05:00:00Z" }, "plan"), page, null);
  expect(own.sites.s1?.series).toEqual(question.sites.s1?.series);
  expect(own.nowUtc).toBe("2026-07-02T05:00:00Z");
  const spots = { s1: { latitude: 45, longitude: -99 } };
  const typed = requestOf({ ...draftOf(question, "plan"), spots }, page, "2026-07-01T06:00:00Z");
  expect(typed.sites.s1?.series).toEqual({ ...page, site: { ...page.site, ...spots.s1 } });
  expect(typed.nowUtc).toBe("2026-07-01T06:00:00Z");
});

test("a field mown before the weather is left out where its crop still lies: neither mown again nor forgotten", () => {
  const job = (fieldId: string, op: "mow" | "bale", startUtc: string) =>
    ({ fieldId, op, machineId: "m", personId: "a", startUtc, endUtc: "2026-07-02T18:00:00Z" }) as const;
  const jobs = [
    job("creek", "mow", "2026-06-29T15:00:00Z"),
    job("hill", "mow", "2026-06-29T15:00:00Z"),
    job("hill", "bale", "2026-07-01T08:00:00Z"),
  ];
  const draft = { ...draftOf(question, "plan"), promised: { jobs, revision: 3 } };
  const asked = requestOf(draft, spellWithMembers(4, 0), "2026-07-01T10:00:00Z");
  expect(asked.fields.map(({ id }) => id)).toEqual(["hill"]);
  expect(asked.previous).toEqual({ jobs: jobs.slice(1), revision: 3, planId: "plan" });
  expect(earlyIn(draft, asked)).toEqual([{ fieldId: "creek", mownUtc: "2026-06-29T15:00:00Z" }]);
});

test("what helps is told with the reader's own thousands", () => {
  const help = { kind: "machine", fieldId: null, machineKind: "baler", gain: 3276.4 } as const;
  const words = (text: string, locale: string) =>
    helpWords({ ...help, text }, { units: "us", hour12: true, locale, zone: "UTC" });
  expect(words("One more baler brings 3276 more in value.", "en-US")).toBe(
    "One more baler brings 3,276 more in value.",
  );
  expect(words("Hill in wrapped bales: 8 % instead of 3276 %, worth 3276 more.", "de-DE")).toMatch(
    /3276 %, worth 3\.276 more/,
  );
});

test("fetched forecasts are planned from the hour that it is, never past their end", () => {
  const series = spellWithMembers(4, 0);
  const weather = { from: "forecast", series: { s1: series }, nowUtc: "2026-07-01T06:10:00Z" } as const;
  const now = (utc: string) =>
    requestOf({ ...draftOf(question, "plan"), weather }, series, null, Date.parse(utc)).nowUtc;
  expect(now("2026-07-02T13:45:00Z")).toBe("2026-07-02T13:00:00Z");
  expect(now("2027-01-01T00:00:00Z")).toBe(series.hours.startUtc.at(-1));
});
