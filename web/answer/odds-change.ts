import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { ROUTE_LABELS } from "../format/words.ts";

type Pair = WindowsAnswer["best"]["overall"];

/** Chances this near to one another decide nothing. */
const LEAST_APART = 0.05;

function found(answer: WindowsAnswer, pair: Pair) {
  const option = answer.options.find(({ id }) => id === pair?.optionId);
  const route = option?.routes.find((each) => each.route === pair?.route);
  return option && route ? { option, route } : null;
}

/**
 * Why the first place is another one than before the chances were counted: "With the chances counted: Friday 13:00 instead
 * of Thursday 09:00, because that is brought in, sooner or later, in 8 in 10, not 5 in 10." Empty where it is the same.
 *
 * @param before the first place of the same board without chances; undefined = not known
 */
export function oddsChangeText(answer: WindowsAnswer, before: Pair | undefined, manner: Manner): string {
  const [now, then] = [found(answer, answer.best.overall), found(answer, before ?? null)];
  if (!answer.odds || now === null || then === null) return "";
  if (now.option.id === then.option.id && now.route.route === then.route.route) return "";
  const named = ({ option, route }: typeof now) =>
    option.cutUtc === null || now.option.id === then.option.id
      ? ROUTE_LABELS[route.route]
      : dayClockText(option.cutUtc, manner);
  const wasFirst = (pair: Pair | undefined) =>
    pair?.optionId === then.option.id && pair.route === then.route.route;
  // What another sample of draws may turn around is no reason; of the runner-up the choice says so already.
  if (answer.odds.asGood?.some(wasFirst))
    return wasFirst(answer.odds.runnerUp)
      ? ""
      : `As good as equal too: ${named(then)}, first before the chances were counted.`;
  const [chance, other] = [now.route.odds?.chance, then.route.odds?.chance];
  const surer = chance !== undefined && other !== undefined && chance - other >= LEAST_APART;
  const why = surer
    ? `because ${ROUTE_LABELS[now.route.route]} is then brought in, sooner or later, in ${inTen(chance)}, not in ${inTen(other)}`
    : "because over all chances it is expected to be worth more";
  return `With the chances counted: ${named(now)} instead of ${named(then)}, ${why}.`;
}
