import type { CropKey } from "../drying/keys.ts";
import { feedTests } from "../harvest/hazards/feed-tests.ts";
import type { CrewCaution, CrewChange, CrewPlanAnswer } from "./answer.ts";
import { OP_WORDS } from "./keys.ts";
import type { CrewJobAnswer } from "./request.ts";
import { changeWords, dayTime, listWords, type SpokenClock, someWords, spanTime } from "./words.ts";

/**
 * The one builder of the texts that customers get and of the sentences of what moved: the answer's `messages` and the
 * page both say what stands here.
 *
 * - `customerTexts(plan, fields, saying)` gives `{ customer, text }[]`, one text a customer who has something to be told.
 *   `fields` are those of the question and, behind them, those that left it since the plan before (with their `name` and
 *   `customer`): who waits for a visit that falls out is told.
 * - `changeTexts(changes, names, saying)` gives one sentence a field and reason, for whoever plans.
 *
 * A customer reads `customerWhy`, where a reason has one: it names no other customer's field and no value.
 */

/** How the texts are said. */
export interface TextSaying {
  /** The farm's zone, and the reader's clock. */
  readonly clock: SpokenClock;
  /** A reason of the plan as the reader says it, such as on their clock; absent = as it stands. */
  readonly quoted?: ((reason: string) => string) | undefined;
  /** The field's area behind its name, "19.8 ac"; absent = none. */
  readonly areaWords?: ((areaHa: number) => string) | undefined;
  /** What times these are, "farm time, America/Chicago"; absent = not said. */
  readonly timesAre?: string | undefined;
}

export interface TextField {
  readonly id: string;
  /** Absent = as the plan's `names` have it, else its id. */
  readonly name?: string | null | undefined;
  readonly customer?: string | null | undefined;
  readonly areaHa?: number | undefined;
  /** Whose crop a laboratory is asked of; absent = nothing is said of it. */
  readonly swath?: { readonly crop: CropKey } | undefined;
}

export interface CustomerText {
  /** Null = of fields without a customer. */
  readonly customer: string | null;
  readonly text: string;
}

export type ToldChange = Pick<
  CrewChange,
  "fieldId" | "op" | "fromUtc" | "toUtc" | "takes" | "who" | "why" | "customerWhy"
>;

/** As much of an answer as the texts are made of. */
export type ToldPlan = Pick<CrewPlanAnswer, "jobs" | "left" | "nowUtc" | "names"> & {
  readonly changes: readonly ToldChange[];
  /** Those of the waits that mowings lie in are told; absent = none. */
  readonly cautions?: readonly Pick<CrewCaution, "fieldId" | "wait">[] | undefined;
};

const ms = (utc: string) => Date.parse(utc);

/** "baling moves from Tue 14 Jul 3 pm to Wed 15 Jul 1 pm", without the reason. */
function moveWords({ op, fromUtc, toUtc, ...other }: ToldChange, { clock }: TextSaying): string {
  const said = (utc: string) => dayTime(ms(utc), clock);
  if (fromUtc === null) return `${OP_WORDS[op]} is new${toUtc === null ? "" : `, ${said(toUtc)}`}`;
  if (toUtc === null) return `${OP_WORDS[op]} on ${said(fromUtc)} falls out`;
  return `${OP_WORDS[op]} ${changeWords(said(fromUtc), said(toUtc), other)}`;
}

/** "mowing, raking and baling from Wed 24 Jun 11 am on fall out". */
function outWords(out: readonly ToldChange[], saying: TextSaying): readonly string[] {
  const [first] = out;
  if (first === undefined) return [];
  if (out.length === 1) return [moveWords(first, saying)];
  const from = Math.min(...out.flatMap(({ fromUtc }) => (fromUtc === null ? [] : [ms(fromUtc)])));
  return [`${listWords(out.map(({ op }) => OP_WORDS[op]))} from ${dayTime(from, saying.clock)} on fall out`];
}

/** What changed of each field, moves of one reason in one sentence, a reason that returns told once. */
export function changeTexts(
  changes: readonly ToldChange[],
  names: Readonly<Record<string, string>>,
  saying: TextSaying,
): readonly string[] {
  const groups: { readonly fieldId: string; readonly why: string; readonly moves: ToldChange[] }[] = [];
  for (const change of changes) {
    // That a field is new says itself.
    const why = change.fromUtc === null ? "" : quoted(change.why, saying);
    const same = groups.find((one) => one.fieldId === change.fieldId && one.why === why);
    const moves = same?.moves ?? [];
    if (same === undefined) groups.push({ fieldId: change.fieldId, why, moves });
    moves.push(change);
  }
  return groups.map(({ fieldId, why, moves }, i) => {
    const isOut = ({ fromUtc, toUtc }: ToldChange) => fromUtc !== null && toUtc === null;
    const words = [
      ...moves.filter((move) => !isOut(move)).map((move) => moveWords(move, saying)),
      ...outWords(moves.filter(isOut), saying),
    ];
    const said = groups.slice(0, i).some((one) => one.why === why);
    // A reason that begins with what is done, or held, tells its own because.
    const joint = /^(left lying|baled|chopped)\b|^its \w+ is held\b.*, because /.test(why)
      ? ", "
      : " because ";
    const because = why === "" ? "" : said ? ", for the same reason" : `${joint}${why}`;
    return `${names[fieldId] ?? fieldId}: ${listWords(words)}${because}.`;
  });
}

function quoted(reason: string, saying: TextSaying): string {
  const bare = reason.replace(/\.$/, "");
  return saying.quoted?.(bare) ?? bare;
}

