import { seededRandom } from "../odds/random.ts";
import { placeAlone } from "./alone.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { expectedValue } from "./expected.ts";
import { fieldHelp } from "./field-help.ts";
import type { Grid, GridJob } from "./grid.ts";
import { type Found, searchPlan } from "./heuristic/improve.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import { otherRoutes, otherRouteWords, ROUTE_COURSES, untriedWords } from "./left-help.ts";
import type { CrewJob } from "./problem.ts";
import type { FieldReplay } from "./replay.ts";
import type { CrewPlanRequest } from "./request.ts";
import { settled } from "./settle.ts";
import { withToldWindows } from "./told-windows.ts";
import { jobsOfField, servedValue } from "./value.ts";
import { withHour, withMachine, withPerson } from "./variants.ts";
import { fieldName, kindWord, someWords } from "./words.ts";

const ROUNDS = 40;
/** A smaller share of the value is no help worth naming. */
const LEAST_GAIN = 0.001;
/** Of changes of the whole crew so many are replayed, those that bring most by the objective. */
const MOST_REPLAYED = 2;

/** A change of the task, with the best plan found in it from the one there is. */
interface Tried {
  readonly built: BuiltCrew;
  readonly jobs: readonly GridJob[];
  /** By the objective, over the plan searched as long without it. */
  readonly gain: number;
  readonly kind: HelpfulChange["kind"];
  readonly fieldId: string | null;
  readonly machineKind: string | null;
  /** The sentence with the gain as it is told: "120 more in value". */
  readonly told: (jobs: readonly GridJob[], worth: string) => string;
}

/** The best plan found from this one in a changed task, never worth less than this one. */
function foundIn(grid: Grid, jobs: readonly GridJob[], stop: () => boolean): Found {
  const start = grid.fields.map((field, f) => {
    const own = jobsOfField(field, f, jobs);
    return own === null ? null : { jobs: own, value: servedValue(field, own) };
  });
  return searchPlan(grid, { rounds: ROUNDS, random: seededRandom(1), stop, start });
}

/** What was found, and the left fields that have another route for which none was tried. */
export interface HelpFound {
  readonly change: HelpfulChange | null;
  readonly untried: readonly number[];
}

/**
 * The one change that helps most: an hour, a machine, a person, a field at risk taken at another hour or by another route,
 * or a field that is left taken by another route. Gains are told as the replay expects them. One that the plan might bring
 * without the change, because nothing better was ruled out, is told as not proved.
 */
export function mostHelpful(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  crewJobs: readonly CrewJob[],
  { value, bound }: { readonly value: number; readonly bound: number },
  replay: readonly FieldReplay[],
  stop: () => boolean,
): HelpFound {
  const { grid } = built;
  // What a plan searched longer would bring without any change is no help of the change.
  const polished = Math.max(value, foundIn(grid, jobs, stop).value);
  const least = LEAST_GAIN * Math.max(1, Math.abs(value));
  const attempt = (changed: BuiltCrew, words: Omit<Tried, "built" | "jobs" | "gain">): Tried[] => {
    let [of, found] = [changed, foundIn(changed.grid, jobs, stop)];
    // Whoever is there at other hours may find hours that the windows of the plan know nothing of; so may a field of
    // another route beside the others.
    const mayNeed = words.kind !== "machine" && !stop();
    const told = mayNeed ? toldAnew(changed, found.jobs, words.fieldId, stop) : null;
    if (told !== null) {
      const more = foundIn(told.grid, found.jobs, stop);
      if (more.value > found.value) [of, found] = [told, more];
    }
    const gain = found.value - polished;
    return gain > least ? [{ ...words, built: of, jobs: found.jobs, gain }] : [];
  };
  const onGrid = (changed: Grid) => ({ ...built, grid: changed });
  const crew = crewChanges(built.request, grid);
  const single = crew
    .filter(({ pair }) => !pair)
    .flatMap(({ grid: of, ...words }) => attempt(onGrid(of), words));
  const { routes: others, untried } = otherRoutes(built, jobs, stop);
  const routes = others.flatMap((other) =>
    attempt(other.built, {
      kind: other.kind,
      fieldId: built.request.fields[other.f]?.id ?? null,
      machineKind: null,
      told: (of, worth) => otherRouteWords(other, of, worth),
    }),
  );
  // A machine and somebody for it together, where neither alone helps.
  const pairs =
    single.length + routes.length > 0 || stop()
      ? []
      : crew.filter(({ pair }) => pair).flatMap(({ grid: of, ...words }) => attempt(onGrid(of), words));
  const tried = [...single, ...routes, ...pairs].sort((a, b) => b.gain - a.gain).slice(0, MOST_REPLAYED);
  const now = tried.length === 0 ? 0 : expectedValue(built, jobs);
  const unproved = Math.max(0, bound - polished);
  const found = tried.map((one) => replayed(one, now, unproved, stop));
  for (const { fieldId, atRisk } of replay) {
    if (atRisk && !stop()) found.push(...fieldHelp(built, fieldId, crewJobs));
  }
  const [most] = found.filter(({ gain }) => gain > least).sort((a, b) => b.gain - a.gain);
  return { change: most ?? null, untried };
}

