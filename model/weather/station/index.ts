export type { Gap } from "./gaps.ts";
export {
  type ConvertedRow,
  readStation,
  type StationPlace,
  type StationReport,
  type UnderstoodStationColumn,
} from "./read-station.ts";
export { isStationAnswer, readWeatherFile, type WeatherFile, type WeatherFilePlace } from "./weather-file.ts";
