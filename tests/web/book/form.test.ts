import { describe, expect, test } from "vitest";
import { entryIssues } from "../../../model/book/check/check-entry.ts";
import { demoDocs } from "../../../model/book/demo.ts";
import type { BookDocs } from "../../../model/book/kinds.ts";
import { check } from "../../../server/check.ts";
import { BOOK_SCHEMAS } from "../../../server/schemas/book/kinds.ts";
import { SHOWN_KINDS, type ShownKind } from "../../../web/book/book-data.ts";
import { differences } from "../../../web/book/differences.ts";
import { emptyItem, inUnits, readForm, valuesOf } from "../../../web/book/form.ts";
import { FORMS, TOGETHER } from "../../../web/book/forms.ts";
import { besideField, issueWords } from "../../../web/book/issue-words.ts";
import type { ListSpec } from "../../../web/book/spec.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { FIELD, LOT, READING } from "../../support/book/docs.ts";

const metric: Manner = { units: "metric", locale: "en", hour12: false, zone: "America/Chicago" };
const german: Manner = { ...metric, locale: "de" };
const us: Manner = { ...metric, units: "us" };

const DEMO = demoDocs(Date.parse("2026-07-01T12:00:00Z"));
const docsOf = (kind: ShownKind) => Object.values(DEMO[kind] ?? {}) as readonly BookDocs[ShownKind][];
const read = (kind: ShownKind, values: ReturnType<typeof valuesOf>, before: object = {}, manner = metric) =>
  readForm(FORMS[kind], values, before as Record<string, unknown>, manner);

describe.each(SHOWN_KINDS)("%s", (kind) => {
  test("an untouched form gives back exactly what it was made of, in any units and numbers", () => {
    expect(docsOf(kind).length).toBeGreaterThan(0);
    for (const doc of docsOf(kind))
      for (const manner of [metric, german, us])
        expect(read(kind, valuesOf(FORMS[kind], doc, manner), doc, manner)).toEqual({ errors: {}, doc });
  });

  test("typed anew it is a document that the server takes", () => {
    for (const doc of docsOf(kind)) {
      const typed = read(kind, valuesOf(FORMS[kind], doc, metric), {}, metric);
      expect(typed.errors).toEqual({});
      expect(check<unknown>(BOOK_SCHEMAS[kind], typed.doc)).toMatchObject({ ok: true });
    }
  });

  test("an empty form is told field by field, and so is what the server would refuse in it", () => {
    const empty = valuesOf(FORMS[kind], {}, metric);
    const { errors, doc } = read(kind, empty);
    expect(doc).toBeNull();
    const refused = check<unknown>(BOOK_SCHEMAS[kind], {});
    if (refused.ok) throw new Error("the server takes nothing at all");
    const told = { ...errors, ...TOGETHER[kind]?.(empty) };
    for (const { path } of refused.issues.filter((issue) => issue.path !== ""))
      expect(
        Object.keys(told).some((one) => one === path || one.startsWith(`${path}.`)),
        path,
      ).toBe(true);
  });
});

test("what is wrong is told by value and limit, in the units and numbers of the page", () => {
  const values = valuesOf(FORMS.fields, FIELD, us);
  const wrong = { ...values, areaHa: "0", dryMatterTHa: "99", initialMoistureWb: "3,5", priority: "much" };
  expect(read("fields", wrong, FIELD, { ...us, locale: "de" }).errors).toEqual({
    areaHa: "Got 0, must be above 0 and at most 12.300 ac.",
    dryMatterTHa: "Got 99, must be above 0 and at most 13,35 ton/ac.",
    initialMoistureWb: "Got 3,5, must be at least 5 and at most 92 %.",
    priority: 'Got "much", must be a number in digits.',
  });
});

test("a list: what is wrong in it has the path that the server gives, and other items stay what they were", () => {
  const spec = FORMS.lots.find(({ path }) => path === "results") as ListSpec;
  const values = valuesOf(
    FORMS.lots,
    { ...LOT, heating: [{ atUtc: "2026-07-02T20:00:00Z", tempC: 40.123 }] },
    us,
  );
  const added = { ...emptyItem(spec.item), atUtc: "2026-07-10T09:00", "nitrate.value": "1200" };
  const { errors } = read("lots", { ...values, results: [added] }, LOT, us);
  expect(Object.keys(errors).sort()).toEqual([
    "results[0].nitrate.basis",
    "results[0].nitrate.ion",
    "results[0].nitrate.unit",
  ]);
  const before = { ...LOT, heating: [{ atUtc: "2026-07-02T20:00:00Z", tempC: 40.123, place: "top" }] };
  const shown = valuesOf(FORMS.lots, before, us);
  const next = read("lots", { ...shown, bales: "41" }, before, us).doc;
  expect(next).toEqual({ ...before, bales: 41 });
});

