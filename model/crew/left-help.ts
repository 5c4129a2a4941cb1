import { inTen } from "../odds/in-ten.ts";
import { placeAlone } from "./alone.ts";
import type { HelpfulChange } from "./answer.ts";
import { type BuiltCrew, buildGrid } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import type { GridField, GridJob } from "./grid.ts";
import { type CrewOp, isGather } from "./keys.ts";
import { fatesOf } from "./replay.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import { crewJob } from "./rules-of.ts";
import { hasMachineFor, insteadWords, routePlace, SWATH_ROUTES } from "./swath-routes.ts";
import { withToldWindows } from "./told-windows.ts";
import { jobsOfField } from "./value.ts";
import { hasChance } from "./windows/site-weather.ts";
import { fieldName, someWords } from "./words.ts";

/** What would help a field that the plan leaves standing or lying: its crop taken wetter, or drier, by another route. */

/** Routes that are tried, of the fields of most worth first, and members that their windows are read from: each takes a while. */
const MOST_ROUTES = 6;
const MEMBERS = 10;
/** Courses of members that may be followed for windows from the replay of one field of another route. */
export const ROUTE_COURSES = 1500;

/** The same task with one field of another route. */
export interface OtherRoute {
  readonly built: BuiltCrew;
  readonly f: number;
  readonly kind: HelpfulChange["kind"];
  /** "Hilltop in wrapped bales instead of dry hay". */
  readonly words: string;
  /** What it asks for that the list does not have; empty where it has all. */
  readonly unless: string;
}

/** The other routes that were tried, and the fields that have one for which none was. */
export interface RoutesTried {
  readonly routes: readonly OtherRoute[];
  readonly untried: readonly number[];
}

/**
 * Every other route off the swath that has its machines and could bring the field in by itself, of the fields that the
 * plan does not bring in: all routes of a field or none.
 */
export function otherRoutes(built: BuiltCrew, jobs: readonly GridJob[], stop: () => boolean): RoutesTried {
  const { grid, placed } = built;
  const left = grid.fields
    .map((field, f) => ({ field, f }))
    .filter(({ field, f }) => field.worth > 0 && jobsOfField(field, f, jobs) === null)
    .filter(({ field }) => !placed.some((held) => held.brokeOff !== null && held.asked.fieldId === field.id))
    .sort((a, b) => b.field.worth - a.field.worth);
  const routes: OtherRoute[] = [];
  const untried: number[] = [];
  let tried = 0;
  for (const { f } of left) {
    const asked = routesOf(built, f);
    if (asked.length === 0) continue;
    if (untried.length > 0 || tried + asked.length > MOST_ROUTES || stop()) {
      untried.push(f);
      continue;
    }
    tried += asked.length;
    for (const { field, words, unless } of asked) {
      const changed = withField(built, f, field);
      const other = changed === null ? null : withPlace(changed, f, stop);
      if (other !== null) routes.push({ built: other, f, kind: field.route, words, unless });
    }
  }
  return { routes, untried };
}

/** The task if the field finds a place in it by itself, by windows from the replay where it needs them; null where it does not. */
function withPlace(built: BuiltCrew, f: number, stop: () => boolean): BuiltCrew | null {
  if (placeAlone(built.grid, f) !== null) return built;
  const told = built.told.filter((id) => id !== built.grid.fields[f]?.id);
  return withToldWindows({ ...built, told }, [], [], stop, { only: [f], courses: ROUTE_COURSES });
}

/** A field of another route, and how that is said. */
interface AskedRoute extends Pick<OtherRoute, "words" | "unless"> {
  readonly field: CrewFieldRequest & { readonly route: (typeof SWATH_ROUTES)[number]["route"] };
}

