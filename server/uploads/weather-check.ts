import type { WeatherFile } from "../../model/weather/station/index.ts";

/** What was understood of a file, what is open and what is wrong, and the series when nothing is. */
export type WeatherCheck = WeatherFile;
