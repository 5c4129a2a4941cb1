import Papa from "papaparse";
import type { Entry } from "./kinds.ts";

/** Tables for a spreadsheet, RFC 4180: CRLF between the rows, quotes doubled, a missing value is empty. */

/** What a spreadsheet would run as a formula, spaces before it or not; a leading apostrophe keeps it text. */
const FORMULA = /^\s*[=+\-@|%]|^[\t\r\n]/;

type Cell = string | number | null | undefined;

function table(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  // Guarded here: the library's own guard misses a formula with a new line in it.
  const guarded = rows.map((row) =>
    row.map((cell) => (typeof cell === "string" && FORMULA.test(cell) ? `'${cell}` : (cell ?? ""))),
  );
  return `${Papa.unparse([[...columns], ...guarded], { newline: "\r\n" })}\r\n`;
}

const nameOf = (entries: readonly Entry<"fields" | "lots">[]) => {
  const names = new Map(entries.map(({ id, doc }) => [id, doc.name]));
  return (id: string | null | undefined) => (id ? (names.get(id) ?? "") : "");
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
): string {
  const fieldName = nameOf(fields);
  const lotName = nameOf(lots);
  const rows = readings.map(({ id, doc }) => [
    id,
    doc.atUtc,
    doc.fieldId,
    fieldName(doc.fieldId),
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
  return table(READING_COLUMNS, rows);
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
export function lotsCsv(lots: readonly Entry<"lots">[], fields: readonly Entry<"fields">[]): string {
  const fieldName = nameOf(fields);
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
      fieldName(doc.fieldId),
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
  return table(LOT_COLUMNS, rows);
}
