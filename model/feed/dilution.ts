/** How much of a high feed a ration can carry. Mixed physically: a high bale beside a low one is no blend. */

/**
 * The largest share of the dry matter that the high feed may have: (T - c) / (b - c), between 0 and 1.
 *
 * @param targetPpm T, of the whole diet
 * @param highPpm b
 * @param restPpm c, mean of the other feeds by dry matter
 */
export function maxShare(targetPpm: number, highPpm: number, restPpm: number): number {
  if (highPpm <= targetPpm) return 1;
  if (restPpm >= targetPpm) return 0;
  return Math.min(1, Math.max(0, (targetPpm - restPpm) / (highPpm - restPpm)));
}

export interface RationFeed {
  readonly id: string;
  readonly dmFrac: number;
  readonly dmKg: number;
}

/** Weights as fed of a ration of so much dry matter, the high feed at its share and the others as they stand to each other. */
export function asFedKg(
  share: number,
  totalDmKg: number,
  high: RationFeed,
  rest: readonly RationFeed[],
): Readonly<Record<string, number>> {
  const restDm = rest.reduce((sum, { dmKg }) => sum + dmKg, 0);
  const kg: Record<string, number> = { [high.id]: (share * totalDmKg) / high.dmFrac };
  for (const { id, dmFrac, dmKg } of rest)
    kg[id] = restDm === 0 ? 0 : ((1 - share) * totalDmKg * (dmKg / restDm)) / dmFrac;
  return kg;
}
