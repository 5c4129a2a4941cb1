import { type FeedCheckAnswer, HORSE_ADVICE, NITRATE_TABLES, prussicWords } from "../../model/feed/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { fromPage, toPage, unitName } from "../format/units.ts";

/** The feed check in sentences: what is said first, before any table. */

export const ANIMAL_WORDS = {
  "beef-cow": "beef cow",
  "dairy-cow": "dairy cow",
  heifer: "heifer",
  calf: "calf",
  steer: "steer",
  bull: "bull",
  ewe: "ewe",
  lamb: "lamb",
  doe: "doe (goat)",
  horse: "horse",
  mare: "mare",
} as const;

const LABEL_WORDS: Readonly<Record<string, string>> = {
  ion: "what was measured (NO3, NO3-N or KNO3)",
  unit: "the unit",
  basis: "the basis (dry matter or as fed)",
  nitrate: "a laboratory's nitrate",
  "laboratory result": "a laboratory's number: a field test gives none",
  "prussicAcid.basis": "the basis of the prussic acid",
  "prussicAcid.unit": "the unit of the prussic acid",
};

/** "Cornell, reported 2012", "Clemson University (no year)": a table by its author and year; other words as they are. */
export function tableName(key: string): string {
  const table = [...NITRATE_TABLES, HORSE_ADVICE].find((one) => one.key === key);
  if (table === undefined) return key;
  return table.year === null ? `${table.body} (no year)` : `${table.body} ${table.year}`;
}

const BY_TABLE = /^(.+ by )(.+)$/;

/** "not restricted by manitoba" with the table's author and year. */
function targetWords(targetFrom: string): string {
  return targetFrom.replace(BY_TABLE, (_, words: string, key: string) => `${words}${tableName(key)}`);
}

/** "Oat hay cannot be read: it lacks the basis." */
export function refusalWords({ refusals }: FeedCheckAnswer): string[] {
  return refusals.map(
    ({ feedId, missing }) =>
      `${feedId === "water" ? "The water" : feedId} cannot be read: it lacks ${missing.map((label) => LABEL_WORDS[label] ?? label).join(" and ")}.`,
  );
}

/** "Oat hay: 2,711 ppm. By Clemson University (no year): not to be fed: never to pregnant stock." */
export function feedSentences({ feeds }: FeedCheckAnswer, manner: Pick<Manner, "locale">): string[] {
  return feeds.flatMap(({ id, ppm, creditedPpm, strictest }) => {
    if (ppm === null || strictest === null) return [];
    const number = `${numberText(ppm, 0, manner)} ppm`;
    const credited = creditedPpm === null ? "" : `, ${numberText(creditedPpm, 0, manner)} once fermented`;
    return [`${id}: ${number}${credited}. By ${tableName(strictest.table)}: ${strictest.advice}.`];
  });
}

/** "Sudan hay: prussic acid 1,500 ppm of dry matter, 1,320 as fed: do not feed (...); may kill (...)": a line a feed, the gravest first. */
export function prussicSentences(
  { feeds }: FeedCheckAnswer,
  manner: Pick<Manner, "locale">,
): { readonly over: readonly string[]; readonly under: readonly string[] } {
  const over: string[] = [];
  const under: string[] = [];
  for (const { id, prussicAcid } of feeds) {
    if (prussicAcid === null) continue;
    const ppm = (value: number) => numberText(value, 0, manner);
    const line = `${id}: prussic acid ${ppm(prussicAcid.ppmDm)} ppm of dry matter, ${ppm(prussicAcid.ppmAsFed)} as fed: ${prussicWords(prussicAcid)}.`;
    (prussicAcid.shareCap === 1 ? under : over).push(line);
  }
  return { over, under };
}

/** What the grams of a day are set against: no line to feed up to. */
export function trialSentence(
  { intake }: Pick<FeedCheckAnswer, "intake">,
  manner: Pick<Manner, "units" | "locale">,
): string {
  const grams = numberText(fromPage(intake.trial.gPer100Kg, "mass", manner.units), 1, manner);
  return `To set that against: in a trial the least first dose that killed calves lay above ${grams} g for each 100 ${unitName("mass", manner.units)}, given at once (${intake.trial.source}). It is no line to feed up to.`;
}

/** "Haylage: do not open before 4 weeks." */
export function waitSentences({ feeds }: FeedCheckAnswer): string[] {
  return feeds.flatMap(({ id, waitWeeks }) =>
    waitWeeks === null ? [] : [`${id}: do not open before ${waitWeeks} weeks.`],
  );
}

/** "At most 20 % of the dry matter may be oat hay, to stay under 678 ppm (not restricted by Manitoba Agriculture (no year))." */
export function dilutionSentence(
  { dilution, noDilution }: FeedCheckAnswer,
  manner: Pick<Manner, "locale">,
): string {
  if (dilution === null) return noDilution === null ? "" : `No share is worked out: ${noDilution}.`;
  const [entry] = Object.entries(dilution.maxShareDm);
  if (entry === undefined) return "";
  const [id, share] = entry;
  const cap = dilution.tableShareCap[id] ?? null;
  if (dilution.noRation !== null) return `No ration is weighed out: ${dilution.noRation}.`;
  const whole = `At most ${numberText(Math.floor(share * 100), 0, manner)} % of the dry matter may be ${id.toLowerCase()}, to stay at ${numberText(dilution.targetPpm, 0, manner)} ppm, ${targetWords(dilution.targetFrom)}.`;
  if (cap === null) return `${whole} A table limits it further without a number: ask.`;
  if (cap >= share) return whole;
  return `At most ${numberText(cap * 100, 0, manner)} % of the dry matter may be ${id.toLowerCase()}: the tables' own limit, stricter than the dilution to ${numberText(dilution.targetPpm, 0, manner)} ppm.`;
}

/** "Oat hay 4.2 kg, straw 9 kg" as fed; "" where there is no such ration. */
export function asFedWords({ dilution }: FeedCheckAnswer, manner: Pick<Manner, "units" | "locale">): string {
  return Object.entries(dilution?.asFedKg ?? {})
    .map(
      ([id, kg]) =>
        `${id} ${numberText(toPage(kg, "mass", manner.units), 1, manner)} ${unitName("mass", manner.units)}`,
    )
    .join(", ");
}
