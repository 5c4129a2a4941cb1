import { ROUTE_CATALOGUE } from "../harvest/routes.ts";
import type { Outcome } from "../limits.ts";
import { animalCautions, readsStricter } from "./animals.ts";
import type { Dilution, FeedAnswer, FeedCheckAnswer, Refusal } from "./answer.ts";
import { classify, defaultTarget, shareCap } from "./classify.ts";
import { asFedKg, maxShare } from "./dilution.ts";
import {
  creditedPpm,
  ENSILING_COMMON_PRACTICE,
  isFermented,
  PRUSSIC_WAIT_WEEKS,
  WAIT_WEEKS,
} from "./ensiling.ts";
import { no3nPpmDm, waterNo3nMgL } from "./nitrate-units.ts";
import { readPrussicAcid } from "./prussic-acid.ts";
import { checkFeedRequest, type FeedCheckRequest, type FeedQuestion, STRICTEST } from "./request.ts";
import { COUNT_WATER_FROM_MGL, waterClasses } from "./water.ts";

/** Reads every result on one base, classifies, counts the intake, dilutes, and says who must decide. */

interface ReadFeed {
  readonly question: FeedQuestion;
  readonly answer: FeedAnswer;
  /** What computes, ppm NO3-N of dry matter. */
  readonly computes: number | null;
  readonly missing: readonly string[];
}

function missingOf({ nitrate, quickTest, prussicAcid }: FeedQuestion): string[] {
  const missing: string[] = [];
  if (nitrate === undefined) missing.push(quickTest === undefined ? "nitrate" : "laboratory result");
  else for (const label of ["ion", "unit", "basis"] as const) if (!nitrate[label]) missing.push(label);
  if (prussicAcid)
    for (const label of ["unit", "basis"] as const)
      if (!prussicAcid[label]) missing.push(`prussicAcid.${label}`);
  return missing;
}

function waitOf({ route, prussicAcid }: FeedQuestion): number | null {
  if (route !== "wrapped-bales" && route !== "wilted-chop" && route !== "direct-chop") return null;
  const weeks = WAIT_WEEKS[route].value;
  return prussicAcid ? Math.max(weeks, PRUSSIC_WAIT_WEEKS.value) : weeks;
}

function readFeed(question: FeedQuestion, { animal, table = STRICTEST }: FeedCheckRequest): ReadFeed {
  const { id, dmFrac, nitrate, route, sampled = "fed-out", prussicAcid } = question;
  const missing = missingOf(question);
  const { ion, unit, basis } = nitrate ?? {};
  const ppm =
    nitrate && ion && unit && basis ? no3nPpmDm({ value: nitrate.value, ion, unit, basis }, dmFrac) : null;
  const credited = ppm === null ? null : creditedPpm(ppm, route ?? null, sampled);
  const computes = credited ?? ppm;
  const classes = computes === null ? [] : classify(computes, animal);
  const strictest = table === STRICTEST ? classes[0] : classes.find((verdict) => verdict.table === table);
  const prussic =
    prussicAcid?.unit && prussicAcid.basis
      ? readPrussicAcid(
          { value: prussicAcid.value, unit: prussicAcid.unit, basis: prussicAcid.basis },
          dmFrac,
        )
      : null;
  return {
    question,
    computes,
    missing,
    answer: {
      id,
      ppm,
      creditedPpm: credited,
      classes,
      strictest: strictest ?? null,
      prussicAcid: prussic && { ppmDm: prussic.ppmDm, classes: prussic.classes },
      waitWeeks: waitOf(question),
    },
  };
}

interface WaterRead {
  readonly mgL: number | null;
  readonly litres: number;
  readonly missing: readonly string[];
}

function readWater({ water }: FeedCheckRequest): WaterRead {
  if (!water) return { mgL: 0, litres: 0, missing: [] };
  const missing = [...(water.ion ? [] : ["ion"]), ...(water.unit ? [] : ["unit"])];
  const mgL = water.ion && missing.length === 0 ? waterNo3nMgL(water.value, water.ion) : null;
  return { mgL, litres: water.litres, missing };
}

/** g NO3-N a day with the feeds and the water; null where one of them cannot be read. */
function intakeOf(feeds: readonly ReadFeed[], water: WaterRead, kg: number): FeedCheckAnswer["intake"] {
  const waterG = water.mgL === null ? null : (water.mgL * water.litres) / 1000;
  let grams: number | null = waterG;
  let dmKg = 0;
  for (const { question, computes } of feeds) {
    dmKg += question.dmKg;
    // A feed of which nothing is eaten adds nothing, whatever it holds.
    const part = question.dmKg === 0 ? 0 : computes === null ? null : (question.dmKg * computes) / 1000;
    grams = grams === null || part === null ? null : grams + part;
  }
  return {
    gNo3N: grams,
    gPer100Kg: grams === null ? null : grams / (kg / 100),
    dietPpm: grams === null || dmKg === 0 ? null : (grams * 1000) / dmKg,
    waterGNo3N: waterG,
  };
}

type Diluted = { readonly dilution: Dilution } | { readonly why: string };

