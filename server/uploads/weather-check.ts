import type { CanonicalCsv, UnderstoodColumn } from "../../model/weather/index.ts";

/** How the file's times were read. */
export interface UploadClock {
  readonly timeZone: string;
  readonly dst: boolean | null;
  /** Which moment of an hour its label names. */
  readonly label: "start";
  /** Middle of the radiation's day on the farm's solar clock, h; null where it was not looked at. */
  readonly centroidH: number | null;
}

/** How one column was read: by its header, by what the user said, or by what the data look like. */
export interface UploadColumn extends Omit<UnderstoodColumn, "basis"> {
  readonly basis: "header" | "user" | "data";
}

export interface WeatherCheck extends Omit<CanonicalCsv, "understood"> {
  readonly understood: readonly UploadColumn[];
  readonly clock: UploadClock;
}
