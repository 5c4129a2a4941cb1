import type { Operation } from "../drying/operations.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { RouteAnswer } from "./answer.ts";
import type { Drying } from "./drying-store.ts";
import { type LossStep, lossSteps, lossTotal, lyingHours, routeLosses } from "./losses/index.ts";
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

/**
 * Losses of a swath route.
 *
 * @param takenMs when the machine begins: the start of the first window
 */
export function swathLosses(
  weather: HourlyWeather,
  { swath }: SettledTreatment,
  { route, package: pack, store }: SettledRoute,
  { course, track }: Pick<Drying, "course" | "track">,
  operations: readonly Operation[],
  takenMs: number,
): Losses {
  const { breathed, rained } = lyingHours(course, weather, track.startWb, takenMs);
  const passes = operations
    .filter(({ atUtcMs }) => atUtcMs <= takenMs)
    .map(({ kind, atUtcMs }) => ({ kind, moistureWb: moistureAt(track, atUtcMs) }));
  const history = {
    crop: swath.crop,
    conditioning: swath.conditioning,
    passes,
    breathed,
    rained,
    takenAtWb: moistureAt(track, takenMs),
  };
  return told(routeLosses(route, pack, history, { silo: store }));
}

/** Losses of a route that takes the crop as it stands. */
export function standingLosses(
  { swath }: Pick<SettledTreatment, "swath">,
  { route, package: pack, store }: SettledRoute,
  track: Track,
  takenMs: number,
): Losses {
  const history = {
    crop: swath.crop,
    conditioning: swath.conditioning,
    passes: [],
    breathed: [],
    rained: [],
    takenAtWb: moistureAt(track, takenMs),
  };
  return told(routeLosses(route, pack, history, { silo: store }));
}
