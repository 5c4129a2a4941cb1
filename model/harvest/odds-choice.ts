import { cutRule } from "../odds/cost-loss.ts";
import { chancePercent } from "../odds/in-ten.ts";
import type { BoardOddsAnswer, CutRuleAnswer, PlaceAnswer, RouteAnswer, WindowsAnswer } from "./answer.ts";
import { choiceText } from "./choice-text.ts";
import type { Board } from "./found-board.ts";
import { waitList } from "./hazards/hazard-words.ts";
import type { Lead } from "./lead.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import { HA_PER_ACRE } from "./standing-yield.ts";
import { dateWords, withMark } from "./words.ts";

/** The choice that the odds of a board leave: first place, next best, what would turn it, and when to cut. */

/** A pair that has a rank, with what the choice between pairs needs. */
export interface Placed extends PlaceAnswer {
  readonly rank: number;
  readonly cutUtc: string | null;
  readonly day: string;
  readonly brought: number;
  readonly left: number;
  readonly beforeRain: NonNullable<RouteAnswer["odds"]>["beforeRain"];
  /** The waits that its cut lies in, with their ends; "" for none. */
  readonly waits: string;
}

/** The pairs that have a rank and odds, best first. */
export function placedOf({ settled }: Board, answer: WindowsAnswer): Placed[] {
  const placed = answer.options.flatMap(({ id, cutUtc, routes }) =>
    routes.flatMap(({ route, rank, valuePerHa, odds, hazards }): Placed[] => {
      if (rank === null || valuePerHa === null || odds === undefined) return [];
      const day = cutUtc === null ? "" : settled.clock.partsAt(Date.parse(cutUtc)).dayKey;
      const { chance, broughtPerHa, leftPerHa: left, beforeRain } = odds;
      const brought = broughtPerHa ?? left;
      const { clock, saying } = settled;
      const waits = waitList(hazards, answer.usableUntilUtc, (untilUtc) => {
        const { weekday, day: date, month, hour, minute } = clock.partsAt(Date.parse(untilUtc));
        return dateWords(saying, { weekday, day: date, month, hour, minute });
      });
      return [
        { optionId: id, route, rank, valuePerHa, chance, cutUtc, day, brought, left, beforeRain, waits },
      ];
    }),
  );
  return placed.sort((a, b) => a.rank - b.rank);
}

export function placeAnswer({ optionId, route, valuePerHa, chance }: Placed): PlaceAnswer {
  return { optionId, route, valuePerHa, chance };
}

/** What a cut loses that is rained on or never comes in, by the prices; 0 where neither is seen to lose anything. */
function lostToRainPerHa({ beforeRain: { valuePerHa, elsePerHa }, brought, left }: Placed): number {
  return (valuePerHa ?? brought) - (elsePerHa ?? left);
}

/**
 * The user's cost of a day of waiting against that of a cut that is rained on, at the chance to come in before that;
 * nothing is told without the first, nor of a route that takes a part a day.
 */
export function cutRuleOf({ request, settled: { saying } }: Board, place: Placed): CutRuleAnswer[] {
  if (!ROUTE_CATALOGUE[place.route].wholeArea) return [];
  const waitingPerHa = request.cutRule?.waitingPerHa;
  const rainedOnPerHa = request.cutRule?.rainedOnPerHa ?? lostToRainPerHa(place);
  if (waitingPerHa === undefined || !(rainedOnPerHa > 0)) return [];
  const { cutAbove, chance, cut, text } = cutRule(place.beforeRain.chance, waitingPerHa, rainedOnPerHa);
  const { route, optionId } = place;
  const before =
    ROUTE_CATALOGUE[route].kind === "standing"
      ? "to come in within this weather"
      : `to come in before more than ${saying.units === "us" ? "0.04 in" : "1 mm"} of rain`;
  // Where words stand for the rule they say what to do.
  const so = cutAbove > 0 && cutAbove < 1 ? `, so ${cut ? "cut" : "wait"}` : "";
  const told = `${text.charAt(0).toUpperCase()}${text.slice(1)}${so}. That is the chance ${before}.`;
  return [
    { route, optionId, waitingPerHa, rainedOnPerHa, cutAbove, chance, cut, text: withMark(told, saying) },
  ];
}

/** The chance of the first place at which the choice turns, and the choice in words. */
export function choiceOf(
  first: Placed | undefined,
  second: Placed | undefined,
  lead: Lead | null,
  { clock, saying }: Pick<Board["settled"], "clock" | "saying">,
): Pick<BoardOddsAnswer, "turnsAtChance" | "choiceText"> {
  if (!first || !second) return { turnsAtChance: null, choiceText: null };
  const gain = first.brought - first.left;
  const at = gain > 0 ? (second.valuePerHa - first.left) / gain : Number.NaN;
  const turnsAtChance = at > 0 && at < first.chance ? at : null;
  const { cutUtc } = second;
  const isUs = saying.units === "us";
  const cut =
    cutUtc === null ? "leave it standing" : `cut ${dateWords(saying, clock.partsAt(Date.parse(cutUtc)))}`;
  const told = choiceText(
    { first, runnerUp: second, lead, turnsAtChance },
    {
      cut: `${cut}, ${ROUTE_CATALOGUE[second.route].label.toLowerCase()}`,
      wait: second.waits === "" ? "" : `It lies in a wait: ${second.waits}.`,
      route: ROUTE_CATALOGUE[first.route].label.toLowerCase(),
      money: (perHa) => String(Math.round(isUs ? perHa * HA_PER_ACRE : perHa)),
      area: isUs ? "an acre" : "a hectare",
      percent: chancePercent,
    },
  );
  return { turnsAtChance, choiceText: told };
}
