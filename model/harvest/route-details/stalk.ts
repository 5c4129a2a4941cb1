import { coefficient } from "../../coefficient.ts";

/** Where nitrate sits in a drought-struck corn plant, ppm NO3-N (Walsh & Schulte 1970; the values from memory). */
const WALSH =
  "Walsh & Schulte 1970, University of Wisconsin; existence of the table confirmed, values from memory";
const SHARES = "assumed shares: the parts then sum to 977 against a printed whole of 978";

function part(ppm: number, dryShare: number) {
  return {
    ppm: coefficient(ppm, "ppm NO3-N", "from-memory", WALSH, null),
    dryShare: coefficient(dryShare, "of dry matter", "assumed", SHARES, null),
  };
}

export const STALK_NITRATE = {
  leaf: part(64, 0.4),
  ear: part(17, 0.2),
  upper: part(153, 0.125),
  middle: part(803, 0.125),
  lower: part(5524, 0.15),
} as const;

/** Nitrate of the whole plant by its parts, ppm NO3-N. */
export function wholePlantPpm(): number {
  return Object.values(STALK_NITRATE).reduce((sum, { ppm, dryShare }) => sum + ppm.value * dryShare.value, 0);
}

const THIRDS = ["lower", "middle", "upper"] as const;
/** Higher than this the profile says nothing: leaf and ear are cut into as well. */
const TOP_SHARE = 0.9;

/**
 * What a plant cut at a share of its height leaves to harvest by the published profile, stalk taken as even within each
 * third and leaf and ear as all above the cut.
 *
 * @param heightShare height of the cut over the height of the plant; held at 0.9
 * @returns shares of the whole plant's dry matter, nitrate and ppm
 */
export function stalkLeft(heightShare: number): {
  readonly dryShare: number;
  readonly nitrateShare: number;
  readonly ppmShare: number;
} {
  const cut = Math.min(TOP_SHARE, Math.max(0, heightShare));
  let dryShare = 1;
  let nitrateShare = 1;
  THIRDS.forEach((third, i) => {
    const { ppm, dryShare: dry } = STALK_NITRATE[third];
    const gone = Math.min(1, Math.max(0, cut * 3 - i)) * dry.value;
    dryShare -= gone;
    nitrateShare -= (gone * ppm.value) / wholePlantPpm();
  });
  return { dryShare, nitrateShare, ppmShare: nitrateShare / dryShare };
}
