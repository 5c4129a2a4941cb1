import type { CrewJobAnswer, CrewPlanAnswer } from "../../model/crew/index.ts";

/** True where a work is done with a machine, or by one that takes it along. */
export function isWith(
  { carts }: Pick<CrewPlanAnswer, "carts">,
  { machineId }: Pick<CrewJobAnswer, "machineId">,
  id: string,
): boolean {
  return machineId === id || carts?.[machineId]?.includes(id) === true;
}
