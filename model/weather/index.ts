/** The weather room's public face. */

export * from "./air.ts";
export type { CanonicalCsv, CsvCounts, CsvPlace } from "./canonical-csv.ts";
export { parseCanonicalCsv } from "./canonical-csv.ts";
export { COLUMN_NAMES, checkSeries, checkSite } from "./checks.ts";
export * from "./clock.ts";
export type { UnderstoodColumn } from "./csv-header.ts";
export type { CsvAnswers, CsvQuestion } from "./csv-questions.ts";
export { TEMPERATURE_UNITS } from "./csv-questions.ts";
export { CANONICAL_CSV_TEMPLATE } from "./csv-template.ts";
export type { HourlyWeather, PreparedWeather } from "./hourly.ts";
export { type JoinedWeather, type JoinOptions, joinWeather, type Seam } from "./join.ts";
export { readIsoTime, utcLabel, utcLabelMs } from "./labels.ts";
export * from "./limits.ts";
export { memberSeries } from "./members.ts";
export { prepareWeather } from "./prepare.ts";
export type { CsvProblem } from "./problems.ts";
export * from "./radiation.ts";
export * from "./reference-et.ts";
export type * from "./series.ts";
export { excerpt } from "./shown.ts";
export { SOIL_BUCKET, type SoilWetness, soilWetness } from "./soil-wetness.ts";
export * from "./sun.ts";
export * from "./units.ts";
export * from "./warnings.ts";
export * from "./wind.ts";
