import {
  type CrewChange,
  type CrewJobAnswer,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  OP_WORDS,
} from "../../model/crew/index.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { clockText, shortDateClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, quantityText } from "../format/manner.ts";
import { listText } from "../format/words.ts";
import { farmWords, zoneWords } from "./farm-words.ts";
import { leftState, whyLeftWords } from "./left-words.ts";

type Change = Pick<CrewChange, "fieldId" | "op" | "fromUtc" | "toUtc" | "why">;
type Fields = CrewPlanRequest["fields"];

/** "mowing Mon 29 Jun 9 am to noon". */
function visitWords({ op, startUtc, endUtc }: CrewJobAnswer, manner: Manner): string {
  const day = (utc: string) => localDayKey(utcMs(utc), manner.zone);
  const to = day(startUtc) === day(endUtc) ? clockText(endUtc, manner) : shortDateClockText(endUtc, manner);
  return `${OP_WORDS[op]} ${shortDateClockText(startUtc, manner)} to ${to}`;
}

/** "baling moves from Tue 14 Jul 3 pm to Wed 15 Jul 1 pm", without the reason. */
function moveWords({ op, fromUtc, toUtc }: Change, manner: Manner): string {
  const said = (utc: string) => shortDateClockText(utc, manner);
  if (fromUtc === null) return `${OP_WORDS[op]} is new${toUtc === null ? "" : `, ${said(toUtc)}`}`;
  if (toUtc === null) return `${OP_WORDS[op]} on ${said(fromUtc)} falls out`;
  return `${OP_WORDS[op]} moves from ${said(fromUtc)} to ${said(toUtc)}`;
}

/** "mowing, raking and baling from Wed 24 Jun 11 am on fall out". */
function outWords(out: readonly Change[], manner: Manner): readonly string[] {
  const [first] = out;
  if (first === undefined) return [];
  if (out.length === 1) return [moveWords(first, manner)];
  const from = Math.min(...out.flatMap(({ fromUtc }) => (fromUtc === null ? [] : [utcMs(fromUtc)])));
  const works = listText(out.map(({ op }) => OP_WORDS[op]));
  return [`${works} from ${shortDateClockText(from, manner)} on fall out`];
}

/** What changed of each field, moves of one reason in one sentence. */
export function changeTexts(
  changes: readonly Change[],
  names: Readonly<Record<string, string>>,
  manner: Manner,
): readonly string[] {
  const groups: { readonly fieldId: string; readonly why: string; readonly moves: Change[] }[] = [];
  for (const change of changes) {
    // That a field is new says itself.
    const why = change.fromUtc === null ? "" : farmWords(change.why.replace(/\.$/, ""), manner);
    const same = groups.find((one) => one.fieldId === change.fieldId && one.why === why);
    const moves = same?.moves ?? [];
    if (same === undefined) groups.push({ fieldId: change.fieldId, why, moves });
    moves.push(change);
  }
  return groups.map(({ fieldId, why, moves }, i) => {
    const isOut = ({ fromUtc, toUtc }: Change) => fromUtc !== null && toUtc === null;
    const words = [
      ...moves.filter((move) => !isOut(move)).map((move) => moveWords(move, manner)),
      ...outWords(moves.filter(isOut), manner),
    ];
    const said = groups.slice(0, i).some((one) => one.why === why);
    const because = why === "" ? "" : said ? ", for the same reason" : ` because ${why}`;
    return `${names[fieldId] ?? fieldId}: ${listText(words)}${because}.`;
  });
}

export interface CustomerText {
  readonly customer: string | null;
  readonly text: string;
}

/** A short text to each customer, to copy: who comes when, what changed and why, on the reader's clock in the farm's time. */
export function customerTexts(
  plan: Pick<CrewPlanAnswer, "jobs" | "left" | "changes" | "names" | "nowUtc" | "timeZone">,
  fields: Fields,
  reader: Manner,
): readonly CustomerText[] {
  const manner = { ...reader, zone: plan.timeZone };
  const customers = [...new Set(fields.map(({ customer }) => customer ?? null))];
  return customers.map((customer) => {
    const own = fields.filter((field) => (field.customer ?? null) === customer);
    const isLeft = (fieldId: string) => plan.left.some((one) => one.fieldId === fieldId);
    const reasons: string[] = [];
    const lines = own.flatMap(({ id, areaHa }) => {
      const name = `${plan.names.fields[id] ?? id} (${quantityText(areaHa, "area", manner)})`;
      if (isLeft(id)) {
        const why = whyLeftWords(plan, id, manner);
        const because = reasons.includes(why) ? "for the same reason" : why;
        reasons.push(why);
        return [`${name}: ${leftState(plan, id) === "stands" ? "not in this plan, " : ""}${because}.`];
      }
      const visits = plan.jobs
        .filter((job) => job.fieldId === id && utcMs(job.startUtc) >= utcMs(plan.nowUtc))
        .sort((a, b) => utcMs(a.startUtc) - utcMs(b.startUtc));
      return visits.length === 0
        ? []
        : [`${name}: ${visits.map((job) => visitWords(job, manner)).join(", ")}.`];
    });
    // Of a field that is not in the plan all has been said above.
    const moved = plan.changes.filter(
      ({ fieldId }) => own.some(({ id }) => id === fieldId) && !isLeft(fieldId),
    );
    const changed = changeTexts(moved, plan.names.fields, manner);
    const text = [
      ...lines,
      ...(changed.length > 0 ? ["Changed:", ...changed] : []),
      `All times hold if the weather does (${zoneWords(plan.timeZone)}).`,
    ];
    return { customer, text: text.join("\n") };
  });
}
