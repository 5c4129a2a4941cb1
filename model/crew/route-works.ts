import { CREW_DEFAULTS } from "./defaults.ts";
import { type CrewOp, isGather, isPass } from "./keys.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import { hasMachineFor, type SwathRoute } from "./swath-routes.ts";
import { listWords, opWord } from "./words.ts";

/** The works that a field could be taken with by a route, and how they are said. */

/** A field as it is asked for, and what of its works has its hours already. */
export interface AskedWorks {
  readonly request: CrewPlanRequest;
  readonly field: CrewFieldRequest;
  readonly held: readonly CrewOp[];
}

/** The works of another route as they are, as far as it needs them; null where no machine does them, or other work is held. */
export function sameWorks({ request, field, held }: AskedWorks, { route, op }: SwathRoute): CrewOp[] | null {
  const has = (one: CrewOp) => hasMachineFor(request, one);
  const isHay = route === "dry-hay";
  // Wilting needs no tedding, hay wants a rake.
  const teds = field.ops.includes("ted") && (isHay || held.includes("ted"));
  const rakes = field.ops.includes("rake") || (isHay && has("rake"));
  const ops = worksOf(field, op, { teds, rakes, wraps: route === "wrapped-bales" && has("wrap") });
  return has(op) && held.every((one) => ops.includes(one)) ? ops : null;
}

/**
 * Every choice of works that a route leaves, of those for which there are machines: tedded or not, raked or not, and bales
 * that somebody else wraps; those of fewest works first.
 */
export function worksOfRoute(
  { request, field, held }: AskedWorks,
  { route, op }: SwathRoute,
): readonly (readonly CrewOp[])[] {
  const has = (one: CrewOp) => hasMachineFor(request, one);
  const either = (one: CrewOp) => (has(one) ? [false, true] : [false]);
  const wraps = route === "wrapped-bales" && has("wrap") ? [true, false] : [false];
  return either("ted")
    .flatMap((teds) => either("rake").map((rakes) => ({ teds, rakes })))
    .flatMap((passes) => wraps.map((wrap) => worksOf(field, op, { ...passes, wraps: wrap })))
    .filter((ops) => ops.every(has) && held.every((one) => ops.includes(one)));
}

/** The works in their order; hauling as it was asked for. */
function worksOf(
  { ops }: CrewFieldRequest,
  gather: SwathRoute["op"],
  { teds, rakes, wraps }: { readonly teds: boolean; readonly rakes: boolean; readonly wraps: boolean },
): CrewOp[] {
  const hauls = gather === "bale" && ops.includes("haul");
  return [
    "mow",
    ...(teds ? (["ted"] as const) : []),
    ...(rakes ? (["rake"] as const) : []),
    gather,
    ...(wraps ? (["wrap"] as const) : []),
    ...(hauls ? (["haul"] as const) : []),
  ];
}

export function isTakenAsItLies(ops: readonly CrewOp[]): boolean {
  return !ops.some(isPass);
}

/** ", with tedding, without raking", where these are not the works that were asked for; else empty. */
export function otherWorksWords(asked: readonly CrewOp[], ops: readonly CrewOp[]): string {
  const added = ops.filter((op) => isPass(op) && !asked.includes(op));
  const dropped = asked.filter((op) => isPass(op) && !ops.includes(op));
  const said = (word: string, some: readonly CrewOp[]) =>
    some.length === 0 ? "" : `, ${word} ${listWords(some.map(opWord))}`;
  return `${said("with", added)}${said("without", dropped)}`;
}

/** What a route asks for that the list does not have: ", if somebody wraps the bales within 12 h"; empty where it has all. */
export function unlessWords(
  { request, field }: Pick<AskedWorks, "request" | "field">,
  route: SwathRoute["route"],
  ops: readonly CrewOp[],
): string {
  if (route !== "wrapped-bales" || ops.includes("wrap")) return "";
  // Whoever asked for bales that nobody here wraps knows.
  if (field.route === route && !field.ops.includes("wrap")) return "";
  const who = hasMachineFor(request, "wrap") ? "somebody else" : "somebody";
  return `, if ${who} wraps the bales within ${CREW_DEFAULTS.wrapWithinH.value} h`;
}

/** Whether a field's crop is still to be taken, by some work that was asked for. */
export function isToBeTaken({ field, held }: AskedWorks): boolean {
  return field.ops.some(isGather) && !held.some(isGather);
}
