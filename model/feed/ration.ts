import { isHorse, readsStricter } from "./animals.ts";
import type { Dilution, FeedAnswer } from "./answer.ts";
import { classify, defaultTarget, shareCap } from "./classify.ts";
import { asFedKg, maxShare } from "./dilution.ts";
import { NITRATE_TABLES } from "./nitrate-tables.ts";
import { PRUSSIC_EDGES } from "./prussic-acid.ts";
import type { ReadFeed, WaterRead } from "./reading.ts";
import { type FeedCheckRequest, STRICTEST } from "./request.ts";

/** What share of the ration a high feed may have, and why there is none. */

export type Diluted = { readonly dilution: Dilution } | { readonly why: string };

function tableWords(key: string = STRICTEST): string {
  if (key === STRICTEST) return "the strictest table";
  return `the table of ${NITRATE_TABLES.find((table) => table.key === key)?.body ?? key}`;
}

const SILENT = NITRATE_TABLES.filter(({ bands }) => bands[0]?.class === "nothing-said").map(({ key }) => key);

/** A table that prints no free class is not said to give one. */
function targetFrom(table: string): string {
  return SILENT.includes(table) ? `where warning begins by ${table}` : `not restricted by ${table}`;
}

/** Whether a feed is to be in the ration: it is eaten, or its largest share is asked for. */
const isIn = ({ question }: ReadFeed) => question.dmKg > 0 || question.maxShare === true;

/** Why prussic acid leaves no ration to be weighed out: no published line says how much of such a feed may be in it. */
export function prussicStop(feeds: readonly ReadFeed[]): string | null {
  const eaten = feeds.filter(isIn);
  const ppm = ({ prussicAcid }: FeedAnswer) => Math.round(prussicAcid?.ppmDm ?? 0);
  const killing = eaten.find(({ answer }) => answer.prussicAcid?.shareCap === 0);
  if (killing)
    return `${killing.question.id} holds ${ppm(killing.answer)} ppm of prussic acid in its dry matter; from ${PRUSSIC_EDGES.killsDmPpm} it may kill, and it is not to be fed`;
  const unread = eaten.find(({ question, answer }) => question.prussicAcid && answer.prussicAcid === null);
  if (unread) return `the prussic acid of ${unread.question.id} cannot be read`;
  const high = eaten.find(({ answer }) => answer.prussicAcid?.shareCap === null);
  if (high)
    return `${high.question.id} holds ${ppm(high.answer)} ppm of prussic acid in its dry matter, over a published line: not as the only feed, and no source says how much of a ration it may be; ask a veterinarian`;
  return null;
}

/** Why wrapped bales leave horses no ration. */
export function horseStop(
  feeds: readonly ReadFeed[],
  { animal }: Pick<FeedCheckRequest, "animal">,
): string | null {
  if (!isHorse(animal)) return null;
  const wrapped = feeds.find((feed) => isIn(feed) && feed.question.route === "wrapped-bales");
  return wrapped
    ? `${wrapped.question.id} is wrapped bales, which are not for horses: botulism; ask a veterinarian`
    : null;
}

/**
 * Why nitrate leaves no ration. A target of one's own has it weighed out past a table's share (a caution says so), but never
 * a feed that any table forbids to pregnant or other tender stock, whichever is named, nor a diet that a table forbids to
 * this animal.
 */
function nitrateStop(
  feeds: readonly ReadFeed[],
  dietPpm: number,
  { animal, table = STRICTEST, targetPpmNo3N }: FeedCheckRequest,
): string | null {
  const own = typeof targetPpmNo3N === "number";
  // Neither a target of one's own nor a table that is named lets tender stock have what any table forbids it.
  const by = own || readsStricter(animal) ? STRICTEST : table;
  const forbidden = feeds.find((feed) => isIn(feed) && shareCap(feed.computes ?? 0, animal, by) === 0);
  if (forbidden && (!own || readsStricter(animal)))
    return `${forbidden.question.id} is not to be fed to this animal in any share by ${tableWords(by)}, whatever it is mixed with`;
  const verdict = own ? classify(dietPpm, animal)[0] : undefined;
  if (verdict?.class !== "do-not-feed") return null;
  return `the target that you set makes a diet of ${Math.round(dietPpm)} ppm, which is not to be fed to this animal by ${tableWords(verdict.table)}`;
}

