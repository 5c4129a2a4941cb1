import type { DrydownAnswer, DrydownRequest, ReadingRequest } from "../../model/drying/index.ts";
import type { WindowsRequest } from "../../model/harvest/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { drydownWithOdds } from "../../model/odds/index.ts";
import { type PreparedWeather, prepareWeather } from "../../model/weather/index.ts";
import type { Choice } from "../state/choice.ts";
import { routeBands } from "./route-bands.ts";

/**
 * The course of one row under the passes of its route; null for a row that stands.
 *
 * @param draws of its odds; 0 = the course alone, which is ready at once
 * @param prepared the request's weather made ready, where it is at hand: a board has dozens of rows in one weather
 */
export function courseOf(
  request: WindowsRequest,
  { option, route }: Choice,
  prepared: Outcome<PreparedWeather> = prepareWeather(request.weather),
  draws = 0,
  readings: readonly ReadingRequest[] = [],
): Outcome<DrydownAnswer> | null {
  if (option.courseCutUtc === null) return null;
  // The chosen route's target is told of first.
  const bands = routeBands(request).sort(
    (a, b) => Number(b.route === route?.route) - Number(a.route === route?.route),
  );
  const tops = bands.map(({ bandWb }) => bandWb[1]);
  const asked: DrydownRequest = {
    weather: request.weather,
    swath: request.swath,
    cutUtc: option.courseCutUtc,
    operations: (route?.operations ?? []).map(({ kind, atUtc, coveredFraction }) => ({
      kind,
      atUtc,
      coveredFraction,
    })),
    targetsWb: [...new Set(tops)],
    learned: request.learned,
    readings,
    draws,
    seed: request.seed,
  };
  return drydownWithOdds(asked, prepared);
}
