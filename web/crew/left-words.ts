import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import type { Manner } from "../format/manner.ts";
import { listText } from "../format/words.ts";
import { farmWords } from "./farm-words.ts";

/** Fields that the plan does not bring in for one and the same reason. */
export interface LeftTold {
  readonly fieldIds: readonly string[];
  readonly names: readonly string[];
  /** Without a full stop. */
  readonly why: string;
  /** Mown or to be mown, and not brought in. */
  readonly mown: boolean;
}

type Plan = Pick<CrewPlanAnswer, "jobs" | "left" | "names">;

/** A field that is mown, or whose mowing is held, and that nothing brings in. */
export function liesMown({ jobs, left }: Pick<Plan, "jobs" | "left">, fieldId: string): boolean {
  const found = left.find((one) => one.fieldId === fieldId);
  if (found === undefined) return false;
  return found.mownUtc != null || jobs.some((job) => job.fieldId === fieldId && job.op === "mow");
}

/** Why a field is not brought in, without its name before it and the full stop behind. */
export function whyLeftWords(plan: Plan, fieldId: string, manner: Manner): string {
  const why = plan.left.find((one) => one.fieldId === fieldId)?.why ?? "";
  const name = plan.names.fields[fieldId] ?? fieldId;
  const bare = why.startsWith(`${name}: `) ? why.slice(name.length + 2) : why;
  return farmWords(bare.replace(/\.$/, ""), manner);
}

/** The fields left, those of one reason together. */
export function leftTold(plan: Plan, manner: Manner): readonly LeftTold[] {
  const told: LeftTold[] = [];
  for (const { fieldId } of plan.left) {
    const why = whyLeftWords(plan, fieldId, manner);
    const mown = liesMown(plan, fieldId);
    const name = plan.names.fields[fieldId] ?? fieldId;
    const at = told.findIndex((one) => one.why === why && one.mown === mown);
    const same = told[at];
    if (same === undefined) told.push({ fieldIds: [fieldId], names: [name], why, mown });
    else told[at] = { ...same, fieldIds: [...same.fieldIds, fieldId], names: [...same.names, name] };
  }
  return told;
}

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
    return `${only.names[0]}${only.mown ? "" : " is left standing"}: ${only.why}.`;
  const state = (mown: boolean, words: string, word: string) => {
    const names = told.filter((one) => one.mown === mown).flatMap((one) => one.names);
    if (names.length === 0) return [];
    if (names.length === 1) return [`${names[0]} ${word}.`];
    return [`${NUMBERS[names.length] ?? names.length} fields ${words}: ${named(names)}.`];
  };
  return [
    ...state(false, "are left standing", "is left standing"),
    ...state(true, "lie mown and are not brought in", "lies mown and is not brought in"),
  ].join(" ");
}