/** The smaller of what the nitrate tables and what prussic acid leave; null where one limits without a number. */
function capOf({ computes, answer }: ReadFeed, { animal, table = STRICTEST }: FeedCheckRequest) {
  const nitrate = shareCap(computes ?? 0, animal, table);
  const prussic = answer.prussicAcid?.shareCap ?? (answer.prussicAcid === null ? 1 : null);
  if (prussic === 0) return 0;
  return prussic === null && nitrate === 1 ? null : nitrate;
}

export function diluted(feeds: readonly ReadFeed[], water: WaterRead, request: FeedCheckRequest): Diluted {
  const high = feeds.find(({ question }) => question.maxShare);
  if (high === undefined) return { why: "no feed asked for its largest share" };
  const rest = feeds.filter((feed) => feed !== high);
  const totalDm = feeds.reduce((sum, { question }) => sum + question.dmKg, 0);
  const restDm = rest.reduce((sum, { question }) => sum + question.dmKg, 0);
  if (rest.length === 0 || restDm === 0)
    return { why: "there is no other feed in the ration to mix it with" };
  if (high.computes === null) return { why: `the nitrate of ${high.question.id} is not known` };
  let restG = 0;
  for (const { question, computes } of rest) {
    if (question.dmKg === 0) continue;
    if (computes === null) return { why: `the nitrate of ${question.id} is not known` };
    restG += question.dmKg * computes;
  }
  if (water.mgL === null) return { why: "the nitrate of the water is not known" };
  const found = defaultTarget(request.animal, request.table ?? STRICTEST);
  const own = request.targetPpmNo3N ?? null;
  const targetPpm = own ?? found.ppm;
  // What comes with the water is not left for the feed.
  const left = targetPpm - (water.mgL * water.litres) / totalDm;
  const share = maxShare(left, high.computes, restG / restDm);
  const { id } = high.question;
  const cap = capOf(high, request);
  const dietPpm =
    share * high.computes + (1 - share) * (restG / restDm) + (water.mgL * water.litres) / totalDm;
  const noRation =
    prussicStop(feeds) ??
    horseStop(feeds, request) ??
    nitrateStop(feeds, dietPpm, request) ??
    (restG / restDm > left ? "the other feeds and the water are above the target by themselves" : null);
  return {
    dilution: {
      maxShareDm: { [id]: share },
      tableShareCap: { [id]: cap },
      asFedKg:
        noRation === null
          ? asFedKg(
              own === null ? Math.min(share, cap ?? 1) : share,
              totalDm,
              high.question,
              rest.map(({ question }) => question),
            )
          : null,
      noRation,
      targetPpm,
      targetFrom: own === null ? targetFrom(found.table) : "as you set it",
    },
  };
}

/** Said first where weights by the user's own target are more than a table allows. */
export function overTable(
  { asFedKg: weights, maxShareDm, tableShareCap }: Dilution,
  { table }: FeedCheckRequest,
): string[] {
  if (weights === null) return [];
  return Object.entries(maxShareDm).flatMap(([id, share]) => {
    const cap = tableShareCap[id] ?? 1;
    if (share <= cap) return [];
    const by = tableWords(table);
    const allows = cap === 0 ? "none of the ration" : `at most ${Math.round(cap * 100)} % of the ration`;
    return [
      `The weights follow the target that you set: ${by} lets ${id} make up ${allows}. Ask a veterinarian first.`,
    ];
  });
}
