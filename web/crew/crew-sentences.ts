import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import { dayDateText, dayText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";

const WEEK_MS = 6 * 86_400_000;

/** "Friday"; with its date where a weekday alone would leave the week in doubt. */
function byDay(endMs: number, { nowUtc, timeZone: zone }: CrewPlanAnswer): string {
  return endMs - utcMs(nowUtc) < WEEK_MS ? dayText(endMs, { zone }) : dayDateText(endMs, { zone });
}

/** "5 of 6 fields in by Friday. Long meadow is left: no dry day before Monday." */
export function crewSentence(plan: CrewPlanAnswer): string {
  const all = Object.keys(plan.names.fields).length;
  const served = all - plan.left.length;
  const ends = plan.jobs.map(({ endUtc }) => utcMs(endUtc));
  const by = ends.length > 0 ? ` by ${byDay(Math.max(...ends), plan)}` : "";
  const head = served === 0 ? "No field can be brought in." : `${served} of ${all} fields in${by}.`;
  const left = plan.left.map(({ fieldId, why }) => {
    const name = plan.names.fields[fieldId] ?? fieldId;
    const words = why.startsWith(`${name}: `) ? why.slice(name.length + 2) : why;
    return `${name} is left: ${words.replace(/\.$/, "")}.`;
  });
  return [head, ...left.slice(0, 1)].join(" ");
}

/** How much better any plan could be, in plain words. */
export function gapSentence({ gap, boundWeak }: CrewPlanAnswer, manner: Pick<Manner, "locale">): string {
  if (!Number.isFinite(gap)) return "How much better a plan could be is not known.";
  // Rounded up: a proof must not promise more than it proved.
  const pct = Math.ceil(gap * 1000 - 1e-6) / 10;
  const words =
    pct <= 0 ? "No plan can be better." : `No plan can be more than ${numberText(pct, 1, manner)} % better.`;
  return boundWeak ? `${words} (A rough bound, that forgets windows and order.)` : words;
}
