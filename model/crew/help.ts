import { once } from "../once.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { givenUpWords } from "./cautions.ts";
import { type CrewVariant, changeSearch, type Tried } from "./change-search.ts";
import { expectedValue } from "./expected.ts";
import { fieldHelp } from "./field-help.ts";
import type { Grid, GridJob } from "./grid.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import {
  type OtherRoute,
  otherRoutes,
  otherRouteWords,
  tryOtherWorks,
  type Untried,
  untriedWords,
} from "./left-help.ts";
import type { CrewJob } from "./problem.ts";
import type { FieldReplay } from "./replay.ts";
import { settled } from "./settle.ts";
import type { GridPlan } from "./solve-grid.ts";
import { jobsOfField } from "./value.ts";
import { withHour, withMachine, withPerson } from "./variants.ts";
import { fieldName, kindWord, someWords } from "./words.ts";

/** A field is tried with other works where all of its crop is worth so many times as much as the best change brings; assumed. */
const CLEARLY_MORE = 1.5;
/** Of changes so many are replayed, those that bring most by the objective. */
const MOST_REPLAYED = 2;

/** What was found, and what was not tried though it might have brought more. */
export interface HelpFound {
  readonly change: HelpfulChange | null;
  /** Left fields that have another route for which none was tried, and those for which not all other works were. */
  readonly untried: Untried;
}

/**
 * The one change that helps most: an hour, a machine, a person, a field at risk taken at another hour or by another route,
 * or a field that is left taken by another route or with other works. That mown crop is given up for standing crop is said
 * beside it. Gains are told as the replay expects them. One that the plan might bring without the change, because nothing
 * better was ruled out, is told as not proved.
 */
export function mostHelpful(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  crewJobs: readonly CrewJob[],
  plan: Pick<GridPlan, "value" | "bound">,
  replay: readonly FieldReplay[],
  stop: () => boolean,
): HelpFound {
  const { fields } = built.request;
  const search = changeSearch(built, jobs, plan, stop);
  const { least } = search;
  const byRoute = ({ f, ...other }: OtherRoute) =>
    search.attempt({
      ...other,
      fieldId: fields[f]?.id ?? null,
      machineKind: null,
      told: (of, worth) => otherRouteWords({ ...other, f }, of, worth),
    });
  const crew = crewChanges(built);
  crew.single.forEach(search.attempt);
  const { routes, untried } = otherRoutes(built, jobs, stop);
  routes.forEach(byRoute);
  // A machine and somebody for it together, where neither alone helps.
  if (search.most() === 0 && !stop()) crew.pairs.forEach(search.attempt);
  // Other works are tried where they could bring clearly more than all that.
  const isWorth = (f: number) =>
    (built.grid.fields[f]?.worth ?? 0) > Math.max(least, CLEARLY_MORE * search.most());
  const untriedWorks = new Set<number>();
  const tryWorks = (which: "as-it-lies" | "worked") => {
    for (const f of tryOtherWorks(built, jobs, which, byRoute, isWorth, stop)) untriedWorks.add(f);
  };
  tryWorks("as-it-lies");

  const now = once(() => expectedValue(built, jobs));
  const unproved = once(() => Math.max(0, plan.bound - search.without()));
  const ofRisk = once(() =>
    replay.flatMap(({ fieldId, atRisk }) => (atRisk && !stop() ? fieldHelp(built, fieldId, crewJobs) : [])),
  );
  const told = (): HelpfulChange | null => {
    const found = search.best(MOST_REPLAYED).map((one) => replayed(one, now(), unproved(), stop));
    const helpful = [...found, ...ofRisk()].filter(({ gain }) => gain > least);
    return helpful.sort((a, b) => b.gain - a.gain)[0] ?? null;
  };
  let change = told();
  // Where somebody is in need and nothing was found, it is sought longer, and by what takes longer.
  const further = [search.longer, () => tryWorks("worked"), search.longer];
  for (const seek of isInNeed(built, jobs, replay) ? further : []) {
    if (change !== null || stop()) break;
    // What the replay denied is no gain.
    search.forget();
    seek();
    change = told();
  }
  const instead = change === null ? [] : givenUpWords(built, crewJobs, leftIds(built, jobs));
  return {
    change: change === null ? null : { ...change, text: [change.text, ...instead].join(" ") },
    untried: { routes: untried, works: [...untriedWorks] },
  };
}

