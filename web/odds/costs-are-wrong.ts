import type { ReadInputs } from "../state/read-inputs.ts";

/** True while an entry of what waiting or rain costs cannot be used: no rule is told by the one before it. */
export function costsAreWrong({ waitCost, rainedCost }: ReadInputs["errors"]): boolean {
  return waitCost !== undefined || rainedCost !== undefined;
}
