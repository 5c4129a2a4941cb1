import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";

/** The routes that a field may be taken by in place of its own. */

/** Routes that take the crop off a swath, the driest first, the work that does, and how it is said. */
export const SWATH_ROUTES = [
  { route: "dry-hay", op: "bale", words: "as dry hay" },
  { route: "wrapped-bales", op: "bale", words: "in wrapped bales" },
  { route: "wilted-chop", op: "chop", words: "as wilted chop" },
] as const satisfies readonly {
  readonly route: CrewFieldRequest["route"];
  readonly op: CrewOp;
  readonly words: string;
}[];

export type SwathRoute = (typeof SWATH_ROUTES)[number];

/** Place of a field's route among them; -1 where it takes the crop standing. */
export function routePlace({ route }: Pick<CrewFieldRequest, "route">): number {
  return SWATH_ROUTES.findIndex((one) => one.route === route);
}

/** "in wrapped bales instead of dry hay". */
export function insteadWords(words: string, { route }: Pick<CrewFieldRequest, "route">): string {
  const before = SWATH_ROUTES[routePlace({ route })]?.words.replace(/^(as|in) /, "") ?? route;
  return `${words} instead of ${before}`;
}

/** Whether the crew has a machine for a work. */
export function hasMachineFor({ machines }: Pick<CrewPlanRequest, "machines">, op: CrewOp): boolean {
  return machines.some(({ kind }) => kind === KIND_OF_OP[op]);
}
