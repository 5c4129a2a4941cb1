import { seededRandom } from "../odds/random.ts";
import type { HelpfulChange } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { fieldHelp } from "./field-help.ts";
import type { Grid, GridJob } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import type { FieldReplay } from "./replay.ts";
import { jobsOfField, servedValue } from "./value.ts";
import { withHour, withMachine, withPerson } from "./variants.ts";
import { fieldName, kindWord, listWords } from "./words.ts";

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
 * The one change that helps most: an hour, a machine, a person, or a field at risk taken at another hour or by another route. A gain that the
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
    if (atRisk && !stop()) for (const change of fieldHelp(built, fieldId, crewJobs)) consider(change);
  }
  return found.sort((a, b) => b.gain - a.gain)[0] ?? null;
}

/** Said where fields are left or at risk and nothing was found that would help. */
export function noHelpWords(
  built: BuiltCrew,
  replay: readonly FieldReplay[],
  { value, bound }: { readonly value: number; readonly bound: number },
): string {
  const risky = built.request.fields.filter(({ id }) =>
    replay.some(({ fieldId, atRisk }) => atRisk && fieldId === id),
  );
  const gain = bound - value > LEAST_GAIN * Math.max(1, Math.abs(value));
  const than = gain ? " by more than a longer search might" : "";
  const other = risky.length > 0 ? `, nor another hour or route for ${listWords(risky.map(fieldName))}` : "";
  return `Nothing was found that would help${than}: neither an hour, a machine nor a person more${other}.`;
}