/** Whether a field is left or at risk. */
function isInNeed(built: BuiltCrew, jobs: readonly GridJob[], replay: readonly FieldReplay[]): boolean {
  return replay.some(({ atRisk }) => atRisk) || leftIds(built, jobs).length > 0;
}

function leftIds({ grid }: BuiltCrew, jobs: readonly GridJob[]): string[] {
  return grid.fields.flatMap((field, f) => (jobsOfField(field, f, jobs) === null ? [field.id] : []));
}

/** A change with its gain as the replay expects it, never above what the objective says. */
function replayed(tried: Tried, now: number, unproved: number, stop: () => boolean): HelpfulChange {
  const { built, kind, fieldId, machineKind, ops } = tried;
  const jobs = settled(built, tried.jobs, stop);
  const gain = Math.min(tried.gain, expectedValue(built, jobs) - now);
  const isProved = tried.gain > unproved;
  const doubt = isProved ? "" : " by the same search (not proved: a longer one might find more without it)";
  const unit = fieldId === null ? " in value" : "";
  const text = tried.told(jobs, `${Math.round(gain)} more${unit}${doubt}`);
  return {
    kind,
    fieldId,
    machineKind,
    ...(ops === undefined ? {} : { ops }),
    gain,
    ...(isProved ? {} : { proved: false }),
    text,
  };
}

/** An hour, a machine or a person more, and each machine with a person for it. */
function crewChanges(built: BuiltCrew): {
  readonly single: readonly CrewVariant[];
  readonly pairs: readonly CrewVariant[];
} {
  const { request, grid } = built;
  const change = (
    kind: "hour" | "machine" | "person",
    of: Grid,
    who: string,
    brings: "bring" | "brings",
    machineKind: string | null = null,
  ): CrewVariant => ({
    built: { ...built, grid: of },
    kind,
    machineKind,
    fieldId: null,
    told: (_jobs, worth) => `${who} ${brings} ${worth}.`,
  });
  const ops = [...new Set(request.fields.flatMap((field) => field.ops))];
  // It is reckoned as fast as the first, with as many carts behind it.
  const hasCarts = request.machines.some(({ kind }) => kind === "cart");
  const machineWords = (op: CrewOp) =>
    `One more ${kindWord(KIND_OF_OP[op])}${op === "chop" && hasCarts ? " with carts of its own" : ""}`;
  const machines = ops.map((op) =>
    change("machine", withMachine(grid, op), machineWords(op), "brings", KIND_OF_OP[op]),
  );
  const pairs = ops.map((op) => {
    const who = `${machineWords(op)} and a person for it`;
    return change("machine", withPerson(withMachine(grid, op)), who, "bring", KIND_OF_OP[op]);
  });
  const hour = change("hour", withHour(grid), "One hour more each evening", "brings");
  const person = change("person", withPerson(grid), "One more person", "brings");
  return { single: [hour, ...machines, person], pairs };
}

/** Said where fields are left or at risk and nothing was found that would help. */
export function noHelpWords(
  built: BuiltCrew,
  replay: readonly FieldReplay[],
  left: readonly { readonly fieldId: string }[],
  untried: Untried,
  jobs: readonly CrewJob[],
): string {
  const named = (isIt: (id: string) => boolean) =>
    someWords(built.request.fields.filter(({ id }) => isIt(id)).map(fieldName));
  const risky = named((id) => replay.some(({ fieldId, atRisk }) => atRisk && fieldId === id));
  const isIn = (some: readonly number[], id: string) => some.some((f) => built.request.fields[f]?.id === id);
  const { routes, works } = untried;
  const isStanding = (id: string) => left.some(({ fieldId }) => fieldId === id) && !isIn(routes, id);
  const whole = named((id) => isStanding(id) && !isIn(works, id));
  const part = named((id) => isStanding(id) && isIn(works, id));
  const other = risky === "" ? "" : `, nor another hour or route for ${risky}`;
  const route = whole === "" ? "" : `, nor another route or other works for ${whole}`;
  const same = part === "" ? "" : `, nor another route with the same works for ${part}`;
  const not = untriedWords(built, untried);
  const said = `Nothing was found that would help: neither an hour more each evening, a machine nor a person more${other}${route}${same}.`;
  const instead = givenUpWords(
    built,
    jobs,
    left.map(({ fieldId }) => fieldId),
  );
  return [said, ...(not === null ? [] : [not]), ...instead].join(" ");
}
