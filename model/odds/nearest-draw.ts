import { SOIL_CLASSES, type SoilClass } from "../drying/keys.ts";
import type { DrawnMoisture } from "./course-odds.ts";
import type { Measured } from "./reading.ts";
import type { Draw } from "./sample.ts";

/** A draw, its place among those given, and the reading by which it is near: UTC ms. */
export interface NearestDraw {
  readonly draw: Draw;
  readonly place: number;
  readonly atMs: number;
}

/**
 * What is near the middle: a point of moisture at the last reading counts as much as a twentieth of the pace of drying, and
 * a draw of less than a tenth of the heaviest weight is no middle; assumed.
 */
const NEAR = { moistureWb: 0.01, paceLn: 0.05, weightShare: 0.1 } as const;

/** The soil that most of the weight lies on: classes have no mean. */
export function heaviestSoil(drawn: readonly DrawnMoisture[], weights: readonly number[]): SoilClass {
  const sums = SOIL_CLASSES.map((soil) =>
    drawn.reduce((sum, { draw }, i) => sum + (draw.soil === soil ? (weights[i] as number) : 0), 0),
  );
  return SOIL_CLASSES[sums.indexOf(Math.max(...sums))] as SoilClass;
}

/**
 * Of the draws that hold weight on the soil that holds most, the one whose moisture at a reading comes nearest to the middle
 * of the weighted draws and whose pace (rate over yield) to their mean.
 */
export function nearestDraw(
  drawn: readonly DrawnMoisture[],
  weights: readonly number[],
  { reading, moistures }: Measured,
  middleWb: number,
): NearestDraw {
  const soil = heaviestSoil(drawn, weights);
  const paceOf = ({ draw }: DrawnMoisture) => Math.log(draw.rateFactor / draw.dryMatterTHa);
  const pace = drawn.reduce((sum, one, i) => sum + (weights[i] as number) * paceOf(one), 0);
  const least = NEAR.weightShare * Math.max(...weights);
  let best = { place: -1, far: Number.POSITIVE_INFINITY };
  for (const [place, one] of drawn.entries()) {
    if ((weights[place] as number) < least || one.draw.soil !== soil) continue;
    const wb = ((moistures[place] as number) - middleWb) / NEAR.moistureWb;
    const far = wb ** 2 + ((paceOf(one) - pace) / NEAR.paceLn) ** 2;
    if (far < best.far) best = { place, far };
  }
  const { place } = best;
  return { draw: (drawn[place] as DrawnMoisture).draw, place, atMs: Date.parse(reading.atUtc) };
}
