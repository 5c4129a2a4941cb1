import { type Forecast, type ForecastAnswer, type ForecastPlace, fetchForecast } from "./forecast.ts";

/** A forecast that is there waits so long for its members: a first answer must not wait for a slow ensemble. */
export const MEMBERS_GRACE_MS = 1500;

const later = (ms: number) => new Promise<null>((resolve) => setTimeout(resolve, ms, null));

/** What is there first, and what may come after it. */
export interface ForecastWithMembers {
  readonly first: ForecastAnswer;
  /** The forecast that was waited for no longer, null where it failed; absent where nothing is to come. */
  readonly late?: Promise<Forecast | null>;
}

/**
 * Asks for the forecast with its members and without them at once; the server asks each service one time for both. The
 * members come with the first answer where they are quick, else after it. Where there are none, the notes say so.
 *
 * @param stop ends the question when another takes its place
 */
export async function fetchWithMembers(
  place: ForecastPlace,
  stop: AbortSignal,
): Promise<ForecastWithMembers> {
  const whole = fetchForecast(place, stop, true);
  const plain = fetchForecast(place, stop);
  const quick = await Promise.race([whole, plain.then(() => later(MEMBERS_GRACE_MS))]);
  if (quick !== null && "forecast" in quick) return { first: quick };
  const first = await plain;
  if ("failure" in first) return { first: await whole };
  if (quick !== null) return { first };
  return { first, late: whole.then((answer) => ("forecast" in answer ? answer.forecast : null)) };
}
