import type { WeatherSeries } from "../../model/weather/index.ts";
import { type Manner, numberText } from "../format/manner.ts";

const HOUR_MS = 3_600_000;

/** A forecast is looked at again from 12 h on, doubted from 24 h, and gives no answer from 72 h on. */
export const AGE_LIMITS_H = { old: 12, stale: 24, expired: 72 } as const;

/** "none" where age means nothing: invented weather, and a file that does not say when it was made. */
export type AgeLevel = "none" | "fresh" | "old" | "stale" | "expired";

export interface WeatherAge {
  readonly level: AgeLevel;
  /** Hours since the forecast was made; null where that is not known. */
  readonly hours: number | null;
}

/** How old a forecast is, by when it was issued, else by when it was fetched. */
export function weatherAge(
  { origin, issuedUtc, fetchedUtc }: Pick<WeatherSeries, "origin" | "issuedUtc" | "fetchedUtc">,
  nowMs: number,
): WeatherAge {
  const madeMs = Date.parse(issuedUtc ?? fetchedUtc ?? "");
  if (origin === "sample" || origin === "archive" || Number.isNaN(madeMs))
    return { level: "none", hours: null };
  // A device whose clock is behind makes no forecast younger than new.
  const hours = Math.max(0, (nowMs - madeMs) / HOUR_MS);
  const { old, stale, expired } = AGE_LIMITS_H;
  const level = hours >= expired ? "expired" : hours >= stale ? "stale" : hours >= old ? "old" : "fresh";
  return { level, hours };
}

/** What stands in place of an answer from an expired forecast. */
export const TOO_OLD = "This forecast is too old to decide by.";

const DAYS_FROM_H = 48;

/** "under 1 h", "10 h", "3 days": rounded down, so that nothing is called older than it is. */
export function spanInWords(hours: number, manner: Pick<Manner, "locale">): string {
  if (hours < 1) return "under 1 h";
  if (hours < DAYS_FROM_H) return `${numberText(Math.floor(hours), 0, manner)} h`;
  return `${numberText(Math.floor(hours / 24), 0, manner)} days`;
}
