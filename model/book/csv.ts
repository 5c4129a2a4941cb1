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
  "tareG",
  "freshG",
  "driedG",
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
  const fieldOfReading = (doc: Entry<"readings">["doc"]) =>
    ofEntry(doc) ?? ofLot.get(doc.lotId ?? "") ?? null;
  const rows = readings.map(({ id, doc }) => [
    id,
    doc.atUtc,
    fieldOfReading(doc),
    fieldName(fieldOfReading(doc)),
    doc.cutId,
    doc.lotId,
    lotName(doc.lotId),
    doc.method,
    doc.moistureWb,
    doc.range?.[0],
    doc.range?.[1],
    doc.place,
    doc.grabs,
    doc.weighings?.tareG,
    doc.weighings?.freshG,
    doc.weighings?.driedG.join(" "),
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
  "heatingLog",
  "testsAwaited",
  "nitrateUtc",
  "nitrateLaboratory",
  "nitrateValue",
  "nitrateIon",
  "nitrateUnit",
  "nitrateBasis",
  "prussicAcidUtc",
  "prussicAcidLaboratory",
  "prussicAcidValue",
  "prussicAcidUnit",
  "prussicAcidBasis",
  "resultMoistureUtc",
  "resultMoistureLaboratory",
  "resultMoistureWb",
  "phUtc",
  "phLaboratory",
  "ph",
  "notes",
] as const;

/** "2026-11-24T08:00:00Z 72 C deep middle; ...", in the order of time. */
const heatingText = (heating: Entry<"lots">["doc"]["heating"]): string =>
  [...(heating ?? [])]
    .sort((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc))
    .map(({ atUtc, tempC, place }) => `${atUtc} ${tempC} C${place ? ` ${place}` : ""}`)
    .join("; ");

/**
 * Lots in the order given, one a row; of several laboratory results the latest of each figure, with the day and the
 * laboratory of its own paper.
 */
export function lotsCsv(
  lots: readonly Entry<"lots">[],
  fields: readonly Entry<"fields">[],
  cuts: readonly Entry<"cuts">[],
): string {
  const fieldName = nameOf(fields);
  const ofEntry = fieldOf(cuts);
  const rows = lots.map(({ id, doc }) => {
    const results = [...(doc.results ?? [])].sort((a, b) => Date.parse(b.atUtc) - Date.parse(a.atUtc));
    const paperOf = (key: "nitrate" | "prussicAcid" | "moistureWb" | "ph") =>
      results.find((result) => (result[key] ?? null) !== null);
    const paper = {
      nitrate: paperOf("nitrate"),
      prussic: paperOf("prussicAcid"),
      moisture: paperOf("moistureWb"),
      ph: paperOf("ph"),
    };
    const nitrate = paper.nitrate?.nitrate;
    const prussic = paper.prussic?.prussicAcid;
    const awaited = (doc.tests ?? []).filter(
      (test) => !test.resultUtc && !results.some(({ testId }) => testId === test.id),
    );
    const temps = (doc.heating ?? []).map(({ tempC }) => tempC);
    return [
      id,
      doc.name,
      ofEntry(doc),
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
      heatingText(doc.heating),
      awaited.map(({ what }) => what).join(" "),
      paper.nitrate?.atUtc,
      paper.nitrate?.laboratory,
      nitrate?.value,
      nitrate?.ion,
      nitrate?.unit,
      nitrate?.basis,
      paper.prussic?.atUtc,
      paper.prussic?.laboratory,
      prussic?.value,
      prussic?.unit,
      prussic?.basis,
      paper.moisture?.atUtc,
      paper.moisture?.laboratory,
      paper.moisture?.moistureWb,
      paper.ph?.atUtc,
      paper.ph?.laboratory,
      paper.ph?.ph,
      doc.notes,
    ];
  });
  return csvTable(LOT_COLUMNS, rows);
}
