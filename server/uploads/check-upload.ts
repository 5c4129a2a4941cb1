import { readWeatherFile } from "../../model/weather/station/index.ts";
import type { Upload } from "./read-upload.ts";
import type { WeatherCheck } from "./weather-check.ts";

export type { WeatherCheck };

/** What the model makes of an uploaded file: the series, or the questions and problems that stand before one. */
export function checkUpload({
  text,
  encoding,
  site,
  windHeightM,
  answers,
  ...canonical
}: Upload): WeatherCheck {
  return readWeatherFile(text, { site, windHeightM, encoding, answers: canonical, stationAnswers: answers });
}