function routesOf({ request, placed }: BuiltCrew, f: number): AskedRoute[] {
  const field = request.fields[f] as CrewFieldRequest;
  const own = routePlace(field);
  const has = (op: CrewOp) => hasMachineFor(request, op);
  const held = placed.filter(({ asked }) => asked.fieldId === field.id).map(({ asked }) => asked.op);
  if (own < 0) return [];
  // Wetter ones first: they are taken sooner.
  const others = [...SWATH_ROUTES.slice(own + 1), ...SWATH_ROUTES.slice(0, own).reverse()];
  return others.flatMap(({ route, op, words }): AskedRoute[] => {
    const ops = route === "dry-hay" ? hayOps(field.ops, has) : opsOf(field.ops, op, held, has);
    if (!has(op) || !held.every((one) => ops.includes(one))) return [];
    const { bandWb: _band, package: _pack, store: _store, haPerH, ...rest } = field;
    const { bale: _bale, chop: _chop, ...rates } = haPerH ?? {};
    const unless =
      route === "wrapped-bales" && !ops.includes("wrap")
        ? `, if somebody wraps the bales within ${CREW_DEFAULTS.wrapWithinH.value} h`
        : "";
    return [
      {
        field: { ...rest, route, ops, haPerH: rates },
        words: `${fieldName(field)} ${insteadWords(words, field)}`,
        unless,
      },
    ];
  });
}

/** The works of another route: wilting needs no tedding; wrapping where there is a wrapper; hauling as before. */
function opsOf(
  ops: readonly CrewOp[],
  gather: CrewOp,
  held: readonly CrewOp[],
  has: (op: CrewOp) => boolean,
): readonly CrewOp[] {
  const kept = ops.filter((op) => op !== "wrap" && !isGather(op) && (op !== "ted" || held.includes("ted")));
  const before = kept.filter((op) => op !== "haul");
  const wraps: readonly CrewOp[] = gather === "bale" && has("wrap") ? ["wrap"] : [];
  const hauls = kept.filter((op) => op === "haul" && gather === "bale");
  return [...before, gather, ...wraps, ...hauls];
}

/** The works of dry hay: raked where there is a rake, tedded where it was to be. */
function hayOps(ops: readonly CrewOp[], has: (op: CrewOp) => boolean): readonly CrewOp[] {
  const before: readonly CrewOp[] = ["mow", "ted"];
  const rakes: readonly CrewOp[] = ops.includes("rake") || has("rake") ? ["rake"] : [];
  const hauls = ops.filter((op) => op === "haul");
  return [...before.filter((op) => ops.includes(op)), ...rakes, "bale", ...hauls];
}

/** The same task with another field in the place of one; null where that is no task. */
function withField(built: BuiltCrew, f: number, field: CrewFieldRequest): BuiltCrew | null {
  const { grid, request } = built;
  const fixed = built.placed.filter(({ asked }) => asked.fieldId === field.id).map(({ asked }) => asked);
  const alone: CrewPlanRequest = { ...request, fields: [field], fixed, previous: null };
  const outcome = buildGrid(alone, MEMBERS, grid);
  const found = outcome.ok ? outcome.value.grid.fields[0] : undefined;
  if (!outcome.ok || found === undefined) return null;
  const put = <T>(list: readonly T[], one: T) => list.map((other, at) => (at === f ? one : other));
  return {
    ...built,
    grid: { ...grid, fields: put<GridField>(grid.fields, found) },
    request: { ...request, fields: put(request.fields, field) },
    windows: put(built.windows, outcome.value.windows[0] as BuiltCrew["windows"][number]),
  };
}

/** "Hilltop in wrapped bales instead of dry hay: brought in with a chance of 9 in 10 that it is dry enough, worth 900 more." */
export function otherRouteWords(
  { built, f, words, unless }: OtherRoute,
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
  return `${words}${unless}: ${chance}worth ${worth}.`;
}

/** That other routes were not tried for some fields that are left; null where they were for all that have one. */
export function untriedWords({ request }: BuiltCrew, untried: readonly number[]): string | null {
  if (untried.length === 0) return null;
  const names = untried.flatMap((f) => request.fields[f] ?? []).map(fieldName);
  return `Other routes were tried for the left fields of most worth, not for ${someWords(names)}.`;
}
