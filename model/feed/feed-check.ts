import { ROUTE_CATALOGUE } from "../harvest/routes.ts";
import type { Outcome } from "../limits.ts";
import { animalCautions, readsStricter } from "./animals.ts";
import type { FeedCheckAnswer, Refusal } from "./answer.ts";
import { classify } from "./classify.ts";
import { CALF_TRIAL } from "./dose.ts";
import { ENSILING_COMMON_PRACTICE, isFermented } from "./ensiling.ts";
import { prussicWords } from "./prussic-acid.ts";
import { diluted, horseStop, overTable } from "./ration.ts";
import { type ReadFeed, readFeed, readWater, type WaterRead } from "./reading.ts";
import { checkFeedRequest, type FeedCheckRequest } from "./request.ts";
import { COUNT_WATER_FROM_MGL, waterClasses } from "./water.ts";

/** Reads every result on one base, classifies, counts the intake, dilutes, and says who must decide. */

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
    trial: { gPer100Kg: CALF_TRIAL.value, source: CALF_TRIAL.source },
  };
}

/** Said before all else: what every source says of a feed over a line of prussic acid. */
function prussicCautions(feeds: readonly ReadFeed[]): string[] {
  return feeds.flatMap(({ question: { id }, answer: { prussicAcid } }) =>
    prussicAcid === null || prussicAcid.shareCap === 1
      ? []
      : [
          `${id}: prussic acid ${Math.round(prussicAcid.ppmDm)} ppm of dry matter: ${prussicWords(prussicAcid)}. Ask a veterinarian before any of it is fed.`,
        ],
  );
}

function wrappedForHorses(feeds: readonly ReadFeed[], request: FeedCheckRequest): string[] {
  const stop = horseStop(feeds, request);
  return stop === null ? [] : [`${stop} before any of it is fed.`];
}

function overTrial({ gPer100Kg }: FeedCheckAnswer["intake"]): string[] {
  if (gPer100Kg === null || gPer100Kg < CALF_TRIAL.value) return [];
  return [
    "A day brings as much nitrate for the animal's weight as the least first dose that killed calves in a trial: do not feed it before a veterinarian and a laboratory have seen it.",
  ];
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
        ...prussicCautions(feeds),
        ...wrappedForHorses(feeds, request),
        ...overTrial(intake),
        ...("dilution" in made ? overTable(made.dilution, request) : []),
        ...cautionsOf(feeds, water, request),
      ],
    },
  };
}
