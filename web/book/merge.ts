/**
 * Two changes of one document brought together: what began, what became of it here, and what became of it elsewhere.
 * Keys that one side left alone are the other's; lists are joined item by item, so that nobody's reading falls out.
 */

type Json = Readonly<Record<string, unknown>>;

export type Merged = { readonly ok: true; readonly doc: Json } | { readonly ok: false };

/** By what the items of a list are told apart: keys of theirs, or all that they hold. */
const LIST_KEYS: Readonly<Record<string, readonly string[] | "content">> = {
  sprays: "content",
  operations: "content",
  results: "content",
  offUtc: "content",
  tests: ["id"],
  heating: ["atUtc", "place"],
};

/** Objects whose keys say each a thing of its own. */
const APART = ["habit", "pricePerTDm", "rates"];

const isJson = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** One text for what says the same: keys in order, what is not known left out. */
function contentOf(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(contentOf).join()}]`;
  if (!isJson(value)) return JSON.stringify(value ?? null);
  const said = Object.keys(value).filter((key) => (value[key] ?? null) !== null);
  return `{${said
    .sort()
    .map((key) => `${JSON.stringify(key)}:${contentOf(value[key])}`)
    .join()}}`;
}

const same = (a: unknown, b: unknown) => contentOf(a) === contentOf(b);

type Items = ReadonlyMap<string, unknown>;

/** The items of a list by what tells them apart; the second of two alike has a name of its own. */
function itemsOf(list: unknown, by: readonly string[] | "content"): Items {
  const items = new Map<string, unknown>();
  for (const item of Array.isArray(list) ? (list as readonly unknown[]) : []) {
    const name = contentOf(by === "content" || !isJson(item) ? item : by.map((key) => item[key] ?? null));
    let nth = 0;
    while (items.has(`${name} ${nth}`)) nth += 1;
    items.set(`${name} ${nth}`, item);
  }
  return items;
}

/** Both took away or changed the same item, and not to the same: which of the two is right, a person has to say. */
function bothChanged(began: Items, mine: Items, theirs: Items): boolean {
  const gone = [...began.keys()].some((name) => !mine.has(name) && !theirs.has(name));
  const addedTo = (items: Items) => [...items.keys()].filter((name) => !began.has(name)).sort();
  return gone && !same(addedTo(mine), addedTo(theirs));
}

/** null where both changed one item. In the order that they have now; what was added here comes last. */
function mergedList(began: Items, mine: Items, theirs: Items): readonly unknown[] | null {
  if (bothChanged(began, mine, theirs)) return null;
  const kept: unknown[] = [];
  for (const name of new Set([...theirs.keys(), ...mine.keys()])) {
    const [b, m, t] = [began.get(name), mine.get(name), theirs.get(name)];
    if (!same(b, m) && !same(b, t) && !same(m, t)) return null;
    const now = same(b, m) ? t : m;
    if (now !== undefined) kept.push(now);
  }
  return kept;
}

/**
 * What stands there with what was changed here put into it. Where both changed the same key that is no list, this
 * side's holds; where both changed the same item of a list it cannot be told.
 */
export function mergedDoc(began: Json, mine: Json, theirs: Json): Merged {
  const doc = new Map(Object.entries(theirs));
  for (const key of new Set([...Object.keys(began), ...Object.keys(mine)])) {
    const [b, m, t] = [began[key], mine[key], theirs[key]];
    if (same(b, m)) continue;
    const by = LIST_KEYS[key];
    if (by !== undefined && !same(b, t)) {
      const list = mergedList(itemsOf(b, by), itemsOf(m, by), itemsOf(t, by));
      if (list === null) return { ok: false };
      doc.set(key, list);
    } else if (APART.includes(key) && isJson(m) && isJson(t)) {
      const within = mergedDoc(isJson(b) ? b : {}, m, t);
      if (!within.ok) return within;
      doc.set(key, within.doc);
    } else if (m === undefined) doc.delete(key);
    else doc.set(key, m);
  }
  return { ok: true, doc: Object.fromEntries(doc) };
}
