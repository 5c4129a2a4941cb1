/**
 * The hourly weather series as it crosses every edge (JSON, upload, page), and the form the model computes on.
 * An hour is labelled by its start, in UTC. A missing value is null, never 0.
 */

/** Where the weather is for. Degrees north and east, metres above the sea, IANA zone of the farm. */
export interface Site {
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly timeZone: string;
}

export type SeriesOrigin = "upload" | "forecast" | "archive" | "sample" | "joined";

/** How an hour's value is not plainly as given. */
export type Mark = "observed" | "forecast" | "cloud-estimate" | "interpolated" | "coarse" | "assumed";

export type Column = readonly (number | null)[];

/** The columns of a series. Units stand in the names; see model/weather/limits.ts for what is plausible. */
export interface WeatherColumns {
  readonly airTempC: Column;
  readonly relHumidityPct: Column;
  readonly windSpeedMps: Column;
  readonly rainMm: Column;
  readonly solarWm2?: Column | undefined;
  readonly cloudPct?: Column | undefined;
  readonly dewPointC?: Column | undefined;
  readonly rainChancePct?: Column | undefined;
  readonly rainChancePeriodH?: Column | undefined;
  readonly pressureHpa?: Column | undefined;
}

export type ColumnName = keyof WeatherColumns;

export interface WeatherHours extends WeatherColumns {
  readonly startUtc: readonly string[];
}

export interface WeatherMember extends Partial<WeatherColumns> {
  readonly model?: string | null | undefined;
}

export interface Attribution {
  readonly text: string;
  readonly url: string;
}

export type Marks = Readonly<Partial<Record<ColumnName, readonly (Mark | null)[]>>>;

export interface WeatherSeries {
  readonly site: Site;
  /** Height above ground at which the wind was measured or forecast, m. */
  readonly windHeightM: number;
  readonly origin: SeriesOrigin;
  readonly provider?: string | null | undefined;
  readonly model?: string | null | undefined;
  readonly issuedUtc?: string | null | undefined;
  readonly fetchedUtc?: string | null | undefined;
  readonly nativeStepHours?: number | undefined;
  readonly attribution?: readonly Attribution[] | undefined;
  readonly hours: WeatherHours;
  readonly marks?: Marks | undefined;
  readonly members?: readonly WeatherMember[] | undefined;
}
