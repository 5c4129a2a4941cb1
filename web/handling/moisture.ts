import type { CropKey } from "../../model/drying/keys.ts";
import type { Band, PackageKey, RouteKey, StoreKey } from "../../model/harvest/index.ts";
import { type MoistureRow, moistureRows } from "../../model/harvest/route-details/index.ts";
import type { Manner } from "../format/manner.ts";
import { bandPct, moisturePct, sentenceCase } from "../format/words.ts";
import { ORIGIN_WORDS, PACKAGE_LABELS, STORE_LABELS } from "../panel/route-words.ts";
import type { RouteChoice } from "../state/inputs.ts";
import type { Moment } from "./moments.ts";
import { pointsText } from "./own.ts";
import type { StripRow } from "./strip.ts";

/** At which moisture a route keeps, by each package and store, and where the crop stands to it. */

const LEAST_PCT = 0;
const MOST_PCT = 90;
export const MOISTURE_SCALE = {
  left: MOST_PCT,
  right: LEAST_PCT,
  ticks: [90, 75, 60, 45, 30, 15, 0],
} as const;

export interface KeptAt {
  readonly name: string;
  readonly band: Band;
  /** Whether it is what the field is set to. */
  readonly chosen: boolean;
}

function nameOf({ package: pack, store }: MoistureRow): string {
  return pack ? PACKAGE_LABELS[pack] : store ? STORE_LABELS[store] : "";
}

/** Every package and store of a route, the chosen one first. */
export function keptAt(
  route: RouteKey,
  crop: CropKey,
  choice: RouteChoice,
  usual: { readonly package: PackageKey; readonly store: StoreKey },
): readonly KeptAt[] {
  return moistureRows(route, crop)
    .map((row) => ({
      name: nameOf(row),
      band: row.band,
      chosen: row.package
        ? row.package === (choice.package ?? usual.package)
        : row.store === (choice.store ?? usual.store),
    }))
    .toSorted((a, b) => Number(b.chosen) - Number(a.chosen));
}

export function moistureStrip(kept: readonly KeptAt[], manner: Manner): readonly StripRow[] {
  return kept.map(({ name, band: { bandWb } }) => ({
    name: sentenceCase(name),
    zones: [
      { from: MOST_PCT, to: bandWb[1] * 100, kind: "bare", text: "too wet" },
      { from: bandWb[1] * 100, to: bandWb[0] * 100, kind: "fits", text: bandPct(bandWb, manner) },
      { from: bandWb[0] * 100, to: LEAST_PCT, kind: "bare", text: "too dry" },
    ],
  }));
}

/** "Round bales keep at 12–16 %. As the window opens the crop is at 15 %: in the band." */
export function moistureSentence(
  kept: readonly KeptAt[],
  moments: readonly Moment[],
  manner: Manner,
): string {
  const [first] = kept;
  if (first === undefined) return "Taken fresh, at any moisture: it is fed at once.";
  const { bandWb } = first.band;
  const keeps = `${sentenceCase(first.name)}: ${bandPct(bandWb, manner)} moisture.`;
  const last = moments.at(-1);
  if (last === undefined) return keeps;
  if (last.key === "cut") return `${keeps} The crop is cut at ${moisturePct(last.wb, manner)}.`;
  const where = {
    now: "The swath is now at",
    window: "As its window opens the swath is at",
    standing: "The standing crop is at",
  }[last.key];
  const points = (wb: number) => pointsText(Math.max(1, wb * 100), 0, manner);
  // The window opens where the course crosses the edge: half a point is no matter.
  const slack = 0.005;
  const stands =
    last.wb > bandWb[1] + slack
      ? `${points(last.wb - bandWb[1])} too wet`
      : last.wb < bandWb[0] - slack
        ? `${points(bandWb[0] - last.wb)} too dry`
        : "in the band";
  return `${keeps} ${where} ${moisturePct(last.wb, manner)}: ${stands}.`;
}

/** Rows of the table: what it is kept in, its band, how well each edge is founded, the source. */
export function moistureTable(kept: readonly KeptAt[], manner: Manner): readonly (readonly string[])[] {
  return kept.map(({ name, band }) => {
    const [dry, wet] = band.edges.map(({ origin }) => ORIGIN_WORDS[origin]);
    const founded = dry === wet ? `${dry}` : `driest ${dry}, wettest ${wet}`;
    return [sentenceCase(name), bandPct(band.bandWb, manner), founded, band.source];
  });
}
