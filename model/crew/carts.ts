import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { Span } from "./problem.ts";
import { carriedHaPerH, cartHaPerH, usualRate } from "./rates.ts";
import type { CrewFieldRequest, CrewFixedRequest, CrewMachineRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import { listWords } from "./words.ts";

/** Whose carts are whose: one that follows a chopper follows no other, and hauls no bales while another cart can. */
export interface CartShare {
  /** Carts behind each chopper, by its id; null = the crew has none, and choppers work at their own rates. */
  readonly behind: ReadonlyMap<string, readonly CrewMachineRequest[]> | null;
  /** Ids of the carts that haul bales. */
  readonly hauling: ReadonlySet<string>;
  /** The cart that is reckoned behind a chopper and for the bales too, for want of another; null = there is none. */
  readonly both: CrewMachineRequest | null;
}

/** The fastest that a chopper works on any of these fields, ha/h. */
function fastest(chopper: CrewMachineRequest, fields: readonly CrewFieldRequest[]): number {
  const rates = fields.map(
    (field) => field.haPerH?.chop ?? chopper.haPerH ?? usualRate("chop", field, routeBand(field)[1]),
  );
  return Math.max(0, ...rates);
}

/** Share of a span in which a machine is there. */
function thereShare({ offUtc }: CrewMachineRequest, { fromUtcMs, toUtcMs }: Span): number {
  const offs = (offUtc ?? [])
    .map(({ fromUtc, toUtc }) => ({ from: Date.parse(fromUtc), to: Date.parse(toUtc) }))
    .sort((a, b) => a.from - b.from);
  let until = fromUtcMs;
  let away = 0;
  for (const { from, to } of offs) {
    const [start, end] = [Math.max(from, until), Math.min(to, toUtcMs)];
    if (end <= start) continue;
    away += end - start;
    until = end;
  }
  return toUtcMs > fromUtcMs ? 1 - away / (toUtcMs - fromUtcMs) : 1;
}

/**
 * The carts shared out for the days of a plan. The chopper that gets most done in them, by its rate and its time there,
 * takes as many carts as it needs to work at its own rate, the fastest first; the next takes of those that are left. What
 * no chopper needs hauls bales, and follows the choppers too where there are none to haul.
 *
 * @param machines those of the crew today
 * @param isToCome whether a field's work is asked for and not done yet
 */
export function shareCarts(
  machines: readonly CrewMachineRequest[],
  fields: readonly CrewFieldRequest[],
  isToCome: (field: CrewFieldRequest, op: CrewOp) => boolean,
  days: Span,
): CartShare {
  const carts = machines.filter(({ kind }) => kind === "cart").sort((a, b) => cartHaPerH(b) - cartHaPerH(a));
  const all = new Set(carts.map(({ id }) => id));
  if (carts.length === 0) return { behind: null, hauling: all, both: null };
  const asking = (op: CrewOp) => fields.filter((field) => isToCome(field, op));
  const chopped = asking("chop");
  const isHauled = asking("haul").length > 0;
  const choppers = machines
    .filter(({ kind }) => kind === "chopper")
    .map((chopper) => {
      const haPerH = fastest(chopper, chopped.length > 0 ? chopped : fields);
      return { chopper, haPerH, does: haPerH * thereShare(chopper, days) };
    })
    .sort((a, b) => b.does - a.does);
  const behind = new Map<string, CrewMachineRequest[]>();
  const left = carts;
  for (const { chopper, haPerH } of choppers) {
    const own: CrewMachineRequest[] = [];
    while (left.length > 0 && carriedHaPerH(own) < haPerH) own.push(...left.splice(0, 1));
    behind.set(chopper.id, own);
  }
  if (chopped.length === 0) return { behind, hauling: all, both: null };
  const followed = choppers.filter(({ chopper }) => behind.get(chopper.id)?.length !== 0);
  if (!isHauled) {
    for (const [i, cart] of left.entries()) {
      const follows = followed[i % followed.length];
      if (follows !== undefined) behind.get(follows.chopper.id)?.push(cart);
    }
    return { behind, hauling: all, both: null };
  }
  if (left.length > 0) return { behind, hauling: new Set(left.map(({ id }) => id)), both: null };
  const both = followed.flatMap(({ chopper }) => behind.get(chopper.id) ?? []).at(-1) ?? null;
  return { behind, hauling: new Set(both === null ? all : [both.id]), both };
}

/** The same for a question: works that are held and have ended need no cart any more. */
export function cartShareOf(
  { fields, machines }: Pick<CrewPlanRequest, "fields" | "machines">,
  held: readonly { readonly asked: CrewFixedRequest }[],
  days: Span,
): CartShare {
  const isOver = (fieldId: string, op: CrewOp) =>
    held.some(
      ({ asked }) =>
        asked.fieldId === fieldId &&
        asked.op === op &&
        asked.endUtc != null &&
        Date.parse(asked.endUtc) <= days.fromUtcMs,
    );
  const isToCome = ({ id, ops }: CrewFieldRequest, op: CrewOp) => ops.includes(op) && !isOver(id, op);
  return shareCarts(machines, fields, isToCome, days);
}

/** Which carts follow which chopper, and which haul, as far as the plan hangs on it. */
export function cartWords(
  { fields, machines }: CrewPlanRequest,
  { behind, hauling, both }: CartShare,
): string[] {
  const asks = (op: CrewOp) => fields.some(({ ops }) => ops.includes(op));
  if (behind === null || !asks("chop") || behind.size === 0) return [];
  const called = ({ id, name }: CrewMachineRequest) => name ?? id;
  const named = (list: readonly CrewMachineRequest[]) => listWords(list.map(called));
  const said: string[] = [];
  const crews = machines.flatMap((chopper) => {
    const carts = behind.get(chopper.id);
    return carts === undefined ? [] : [{ chopper, carts }];
  });
  const chopping = crews.filter(({ carts }) => carts.length > 0);
  if (crews.length > 1) {
    const pairs = chopping.map(({ chopper, carts }) => `${named(carts)} ${follow(carts)} ${called(chopper)}`);
    said.push(
      `No cart is behind two choppers: ${listWords(pairs)}. A chopper works no faster than its own carts carry.`,
    );
  } else if (chopping.some(({ carts }) => Number.isFinite(carriedHaPerH(carts)))) {
    said.push("The carts follow the chopper: it works no faster than all of its own together carry.");
  }
  for (const { chopper, carts } of crews) {
    if (carts.length === 0) said.push(`No cart is left for ${called(chopper)}: it does not chop.`);
  }
  if (!asks("haul")) return said;
  if (both !== null) {
    said.push(
      `${called(both)} is reckoned behind a chopper and for hauling bales too, as there is no other cart: see that the two are not at the same time.`,
    );
  } else {
    const free = machines.filter(({ id, kind }) => kind === KIND_OF_OP.haul && hauling.has(id));
    said.push(`${named(free)} ${free.length === 1 ? "hauls" : "haul"} bales.`);
  }
  return said;
}

function follow(carts: readonly CrewMachineRequest[]): string {
  return carts.length === 1 ? "follows" : "follow";
}
