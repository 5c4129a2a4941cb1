import { csvTable } from "../csv-table.ts";
import type { Entry } from "./kinds.ts";

/** Readings and lots as tables for a spreadsheet. */

const nameOf = (entries: readonly Entry<"fields" | "lots">[]) => {
  const names = new Map(entries.map(({ id, doc }) => [id, doc.name]));
  return (id: string | null | undefined) => (id ? (names.get(id) ?? "") : "");
};

/** The field of an entry: its own, else that of its cut. */
const fieldOf = (cuts: readonly Entry<"cuts">[]) => {
  const ofCut = new Map(cuts.map(({ id, doc }) => [id, doc.fieldId]));
  return (doc: {
    readonly fieldId?: string | null | undefined;
    readonly cutId?: string | null | undefined;
  }) => doc.fieldId ?? ofCut.get(doc.cutId ?? "") ?? null;
};

const READING_COLUMNS = [
  "id",
  "atUtc",
  "fieldId",
  "field",
  "cutId",
  "lotId",
  "lot",
  "method",
  "moistureWb",
  "rangeLowWb",
  "rangeHighWb",
  "place",
  "grabs",
  "notes",
] as const;

/** Readings in the order given, one a row. */
export function readingsCsv(
  readings: readonly Entry<"readings">[],
  fields: readonly Entry<"fields">[],
  lots: readonly Entry<"lots">[],
  cuts: readonly Entry<"cuts">[],
): string {
  const fieldName = nameOf(fields);
  const ofEntry = fieldOf(cuts);
  const ofLot = new Map(lots.map((lot) => [lot.id, ofEntry(lot.doc)]));
  const lotName = nameOf(lots);
  const rows = readings.map(({ id, doc }) => [
    id,
    doc.atUtc,
    doc.fieldId,
    fieldName(ofEntry(doc) ?? ofLot.get(doc.lotId ?? "")),
    doc.cutId,
    doc.lotId,
    lotName(doc.lotId),
    doc.method,
    doc.moistureWb,
    doc.range?.[0],
    doc.range?.[1],
    doc.place,
    doc.grabs,
    doc.notes,
  ]);
  return csvTable(READING_COLUMNS, rows);
}

const LOT_COLUMNS = [
  "id",
  "name",
  "fieldId",
  "field",
  "cutId",
  "crop",
  "route",
  "package",
  "store",
  "place",
  "bales",
  "loads",
  "tonnes",
  "storedUtc",
  "wrappedUtc",
  "storedMoistureWb",
  "openUtc",
  "openedUtc",
  "finishedUtc",
  "hottestC",
  "testsAwaited",
  "nitrateValue",
  "nitrateIon",
  "nitrateUnit",
  "nitrateBasis",
  "prussicAcidValue",
  "prussicAcidUnit",
  "prussicAcidBasis",
  "resultUtc",
  "notes",
] as const;

/** Lots in the order given, one a row; of several laboratory results the latest of each kind. */
export function lotsCsv(
  lots: readonly Entry<"lots">[],
  fields: readonly Entry<"fields">[],
  cuts: readonly Entry<"cuts">[],
): string {
  const fieldName = nameOf(fields);
  const ofEntry = fieldOf(cuts);
  const rows = lots.map(({ id, doc }) => {
    const results = [...(doc.results ?? [])].sort((a, b) => Date.parse(b.atUtc) - Date.parse(a.atUtc));
    const nitrate = results.find((result) => result.nitrate)?.nitrate;
    const prussic = results.find((result) => result.prussicAcid)?.prussicAcid;
    const awaited = (doc.tests ?? []).filter(
      (test) => !test.resultUtc && !results.some(({ testId }) => testId === test.id),
    );
    const temps = (doc.heating ?? []).map(({ tempC }) => tempC);
    return [
      id,
      doc.name,
      doc.fieldId,
      fieldName(ofEntry(doc)),
      doc.cutId,
      doc.crop,
      doc.route,
      doc.package,
      doc.store,
      doc.place,
      doc.bales,
      doc.loads,
      doc.tonnes,
      doc.storedUtc,
      doc.wrappedUtc,
      doc.storedMoistureWb,
      doc.openUtc,
      doc.openedUtc,
      doc.finishedUtc,
      temps.length === 0 ? null : Math.max(...temps),
      awaited.map(({ what }) => what).join(" "),
      nitrate?.value,
      nitrate?.ion,
      nitrate?.unit,
      nitrate?.basis,
      prussic?.value,
      prussic?.unit,
      prussic?.basis,
      results[0]?.atUtc,
      doc.notes,
    ];
  });
  return csvTable(LOT_COLUMNS, rows);
}
