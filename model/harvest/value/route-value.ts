import { coefficient } from "../../coefficient.ts";
import type { OperationKind } from "../../drying/keys.ts";
import type { PackageKey, RouteKey } from "../keys.ts";
import { type LossStep, lossTotal } from "../losses/loss-chain.ts";
import { PASS_MACHINES, typicalRateHaPerH } from "../machines.ts";
import { balesPerHa, usualBaleKg } from "./bales.ts";
import { type OwnRates, priceOf, ratesWith } from "./prices.ts";

export interface RouteValueQuestion {
  readonly route: RouteKey;
  readonly package: PackageKey;
  /** Standing dry matter at the stubble that is meant, t/ha. Never what a course has left: its passes are in the steps. */
  readonly dryMatterTHa: number;
  readonly steps: readonly LossStep[];
  readonly passes: readonly OperationKind[];
  /** Hours of each machine per ha: 1 / (ha/h). */
  readonly mowHaPerH: number | null;
  readonly haPerH: number | null;
  /** Moisture as the machine takes it, wet basis: preservative is dosed on wet weight. */
  readonly takenAtWb: number;
  readonly layers?: number | undefined;
  /** Share of the wet weight; 0 = none. */
  readonly preservativeShare?: number | undefined;
  /** Own people at the machine that brings it in. */
  readonly people?: number | undefined;
  readonly baleDmKg?: number | undefined;
  readonly prices?: Partial<Record<RouteKey, number | undefined>> | undefined;
  readonly rates?: OwnRates | undefined;
  /**
   * Share of the field that is taken, 0-1; absent = all of it. Green chop and grazing take a day's need at a time: what they
   * leave standing counts as nothing here, so that values per hectare of field stand beside each other.
   */
  readonly takenShare?: number | undefined;
  /** Own hours on a hectare taken, where they are more than the machine's: daily turns. */
  readonly labourHPerHa?: number | undefined;
  /** Days that the crop still stands before it is cut or taken, and what each costs of the feed's worth, per cent. */
  readonly waitDays?: number | undefined;
  readonly waitPctPerDay?: number | undefined;
}

export interface CostLine {
  readonly item:
    | "mow"
    | OperationKind
    | "bale"
    | "haul"
    | "wrap"
    | "film"
    | "preservative"
    | "chop"
    | "fill"
    | "graze"
    | "labour"
    | "waiting";
  readonly perHa: number;
}

/** Per hectare of field; `PerT` is per tonne of dry matter that is fed out, null where nothing is left. */
export interface RouteValue {
  readonly fedTHa: number;
  readonly keptFraction: number;
  readonly grossPerHa: number;
  readonly costs: readonly CostLine[];
  readonly costPerHa: number;
  readonly valuePerHa: number;
  readonly costPerT: number | null;
  readonly valuePerT: number | null;
  readonly bales: number;
  readonly preservativeKg: number;
  /** Of mower, tedder, rake and the machine that brings it in, h. */
  readonly machineHours: number;
  readonly labourHours: number;
}

/** Film is priced at this many layers. */
const PRICED_LAYERS = 6;
/** Own people at the machine that brings it in, where nothing else is said. */
export const USUAL_PEOPLE = coefficient(
  1,
  "people",
  "assumed",
  "one driver; an in-line wrapper needs two",
  [0, 4],
);

/** What a day of standing costs of the feed's worth. */
export const WAIT_PCT_PER_DAY = coefficient(
  1,
  "% of the feed's worth a day",
  "assumed",
  "between nothing (corn still filling) and 2.7 % (4 points of a relative feed value of 150 a day in spring growth, Ohio State, stored forage)",
  [0, 2.7],
);

/** Losses from the store on come after the baler and the wagon. */
const AFTER_MACHINE: readonly LossStep["step"][] = ["storage", "feeding-out", "grazing"];

