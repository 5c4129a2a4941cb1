import type { ReadingAnswer } from "../drying/answer.ts";
import type { ReadingRequest } from "../drying/request.ts";
import type { Bent } from "./bend.ts";
import type { DrawnMoisture } from "./course-odds.ts";

/**
 * Bends without the readings that are questioned, so that all but the question itself is as if they had not been taken: the
 * draws, their number, and the weather that counts as known.
 *
 * @param round bends to these readings alone, given in the order of time
 * @returns what the last round gave, with what came of every reading
 */
export function bendWithoutQuestioned<R extends { readonly bent: Bent<DrawnMoisture> }>(
  readings: readonly ReadingRequest[],
  round: (readings: readonly ReadingRequest[]) => R,
): R {
  const inOrder = readings.toSorted((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc));
  const told = new Map<ReadingRequest, ReadingAnswer>();
  let left = inOrder;
  for (;;) {
    const found = round(left);
    const { effects } = found.bent;
    for (const [i, effect] of effects.entries()) told.set(left[i] as ReadingRequest, effect);
    if (effects.every(({ used }) => used)) {
      const all = inOrder.map((reading) => told.get(reading) as ReadingAnswer);
      return { ...found, bent: { ...found.bent, effects: all } };
    }
    left = left.filter((_, i) => effects[i]?.used === true);
  }
}
