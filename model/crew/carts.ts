import type { GridResource } from "./grid.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { Span } from "./problem.ts";
import { carriedHaPerH, cartHaPerH, usualRate } from "./rates.ts";
import type { CrewFieldRequest, CrewFixedRequest, CrewMachineRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import { listWords } from "./words.ts";

/** Whose carts are whose: one that follows a chopper hauls bales only while that one does not work, nor follows another then. */
export interface CartShare {
  /** Carts behind each chopper, by its id; null = the crew has none, and choppers work at their own rates. */
  readonly behind: ReadonlyMap<string, readonly CrewMachineRequest[]> | null;
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
 * takes as many carts as it needs to work at its own rate, the fastest first; the next takes of those that are left. One for
 * which none is left takes of the others', those that the fewest share, and one with too few of those that are away at times:
 * choppers that share a cart work in turn, and a machine more takes nothing from any. A cart with times off in these days is relied on only where all have some: a
 * chopper works only while its carts are there.
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
  const there = new Map(machines.map((one) => [one.id, thereShare(one, days)]));
  const isThere = ({ id }: CrewMachineRequest) => there.get(id) ?? 0;
  const byRate = (a: CrewMachineRequest, b: CrewMachineRequest) => {
    const [x, y] = [cartHaPerH(a), cartHaPerH(b)];
    return x === y ? isThere(b) - isThere(a) : y - x;
  };
  const carts = machines.filter(({ kind }) => kind === "cart").sort(byRate);
  if (carts.length === 0) return { behind: null };
  const always = carts.filter((cart) => isThere(cart) === 1);
  const relied = always.length > 0 ? always : carts;
  const chopped = fields.filter((field) => isToCome(field, "chop"));
  const choppers = machines
    .filter(({ kind }) => kind === "chopper")
    .map((chopper) => {
      const haPerH = fastest(chopper, chopped.length > 0 ? chopped : fields);
      return { chopper, haPerH, does: haPerH * isThere(chopper) };
    })
    .sort((a, b) => b.does - a.does);
  const left = [...relied];
  const behind = new Map<string, CrewMachineRequest[]>();
  for (const { chopper, haPerH } of choppers) {
    const own: CrewMachineRequest[] = [];
    while (left.length > 0 && carriedHaPerH(own) < haPerH) own.push(...left.splice(0, 1));
    behind.set(chopper.id, own);
  }
  const holders = (cart: CrewMachineRequest) =>
    choppers.filter(({ chopper }) => behind.get(chopper.id)?.includes(cart) === true);
  for (const { chopper, haPerH } of choppers) {
    const own = behind.get(chopper.id) ?? [];
    const hasNone = own.length === 0;
    const mayShare = (cart: CrewMachineRequest) =>
      !own.includes(cart) && (hasNone || holders(cart).every((other) => isThere(other.chopper) < 1));
    while (carriedHaPerH(own) < haPerH) {
      const [next] = relied.filter(mayShare).sort((a, b) => holders(a).length - holders(b).length);
      if (next === undefined) break;
      own.push(next);
    }
  }
  return { behind };
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

/** The machines of the grid, each chopper with the carts that it takes along: it works only while all of them are there. */
export function withCarts(
  { fields, machines }: Pick<CrewPlanRequest, "fields" | "machines">,
  { behind }: CartShare,
  resources: readonly GridResource[],
): readonly GridResource[] {
  if (behind === null || !fields.some(({ ops }) => ops.includes("chop"))) return resources;
  const placeOf = (cart: CrewMachineRequest) => machines.findIndex(({ id }) => id === cart.id);
  const following = new Set([...behind.values()].flatMap((carts) => carts.map(placeOf)));
  return resources.map((one, k): GridResource => {
    if (following.has(k)) return { ...one, follows: true };
    const along = behind.get(one.id)?.map(placeOf) ?? [];
    if (along.length === 0) return one;
    const freeUntil = one.freeUntil.map((end, t) =>
      Math.max(t, Math.min(end, ...along.map((cart) => resources[cart]?.freeUntil[t] ?? t))),
    );
    const isShorter = freeUntil.some((end, t) => end !== one.freeUntil[t]);
    return { ...one, along, freeUntil, ...(isShorter ? { ownUntil: one.freeUntil } : {}) };
  });
}

/** Which carts follow which chopper, and which haul, as far as the plan hangs on it. */
export function cartWords({ fields, machines }: CrewPlanRequest, { behind }: CartShare): string[] {
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
  const all = machines.filter(({ kind }) => kind === KIND_OF_OP.haul);
  const isShared = all.some(
    ({ id }) => crews.filter(({ carts }) => carts.some((cart) => cart.id === id)).length > 1,
  );
  if (crews.length > 1) {
    const pairs = chopping.map(({ chopper, carts }) => `${named(carts)} ${follow(carts)} ${called(chopper)}`);
    const inTurn = isShared ? " Choppers that share a cart work in turn." : "";
    said.push(`${listWords(pairs)}. A chopper works no faster than its own carts carry.${inTurn}`);
  } else if (chopping.some(({ carts }) => Number.isFinite(carriedHaPerH(carts)))) {
    const carts = chopping.flatMap((one) => one.carts);
    said.push(
      `${named(carts)} ${follow(carts)} the chopper: it works no faster than ${carts.length === 1 ? "that carries" : "they carry"}.`,
    );
  }
  for (const { chopper, carts } of crews) {
    const away = carts.filter(({ offUtc }) => (offUtc ?? []).length > 0);
    if (away.length > 0) said.push(`${called(chopper)} chops only while ${named(away)} ${are(away)} there.`);
  }
  if (chopping.length > 0) said.push("Who drives a cart behind a chopper is not counted among the people.");
  const following = new Set(chopping.flatMap(({ carts }) => carts.map(({ id }) => id)));
  const free = all.filter(({ id }) => !following.has(id));
  if (asks("haul") && following.size > 0) {
    const behindOne = all.filter(({ id }) => following.has(id));
    const others =
      free.length === 0 ? "" : `; ${named(free)} ${free.length === 1 ? "hauls" : "haul"} at any time`;
    const haul = behindOne.length === 1 ? "hauls" : "haul";
    const chopper = chopping.length === 1 ? "the chopper does" : "their choppers do";
    said.push(`${named(behindOne)} ${haul} bales only while ${chopper} not work${others}.`);
  }
  return said;
}

function follow(carts: readonly CrewMachineRequest[]): string {
  return carts.length === 1 ? "follows" : "follow";
}

function are(carts: readonly CrewMachineRequest[]): string {
  return carts.length === 1 ? "is" : "are";
}
