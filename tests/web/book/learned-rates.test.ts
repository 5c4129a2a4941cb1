import { expect, test } from "vitest";
import type { Entry } from "../../../model/book/kinds.ts";
import { ratesOfBook } from "../../../web/book/learned-rates.ts";
import { learnedKey } from "../../../web/reading/readings.ts";
import { FIELD } from "../../support/book/docs.ts";

const head = { revision: 1, createdUtc: "", changedUtc: "", deleted: false };
const field: Entry<"fields"> = { ...head, id: "creek", doc: FIELD };
const rate = (id: string, atUtc: string, lnMean: number, fieldId = "creek"): Entry<"learned-rates"> => ({
  ...head,
  id,
  doc: { fieldId, crop: "alfalfa", atUtc, lnMean, lnSd: 0.1 },
});
const KEY = learnedKey(FIELD.name, "alfalfa");
const NOTHING = { learned: {}, own: new Set<string>(), seen: new Set<string>() };
const EARLY = rate("early", "2026-06-01T12:00:00Z", 0.1);
const LATE = rate("late", "2026-06-20T12:00:00Z", 0.3);

test("the newest rate of each field counts, in whatever order they come", () => {
  const taken = { [KEY]: { rateLnMean: 0.3, rateLnSd: 0.1, atUtc: LATE.doc.atUtc } };
  expect(ratesOfBook([EARLY, LATE], [field], NOTHING).learned).toEqual(taken);
  expect(ratesOfBook([LATE, EARLY], [field], NOTHING)).toEqual({ learned: taken, ids: ["late", "early"] });
  // Of a field that the book holds no more nothing can be named.
  expect(ratesOfBook([rate("x", EARLY.doc.atUtc, 1, "gone")], [field], NOTHING)).toEqual({
    learned: {},
    ids: [],
  });
});

test("what the device knows newer stays, what it saw before does not come back, and its own readings count once", () => {
  const newer = { rateLnMean: -0.2, rateLnSd: 0.1, atUtc: "2026-06-25T12:00:00Z" };
  expect(ratesOfBook([LATE], [field], { ...NOTHING, learned: { [KEY]: newer } }).learned).toEqual({});
  expect(ratesOfBook([LATE], [field], { ...NOTHING, seen: new Set(["late"]) }).learned).toEqual({});
  // Not noted as seen: once those readings are gone it may count.
  expect(ratesOfBook([LATE], [field], { ...NOTHING, own: new Set([KEY]) })).toEqual({ learned: {}, ids: [] });
});
