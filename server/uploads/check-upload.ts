import { parseCanonicalCsv } from "../../model/weather/index.ts";
import type { Upload } from "./read-upload.ts";
import type { UploadClock, WeatherCheck } from "./weather-check.ts";

export type { WeatherCheck };

/** Canonical files carry their offset in every time, so their clock is UTC and nothing has to be asked. */
const CANONICAL_CLOCK: UploadClock = { timeZone: "UTC", dst: false, label: "start", centroidH: null };

/** What the model makes of an uploaded file: the series, or the problems that stand before one. */
export function checkUpload({ text, site, windHeightM, ...answers }: Upload): WeatherCheck {
  return { ...parseCanonicalCsv(text, { site, windHeightM, answers }), clock: CANONICAL_CLOCK };
}