function diluted(feeds: readonly ReadFeed[], water: WaterRead, request: FeedCheckRequest): Diluted {
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
  const cap = shareCap(high.computes, request.animal, request.table ?? STRICTEST);
  // Who sets a target of their own has it weighed out by the plain formula; what the tables say of it stands beside it.
  const noRation =
    cap === 0 && own === null
      ? `${id} is not to be fed to this animal in any share`
      : restG / restDm > left
        ? "the other feeds and the water are above the target by themselves"
        : null;
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
      targetFrom: own === null ? `not restricted by ${found.table}` : "as you set it",
    },
  };
}

/** Said first where weights by the user's own target are more than a table allows. */
function overTable(
  { asFedKg: weights, maxShareDm, tableShareCap }: Dilution,
  { table = STRICTEST }: FeedCheckRequest,
): string[] {
  if (weights === null) return [];
  return Object.entries(maxShareDm).flatMap(([id, share]) => {
    const cap = tableShareCap[id] ?? 1;
    if (share <= cap) return [];
    const by = table === STRICTEST ? "the strictest table" : `the table of ${table}`;
    const allows = cap === 0 ? "none of the ration" : `at most ${Math.round(cap * 100)} % of the ration`;
    return [
      `The weights follow the target that you set: ${by} lets ${id} make up ${allows}. Ask a veterinarian first.`,
    ];
  });
}

function cautionsOf(feeds: readonly ReadFeed[], water: WaterRead, { animal }: FeedCheckRequest): string[] {
  const lines = new Set<string>();
  for (const { question, answer } of feeds) {
    const { route, sampled = "fed-out", quickTest } = question;
    if (route) for (const order of ROUTE_CATALOGUE[route].caution.split(/(?<=\.)\s+/)) lines.add(order);
    if (route === "dry-hay") lines.add("Curing and storing take no nitrate out of hay.");
    if (answer.creditedPpm !== null)
      lines.add(
        `Fermentation is credited 20 % until the fed-out feed is tested (${ENSILING_COMMON_PRACTICE}).`,
      );
    else if (sampled === "standing" && !isFermented(route ?? null))
      lines.add("A standing sample does not replace a test of the feed that is made of it.");
    if (answer.waitWeeks !== null) lines.add(`Do not open before ${answer.waitWeeks} weeks.`);
    if (quickTest === "positive")
      lines.add(
        "A positive field test is wrong in up to half of the cases and still means: laboratory first.",
      );
    if (quickTest === "negative")
      lines.add("A negative field test misses about one high sample in twenty: laboratory before feeding.");
    if (quickTest === "unclear") lines.add("An unclear field test says nothing: laboratory first.");
    if (answer.prussicAcid)
      lines.add("Prussic acid: young regrowth and frost raise it anew; keep the sample cool and undried.");
  }
  if (feeds.length > 1)
    lines.add(
      "Mix physically: a high bale beside a low one is no blend, some animals eat only the high one.",
    );
  if (water.mgL !== null && water.mgL > COUNT_WATER_FROM_MGL)
    lines.add("This water belongs into the total of every ration.");
  lines.add("Bring stock onto it over one to two weeks, never hungry, several small meals.");
  return [...lines, ...animalCautions(animal)];
}

function deferTo(feeds: readonly ReadFeed[], request: FeedCheckRequest): string[] {
  const defer = ["laboratory"];
  const graver = feeds.some(
    ({ answer }) => answer.strictest !== null && answer.strictest.class !== "no-restriction",
  );
  const { animal } = request;
  const asks = ["horse", "mare", "ewe", "lamb", "doe"].includes(animal.class) || readsStricter(animal);
  if (graver || asks || feeds.some(({ answer }) => answer.prussicAcid !== null)) defer.push("veterinarian");
  if (feeds.length > 1 || graver) defer.push("nutritionist or adviser");
  defer.push("local extension service", "label of what was sprayed");
  return defer;
}

/**
 * Screens feeds and water for nitrate (and prussic acid) for one animal.
 *
 * @returns issues where the question is malformed; a result without one of its labels is no such issue, it is refused in
 *   the answer and leaves every total that needs it null
 */
export function feedCheck(request: FeedCheckRequest): Outcome<FeedCheckAnswer> {
  const issues = checkFeedRequest(request);
  if (issues.length > 0) return { ok: false, issues };
  const feeds = request.feeds.map((question) => readFeed(question, request));
  const water = readWater(request);
  const intake = intakeOf(feeds, water, request.animal.kg);
  const made = diluted(feeds, water, request);
  const refusals: Refusal[] = feeds.flatMap(({ question, missing }) =>
    missing.length === 0 ? [] : [{ feedId: question.id, missing }],
  );
  if (water.missing.length > 0) refusals.push({ feedId: "water", missing: water.missing });
  return {
    ok: true,
    value: {
      base: "NO3-N ppm DM",
      feeds: feeds.map(({ answer }) => answer),
      dilution: "dilution" in made ? made.dilution : null,
      noDilution: "why" in made ? made.why : null,
      intake,
      diet: intake.dietPpm === null ? null : classify(intake.dietPpm, request.animal),
      water: request.water && water.mgL !== null ? waterClasses(water.mgL) : null,
      refusals,
      defer: deferTo(feeds, request),
      cautions: [
        ...("dilution" in made ? overTable(made.dilution, request) : []),
        ...cautionsOf(feeds, water, request),
      ],
    },
  };
}
