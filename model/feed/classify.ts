import { type Animal, isHorse, readsStricter } from "./animals.ts";
import {
  CLASS_WORDS,
  HORSE_ADVICE,
  NITRATE_CLASSES,
  NITRATE_TABLES,
  type NitrateClass,
  type NitrateTable,
  type Share,
  type TableBand,
} from "./nitrate-tables.ts";

/** What each table says of a result for one animal, the strictest first. */

export interface Verdict {
  readonly table: string;
  readonly class: NitrateClass;
  readonly advice: string;
}

interface Read extends Verdict {
  readonly share: Share;
}

/** Where a table says limited without a share, it still says less than all of it. */
const UNSAID_SHARE = 0.99;

/** A band as it is for this animal: mares are named in the stricter column of the advice for horses, pregnant or not. */
export function bandFor(
  table: NitrateTable,
  band: TableBand,
  animal: Pick<Animal, "class" | "pregnant" | "young">,
): Omit<TableBand, "upTo" | "tender"> {
  const tender = readsStricter(animal) || (table === HORSE_ADVICE && animal.class === "mare");
  return band.tender && tender ? band.tender : band;
}

function read(table: NitrateTable, ppm: number, animal: Animal): Read {
  const band = table.bands.find(({ upTo }) => ppm <= upTo) ?? table.bands.at(-1);
  if (band === undefined) throw new RangeError(`read: table ${table.key} has no bands`);
  const { class: kind, advice, share } = bandFor(table, band, animal);
  // What is free needs no more words, and what says the same twice is said once.
  const words = CLASS_WORDS[kind];
  const plain =
    kind === "no-restriction" ||
    kind === "nothing-said" ||
    words.includes(advice) ||
    advice === "limited use";
  return { table: table.key, class: kind, advice: plain ? words : `${words}: ${advice}`, share };
}

const gravity = ({ class: kind }: Read) => NITRATE_CLASSES.indexOf(kind);

/** The tables that are read for an animal: horses' own advice stands beside those that are made for cattle. */
export function tablesFor(animal: Pick<Animal, "class">): readonly NitrateTable[] {
  return isHorse(animal) ? [...NITRATE_TABLES, HORSE_ADVICE] : NITRATE_TABLES;
}

/** Those that count where one is chosen. A chosen table, made for cattle, does not put off the advice for horses. */
function counting(animal: Animal, tableKey: string): readonly NitrateTable[] {
  const tables = tablesFor(animal);
  return tableKey === "strictest"
    ? tables
    : tables.filter((table) => table.key === tableKey || table === HORSE_ADVICE);
}

/** The verdict that stands for a feed: the strictest of those that count. @param verdicts as `classify` gives them */
export function standing(verdicts: readonly Verdict[], animal: Animal, tableKey: string): Verdict | null {
  const keys = counting(animal, tableKey).map(({ key }) => key);
  return verdicts.find(({ table }) => keys.includes(table)) ?? null;
}

/** Every table's verdict, the strictest first: by class, then by the share allowed, then in the order of the tables. */
export function classify(ppm: number, animal: Animal): readonly Verdict[] {
  return tablesFor(animal)
    .map((table) => read(table, ppm, animal))
    .toSorted((a, b) => gravity(b) - gravity(a) || (a.share ?? UNSAID_SHARE) - (b.share ?? UNSAID_SHARE))
    .map(({ table, class: kind, advice }) => ({ table, class: kind, advice }));
}

/**
 * The largest share of the ration's dry matter that a table, or the strictest, allows; null where one limits it without
 * saying to how much.
 */
export function shareCap(ppm: number, animal: Animal, tableKey: string): Share {
  const reads = counting(animal, tableKey).map((table) => read(table, ppm, animal));
  const least = Math.min(1, ...reads.flatMap(({ share }) => (share === null ? [] : [share])));
  const limited = reads.some(({ share }) => share === null);
  return least === 1 && limited ? null : least;
}

/** Up to here a table does not restrict this animal, or says nothing yet, ppm NO3-N of dry matter. */
function freeUpTo(table: NitrateTable, animal: Animal): number {
  let edge = 0;
  for (const band of table.bands) {
    const { class: kind } = bandFor(table, band, animal);
    if (kind !== "no-restriction" && kind !== "nothing-said") break;
    edge = band.upTo;
  }
  return edge;
}

/**
 * The strictest edge of "not restricted" for an animal, or that of one table (for horses never past their own advice): what a
 * ration is diluted to.
 */
export function defaultTarget(
  animal: Animal,
  tableKey: string,
): { readonly ppm: number; readonly table: string } {
  const edges = counting(animal, tableKey).map((table) => ({
    ppm: freeUpTo(table, animal),
    table: table.key,
  }));
  const [first] = edges.toSorted((a, b) => a.ppm - b.ppm);
  if (first === undefined) throw new RangeError(`defaultTarget: unknown table, got "${tableKey}"`);
  return first;
}