/** What a route leaves to feed, what it costs and what it is worth, on a hectare. */
export function routeValue(question: RouteValueQuestion): RouteValue {
  const { route, package: pack, dryMatterTHa, steps, passes, takenAtWb, layers = PRICED_LAYERS } = question;
  const rates = ratesWith(question.rates);
  const price = priceOf(route, question.prices);
  const baled = route === "dry-hay" || route === "wrapped-bales";
  const wrapped = route === "wrapped-bales";
  const inField = steps.filter(({ step }) => !AFTER_MACHINE.includes(step));
  const broughtTHa = dryMatterTHa * lossTotal(inField).keptFraction;
  const { keptFraction } = lossTotal(steps);
  const bales = baled ? balesPerHa(broughtTHa, question.baleDmKg ?? usualBaleKg(pack, wrapped)) : 0;
  const share = route === "dry-hay" ? (question.preservativeShare ?? 0) : 0;
  const preservativeKg = (share * broughtTHa * 1000) / (1 - takenAtWb);
  const swath = route === "dry-hay" || route === "wrapped-bales" || route === "wilted-chop";
  const hours = (haPerH: number | null) => (haPerH === null ? 0 : 1 / haPerH);
  const takeHours = hours(question.haPerH);
  // No throughput limits a tedder or a rake: every yield gives the same rate.
  const passHours = passes.reduce((sum, kind) => sum + 1 / typicalRateHaPerH(PASS_MACHINES[kind], 1), 0);
  const machineHours = takeHours + (swath ? hours(question.mowHaPerH) + passHours : 0);
  const people = question.people ?? USUAL_PEOPLE.value;
  const labourHours = Math.max(takeHours, question.labourHPerHa ?? 0) * people;
  const taken = question.takenShare ?? 1;
  const line = (item: CostLine["item"], perHa: number): CostLine[] =>
    perHa > 0 ? [{ item, perHa: perHa * taken }] : [];
  const costs: CostLine[] = [
    ...(swath ? line("mow", rates.mowPerHa) : []),
    ...(swath ? passes.flatMap((kind) => line(kind, rates.passPerHa[kind])) : []),
    ...(baled ? line("bale", bales * rates.balePerBale[pack]) : []),
    ...(baled ? line("haul", bales * rates.haulPerBale[pack]) : []),
    ...(wrapped ? line("wrap", bales * rates.wrapPerBale) : []),
    ...(wrapped ? line("film", bales * rates.filmPerBale * (layers / PRICED_LAYERS)) : []),
    ...line("preservative", preservativeKg * rates.preservativePerKg),
    ...(baled || route === "grazing" ? [] : line("chop", rates.chopPerHa)),
    ...(route === "wilted-chop" || route === "direct-chop" ? line("fill", rates.fillPerHa) : []),
    ...(route === "grazing" ? line("graze", rates.grazePerHa) : []),
    ...line("labour", labourHours * rates.labourPerH),
    ...line("waiting", dryMatterTHa * keptFraction * price * waitedShare(question)),
  ];
  const fedTHa = dryMatterTHa * keptFraction * taken;
  const grossPerHa = fedTHa * price;
  const costPerHa = costs.reduce((sum, { perHa }) => sum + perHa, 0);
  const perT = (perHa: number) => (fedTHa > 0 ? perHa / fedTHa : null);
  return {
    fedTHa,
    keptFraction,
    grossPerHa,
    costs,
    costPerHa,
    valuePerHa: grossPerHa - costPerHa,
    costPerT: perT(costPerHa),
    valuePerT: perT(grossPerHa - costPerHa),
    bales: bales * taken,
    preservativeKg: preservativeKg * taken,
    machineHours: machineHours * taken,
    labourHours: labourHours * taken,
  };
}

/** Share of the worth that waiting takes, 0-1. */
function waitedShare({ waitDays = 0, waitPctPerDay = WAIT_PCT_PER_DAY.value }: RouteValueQuestion): number {
  return Math.min(1, (Math.max(0, waitDays) * waitPctPerDay) / 100);
}

/**
 * Expected value: the mean over members, those that never bring the crop in counted at `leftPerHa` (what the standing or
 * spoiled crop is still worth). Null where there are none.
 */
export function expectedPerHa(values: readonly (number | null)[], leftPerHa = 0): number | null {
  if (values.length === 0) return null;
  return values.reduce<number>((sum, value) => sum + (value ?? leftPerHa), 0) / values.length;
}

/**
 * Price of a wet feed at another dry matter: paid for what is dry.
 *
 * @example priceAtDryMatter(40, 0.3, 0.27) // 36
 */
export function priceAtDryMatter(price: number, dryFrac: number, otherDryFrac: number): number {
  return (price * otherDryFrac) / dryFrac;
}
