import { inTen } from "../odds/in-ten.ts";
import { placeAlone } from "./alone.ts";
import type { HelpfulChange } from "./answer.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import type { GridField, GridJob } from "./grid.ts";
import { type CrewOp, isPass } from "./keys.ts";
import { fatesOf } from "./replay.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import {
  type AskedWorks,
  isTakenAsItLies,
  isToBeTaken,
  otherWorksWords,
  sameWorks,
  unlessWords,
  worksOfRoute,
} from "./route-works.ts";
import { crewJob } from "./rules-of.ts";
import { insteadWords, routePlace, SWATH_ROUTES, type SwathRoute } from "./swath-routes.ts";
import { withToldWindows } from "./told-windows.ts";
import { jobsOfField } from "./value.ts";
import type { FieldWindows } from "./windows/field-windows.ts";
import { hasChance } from "./windows/site-weather.ts";
import { fieldName, someWords } from "./words.ts";

/** What would help a field that the plan leaves standing or lying: its crop taken wetter, or drier, by another route. */

/** Routes that are tried, of the fields of most worth first, and members that their windows are read from: each takes a while. */
const MOST_ROUTES = 6;
const MEMBERS = 10;
/** Other works that are tried beside them: so many that take the swath as it lies, and so many others. */
const MOST_WORKS = 12;
/** Courses of members that may be followed for windows from the replay of one field of another route. */
export const ROUTE_COURSES = 1500;

/** The same task with one field of another route, or with other works. */
export interface OtherRoute {
  readonly built: BuiltCrew;
  readonly f: number;
  readonly kind: HelpfulChange["kind"];
  readonly ops: readonly CrewOp[];
  /** "Hilltop in wrapped bales instead of dry hay, without raking". */
  readonly words: string;
}

/** The other routes that were tried, and the fields that have one for which none was. */
export interface RoutesTried {
  readonly routes: readonly OtherRoute[];
  readonly untried: readonly number[];
}

/**
 * Every other route off the swath that has its machines and could bring the field in by itself, of the fields that the
 * plan does not bring in: all routes of a field or none. The works stay as they are, as far as the route needs them.
 */
export function otherRoutes(built: BuiltCrew, jobs: readonly GridJob[], stop: () => boolean): RoutesTried {
  const routes: OtherRoute[] = [];
  const untried: number[] = [];
  let tried = 0;
  for (const f of leftFields(built, jobs)) {
    const asked = askedWorks(built, f);
    const same = routesOf(asked).flatMap((one): Way[] => {
      const ops = one.route === asked.field.route ? null : sameWorks(asked, one);
      return ops === null ? [] : [{ ...one, ops }];
    });
    if (same.length === 0) continue;
    if (untried.length > 0 || tried + same.length > MOST_ROUTES || stop()) {
      untried.push(f);
      continue;
    }
    tried += same.length;
    routes.push(...withWays(built, f, same, stop));
  }
  return { routes, untried };
}

/**
 * The same for the works that a route leaves to choose, its own too: without tedding or raking, with them, or wrapped by
 * somebody else. Of most fields little is tried before much of one.
 *
 * @param which those that take the swath as it lies, or those that ted or rake it
 * @param isWorth asked before each: whether bringing the field in would be more than what was found so far
 * @returns the fields for which some were not tried though it would have been more
 */
export function tryOtherWorks(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  which: "as-it-lies" | "worked",
  attempt: (other: OtherRoute) => void,
  isWorth: (f: number) => boolean,
  stop: () => boolean,
): readonly number[] {
  const untried: number[] = [];
  let tried = 0;
  for (const f of leftFields(built, jobs)) {
    const asked = askedWorks(built, f);
    const ways = otherWays(asked).filter(({ ops }) => isTakenAsItLies(ops) === (which === "as-it-lies"));
    if (ways.length === 0 || !isWorth(f)) continue;
    const some = stop() ? [] : ways.slice(0, MOST_WORKS - tried);
    if (some.length < ways.length) untried.push(f);
    tried += some.length;
    if (some.length === 0) continue;
    for (const other of withWays(built, f, some, stop)) {
      attempt(other);
      if (!isWorth(f)) break;
    }
  }
  return untried.filter(isWorth);
}

/** Fields that the plan does not bring in, of most worth first, but for those whose work broke off. */
function leftFields({ grid, placed }: BuiltCrew, jobs: readonly GridJob[]): readonly number[] {
  return grid.fields
    .map((field, f) => ({ field, f }))
    .filter(({ field, f }) => field.worth > 0 && jobsOfField(field, f, jobs) === null)
    .filter(({ field }) => !placed.some((held) => held.brokeOff !== null && held.asked.fieldId === field.id))
    .sort((a, b) => b.field.worth - a.field.worth)
    .map(({ f }) => f);
}

/** A route with its works. */
type Way = SwathRoute & { readonly ops: readonly CrewOp[] };

function askedWorks({ request, placed }: BuiltCrew, f: number): AskedWorks {
  const field = request.fields[f] as CrewFieldRequest;
  const held = placed.filter(({ asked }) => asked.fieldId === field.id).map(({ asked }) => asked.op);
  return { request, field, held };
}

/** The routes off the swath: wetter ones than its own first, they are taken sooner; none of a field that is taken standing. */
function routesOf({ field }: AskedWorks): readonly SwathRoute[] {
  const own = routePlace(field);
  return own < 0 ? [] : [...SWATH_ROUTES.slice(own), ...SWATH_ROUTES.slice(0, own).reverse()];
}

