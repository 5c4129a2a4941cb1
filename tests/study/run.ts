import { perfectCover80 } from "../../model/odds/record.ts";
import { bandStudy, readingStudy, recordOf } from "./study.ts";

/** Prints the study of the odds: 1000 synthetic cuts, three seeds. Takes some minutes. */

const CUTS = Number(process.argv[2] ?? 1000);
const SEEDS = [1, 2, 3];
const pct = (share: number) => `${(100 * share).toFixed(1)} %`;

function record(study: ReturnType<typeof bandStudy>, seed: number): string {
  const { inside80, crps, bias } = recordOf(study, seed);
  if (!inside80.enough || !crps.enough || !bias.enough) return "too few to say";
  return `inside 80 % band ${pct(inside80.mean)} (${pct(inside80.p5)} to ${pct(inside80.p95)}), CRPS ${(100 * crps.mean).toFixed(2)} points, bias ${(100 * bias.mean).toFixed(2)}`;
}

for (const seed of SEEDS) {
  const fair = bandStudy({ cuts: CUTS, draws: 200, seed, wider: 1 });
  console.log(`seed ${seed}, ${CUTS} cuts`);
  console.log(
    `  200 draws, truth as assumed   ${pct(fair.inside80)} inside the 80 % band; perfect ${pct(perfectCover80(200))}`,
  );
  console.log(`    its record: ${record(fair, seed)}`);
  const few = bandStudy({ cuts: CUTS, draws: 51, seed, wider: 1 });
  console.log(
    `  51 draws, truth as assumed    ${pct(few.inside80)} inside; perfect ${pct(perfectCover80(51))}`,
  );
  const wide = bandStudy({ cuts: CUTS, draws: 200, seed, wider: 2 });
  console.log(`  200 draws, truth twice as wide ${pct(wide.inside80)} inside`);
  console.log(`    its record: ${record(wide, seed)}`);
  const { before, after, confirmed, questioned } = readingStudy({ cuts: CUTS, draws: 400, seed, wider: 1 });
  console.log(
    `  one oven reading half way, weather known: rms ${(100 * before).toFixed(2)} to ${(100 * after).toFixed(2)} points, ${pct(1 - after / before)} less; ${pct(questioned)} asked about, ${pct(1 - confirmed / before)} less once those are confirmed`,
  );
}