/** "mowing Mon 29 Jun 9 am to noon"; what is under way, "baling until Mon 29 Jun noon". */
function visitWords({ op, startUtc, endUtc }: CrewJobAnswer, nowMs: number, { clock }: TextSaying): string {
  const [from, to] = [ms(startUtc), ms(endUtc)];
  return from < nowMs
    ? `${OP_WORDS[op]} under way until ${dayTime(to, clock)}`
    : `${OP_WORDS[op]} ${spanTime(from, to, clock)}`;
}

/** A short text to each customer, to copy: who comes when, what changed and why, and that weather decides. */
export function customerTexts(
  plan: ToldPlan,
  fields: readonly TextField[],
  saying: TextSaying,
): readonly CustomerText[] {
  const names = Object.fromEntries(
    fields.map(({ id, name }) => [id, name ?? plan.names.fields[id] ?? plan.names.gone?.[id] ?? id]),
  );
  const customers = [...new Set(fields.map(({ customer }) => customer ?? null))];
  return customers.flatMap((customer) => {
    const own = fields.filter((field) => (field.customer ?? null) === customer);
    const text = textTo(plan, own, names, saying);
    return text === "" ? [] : [{ customer, text }];
  });
}

/** "Have Creek field tested for nitrate before feeding.": of crops that are known to gather it. */
function testWords(fields: readonly TextField[], names: Readonly<Record<string, string>>): string[] {
  const groups = new Map<string, string[]>();
  for (const { id, swath } of fields) {
    const tests = swath === undefined ? "" : listWords(feedTests(swath.crop));
    if (tests !== "") groups.set(tests, [...(groups.get(tests) ?? []), names[id] ?? id]);
  }
  return [...groups].map(([tests, of]) => `Have ${someWords(of)} tested for ${tests} before feeding.`);
}

/** "Creek field is to be mown in a wait (prussic acid after frost) until Mon 6 Jul 12:00: have the standing crop sampled before." */
function waitWords(
  { cautions = [] }: ToldPlan,
  fields: readonly TextField[],
  names: Readonly<Record<string, string>>,
  { clock }: TextSaying,
): string[] {
  return fields.flatMap(({ id }) => {
    const waits = cautions.flatMap(({ fieldId, wait }) => (fieldId === id && wait != null ? [wait] : []));
    if (waits.length === 0) return [];
    const said = waits.map(({ why, untilUtc }) => {
      const lasts =
        untilUtc === null ? "past the weather known so far" : `until ${dayTime(ms(untilUtc), clock)}`;
      return `${why}, ${lasts}`;
    });
    return [
      `${names[id] ?? id} is to be mown within a wait: ${said.join("; ")}. Have the standing crop sampled before it is mown.`,
    ];
  });
}

function textTo(
  plan: ToldPlan,
  own: readonly TextField[],
  names: Readonly<Record<string, string>>,
  saying: TextSaying,
): string {
  const nowMs = ms(plan.nowUtc);
  const reasons: string[] = [];
  const coming: string[] = [];
  let toCome = 0;
  const lines = own.flatMap(({ id, areaHa }) => {
    const area = areaHa === undefined ? undefined : saying.areaWords?.(areaHa);
    const name = `${names[id]}${area === undefined ? "" : ` (${area})`}`;
    const left = plan.left.find(({ fieldId }) => fieldId === id);
    if (left !== undefined) {
      const why = quoted(left.customerWhy ?? left.why, saying).replace(`${names[id]}: `, "");
      const isHeld = left.mownUtc != null || plan.jobs.some((job) => job.fieldId === id && job.op === "mow");
      const because = reasons.includes(why) ? "for the same reason" : why;
      reasons.push(why);
      return [`${name}: ${isHeld ? "" : "not in this plan, "}${because}.`];
    }
    const jobs = plan.jobs.filter(({ fieldId }) => fieldId === id);
    if (jobs.length === 0) return [];
    const visits = jobs
      .filter(({ endUtc }) => ms(endUtc) > nowMs)
      .sort((a, b) => ms(a.startUtc) - ms(b.startUtc));
    toCome += visits.length;
    if (visits.length > 0) coming.push(id);
    return [
      visits.length === 0
        ? `${name}: all done.`
        : `${name}: ${visits.map((job) => visitWords(job, nowMs, saying)).join(", ")}.`,
    ];
  });
  const isNew = (visit: Pick<CrewJobAnswer, "fieldId" | "op">) =>
    plan.changes.some(
      ({ fieldId, op, fromUtc }) => fromUtc === null && fieldId === visit.fieldId && op === visit.op,
    );
  const isKnown = (id: string) => plan.jobs.some((job) => job.fieldId === id && !isNew(job));
  // Of a field that is not in the plan all has been said above, and the hours of a field that is new stand there too.
  const changed = plan.changes.flatMap((change) => {
    const { fieldId, fromUtc, toUtc, why, customerWhy } = change;
    const isToCome = fromUtc !== null || (isKnown(fieldId) && toUtc !== null && ms(toUtc) >= nowMs);
    const isTold = own.some(({ id }) => id === fieldId) && isToCome;
    if (!isTold || plan.left.some((one) => one.fieldId === fieldId)) return [];
    // Who comes is no matter of the customer.
    const { who: _, ...told } = change;
    if (fromUtc === toUtc && change.takes === undefined) return [];
    return [{ ...told, why: customerWhy ?? why }];
  });
  const told = changeTexts(changed, names, saying);
  const zone = saying.timesAre === undefined ? "" : ` (${saying.timesAre})`;
  return [
    ...lines,
    ...(told.length > 0 ? ["Changed:", ...told] : []),
    ...waitWords(
      plan,
      own.filter(({ id }) => coming.includes(id)),
      names,
      saying,
    ),
    ...testWords(
      own.filter(({ id }) => coming.includes(id)),
      names,
    ),
    ...(toCome > 0 ? [`All times hold if the weather does${zone}.`] : []),
  ].join("\n");
}
