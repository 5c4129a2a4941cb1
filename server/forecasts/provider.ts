import type { Attribution, Column, Mark, WeatherMember } from "../../model/weather/index.ts";

/** The small interface behind which each weather service stands, and the one record that comes out. */

export const PROVIDER_NAMES = ["open-meteo", "met-norway", "nws", "bright-sky"] as const;
export type ProviderName = (typeof PROVIDER_NAMES)[number];

export interface ForecastQuestion {
  /** Degrees, rounded to 4 decimals: finer than any grid, and what the services accept. */
  readonly latitude: number;
  readonly longitude: number;
  /** As the user corrected it, m; null = what the service says. */
  readonly elevationM: number | null;
  readonly ensemble: boolean;
}

export interface ArchiveQuestion {
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number | null;
  /** First and last calendar day in UTC that must be covered, YYYY-MM-DD. */
  readonly fromDay: string;
  readonly toDay: string;
}

/** The columns of a service, each an hour labelled by its start, as its convention was converted. */
export interface ProviderHours {
  readonly airTempC: Column;
  readonly relHumidityPct: Column;
  readonly dewPointC: Column;
  /** At 10 m. */
  readonly windSpeedMps: Column;
  readonly rainMm: Column;
  /** null: the service has no radiation at all. */
  readonly solarWm2: Column | null;
  readonly cloudPct: Column | null;
  readonly rainChancePct: Column | null;
  readonly rainChancePeriodH: Column | null;
  /** At the site. */
  readonly pressureHpa: Column | null;
  /** At sea level, where the service gives no other. */
  readonly seaLevelHpa: Column | null;
}

export type ProviderMarks = Readonly<Partial<Record<keyof ProviderHours, readonly (Mark | null)[]>>>;

export interface Note {
  readonly code: string;
  readonly text: string;
}

/** Said where there are no members: what the chances are made from. */
export const WIDENED_INSTEAD = "Chances come from the one forecast, widened by its usual errors.";

export interface ProviderAnswer {
  readonly provider: ProviderName;
  /** What the service calls the model or grid; null where it does not say. */
  readonly model: string | null;
  /** The model run or the service's update time. */
  readonly issuedMs: number | null;
  /** The last successful check. */
  readonly fetchedMs: number;
  readonly elevationM: number | null;
  readonly nativeStepHours: number;
  readonly attribution: readonly Attribution[];
  /** Start of the first hour. */
  readonly startMs: number;
  readonly hours: ProviderHours;
  readonly marks: ProviderMarks;
  /** As long as `hours`. */
  readonly members: readonly WeatherMember[];
  readonly notes: readonly Note[];
}

export interface Provider {
  readonly name: ProviderName;
  /** @throws UpstreamFailure before the deadline, whatever happens */
  readonly forecast: (question: ForecastQuestion, deadlineMs: number) => Promise<ProviderAnswer>;
}

export interface ArchiveProvider {
  readonly name: ProviderName;
  readonly archive: (question: ArchiveQuestion, deadlineMs: number) => Promise<ProviderAnswer>;
}
