import type { CanonicalCsv, UnderstoodColumn } from "../../model/weather/index.ts";
import { parseCanonicalCsv } from "../../model/weather/index.ts";
import type { Upload } from "./read-upload.ts";

/** How the file's times were read. */
export interface UploadClock {
  readonly timeZone: string;
  readonly dst: boolean | null;
  /** Which moment of an hour its label names. */
  readonly label: "start";
  /** Middle of the radiation's day on the farm's solar clock, h; null where it was not looked at. */
  readonly centroidH: number | null;
}

export interface UploadQuestion {
  readonly id: string;
  readonly column: string;
  readonly ask: string;
  readonly choices: readonly string[];
}

/** How one column was read: by its header, by what the user said, or by what the data look like. */
export interface UploadColumn extends Omit<UnderstoodColumn, "basis"> {
  readonly basis: "header" | "user" | "data";
}

export interface WeatherCheck extends Omit<CanonicalCsv, "understood"> {
  readonly understood: readonly UploadColumn[];
  readonly clock: UploadClock;
  readonly questions: readonly UploadQuestion[];
}

/** Canonical files carry their offset in every time, so their clock is UTC and nothing has to be asked. */
const CANONICAL_CLOCK: UploadClock = { timeZone: "UTC", dst: false, label: "start", centroidH: null };

/** What the model makes of an uploaded file: the series, or the problems that stand before one. */
export function checkUpload({ text, site, windHeightM }: Upload): WeatherCheck {
  return { ...parseCanonicalCsv(text, { site, windHeightM }), clock: CANONICAL_CLOCK, questions: [] };
}
