import type { DrydownAnswer } from "../drying/answer.ts";
import type { DryingParameters } from "../drying/coefficients.ts";
import { drydownIn } from "../drying/drydown.ts";
import type { DrydownRequest, SwathRequest } from "../drying/request.ts";
import type { Outcome } from "../limits.ts";
import type { HourlyWeather, PreparedWeather } from "../weather/hourly.ts";
import { withPast } from "../weather/with-past.ts";
import type { Bent } from "./bend.ts";
import { type DrawnMoisture, parametersAtRate } from "./course-odds.ts";
import { swathOfDraw } from "./sample.ts";
import type { WeatherDraws } from "./weather-draws.ts";

/** The one course that is shown of a cut whose draws were bent to readings. */
export interface BentCentre {
  readonly swath: SwathRequest;
  readonly p: DryingParameters;
  readonly weather: HourlyWeather;
}

const PAST_TEXT =
  "Until the last reading that counts the course goes through the weather of the draw nearest the middle of what the " +
  "readings left, from there on through the main forecast.";

/** The weathers already joined, by the one that the past is of: a board asks for the same with other passes. */
const JOINED = new WeakMap<
  HourlyWeather,
  { readonly main: HourlyWeather; readonly untilMs: number; readonly weather: HourlyWeather }
>();

function joinedOnce(main: HourlyWeather, past: HourlyWeather, untilMs: number): HourlyWeather {
  const known = JOINED.get(past);
  if (known?.main === main && known.untilMs === untilMs) return known.weather;
  const weather = withPast(main, past, untilMs);
  JOINED.set(past, { main, untilMs, weather });
  return weather;
}

/**
 * What the shown course runs with. In weather that is known: the means of the weighted draws. Where the weather is uncertain
 * too, readings tell which of it came: the course is that of the draw nearest the middle (`Bent.nearest`), in that draw's
 * own weather until the last reading that counts and in the main forecast after it. The means alone, run in the main
 * forecast, would lead past the reading wherever a shower came that the main forecast lacks.
 */
export function bentCentre(
  { centre, nearest }: Pick<Bent<DrawnMoisture>, "centre" | "nearest">,
  swath: SwathRequest,
  weathers: WeatherDraws,
  main: HourlyWeather,
): BentCentre {
  if (nearest === null || weathers.kind === "known") return { ...centre, weather: main };
  const { draw, place, atMs } = nearest;
  return {
    swath: swathOfDraw(swath, draw),
    p: parametersAtRate(draw.rateFactor),
    weather: joinedOnce(main, weathers.of(place), atMs),
  };
}

/** The course that is shown; where it goes through another weather than the main forecast it says so. */
export function drydownAtCentre(
  prepared: PreparedWeather,
  request: DrydownRequest,
  { swath, p, weather }: BentCentre,
): Outcome<DrydownAnswer> {
  const value =
    weather === prepared.weather
      ? prepared
      : { ...prepared, weather, assumptions: [...prepared.assumptions, PAST_TEXT] };
  return drydownIn({ ok: true, value }, { ...request, swath }, p);
}
