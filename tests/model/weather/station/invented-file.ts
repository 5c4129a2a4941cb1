import { HOUR_MS } from "../../../../model/weather/clock.ts";
import type { StationReport } from "../../../../model/weather/station/index.ts";
import { csv, type InventedRow, inventedRows, wallText } from "../../../support/invented-station.ts";

/** A station's file of twelve invented days, and what is asked of the report on one. */

export const FIRST = "2026-06-10T05:00:00Z";
export const ROWS = inventedRows(FIRST, 12);
const HEADER = "Timestamp,Outdoor Temperature (°C),Humidity (%),Wind (m/s),Solar (W/m²),Rain (mm)";

/** A file of hourly rows that is named by the start of its hours, on the local clock. */
export function file(
  rows: readonly InventedRow[] = ROWS,
  time: (row: InventedRow) => string = (row) => wallText(row.utcMs, "daylight"),
): string {
  return csv(
    HEADER,
    rows.map((row) => [time(row), row.tempC, row.humidity, row.windMps, row.solarWm2, row.rainMm].join(",")),
  );
}

/** What each column that is read was taken for, with its unit. */
export const roles = (report: StationReport) =>
  Object.fromEntries(
    report.understood
      .filter(({ as }) => as !== "ignored")
      .map(({ column, as, unit }) => [column, [as, unit]]),
  );

export function seriesOf(report: StationReport) {
  if (report.series === null)
    throw new Error(
      JSON.stringify([report.questions, report.problems.filter(({ severity }) => severity === "error")]),
    );
  return report.series;
}

/** The hour of a series that starts at a moment. */
export function at(report: StationReport, utcMs: number) {
  const { hours } = seriesOf(report);
  const i = (utcMs - Date.parse(hours.startUtc[0] ?? "")) / HOUR_MS;
  return {
    tempC: hours.airTempC[i],
    humidity: hours.relHumidityPct?.[i],
    wind: hours.windSpeedMps[i],
    sun: hours.solarWm2?.[i],
    rain: hours.rainMm[i],
  };
}

function wetRow(): InventedRow {
  const row = ROWS[100];
  if (!row) throw new Error("no wet row");
  return row;
}

/** A row with rain of 2 mm. */
export const WET = wetRow();
