/** What a laboratory may call nitrate, and how much nitrogen is in each. Molar masses, g/mol: IUPAC, as printed by the trade. */

export const MOLAR_MASS = { N: 14.007, O: 15.999, K: 39.098 } as const;

const NITRATE = MOLAR_MASS.N + 3 * MOLAR_MASS.O;

export const IONS = ["NO3", "NO3-N", "KNO3"] as const;
export type Ion = (typeof IONS)[number];

/** g of nitrate nitrogen in a g of what was reported: 1, 0.2259, 0.1385. Not the rounded factors of print. */
export const NITROGEN_SHARE: Readonly<Record<Ion, number>> = {
  "NO3-N": 1,
  NO3: MOLAR_MASS.N / NITRATE,
  KNO3: MOLAR_MASS.N / (MOLAR_MASS.K + NITRATE),
};
