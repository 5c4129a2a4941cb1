export { isStationAnswer } from "./answers.ts";
export { type FileText, fileText } from "./file-text.ts";
export type { Gap } from "./gaps.ts";
export { readStation } from "./read-station.ts";
export type { ConvertedRow, StationPlace, StationReport, UnderstoodStationColumn } from "./report.ts";
export { readWeatherFile, type WeatherFile, type WeatherFilePlace } from "./weather-file.ts";
