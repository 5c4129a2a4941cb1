import type { CrewPlanRequest } from "./request.ts";

/** What keeps the visits of two plans apart wherever they meet, in one calendar above all. */

/** FNV-1a (Fowler, Noll, Vo): offset basis and prime of 32 bits, from memory. */
const BASIS = 0x811c9dc5;
const PRIME = 0x01000193;

/** Two such sums over the text, forwards and back: 64 bits in 14 signs. */
export function shortHash(text: string): string {
  let ahead = BASIS;
  let back = BASIS;
  for (let i = 0; i < text.length; i++) {
    ahead = Math.imul(ahead ^ text.charCodeAt(i), PRIME);
    back = Math.imul(back ^ text.charCodeAt(text.length - 1 - i), PRIME);
  }
  return [ahead, back].map((sum) => (sum >>> 0).toString(36).padStart(7, "0")).join("");
}

const named = (list: readonly { readonly id: string; readonly name?: string | null | undefined }[]) =>
  list.map(({ id, name }) => [id, name ?? null]);

/**
 * A plan's id: that of the plan before, so that it stays through all revisions, else one of its own, made of who plans
 * what, where and from when. The same question gives the same id; another farm or the next cut another. Where the plan
 * before tells none, from when is left out: its later revisions have one id, though not that of the first.
 */
export function planIdOf({ previous, ...request }: CrewPlanRequest, nowUtcMs: number): string {
  if (previous?.planId !== undefined) return previous.planId;
  const places = Object.entries(request.sites).map(([id, { name, series }]) => {
    const { latitude, longitude } = series.site;
    return [id, name ?? null, latitude, longitude];
  });
  const fields = request.fields.map(({ id, name, customer, areaHa }) => [
    id,
    name ?? null,
    customer ?? null,
    areaHa,
  ]);
  const whose = [
    places,
    fields,
    named(request.machines),
    named(request.people),
    previous == null ? nowUtcMs : null,
  ];
  return `plan-${shortHash(JSON.stringify(whose))}`;
}
