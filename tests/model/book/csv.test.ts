import Papa from "papaparse";
import { expect, test } from "vitest";
import { type BookDocs, type BookKind, type Entry, lotsCsv, readingsCsv } from "../../../model/book/index.ts";
import { CUT, FIELD, LOT, READING } from "../../support/book/docs.ts";

function entry<K extends BookKind>(id: string, doc: BookDocs[K]): Entry<K> {
  return { id, revision: 1, createdUtc: "", changedUtc: "", deleted: false, doc };
}

const rowOf = (csv: string) => Papa.parse<Record<string, string>>(csv, { header: true }).data[0];
const fields = [entry<"fields">("creek", FIELD)];
const cuts = [entry<"cuts">("c1", CUT)];

test("each laboratory figure stands with the day and the laboratory of its own paper, and the heating log in order", () => {
  const nitrate = { value: 5000, ion: "NO3", unit: "ppm", basis: "dm" } as const;
  const lot = entry<"lots">("l1", {
    ...LOT,
    fieldId: null,
    cutId: "c1",
    results: [
      { atUtc: "2026-11-22T12:00:00Z", laboratory: "North", nitrate },
      { atUtc: "2026-11-25T12:00:00Z", laboratory: "South", moistureWb: 0.4, ph: 4.2 },
    ],
    heating: [
      { atUtc: "2026-11-24T08:00:00Z", tempC: 48, place: "deep middle" },
      { atUtc: "2026-11-23T08:00:00Z", tempC: 40 },
    ],
  });
  expect(rowOf(lotsCsv([lot], fields, cuts))).toMatchObject({
    fieldId: "creek",
    field: "Creek field",
    cutId: "c1",
    nitrateUtc: "2026-11-22T12:00:00Z",
    nitrateLaboratory: "North",
    nitrateValue: "5000",
    resultMoistureUtc: "2026-11-25T12:00:00Z",
    resultMoistureWb: "0.4",
    phLaboratory: "South",
    ph: "4.2",
    prussicAcidUtc: "",
    hottestC: "48",
    heatingLog: "2026-11-23T08:00:00Z 40 C; 2026-11-24T08:00:00Z 48 C deep middle",
  });
});

test("a reading of a lot alone has the field of the lot's cut, and its weighings", () => {
  const lot = entry<"lots">("l1", { ...LOT, fieldId: null, cutId: "c1" });
  const weighings = { tareG: 200, freshG: 300, driedG: [240, 231] };
  const reading = entry<"readings">("r1", { ...READING, fieldId: null, lotId: "l1", weighings });
  expect(rowOf(readingsCsv([reading], fields, [lot], cuts))).toMatchObject({
    fieldId: "creek",
    field: "Creek field",
    tareG: "200",
    freshG: "300",
    driedG: "240 231",
  });
});
