import { coefficient } from "../coefficient.ts";

/** How many lots, bales, cores and places to sample, from what is there. The stricter of two sources counts. */

export const SAMPLING = {
  lotTonnes: coefficient(
    100,
    "t a lot at most",
    "published",
    "Kansas State eUpdate, Testing methods for nitrates in forages (100 t); University of California, hay sampling (200 t)",
    [100, 200],
  ),
  coresPerLot: coefficient(
    20,
    "cores a lot at least",
    "published",
    "University of California, Recommended principles for proper hay sampling",
    null,
  ),
  baleShare: coefficient(
    0.4,
    "of the bales",
    "published",
    "Kansas State eUpdate: at least 20 % of the bales, some say 40 %",
    [0.2, 0.4],
  ),
  leastBales: coefficient(
    12,
    "bales at least",
    "published",
    "High Plains Journal (University of Nebraska): at least a dozen, mostly from the worst areas",
    null,
  ),
  standingPlaces: coefficient(
    15,
    "places at least",
    "published",
    "Kansas State column, nitrate and prussic acid poisoning part two, 2022 (15); South Dakota State, 2020 (10)",
    [10, 15],
  ),
  silagePlaces: coefficient(
    10,
    "places of the face or load",
    "assumed",
    "composited; common practice, no source",
    null,
  ),
} as const;

export const SAMPLE_KINDS = ["bales", "standing", "silage"] as const;
export type SampleKind = (typeof SAMPLE_KINDS)[number];

export interface SamplingQuestion {
  readonly kind: SampleKind;
  /** Tonnes in the lot or lots, as they lie; for bales. */
  readonly tonnes?: number | undefined;
  readonly bales?: number | undefined;
  /** Fields, cuttings or conditions that differ: each is a lot of its own. */
  readonly parts: number;
}

export interface SamplingPlan {
  readonly lots: number;
  /** Of each lot. */
  readonly bales: number | null;
  readonly cores: number | null;
  readonly places: number | null;
  readonly steps: readonly string[];
}

const STEPS: Readonly<Record<SampleKind, readonly string[]>> = {
  bales: [
    "A lot is one field, one cutting, one condition: droughty knolls, headlands and manured strips apart.",
    "Core round bales through the curved side, square ones through the end; a hay probe, no grab.",
    "Mix the cores of a lot in a clean bucket, halve until a bag is full; write lot, date and count on it.",
    "A mean is no bale: of 23 bales of one field the highest had 2.3 times the mean (Kansas State).",
  ],
  standing: [
    "Walk the whole field; knolls, edges and manured strips apart.",
    "Cut at the height at which it will be harvested; for grazing take what will be eaten.",
    "A standing sample does not replace a test of the feed that is made of it.",
  ],
  silage: [
    "Test what is fed out, not only what went in.",
    "Take handfuls over the whole face or from several loads; mix, bag without air, freeze.",
    "For prussic acid: keep cool, undried and airtight, to the laboratory the same day.",
  ],
};

/** A count that is none, or below nothing, is counted as nothing. */
const counted = (value: number) => (Number.isFinite(value) && value > 0 ? Math.ceil(value) : 0);

export function samplingPlan({ kind, tonnes = 0, bales: said = 0, parts }: SamplingQuestion): SamplingPlan {
  const bales = counted(said);
  const lots = Math.max(1, counted(parts), kind === "bales" ? counted(tonnes / SAMPLING.lotTonnes.value) : 1);
  const steps = [
    ...STEPS[kind],
    "Ask the laboratory to print the ion (NO3, NO3-N or KNO3), the unit and the basis: without one of them no one can read it.",
  ];
  if (kind === "standing")
    return { lots, bales: null, cores: null, places: SAMPLING.standingPlaces.value, steps };
  if (kind === "silage")
    return { lots, bales: null, cores: null, places: SAMPLING.silagePlaces.value, steps };
  const perLot = Math.ceil(bales / lots);
  const wanted = Math.max(SAMPLING.leastBales.value, Math.ceil(perLot * SAMPLING.baleShare.value));
  const sampled = perLot === 0 ? wanted : Math.min(perLot, wanted);
  return { lots, bales: sampled, cores: Math.max(SAMPLING.coresPerLot.value, sampled), places: null, steps };
}
