import { type Animal, readsStricter } from "./animals.ts";
import { NITROGEN_SHARE } from "./molar-masses.ts";
import {
  CLASS_WORDS,
  NITRATE_CLASSES,
  NITRATE_TABLES,
  type NitrateClass,
  type NitrateTable,
  type Share,
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

function read(table: NitrateTable, ppm: number, animal: Animal): Read {
  const band = table.bands.find(({ upTo }) => ppm <= upTo) ?? table.bands.at(-1);
  if (band === undefined) throw new RangeError(`read: table ${table.key} has no bands`);
  const { class: kind, advice, share } = band.tender && readsStricter(animal) ? band.tender : band;
  // What is free needs no more words, and what says the same twice is said once.
  const words = CLASS_WORDS[kind];
  const plain = kind === "no-restriction" || words.includes(advice) || advice === "limited use";
  return { table: table.key, class: kind, advice: plain ? words : `${words}: ${advice}`, share };
}

const gravity = ({ class: kind }: Read) => NITRATE_CLASSES.indexOf(kind);

/** Every table's verdict, the strictest first: by class, then by the share allowed, then in the order of the tables. */
export function classify(ppm: number, animal: Animal): readonly Verdict[] {
  return NITRATE_TABLES.map((table) => read(table, ppm, animal))
    .toSorted((a, b) => gravity(b) - gravity(a) || (a.share ?? UNSAID_SHARE) - (b.share ?? UNSAID_SHARE))
    .map(({ table, class: kind, advice }) => ({ table, class: kind, advice }));
}

/**
 * The largest share of the ration's dry matter that a table, or the strictest, allows; null where one limits it without
 * saying to how much.
 */
export function shareCap(ppm: number, animal: Animal, tableKey: string): Share {
  const tables =
    tableKey === "strictest" ? NITRATE_TABLES : NITRATE_TABLES.filter(({ key }) => key === tableKey);
  const reads = tables.map((table) => read(table, ppm, animal));
  const least = Math.min(1, ...reads.flatMap(({ share }) => (share === null ? [] : [share])));
  const limited = reads.some(({ share }) => share === null);
  return least === 1 && limited ? null : least;
}

/** Up to here a table does not restrict this animal, ppm NO3-N of dry matter. */
function freeUpTo(table: NitrateTable, animal: Animal): number {
  let edge = 0;
  for (const band of table.bands) {
    const { class: kind } = band.tender && readsStricter(animal) ? band.tender : band;
    if (kind !== "no-restriction") break;
    edge = band.upTo;
  }
  return edge;
}

/** Some advisers hold mares and growing horses to 0.2 % NO3, adult ones to 0.5 % (N.C. Cooperative Extension, 2018, and lay sources). */
const MARE_PPM = 2000 * NITROGEN_SHARE.NO3;

/** The strictest edge of "not restricted" for an animal, or that of one table: what a ration is diluted to. */
export function defaultTarget(
  animal: Animal,
  tableKey: string,
): { readonly ppm: number; readonly table: string } {
  const tables =
    tableKey === "strictest" ? NITRATE_TABLES : NITRATE_TABLES.filter(({ key }) => key === tableKey);
  const edges = tables.map((table) => ({ ppm: freeUpTo(table, animal), table: table.key }));
  if (animal.class === "mare" && tableKey === "strictest")
    edges.push({ ppm: MARE_PPM, table: "advice for mares" });
  const [first] = edges.toSorted((a, b) => a.ppm - b.ppm);
  if (first === undefined) throw new RangeError(`defaultTarget: unknown table, got "${tableKey}"`);
  return first;
}
