import type { DrydownAnswer, DrydownRequest } from "../../model/drying/index.ts";
import type { RouteKey, WindowsRequest } from "../../model/harvest/index.ts";
import { defaultBand, defaultPackage, HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { drydownWithOdds } from "../../model/odds/index.ts";
import { type PreparedWeather, prepareWeather } from "../../model/weather/index.ts";
import type { Choice } from "../state/choice.ts";

/** A route of the question with the moisture band that computes, wet basis. */
export interface RouteBand {
  readonly route: RouteKey;
  readonly bandWb: readonly [number, number];
}

/** The bands of the routes asked for; green chop and grazing take the crop fresh and have none. */
export function routeBands({ routes, swath }: Omit<WindowsRequest, "weather">): RouteBand[] {
  return (routes ?? []).flatMap(({ route, package: pack, store, bandWb }) => {
    const usual = defaultBand(
      route,
      swath.crop,
      pack ?? defaultPackage(swath.crop),
      store ?? HARVEST_DEFAULTS.store.value,
    );
    const band = bandWb ?? usual?.bandWb;
    return band ? [{ route, bandWb: band }] : [];
  });
}

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
): Outcome<DrydownAnswer> | null {
  if (option.courseCutUtc === null) return null;
  const tops = routeBands(request).map(({ bandWb }) => bandWb[1]);
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
    draws,
    seed: request.seed,
  };
  return drydownWithOdds(asked, prepared);
}
