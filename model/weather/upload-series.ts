import { HOUR_MS } from "./clock.ts";
import { utcLabel } from "./labels.ts";
import type { Attribution, Site, WeatherColumns, WeatherSeries } from "./series.ts";

/** Where uploaded hours were measured, and whom they are owed to. */
export interface UploadPlace {
  readonly site: Site;
  readonly windHeightM: number;
  readonly attribution?: readonly Attribution[] | undefined;
}

/** Uploaded hours as a series: nobody's forecast, an hour each, labelled from the first on. */
export function uploadSeries(
  place: UploadPlace,
  startUtcMs: number,
  count: number,
  columns: Omit<WeatherColumns, "startUtc">,
): WeatherSeries {
  return {
    site: place.site,
    windHeightM: place.windHeightM,
    origin: "upload",
    provider: null,
    model: null,
    issuedUtc: null,
    fetchedUtc: null,
    nativeStepHours: 1,
    attribution: place.attribution ?? [],
    hours: {
      ...columns,
      startUtc: Array.from({ length: count }, (_, i) => utcLabel(startUtcMs + i * HOUR_MS)),
    },
  };
}
