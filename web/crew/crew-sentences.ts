import type { CrewOp, CrewPlanAnswer, NotDryCause } from "../../model/crew/index.ts";
import { isGather, OP_WORDS } from "../../model/crew/keys.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { dayClockText, dayText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { listText } from "../format/words.ts";
import { leftSentence } from "./left-words.ts";

/** From here on nothing is called weak. */
const SURE = 0.95;

/** Below this chance a field does not count as brought in. */
const HARDLY = 0.1;

/** From here on how much better a plan may be is told in times, not in percent. */
const TOLD_IN_TIMES = 2;

/** "Friday 8 pm"; with its date where a weekday alone would leave the week in doubt. */
function byTime(endMs: number, { nowUtc, timeZone: zone }: CrewPlanAnswer, { hour12 }: Manner): string {
  const clock = { zone, hour12, nearDay: localDayKey(utcMs(nowUtc), zone) };
  // What ends at midnight ends on the day that is over then.
  const isMidnight = localDayKey(endMs - 1, zone) !== localDayKey(endMs, zone);
  return isMidnight ? `${dayText(endMs - 1, clock)} midnight` : dayClockText(endMs, clock);
}

/** Fields that are still to be taken at an hour at which the crop will hardly be dry: held or moved there, for nobody plans so. */
function hardlyDry({ replay, jobs, nowUtc }: CrewPlanAnswer): readonly string[] {
  const isAhead = (fieldId: string) =>
    jobs.some((job) => job.fieldId === fieldId && isGather(job.op) && utcMs(job.startUtc) >= utcMs(nowUtc));
  return replay
    .filter(({ chanceDry, atRisk }) => (chanceDry === null ? atRisk : chanceDry < HARDLY))
    .flatMap(({ fieldId }) => (isAhead(fieldId) ? [fieldId] : []));
}

/**
 * "5 of 6 fields in by Friday 8 pm, 6 in 10. Long meadow is left standing: no dry day before Monday." The chance is that of
 * all of them finished dry, where it is known and a plan stands as it was worked out.
 *
 * @param impossible works that somebody moved to where they cannot be carried out
 */
export function crewSentence(
  plan: CrewPlanAnswer,
  manner: Manner,
  impossible: readonly { readonly fieldId: string }[] = [],
): string {
  const all = Object.keys(plan.names.fields).length;
  const left = new Set([...plan.left, ...impossible].map(({ fieldId }) => fieldId));
  const wet = hardlyDry(plan).filter((fieldId) => !left.has(fieldId));
  const served = all - left.size - wet.length;
  const isIn = (fieldId: string) => !left.has(fieldId) && !wet.includes(fieldId);
  const ends = plan.jobs.filter(({ fieldId }) => isIn(fieldId)).map(({ endUtc }) => utcMs(endUtc));
  const by = ends.length > 0 ? ` by ${byTime(Math.max(...ends), plan, manner)}` : "";
  const isWhole = wet.length + impossible.length === 0;
  const chance = isWhole && plan.worth != null ? `, ${inTen(plan.worth.chanceAllDry)}` : "";
  const none = wet.length === 0 ? "No field can be brought in." : "No field is likely to be brought in.";
  const head = served === 0 ? none : `${served} of ${all} fields in${by}${chance}.`;
  const wetNames = listText(wet.map((fieldId) => plan.names.fields[fieldId] ?? fieldId));
  const stand = wet.length === 1 ? "it stands" : "they stand";
  const doubt = wet.length === 0 ? "" : `${wetNames}, as ${stand} in the plan, will hardly be dry.`;
  const broken = Object.entries(plan.names.fields).filter(([id]) =>
    impossible.some(({ fieldId }) => fieldId === id),
  );
  const names = listText(broken.map(([, name]) => name));
  const moved = broken.length === 0 ? "" : `As it was moved, this plan cannot be carried out for ${names}.`;
  return [moved, head, doubt, leftSentence(plan, manner)].filter(Boolean).join(" ");
}

/** What may keep a field from being finished dry, as a clause after "because". */
const NOT_DRY_WORDS: Readonly<Record<NotDryCause, (op: CrewOp) => string>> = {
  rain: (op) => `it may rain during the ${OP_WORDS[op]}`,
  "rain-before": () => "it may still be too wet after rain",
  slow: () => "it may not be dry enough by then",
  dew: () => "dew may lie on it then",
};

/** The most frequent thing that keeps a field from being finished dry in the replay; null where nothing does. */
export function notDryWords({ replay, jobs }: Pick<CrewPlanAnswer, "replay" | "jobs">, fieldId: string) {
  const [most] = replay.find((one) => one.fieldId === fieldId)?.notDry ?? [];
  const gather = jobs.find((job) => job.fieldId === fieldId && isGather(job.op));
  return most === undefined ? null : NOT_DRY_WORDS[most.cause](gather?.op ?? "bale");
}

/** "Weakest: Hilltop, 4 in 10, because it may rain during the baling." Empty where nothing is known of chances. */
export function chanceSentence(plan: Pick<CrewPlanAnswer, "replay" | "jobs" | "names">): string {
  const known = plan.replay.flatMap(({ fieldId, chanceDry }) =>
    chanceDry === null ? [] : [{ fieldId, chanceDry }],
  );
  const weakest = known.reduce<(typeof known)[number] | null>(
    (least, one) => (least === null || one.chanceDry < least.chanceDry ? one : least),
    null,
  );
  if (weakest === null || weakest.chanceDry >= SURE) return "";
  const name = plan.names.fields[weakest.fieldId] ?? weakest.fieldId;
  const why = notDryWords(plan, weakest.fieldId);
  return `Weakest: ${name}, ${inTen(weakest.chanceDry)}${why === null ? "" : `, because ${why}`}.`;
}

/**
 * How much better any plan could be, in plain words: in the windows that the plan has, where some were read again, or where
 * a field is left that others might bring in.
 */
export function gapSentence(
  { gap, boundWeak, boundKind, method, left = [], windowsReread = [] }: CrewPlanAnswer,
  manner: Pick<Manner, "locale">,
): string {
  // The gap is a share of the bound; what a better plan would gain is told as a share of this one.
  if (!Number.isFinite(gap) || gap >= 1) return "How much better a plan could be is not known.";
  const times = 1 / (1 - gap);
  // Rounded up: a proof must not promise more than it proved.
  const pct = Math.ceil((times - 1) * 1000 - 1e-6) / 10;
  const more =
    times < TOLD_IN_TIMES
      ? `more than ${numberText(pct, 1, manner)} % better`
      : `worth more than ${numberText(Math.ceil(times * 10 - 1e-6) / 10, 1, manner)} times as much`;
  const better = pct <= 0 ? "better" : more;
  const fields = windowsReread.length === 1 ? "1 field" : `${windowsReread.length} fields`;
  const within = windowsReread.length + left.length === 0 ? "" : " in these windows";
  const again = windowsReread.length === 0 ? "" : ` (those of ${fields} were read again)`;
  const words = `No plan can be ${better}${within}${again}.`;
  // Of the quick plans before a longer search nobody expects that they are the last word.
  if (boundKind === "step-milp" && method.endsWith("-cut-by-clock") && pct > 0)
    return `${words} The time was up: a longer search may find a better plan.`;
  return boundWeak ? `${words} (A rough bound, that forgets the order of the works.)` : words;
}
