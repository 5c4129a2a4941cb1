import type { RouteAnswer } from "./answer.ts";
import type { RouteKey } from "./keys.ts";
import { lossQuantiles, lossSteps, lossTotal } from "./losses/index.ts";
import type { Brought } from "./lost-on-way.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { SettledMoney } from "./settle-money.ts";
import { expectedPerHa } from "./value/route-value.ts";

/** What is told of losses and money. */
export type ToldOutcome = Pick<
  RouteAnswer,
  "lossPct" | "lossSteps" | "valuePerHa" | "takenAtWb" | "takenShare" | "turnHPerHa"
>;

/** Of a route that has a window in no weather nothing is told: it brings nothing in. */
export const NOTHING_BROUGHT: ToldOutcome = {
  lossPct: null,
  lossSteps: null,
  valuePerHa: null,
  takenAtWb: null,
  takenShare: null,
  turnHPerHa: null,
};

/**
 * What a hectare is still worth where the weather given brings nothing in, in the currency of the prices: a cut crop that
 * lies there counts as nothing, and its mowing is paid; one that stands has cost nothing.
 */
export function leftPerHa(route: RouteKey, { rates }: Pick<SettledMoney, "rates">): number {
  return ROUTE_CATALOGUE[route].kind === "swath" ? -rates.mowPerHa : 0;
}

/**
 * Losses and expected value of a route.
 *
 * @param central what the main forecast brings; null where it has no window: loss and value are then those of the members
 *   alone, and what only a window of the main forecast could tell stays null
 * @param members what each member brings, null where it has no window; empty = one forecast alone, whose value is then the
 *   deterministic one. The loss's quantiles are over the members that bring the crop in; its steps are the main
 *   forecast's.
 * @param leftPerHa worth where nothing is brought in: `leftPerHa`
 */
export function toldOutcome(
  central: Brought | null,
  members: readonly (Pick<Brought, "steps" | "value"> | null)[] = [],
  leftPerHa = 0,
): ToldOutcome {
  const { p50, ...beside } = lossQuantiles(
    members.flatMap((member) => (member === null ? [] : [lossTotal(member.steps).pct])),
  );
  const expected = expectedPerHa(
    members.map((member) => member?.value.valuePerHa ?? null),
    leftPerHa,
  );
  if (central === null)
    return p50 === null
      ? NOTHING_BROUGHT
      : { ...NOTHING_BROUGHT, lossPct: { ...beside, p50 }, valuePerHa: expected };
  return {
    lossPct: { ...beside, p50: p50 ?? lossTotal(central.steps).pct },
    lossSteps: lossSteps(central.steps),
    valuePerHa: expected ?? central.value.valuePerHa,
    takenAtWb: central.takenAtWb,
    takenShare: central.takenShare,
    turnHPerHa: central.turnHPerHa,
  };
}
