import { inTen } from "../odds/in-ten.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridField, slotUtcMs, stretchEnds } from "./grid.ts";
import { isByDayOnly, lightSlots } from "./grid-slots.ts";
import { type CrewOp, isGather } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import { fatesOf, type MemberFate, meanKept } from "./replay.ts";
import type { CrewFieldRequest } from "./request.ts";
import { rulesOf } from "./rules-of.ts";
import { hasMachineFor, insteadWords, routePlace, SWATH_ROUTES } from "./swath-routes.ts";
import { type PlanFault, planFaults } from "./validity.ts";
import { hasChance } from "./windows/site-weather.ts";
import { dayTime, fieldName, opWord, spokenClock } from "./words.ts";

/** What would help one field at risk: its crop taken at another hour, or by another route. */

/** Hours are tried in steps of this, as far as this around the planned one. */
const STEP_MS = HOUR_MS;
const LATER_MS = 48 * HOUR_MS;

/** A field at risk as the plan has it. */
interface AtRisk {
  readonly built: BuiltCrew;
  readonly f: number;
  readonly field: CrewFieldRequest;
  readonly mow: CrewJob;
  readonly gather: CrewJob;
  readonly now: readonly MemberFate[];
}

interface Way {
  readonly job: CrewJob;
  readonly fates: readonly MemberFate[];
}

/** Every change that brings a field at risk more than the plan does. */
export function fieldHelp(built: BuiltCrew, fieldId: string, jobs: readonly CrewJob[]): HelpfulChange[] {
  const f = built.request.fields.findIndex(({ id }) => id === fieldId);
  const field = built.request.fields[f];
  const own = jobs.filter((job) => job.fieldId === fieldId);
  const mow = own.find(({ op }) => op === "mow");
  const gather = own.find(({ op }) => isGather(op as CrewOp));
  const now = field === undefined ? null : fatesOf(field, built.members[f] ?? [], own);
  if (field === undefined || mow === undefined || gather === undefined || now === null) return [];
  const risk: AtRisk = { built, f, field, mow, gather, now };
  return [atOtherHour(risk, jobs), ...byOtherRoutes(risk)].filter((change) => change !== null);
}

/** What makes an hour impossible; whether the crop is fit then the replay tells. */
const IMPOSSIBLE: readonly PlanFault["code"][] = ["order", "travel", "hours", "lag", "double"];

/** Hours from one on at which somebody is at work, in the light unless the crew works through the night. */
function* hours({ built, field, gather }: AtRisk, fromMs: number, toMs: number): Generator<CrewJob> {
  const { grid, request, sites } = built;
  const site = sites[field.siteId];
  if (site === undefined) return;
  const lit = stretchEnds(lightSlots(grid, site, isByDayOnly(request)));
  const length = gather.endUtcMs - gather.startUtcMs;
  const step = Math.max(1, Math.round(STEP_MS / grid.slotMs));
  const first = Math.max(grid.nowSlot, Math.ceil((fromMs - grid.startUtcMs) / grid.slotMs));
  const slots = Math.ceil(length / grid.slotMs);
  for (let t = first; t < grid.count && slotUtcMs(grid, t) <= toMs; t += step) {
    const isSomebody = grid.people.some(({ freeUntil }) => (freeUntil[t] as number) >= t + slots);
    if (!isSomebody || (lit[t] as number) < t + slots) continue;
    const startUtcMs = slotUtcMs(grid, t);
    yield { ...gather, startUtcMs, endUtcMs: startUtcMs + length };
  }
}

function best(ways: Iterable<Way>): Way | null {
  let found = null as Way | null;
  for (const way of ways) if (found === null || meanKept(way.fates) > meanKept(found.fates)) found = way;
  return found;
}

function told(
  { built, f, field, now }: AtRisk,
  kind: HelpfulChange["kind"],
  fates: readonly MemberFate[],
  words: string,
): HelpfulChange {
  const gain = (built.grid.fields[f] as GridField).worth * (meanKept(fates) - meanKept(now));
  const dry = (of: readonly MemberFate[]) => inTen(of.filter((fate) => fate.dry).length / of.length);
  // Of weather that is known no chance is told.
  const chance = hasChance(built.sites[field.siteId])
    ? `dry enough ${dry(fates)} instead of ${dry(now)}, `
    : "";
  const text = `${fieldName(field)} ${words}: ${chance}worth ${Math.round(gain)} more.`;
  return { kind, fieldId: field.id, machineKind: null, gain, text };
}

/** Taken at another hour by the same machine and person, all else as it is: what a held hour may cost. */
function atOtherHour(risk: AtRisk, jobs: readonly CrewJob[]): HelpfulChange | null {
  const { built, f, field, mow, gather } = risk;
  const rules = rulesOf(built);
  const isFixed = (id: string, op: string) => rules.isFixed(id, op) && (id !== field.id || op !== gather.op);
  const isPossible = (moved: readonly CrewJob[]) =>
    !planFaults({ ...rules, isFixed }, moved).some(({ code }) => IMPOSSIBLE.includes(code));
  const rest = jobs.filter((job) => job !== gather);
  const ways = function* (): Generator<Way> {
    const fromMs = Math.max(mow.endUtcMs, gather.startUtcMs - LATER_MS);
    for (const job of hours(risk, fromMs, gather.startUtcMs + LATER_MS)) {
      const moved = [...rest, job];
      const fates = isPossible(moved) ? fatesOf(field, built.members[f] ?? [], moved) : null;
      if (fates !== null) yield { job, fates };
    }
  };
  const way = best(ways());
  if (way === null) return null;
  const clock = spokenClock(built);
  const at = (job: CrewJob) => dayTime(job.startUtcMs, clock);
  const words = `with ${opWord(gather.op as CrewOp)} ${at(way.job)} instead of ${at(gather)}`;
  return told(risk, "other-hour", way.fates, words);
}

/** What the field would bring by another route for which there are machines, mown as planned and taken at the best hour. */
function byOtherRoutes(risk: AtRisk): (HelpfulChange | null)[] {
  const { built, f, field, mow, gather } = risk;
  const own = routePlace(field);
  return SWATH_ROUTES.map(({ route, op, words }, i) => {
    // A field that is short of drying is not helped by more of it.
    if (own < 0 || i === own || route === "dry-hay" || !hasMachineFor(built.request, op)) return null;
    const { bandWb: _band, package: _pack, store: _store, ...rest } = field;
    const other: CrewFieldRequest = { ...rest, route };
    const toMs = gather.startUtcMs + (i > own ? 0 : LATER_MS);
    const ways = function* (): Generator<Way> {
      for (const hour of hours(risk, mow.endUtcMs, toMs)) {
        const job = { ...hour, op };
        const fates = fatesOf(other, built.members[f] ?? [], [mow, job]);
        if (fates !== null) yield { job, fates };
      }
    };
    const way = best(ways());
    return way === null ? null : told(risk, route, way.fates, insteadWords(words, field));
  });
}
