import { describe, expect, test } from "vitest";
import { otherCropText } from "../../../model/book/check/other-crop.ts";
import { demoDocs, entryIssues, type ForecastDoc, type LotDoc, namedBy } from "../../../model/book/index.ts";
import { BOOK_KINDS, type BookDocs, type BookKind } from "../../../model/book/kinds.ts";
import { CUT, LOT, READING } from "../../support/book/docs.ts";

const NOW = Date.parse("2026-07-10T12:00:00Z");
const at = (day: number, hour = 12) => `2026-07-${String(day).padStart(2, "0")}T${hour}:00:00Z`;

function wrong<K extends BookKind>(kind: K, doc: BookDocs[K], before?: BookDocs[K]): string[] {
  return entryIssues(kind, doc, NOW, before).map(({ path, code }) => `${path} ${code}`);
}

const WRAPPED: LotDoc = { ...LOT, route: "wrapped-bales", storedUtc: at(2), wrappedUtc: at(2, 18) };

describe("what no farm can have meant", () => {
  test.each<[string, Partial<LotDoc>, string[]]>([
    ["in order", { openedUtc: at(5), finishedUtc: at(6) }, []],
    ["all at one moment", { wrappedUtc: at(2), openedUtc: at(2), finishedUtc: at(2) }, []],
    ["wrapped before stored", { wrappedUtc: at(1) }, ["doc.wrappedUtc out-of-order"]],
    ["opened before stored", { openedUtc: at(1) }, ["doc.openedUtc out-of-order"]],
    ["to be opened before stored", { openUtc: at(1) }, ["doc.openUtc out-of-order"]],
    ["finished before stored", { finishedUtc: at(1) }, ["doc.finishedUtc out-of-order"]],
    ["finished before opened", { openedUtc: at(6), finishedUtc: at(5) }, ["doc.finishedUtc out-of-order"]],
    ["to be opened next year", { openUtc: "2027-07-01T12:00:00Z" }, []],
    ["wrapped a century on", { wrappedUtc: "2126-07-02T12:00:00Z" }, ["doc.wrappedUtc in-the-future"]],
    [
      "a result before its sample",
      { tests: [{ id: "t", what: "nitrate", sentUtc: at(5), resultUtc: at(4) }] },
      ["doc.tests[0].resultUtc out-of-order"],
    ],
    [
      "of dry hay in a bunker",
      { route: "dry-hay", wrappedUtc: null, store: "bunker" },
      ["doc.store not-of-its-route"],
    ],
    ["of dry hay on a pile", { route: "dry-hay", wrappedUtc: null, store: "pile" }, []],
    ["of dry hay, wrapped", { route: "dry-hay" }, ["doc.wrappedUtc not-of-its-route"]],
    [
      "with the paper of no sample of its",
      { results: [{ atUtc: at(5), testId: "nope" }] },
      ["doc.results[0].testId unknown-reference"],
    ],
    ["measured ahead", { heating: [{ atUtc: at(12), tempC: 40 }] }, ["doc.heating[0].atUtc in-the-future"]],
  ])("a lot %s", (_name, part, expected) => {
    expect(wrong("lots", { ...WRAPPED, ...part })).toEqual(expected);
  });

  test("a cut: nothing is done before the mower, nothing finished before it is begun; plans are free", () => {
    const baled = (doneUtc: string, doneEndUtc?: string): BookDocs["cuts"] => ({
      ...CUT,
      cutUtc: at(2),
      operations: [{ kind: "bale", doneUtc, ...(doneEndUtc ? { doneEndUtc } : {}) }],
    });
    expect(wrong("cuts", baled(at(4), at(4, 15)))).toEqual([]);
    expect(wrong("cuts", baled(at(1)))).toEqual(["doc.operations[0].doneUtc out-of-order"]);
    expect(wrong("cuts", baled(at(4), at(3)))).toEqual(["doc.operations[0].doneEndUtc out-of-order"]);
    expect(wrong("cuts", baled(at(12)))).toEqual(["doc.operations[0].doneUtc in-the-future"]);
    const mown = { kind: "mow", doneUtc: at(3) } as const;
    const two = { ...CUT, operations: [{ kind: "bale", doneUtc: at(2) } as const, mown] };
    expect(wrong("cuts", two)).toEqual(["doc.operations[0].doneUtc out-of-order"]);
    expect(wrong("cuts", { ...CUT, cutUtc: at(3), closedUtc: at(2) })).toEqual([
      "doc.closedUtc out-of-order",
    ]);
    const planned = { ...CUT, plannedUtc: "2027-07-02T14:00:00Z" };
    expect(
      wrong("cuts", { ...planned, operations: [{ kind: "bale", plannedUtc: "2027-07-01T14:00:00Z" }] }),
    ).toEqual([]);
  });

  test("a reading: the full dish weighs more than the empty one, and not next year", () => {
    const weighed = (tareG: number, freshG: number, ...driedG: number[]) => ({
      ...READING,
      weighings: { tareG, freshG, driedG },
    });
    expect(wrong("readings", weighed(200, 300, 240, 231))).toEqual([]);
    expect(wrong("readings", weighed(300, 200))).toEqual(["doc.weighings.freshG out-of-range"]);
    expect(wrong("readings", weighed(200, 300, 320, 150))).toEqual([
      "doc.weighings.driedG[0] out-of-range",
      "doc.weighings.driedG[1] out-of-range",
    ]);
    // A clock that is a day wrong is no nonsense.
    expect(wrong("readings", { ...READING, atUtc: at(11) })).toEqual([]);
    expect(wrong("readings", { ...READING, atUtc: at(11, 13) })).toEqual(["doc.atUtc in-the-future"]);
  });

  test("the message names field, value and limit", () => {
    const [issue] = entryIssues("lots", { ...WRAPPED, wrappedUtc: at(1) }, NOW);
    expect(issue?.message).toBe(
      "doc.wrappedUtc: got 2026-07-01T12:00:00Z, must not be before it was stored, 2026-07-02T12:00:00Z",
    );
  });

  test("what was wrong before stops no other change; more of it does", () => {
    const old = { ...WRAPPED, wrappedUtc: at(1) };
    expect(wrong("lots", { ...old, notes: "row 3" }, old)).toEqual([]);
    expect(wrong("lots", { ...old, openedUtc: at(1) }, old)).toEqual(["doc.openedUtc out-of-order"]);
  });

  test("the invented farm passes whole", () => {
    const docs = demoDocs(NOW);
    for (const kind of BOOK_KINDS) {
      for (const doc of Object.values<BookDocs[typeof kind]>(docs[kind] ?? {}))
        expect(wrong(kind, doc)).toEqual([]);
    }
  });
});

