import { inTen } from "../odds/in-ten.ts";
import { seededRandom } from "../odds/random.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, slotUtcMs } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import { type FieldReplay, fatesOf, meanKept } from "./replay.ts";
import type { CrewFieldRequest } from "./request.ts";
import { jobsOfField, servedValue } from "./value.ts";
import { withHour, withMachine, withPerson } from "./variants.ts";
import { fieldName, kindWord } from "./words.ts";

const ROUNDS = 40;
/** A smaller share of the value is no help worth naming. */
const LEAST_GAIN = 0.001;

/** The value of the best plan found from this one in a changed task, never less than this one. */
function valueIn(grid: Grid, jobs: readonly GridJob[], stop: () => boolean): number {
  const start = grid.fields.map((field, f) => {
    const own = jobsOfField(field, f, jobs);
    return own === null ? null : { jobs: own, value: servedValue(field, own) };
  });
  return searchPlan(grid, { rounds: ROUNDS, random: seededRandom(1), stop, start }).value;
}

/** How much of the planning value the replay expects: gains of both kinds are told on its scale. At most 1. */
function expectedShare(grid: Grid, replay: readonly FieldReplay[], value: number): number {
  if (replay.length === 0 || value <= 0) return 1;
  const kept = replay.reduce((sum, { fieldId, expectedLossPct }) => {
    const worth = grid.fields.find(({ id }) => id === fieldId)?.worth ?? 0;
    return sum + worth * (1 - expectedLossPct / 100);
  }, 0);
  return Math.min(1, kept / value);
}

/**
 * The one change that helps most: an hour, a machine, a person, or a field at risk moved to wrapped bales. A gain that the
 * plan might bring without the change, because nothing better was ruled out, is not told.
 */
export function mostHelpful(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  crewJobs: readonly CrewJob[],
  { value, bound }: { readonly value: number; readonly bound: number },
  replay: readonly FieldReplay[],
  stop: () => boolean,
): HelpfulChange | null {
  const { grid, request } = built;
  const found: HelpfulChange[] = [];
  const consider = (change: HelpfulChange) => {
    if (change.gain > LEAST_GAIN * Math.max(1, Math.abs(value))) found.push(change);
  };
  // What a plan searched longer would bring without any change is no help of the change.
  const polished = Math.max(value, valueIn(grid, jobs, stop));
  const unproved = Math.max(0, bound - value);
  const expected = expectedShare(grid, replay, value);
  const gainIn = (changed: Grid) => {
    const gain = valueIn(changed, jobs, stop) - polished;
    return gain > unproved ? gain * expected : 0;
  };
  const money = (gain: number) => `${Math.round(gain)} more in value`;

  const hour = gainIn(withHour(grid));
  consider({
    kind: "hour",
    fieldId: null,
    machineKind: null,
    gain: hour,
    text: `One hour more each evening brings ${money(hour)}.`,
  });
  for (const op of new Set(request.fields.flatMap(({ ops }) => ops))) {
    const gain = gainIn(withMachine(grid, op));
    const kind = KIND_OF_OP[op];
    consider({
      kind: "machine",
      fieldId: null,
      machineKind: kind,
      gain,
      text: `One more ${kindWord(kind)} brings ${money(gain)}.`,
    });
  }
  const person = gainIn(withPerson(grid));
  consider({
    kind: "person",
    fieldId: null,
    machineKind: null,
    gain: person,
    text: `One more person brings ${money(person)}.`,
  });
  for (const { fieldId, atRisk } of replay) {
    const f = request.fields.findIndex(({ id }) => id === fieldId);
    const field = request.fields[f];
    if (!atRisk || field?.route !== "dry-hay") continue;
    const wrapped = asWrapped(built, f, field, crewJobs);
    if (wrapped !== null) consider(wrapped);
  }
  return found.sort((a, b) => b.gain - a.gain)[0] ?? null;
}

/** What the field would bring in wrapped bales, mown as planned and baled at the hour that suits most members. */
function asWrapped(
  built: BuiltCrew,
  f: number,
  field: CrewFieldRequest,
  jobs: readonly CrewJob[],
): HelpfulChange | null {
  const members = built.members[f] ?? [];
  const now = fatesOf(field, members, jobs);
  const mow = jobs.find(({ fieldId, op }) => fieldId === field.id && op === "mow");
  const bale = jobs.find(({ fieldId, op }) => fieldId === field.id && op === "bale");
  if (now === null || mow === undefined || bale === undefined) return null;
  const { bandWb: _hay, package: _pack, ...rest } = field;
  const wrapped: CrewFieldRequest = { ...rest, route: "wrapped-bales" };
  const { grid } = built;
  let best: { readonly kept: number; readonly dry: number; readonly atMs: number } | null = null;
  const length = bale.endUtcMs - bale.startUtcMs;
  const step = Math.max(1, Math.round((2 * HOUR_MS) / grid.slotMs));
  for (let t = Math.ceil((mow.endUtcMs - grid.startUtcMs) / grid.slotMs); t < grid.count; t += step) {
    const startUtcMs = slotUtcMs(grid, t);
    if (startUtcMs > bale.startUtcMs) break;
    if (!grid.people.some(({ freeUntil }) => (freeUntil[t] as number) > t)) continue;
    const fates = fatesOf(wrapped, members, [mow, { ...bale, startUtcMs, endUtcMs: startUtcMs + length }]);
    if (fates === null) continue;
    const kept = meanKept(fates);
    const dry = fates.filter((fate) => fate.dry).length / fates.length;
    if (best === null || kept > best.kept) best = { kept, dry, atMs: startUtcMs };
  }
  if (best === null) return null;
  const gain = (grid.fields[f] as GridField).worth * (best.kept - meanKept(now));
  const before = inTen(now.filter(({ dry }) => dry).length / now.length);
  return {
    kind: "wrapped-bales",
    fieldId: field.id,
    machineKind: null,
    gain,
    text: `${fieldName(field)} in wrapped bales instead of dry hay: dry enough ${inTen(best.dry)} instead of ${before}, worth ${Math.round(gain)} more.`,
  };
}
