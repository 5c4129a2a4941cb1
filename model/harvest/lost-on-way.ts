import type { Operation } from "../drying/operations.ts";
import type { SwathRequest } from "../drying/request.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { RouteAnswer } from "./answer.ts";
import type { Drying } from "./drying-store.ts";
import {
  type CutHistory,
  type LossStep,
  lossSteps,
  lossTotal,
  lyingHours,
  routeLosses,
} from "./losses/index.ts";
import type { SettledRoute, SettledTreatment } from "./settle.ts";
import type { Track } from "./spans.ts";

/** What a route loses from the standing crop to the animal, for a cut whose first window is known. */

type Losses = Pick<RouteAnswer, "lossPct" | "lossSteps">;

/** Of a route without a window nothing is told: it brings nothing in. */
export const NO_LOSSES: Losses = { lossPct: null, lossSteps: null };

function told(steps: readonly LossStep[]): Losses {
  // One forecast gives one number: the tenths need its members.
  return {
    lossPct: { p10: null, p50: lossTotal(steps).pct, p90: null },
    lossSteps: lossSteps(steps),
  };
}

/** Moisture of a track at a moment, straight inside the hour, wet basis. */
function moistureAt({ startUtcMs, startWb, endWb, count }: Track, atMs: number): number {
  const place = Math.min(count, Math.max(0, (atMs - startUtcMs) / HOUR_MS));
  const i = Math.min(count - 1, Math.floor(place));
  if (i < 0) return startWb;
  const before = i === 0 ? startWb : (endWb[i - 1] as number);
  return before + ((endWb[i] as number) - before) * (place - i);
}

/** The steps of a route for what happened to the crop before the machine took it. */
function lossesOf(
  { crop, conditioning }: SwathRequest,
  { route, package: pack, store }: SettledRoute,
  track: Track,
  takenMs: number,
  before: Pick<CutHistory, "passes" | "breathed" | "rained">,
): Losses {
  const history = { crop, conditioning, takenAtWb: moistureAt(track, takenMs), ...before };
  return told(routeLosses(route, pack, history, { silo: store }));
}

/**
 * Losses of a swath route.
 *
 * @param takenMs when the machine begins: the start of the first window
 */
export function swathLosses(
  weather: HourlyWeather,
  { swath }: SettledTreatment,
  route: SettledRoute,
  { course, track }: Pick<Drying, "course" | "track">,
  operations: readonly Operation[],
  takenMs: number,
): Losses {
  const { breathed, rained } = lyingHours(course, weather, track.startWb, takenMs);
  const passes = operations
    .filter(({ atUtcMs }) => atUtcMs <= takenMs)
    .map(({ kind, atUtcMs }) => ({ kind, moistureWb: moistureAt(track, atUtcMs) }));
  return lossesOf(swath, route, track, takenMs, { passes, breathed, rained });
}

/** Losses of a route that takes the crop as it stands: nothing is passed over, breathes or is rained on in a swath. */
export function standingLosses(
  { swath }: Pick<SettledTreatment, "swath">,
  route: SettledRoute,
  track: Track,
  takenMs: number,
): Losses {
  return lossesOf(swath, route, track, takenMs, { passes: [], breathed: [], rained: [] });
}