test("times are typed on the farm's clock, and an hour that it skips is told", () => {
  const values = valuesOf(FORMS.readings, READING, metric);
  expect(values.atUtc).toBe("2026-07-01T13:00");
  expect(read("readings", { ...values, atUtc: "2026-07-01T14:30" }, READING).doc).toMatchObject({
    atUtc: "2026-07-01T19:30:00Z",
  });
  expect(read("readings", { ...values, atUtc: "2026-03-08T02:30" }, READING).errors.atUtc).toMatch(
    /must be a day/,
  );
});

test("a hand squeeze is a range, any other way a number, and what does not belong goes", () => {
  const values = valuesOf(FORMS.readings, READING, metric);
  const squeezed = read("readings", { ...values, method: "hand-squeeze", range: "3" }, READING);
  expect(squeezed.doc).toMatchObject({ method: "hand-squeeze", range: [0.6, 0.7] });
  expect(squeezed.doc).not.toHaveProperty("moistureWb");
  expect(TOGETHER.readings?.({ ...values, fieldId: "" })).toHaveProperty("fieldId");
});

test("a change of units says the same in the other system, and leaves what cannot be read", () => {
  const values = { ...valuesOf(FORMS.fields, FIELD, metric), areaHa: "10", dryMatterTHa: "much" };
  const there = inUnits(FORMS.fields, values, metric, us);
  expect(there).toMatchObject({ areaHa: "24.711", dryMatterTHa: "much" });
  expect(inUnits(FORMS.fields, there, us, metric).areaHa).toBe("10");
});

test("two versions of an entry differ in what the form calls it, and in what it does not ask for", () => {
  const mine = { ...FIELD, areaHa: 9, crop: "corn" as const };
  const theirs = { ...FIELD, areaHa: 20, link: "x=1" };
  expect(differences("fields", mine, theirs, metric, (_, id) => id)).toEqual([
    { label: "Area", mine: "9 ha", theirs: "20 ha" },
    { label: "Crop", mine: "Corn", theirs: "Alfalfa" },
    { label: "link", mine: "null", theirs: '"x=1"' },
  ]);
});

test("on the clock of another farm the same moments are shown", () => {
  const values = valuesOf(FORMS.readings, READING, metric);
  const there = { ...metric, zone: "Europe/Berlin" };
  const shown = inUnits(FORMS.readings, values, metric, there);
  expect(shown.atUtc).toBe("2026-07-01T20:00");
  expect(read("readings", shown, READING, there).doc).toEqual(READING);
});

test("two versions of a number are told to the same decimal, and apart however near they are", () => {
  const field = { name: "Creek field", siteId: "home", areaHa: 50, crop: "alfalfa" } as const;
  const areas = (mine: number, theirs: number, manner: Manner = us) => {
    const [row] = differences(
      "fields",
      { ...field, areaHa: mine },
      { ...field, areaHa: theirs },
      manner,
      (_, id) => id,
    );
    return [row?.mine, row?.theirs];
  };
  const acre = 0.40468564224;
  expect(areas(123.553 * acre, 6 * acre)).toEqual(["123.6 ac", "6.0 ac"]);
  expect(areas(20 * acre, 6 * acre)).toEqual(["20 ac", "6 ac"]);
  expect(areas(6.01 * acre, 6.02 * acre)).toEqual(["6.01 ac", "6.02 ac"]);
  expect(areas(9, 20, metric)).toEqual(["9 ha", "20 ha"]);
});

test("two hours of one field are told as everywhere on the page, in the farm's time", () => {
  const [mine, theirs] = ["2026-07-02T00:00:00Z", "2026-07-02T01:00:00Z"].map((atUtc) => ({
    ...READING,
    atUtc,
  }));
  if (!mine || !theirs) throw new Error("two readings");
  const [row] = differences("readings", mine, theirs, metric, (_, id) => id);
  expect([row?.mine, row?.theirs]).toEqual(["Wednesday 1 Jul 19:00", "Wednesday 1 Jul 20:00"]);
});

test("what the book does not take is told by the label of its field, in the farm's time", () => {
  const clock = { zone: "America/Chicago", locale: "en", hour12: false };
  const nowMs = Date.parse("2026-07-10T12:00:00Z");
  const [lot] = entryIssues(
    "lots",
    { ...LOT, route: "wrapped-bales", wrappedUtc: "2026-06-30T20:00:00Z" },
    nowMs,
  );
  if (lot === undefined) throw new Error("it was taken");
  expect(issueWords("lots", lot, clock)).toMatch(
    /^Wrapped: got .*30.*15:00, must not be before it was stored, .*15:00\.$/,
  );
  expect(besideField(lot, clock)).toMatch(/^Got .*15:00\.$/);
  const done = { path: "doc.operations[1].doneUtc", code: "x", message: "doc.operations[1].doneUtc: got 1" };
  expect(issueWords("cuts", done, clock)).toBe("Operation 2, done: got 1.");
  const dish = { path: "doc.weighings.freshG", code: "x", message: "doc.weighings.freshG: got 2 g" };
  expect(issueWords("readings", dish, clock)).toBe("Weighings.freshG: got 2 g.");
  expect(issueWords(undefined, { ...dish, path: "", message: "too large" }, clock)).toBe("Too large.");
});
