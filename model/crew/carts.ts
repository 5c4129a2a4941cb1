import type { GridResource } from "./grid.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import type { Span } from "./problem.ts";
import { carriedHaPerH, cartHaPerH, usualRate } from "./rates.ts";
import type { CrewFieldRequest, CrewFixedRequest, CrewMachineRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import { listWords } from "./words.ts";

/** Whose carts are whose: one that follows a chopper follows no other, and hauls bales only while that one does not work. */
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

/** Share of a span in which all of these machines are there. */
function thereShare(machines: readonly CrewMachineRequest[], { fromUtcMs, toUtcMs }: Span): number {
  const offs = machines
    .flatMap(({ offUtc }) => offUtc ?? [])
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
 * takes as many carts as it needs to work at its own rate, the fastest first; the next takes of those that are left. A
 * chopper works only while all of its carts are there: one is taken only if more gets done with it, its times off counted.
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
  const there = new Map(machines.map((one) => [one.id, thereShare([one], days)]));
  const isThere = ({ id }: CrewMachineRequest) => there.get(id) ?? 0;
  const byRate = (a: CrewMachineRequest, b: CrewMachineRequest) => {
    const [x, y] = [cartHaPerH(a), cartHaPerH(b)];
    return x === y ? isThere(b) - isThere(a) : y - x;
  };
  const left = machines.filter(({ kind }) => kind === "cart").sort(byRate);
  if (left.length === 0) return { behind: null };
  const chopped = fields.filter((field) => isToCome(field, "chop"));
  const choppers = machines
    .filter(({ kind }) => kind === "chopper")
    .map((chopper) => {
      const haPerH = fastest(chopper, chopped.length > 0 ? chopped : fields);
      return { chopper, haPerH, does: haPerH * isThere(chopper) };
    })
    .sort((a, b) => b.does - a.does);
  const behind = new Map<string, CrewMachineRequest[]>();
  for (const { chopper, haPerH } of choppers) {
    const own: CrewMachineRequest[] = [];
    const does = (carts: readonly CrewMachineRequest[]) =>
      Math.min(haPerH, carriedHaPerH(carts)) * thereShare([chopper, ...carts], days);
    for (const cart of [...left]) {
      if (carriedHaPerH(own) >= haPerH) break;
      if (does([...own, cart]) <= does(own)) continue;
      own.push(cart);
      left.splice(left.indexOf(cart), 1);
    }
    behind.set(chopper.id, own);
  }
  // Those that are never there together: it waits for its cart.
  for (const own of behind.values()) if (own.length === 0) own.push(...left.splice(0, 1));
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
  if (crews.length > 1) {
    const pairs = chopping.map(({ chopper, carts }) => `${named(carts)} ${follow(carts)} ${called(chopper)}`);
    said.push(
      `No cart is behind two choppers: ${listWords(pairs)}. A chopper works no faster than its own carts carry.`,
    );
  } else if (chopping.some(({ carts }) => Number.isFinite(carriedHaPerH(carts)))) {
    const carts = chopping.flatMap((one) => one.carts);
    said.push(
      `${named(carts)} ${follow(carts)} the chopper: it works no faster than ${carts.length === 1 ? "that carries" : "they carry"}.`,
    );
  }
  for (const { chopper, carts } of crews) {
    const away = carts.filter(({ offUtc }) => (offUtc ?? []).length > 0);
    if (carts.length === 0) said.push(`No cart is left for ${called(chopper)}: it does not chop.`);
    if (away.length > 0) said.push(`${called(chopper)} chops only while ${named(away)} ${are(away)} there.`);
  }
  if (chopping.length > 0) said.push("Who drives a cart behind a chopper is not counted among the people.");
  const all = machines.filter(({ kind }) => kind === KIND_OF_OP.haul);
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