describe("a kept forecast", () => {
  const startUtc = [at(2, 12), at(2, 13)];
  const doc: ForecastDoc = {
    fieldId: "creek",
    issuedUtc: at(2),
    modelVersion: "1",
    verb: "windows",
    request: { seed: 1 },
    course: { startUtc, moistureWb: [0.7, 0.6] },
    chances: [{ id: "w", what: "window", fromUtc: at(3), toUtc: at(4), chance: 0.5 }],
  };

  test("a course of hours that follow one another, a moisture or null for each", () => {
    const course = (part: object) =>
      wrong("forecasts", { ...doc, course: { startUtc, moistureWb: [0.7, null], ...part } });
    expect(course({})).toEqual([]);
    expect(course({ startUtc: ["x", at(2, 12)], moistureWb: [0.5, 9, 0.4] })).toEqual([
      "doc.course.startUtc[0] not-hourly",
      "doc.course.moistureWb wrong-length",
    ]);
    expect(course({ startUtc: [at(2), at(2, 15)] })).toEqual(["doc.course.startUtc[1] not-hourly"]);
    expect(course({ moistureWb: [0.5, 9] })).toEqual(["doc.course.moistureWb[1] out-of-range"]);
    expect(course({ membersWb: [[0.5]] })).toEqual(["doc.course.membersWb[0] wrong-length"]);
  });

  test("what was issued stays; a note and whether it came may be said later", () => {
    const change = (part: Partial<ForecastDoc>) => wrong("forecasts", { ...doc, ...part }, doc);
    expect(change({ notes: "rained" })).toEqual([]);
    expect(change({ chances: doc.chances?.map((one) => ({ ...one, came: true })) })).toEqual([]);
    expect(change({ issuedUtc: at(1), modelVersion: "2" })).toEqual([
      "doc.issuedUtc fixed",
      "doc.modelVersion fixed",
    ]);
    expect(change({ course: { startUtc, moistureWb: [0.7, 0.5] } })).toEqual(["doc.course fixed"]);
    expect(change({ chances: doc.chances?.map((one) => ({ ...one, chance: 0.9 })) })).toEqual([
      "doc.chances fixed",
    ]);
  });
});

test("another crop than the field's is asked about, and never refused", () => {
  expect(otherCropText("alfalfa", "alfalfa")).toBe("");
  expect(otherCropText("corn", null)).toBe("");
  expect(otherCropText("corn", "alfalfa")).toContain("kept with alfalfa: is this corn?");
});

test("a cut names its field, and who did the work with what", () => {
  const doc = {
    ...CUT,
    operations: [{ kind: "ted" }, { kind: "bale", machineId: "baler", personId: "one" }] as const,
  };
  expect(namedBy("cuts", doc).map(({ kind, id, path }) => `${path} ${kind}/${id}`)).toEqual([
    "fieldId fields/creek",
    "operations[1].machineId machines/baler",
    "operations[1].personId people/one",
  ]);
});
