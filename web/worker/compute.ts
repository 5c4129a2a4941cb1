import type { DrydownAnswer, DrydownRequest, ReadingRequest } from "../../model/drying/index.ts";
import type { Board, WindowsRequest } from "../../model/harvest/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { drydownAtCentre, drydownWithOdds } from "../../model/odds/index.ts";
import { type PreparedWeather, prepareWeather } from "../../model/weather/index.ts";
import type { Choice } from "../state/choice.ts";
import { routeBands } from "./route-bands.ts";

/** The row's own question, under the passes of its route; null for a row that stands. */
export function drydownQuestion(request: WindowsRequest, { option, route }: Choice): DrydownRequest | null {
  if (option.courseCutUtc === null) return null;
  // The chosen route's target is told of first.
  const bands = routeBands(request).sort(
    (a, b) => Number(b.route === route?.route) - Number(a.route === route?.route),
  );
  const tops = bands.map(({ bandWb }) => bandWb[1]);
  return {
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
    seed: request.seed,
  };
}

/**
 * The course of one row under the passes of its route; null for a row that stands.
 *
 * @param draws of its odds; 0 = the course alone, which is ready at once
 * @param prepared the request's weather made ready, where it is at hand: a board has dozens of rows in one weather
 */
export function courseOf(
  request: WindowsRequest,
  choice: Choice,
  prepared: Outcome<PreparedWeather> = prepareWeather(request.weather),
  draws = 0,
  readings: readonly ReadingRequest[] = [],
): Outcome<DrydownAnswer> | null {
  const asked = drydownQuestion(request, choice);
  return asked && drydownWithOdds({ ...asked, readings, draws }, prepared);
}

/** The course of one row of a board as its readings and those of the other cuts leave it; null for a row that stands. */
export function courseOnBoard(
  { request, read, options, prepared }: Board,
  choice: Choice,
  draws = 0,
): Outcome<DrydownAnswer> | null {
  const { option, route } = choice;
  const own = read.byId.get(option.id);
  const asked = { ...request, learned: own ? own.learned : read.learned };
  const ready = { ok: true, value: prepared } as const;
  if (own === undefined || draws > 0) return courseOf(asked, choice, ready, draws, own?.readings);
  const question = options
    .find(({ head }) => head.id === option.id)
    ?.routes.find(({ answer }) => answer.route === route?.route)?.question;
  const bent = question?.kind === "swath" ? own.bentOf(question.operations) : null;
  if (bent === null) return courseOf(asked, choice, ready);
  // The bent course is there before its bands are.
  const drydown = drydownQuestion(asked, choice);
  return drydown && drydownAtCentre(prepared, drydown, bent.centre);
}
