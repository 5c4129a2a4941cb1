import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText, sentenceCase } from "../format/words.ts";
import { farmWords } from "./farm-words.ts";

/** Fields that the plan does not bring in for one and the same reason. */
export interface LeftTold {
  readonly fieldIds: readonly string[];
  readonly names: readonly string[];
  /** Without a full stop. */
  readonly why: string;
  readonly state: LeftState;
}

/** What becomes of a field that is not brought in: it stands, lies mown, or would lie once a mowing still ahead is done. */
export type LeftState = "stands" | "lies" | "would-lie";

type Plan = Pick<CrewPlanAnswer, "jobs" | "left" | "names" | "nowUtc">;

/** Null for a field that is brought in. */
export function leftState({ jobs, left, nowUtc }: Omit<Plan, "names">, fieldId: string): LeftState | null {
  const found = left.find((one) => one.fieldId === fieldId);
  if (found === undefined) return null;
  if (found.mownUtc != null) return "lies";
  const mow = jobs.find((job) => job.fieldId === fieldId && job.op === "mow");
  if (mow === undefined) return "stands";
  return utcMs(mow.startUtc) < utcMs(nowUtc) ? "lies" : "would-lie";
}

/** Over and under the name of a field that is not brought in. */
export const LEFT_WORDS: Readonly<Record<LeftState, string>> = {
  stands: "Left standing",
  lies: "Lies mown, not brought in",
  "would-lie": "Would lie mown: do not mow",
};

/** Why a field is not brought in, without its name before it and the full stop behind. */
export function whyLeftWords(plan: Plan, fieldId: string, manner: Manner): string {
  const why = plan.left.find((one) => one.fieldId === fieldId)?.why ?? "";
  const name = plan.names.fields[fieldId] ?? fieldId;
  const bare = why.startsWith(`${name}: `) ? why.slice(name.length + 2) : why;
  return farmWords(bare.replace(/\.$/, ""), manner);
}

function inOrder({ left, names }: Plan): readonly string[] {
  const known = Object.keys(names.fields);
  const at = (id: string) => (known.includes(id) ? known.indexOf(id) : known.length);
  return left.map(({ fieldId }) => fieldId).toSorted((a, b) => at(a) - at(b));
}

/** The fields left in the order of the list, those of one reason together. */
export function leftTold(plan: Plan, manner: Manner): readonly LeftTold[] {
  const told: LeftTold[] = [];
  for (const fieldId of inOrder(plan)) {
    const why = whyLeftWords(plan, fieldId, manner);
    const state = leftState(plan, fieldId) ?? "stands";
    const name = plan.names.fields[fieldId] ?? fieldId;
    const at = told.findIndex((one) => one.why === why && one.state === state);
    const same = told[at];
    if (same === undefined) told.push({ fieldIds: [fieldId], names: [name], why, state });
    else told[at] = { ...same, fieldIds: [...same.fieldIds, fieldId], names: [...same.names, name] };
  }
  return told;
}

const ALONE: Readonly<Record<LeftState, (name: string, why: string) => string>> = {
  stands: (name, why) => `${name} is left standing: ${why}.`,
  lies: (name, why) => `${name}: ${why}.`,
  // The reason begins with the hour at which the mowing is held, and gives no cause for that hour.
  "would-lie": (name, why) =>
    `${name} would lie mown: do not mow. ${sentenceCase(why.replace(", but it would lie mown (do not mow)", ", but nothing would bring it in"))}.`,
};

const NUMBERS = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"] as const;
/** More names than these make no sentence; all stand with their reasons below it. */
const MOST_NAMED = 6;

/** "A, B and 3 more". */
function named(names: readonly string[]): string {
  if (names.length <= MOST_NAMED) return listText(names);
  const shown = names.slice(0, MOST_NAMED - 1);
  return `${shown.join(", ")} and ${names.length - shown.length} more`;
}

/** "Two fields are left standing: A and B."; of a single one its reason too. Empty where all are brought in. */
export function leftSentence(plan: Plan, manner: Manner): string {
  const told = leftTold(plan, manner);
  const [only] = told;
  if (only !== undefined && plan.left.length === 1)
    // What is done of a field stands in its reason: "mown Mon 10:00 and left lying: ...".
    return ALONE[only.state](only.names[0] ?? "", only.why);
  const said = (state: LeftState, words: string, word: string) => {
    const ids = inOrder(plan).filter((id) => leftState(plan, id) === state);
    const names = ids.map((id) => plan.names.fields[id] ?? id);
    if (names.length === 0) return [];
    if (names.length === 1) return [`${names[0]} ${word}.`];
    return [`${NUMBERS[names.length] ?? names.length} fields ${words}: ${named(names)}.`];
  };
  return [
    ...said("stands", "are left standing", "is left standing"),
    ...said("lies", "lie mown and are not brought in", "lies mown and is not brought in"),
    ...said("would-lie", "would lie mown: do not mow", "would lie mown: do not mow"),
  ].join(" ");
}
