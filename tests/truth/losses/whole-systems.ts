import type { StoreKey } from "../../../model/harvest/keys.ts";
import {
  type CutHistory,
  chainPct,
  type Keeping,
  lossTotal,
  routeLosses,
} from "../../../model/harvest/losses/index.ts";
import { type Check, collector } from "../drying/checks/check.ts";

/** Whole systems of print, from standing to the end of storage, and the rows of README's accuracy table that they make. */

/** Alfalfa, rolls, without rain, raked and taken at one moisture; losses to the end of storage, as the totals in print. */
export function stored(
  route: Parameters<typeof routeLosses>[0],
  pack: Parameters<typeof routeLosses>[1],
  takenAtWb: number,
  curingPct: number,
  keeping: Keeping = {},
) {
  const history: CutHistory = {
    crop: "alfalfa",
    conditioning: "roll",
    passes: [{ kind: "rake", moistureWb: takenAtWb }],
    breathed: [],
    rained: [],
    takenAtWb,
  };
  const steps = routeLosses(route, pack, history, keeping)
    .filter(({ step }) => step !== "feeding-out")
    .map((one) => (one.step === "respiration" ? { ...one, pct: curingPct } : one));
  const total = lossTotal(steps).pct;
  const storage = steps.find(({ step }) => step === "storage")?.pct ?? 0;
  return { total, storage, field: lossTotal(steps.filter(({ step }) => step !== "storage")).pct };
}

/** Curing of alfalfa in dry weather, measured: Rotz & Abrams 1988. Wilting takes about a third of it (assumed). */
export const CURING_PCT = 3.2;
export const WILTING_PCT = 1;

/** Moistures of the U-shaped curve in print, and what is lost at each here: chopped and bagged, wrapped, baled dry. */
export const U_CURVE_PCT = [80, 70, 60, 50, 40, 30, 20, 15] as const;
export function uCurve() {
  return [
    stored("wilted-chop", "round", 0.8, 0, { silo: "bag" }),
    stored("wilted-chop", "round", 0.7, 0.5, { silo: "bag" }),
    stored("wilted-chop", "round", 0.6, 1.5, { silo: "bag" }),
    stored("wrapped-bales", "round", 0.5, 2.2),
    stored("wrapped-bales", "round", 0.4, 2.8),
    stored("dry-hay", "round", 0.3, 3),
    stored("dry-hay", "round", 0.2, CURING_PCT),
    stored("dry-hay", "round", 0.15, CURING_PCT),
  ];
}

const REVIEW = "Rotz, review of forage losses (abstract)";
const FROM_MEMORY = "U-shaped curve, its shape widely reproduced";
const SILOS = ["bunker", "bag", "stave", "oxygen-limiting", "pile"] as const satisfies readonly StoreKey[];

/** Rows of the loss chain: alfalfa at 3 t/ha, rolls, no rain, from standing to the end of storage. */
export function lossChecks(): Check[] {
  const { checks, add } = collector();
  const chain = chainPct([2, 3.2, 3.5, 1.8, 1.1, 4.2]);
  add(
    "loss-chain",
    "losses multiply: 2, 3.2, 3.5, 1.8, 1.1 and 4.2 %, in all %",
    "worked example on steps of Rotz & Abrams 1988",
    "held out",
    chain,
    14.825,
    14.835,
  );
  const hay = stored("dry-hay", "round", 0.2, CURING_PCT);
  add(
    "loss-hay",
    "hay raked and baled at 20 %, round, kept inside: lost in all, %",
    REVIEW,
    "held out",
    hay.total,
    24,
    28,
  );
  add("loss-hay-store", "the same: lost in storage, %", `${REVIEW}: about 5`, "held out", hay.storage, 4, 6);
  for (const silo of SILOS) {
    const { total } = stored("wilted-chop", "round", 0.65, WILTING_PCT, { silo });
    const what = `silage at 65 %, ${silo}: lost in all, %`;
    add(`loss-${silo}`, what, REVIEW, "held out", total, 14, 24, silo === "pile");
  }
  const bunker = stored("wilted-chop", "round", 0.65, WILTING_PCT, { silo: "bunker" });
  add(
    "loss-half",
    "silage, bunker: storage's share of it, %",
    `${REVIEW}: half`,
    "held out",
    (100 * bunker.storage) / bunker.total,
    40,
    75,
  );
  const curve = uCurve().map(({ total }) => total);
  const least = Math.min(...curve);
  const at = (pct: (typeof U_CURVE_PCT)[number]) => curve[U_CURVE_PCT.indexOf(pct)] ?? Number.NaN;
  add(
    "loss-u-least",
    "U-shaped curve: moisture at harvest that loses least, %",
    FROM_MEMORY,
    "from memory",
    U_CURVE_PCT[curve.indexOf(least)] ?? Number.NaN,
    40,
    70,
  );
  add(
    "loss-u-wet",
    "U-shaped curve: 80 % over the least",
    `${FROM_MEMORY}: 1.5`,
    "from memory",
    at(80) / least,
    1.05,
    2,
  );
  add(
    "loss-u-hay",
    "U-shaped curve: hay at 20 % over the least",
    `${FROM_MEMORY}: 1.7`,
    "from memory",
    at(20) / least,
    1.2,
    2.2,
  );
  add(
    "loss-u-dry",
    "U-shaped curve: hay at 15 % over hay at 20 %",
    `${FROM_MEMORY}: 1.1`,
    "from memory",
    at(15) / at(20),
    1.001,
    1.3,
  );
  return checks;
}