/**
 * The changed task with windows from the replay: for one field that is still left in it, or, where the change is of the whole
 * crew, for those that are left and find no place even by themselves. Null where nobody needs any.
 */
function toldAnew(
  changed: BuiltCrew,
  jobs: readonly GridJob[],
  fieldId: string | null,
  stop: () => boolean,
): BuiltCrew | null {
  const { grid } = changed;
  const only = [...grid.fields.entries()].flatMap(([f, field]) => {
    if (jobsOfField(field, f, jobs) !== null) return [];
    if (fieldId !== null) return field.id === fieldId ? [f] : [];
    return placeAlone(grid, f) === null ? [f] : [];
  });
  if (only.length === 0) return null;
  const options = fieldId === null ? { only } : { only, courses: ROUTE_COURSES };
  return withToldWindows({ ...changed, told: [] }, jobs, [], stop, options);
}

/** A change with its gain as the replay expects it, never above what the objective says. */
function replayed(tried: Tried, now: number, unproved: number, stop: () => boolean): HelpfulChange {
  const { built, kind, fieldId, machineKind } = tried;
  const jobs = settled(built, tried.jobs, stop);
  const gain = Math.min(tried.gain, expectedValue(built, jobs) - now);
  const isProved = tried.gain > unproved;
  const doubt = isProved ? "" : " by the same search (not proved: a longer one might find more without it)";
  const unit = fieldId === null ? " in value" : "";
  const text = tried.told(jobs, `${Math.round(gain)} more${unit}${doubt}`);
  return { kind, fieldId, machineKind, gain, ...(isProved ? {} : { proved: false }), text };
}

/** An hour, a machine or a person more, and each machine with a person for it. */
function crewChanges(request: CrewPlanRequest, grid: Grid) {
  const change = (
    kind: "hour" | "machine" | "person",
    of: Grid,
    who: string,
    machineKind: string | null = null,
    pair = false,
  ) => ({
    kind,
    grid: of,
    machineKind,
    fieldId: null,
    pair,
    told: (_jobs: readonly GridJob[], worth: string) => `${who} ${pair ? "bring" : "brings"} ${worth}.`,
  });
  const ops = [...new Set(request.fields.flatMap((field) => field.ops))];
  // It is reckoned as fast as the first, with as many carts behind it.
  const hasCarts = request.machines.some(({ kind }) => kind === "cart");
  const machineWords = (op: CrewOp) =>
    `One more ${kindWord(KIND_OF_OP[op])}${op === "chop" && hasCarts ? " with carts of its own" : ""}`;
  const machines = ops.map((op) =>
    change("machine", withMachine(grid, op), machineWords(op), KIND_OF_OP[op]),
  );
  const pairs = ops.map((op) => {
    const kind = KIND_OF_OP[op];
    const who = `${machineWords(op)} and a person for it`;
    return change("machine", withPerson(withMachine(grid, op)), who, kind, true);
  });
  return [
    change("hour", withHour(grid), "One hour more each evening"),
    ...machines,
    change("person", withPerson(grid), "One more person"),
    ...pairs,
  ];
}

/** Said where fields are left or at risk and nothing was found that would help. */
export function noHelpWords(
  built: BuiltCrew,
  replay: readonly FieldReplay[],
  left: readonly { readonly fieldId: string }[],
  untried: readonly number[],
): string {
  const named = (isIt: (id: string) => boolean) =>
    someWords(built.request.fields.filter(({ id }) => isIt(id)).map(fieldName));
  const risky = named((id) => replay.some(({ fieldId, atRisk }) => atRisk && fieldId === id));
  const isTried = (id: string) => !untried.some((f) => built.request.fields[f]?.id === id);
  const standing = named((id) => left.some(({ fieldId }) => fieldId === id) && isTried(id));
  const other = risky === "" ? "" : `, nor another hour or route for ${risky}`;
  const route = standing === "" ? "" : `, nor another route with the same works for ${standing}`;
  const not = untriedWords(built, untried);
  const said = `Nothing was found that would help: neither an hour more each evening, a machine nor a person more${other}${route}.`;
  return not === null ? said : `${said} ${not}`;
}