/** All ways that are neither what was asked for nor its works by another route; those that ask for no more works first. */
function otherWays(asked: AskedWorks): readonly Way[] {
  if (!isToBeTaken(asked)) return [];
  const more = ({ ops }: Way) => ops.filter((op) => isPass(op) && !asked.field.ops.includes(op)).length;
  const ways = routesOf(asked).flatMap((one) => {
    const same = one.route === asked.field.route ? asked.field.ops : sameWorks(asked, one);
    return worksOfRoute(asked, one)
      .filter((ops) => ops.join() !== same?.join())
      .map((ops): Way => ({ ...one, ops }));
  });
  return ways.sort((a, b) => more(a) - more(b));
}

/** The task with each of these ways for one field, of those by which the field finds a place by itself. */
function* withWays(
  built: BuiltCrew,
  f: number,
  ways: readonly Way[],
  stop: () => boolean,
): Generator<OtherRoute> {
  const { request } = built;
  const field = request.fields[f] as CrewFieldRequest;
  const { bandWb: _band, package: _pack, store: _store, haPerH, ...rest } = field;
  const { bale: _bale, chop: _chop, ...rates } = haPerH ?? {};
  const tasks = withFields(
    built,
    f,
    // Its own route keeps what was said of it.
    ways.map(({ route, ops }) =>
      route === field.route ? { ...field, ops } : { ...rest, route, ops, haPerH: rates },
    ),
  );
  for (const [i, task] of tasks.entries()) {
    const { route, ops, words } = ways[i] as Way;
    const other = withPlace(task, f, stop);
    if (other === null) continue;
    const instead = route === field.route ? "" : ` ${insteadWords(words, field)}`;
    const said = `${instead}${otherWorksWords(field.ops, ops)}${unlessWords({ request, field }, route, ops)}`;
    yield { built: other, f, kind: route, ops, words: `${fieldName(field)}${said}` };
  }
}

/**
 * The task if the field finds a place in it by itself, by windows from the replay where it needs them, among `told` then;
 * null where it does not.
 */
function withPlace(task: BuiltCrew, f: number, stop: () => boolean): BuiltCrew | null {
  const built = { ...task, told: task.told.filter((id) => id !== task.grid.fields[f]?.id) };
  if (placeAlone(built.grid, f) !== null) return built;
  return withToldWindows(built, [], [], stop, { only: [f], courses: ROUTE_COURSES });
}

/** The same task with each of these in the place of one field; none where that is no task. */
function withFields(built: BuiltCrew, f: number, fields: readonly CrewFieldRequest[]): readonly BuiltCrew[] {
  const { grid, request, sites } = built;
  const id = request.fields[f]?.id;
  const fixed = built.placed.filter(({ asked }) => asked.fieldId === id).map(({ asked }) => asked);
  const alone: CrewPlanRequest = { ...request, fields, fixed, previous: null };
  const outcome = buildGrid(alone, MEMBERS, { frame: grid, sites, members: built.members[f] ?? [] });
  if (!outcome.ok) return [];
  const { value } = outcome;
  const put = <T>(list: readonly T[], one: T) => list.map((other, at) => (at === f ? one : other));
  return fields.map((field, i) => ({
    ...built,
    grid: { ...grid, fields: put(grid.fields, value.grid.fields[i] as GridField) },
    request: { ...request, fields: put(request.fields, field) },
    windows: put(built.windows, value.windows[i] as FieldWindows),
  }));
}

/** "Hilltop in wrapped bales instead of dry hay, without raking: brought in with a chance of 9 in 10 that it is dry enough, worth 900 more." */
export function otherRouteWords(
  { built, f, words }: OtherRoute,
  jobs: readonly GridJob[],
  worth: string,
): string {
  const field = built.request.fields[f] as CrewFieldRequest;
  const own = jobs.filter((job) => job.field === f).map((job) => crewJob(built, job));
  const fates = fatesOf(field, built.members[f] ?? [], own);
  const dry = fates === null ? 0 : fates.filter((fate) => fate.dry).length / fates.length;
  const chance =
    fates !== null && hasChance(built.sites[field.siteId])
      ? `brought in, dry enough ${inTen(dry)}, `
      : "brought in, ";
  return `${words}: ${chance}worth ${worth}.`;
}

/** Left fields for which something was not tried that might have helped more. */
export interface Untried {
  /** No other route was. */
  readonly routes: readonly number[];
  /** Not all other works were. */
  readonly works: readonly number[];
}

/** That other routes or other works were not tried for some fields that are left; null where they were for all that have one. */
export function untriedWords({ request }: BuiltCrew, { routes, works }: Untried): string | null {
  const names = (some: readonly number[]) =>
    someWords(some.flatMap((f) => request.fields[f] ?? []).map(fieldName));
  const some = works.filter((f) => !routes.includes(f));
  const said = [
    ...(routes.length === 0
      ? []
      : [`Other routes were tried for the left fields of most worth, not for ${names(routes)}.`]),
    ...(some.length === 0
      ? []
      : [`Not all other works (with tedding or raking, or without) were tried for ${names(some)}.`]),
  ];
  return said.length === 0 ? null : said.join(" ");
}
