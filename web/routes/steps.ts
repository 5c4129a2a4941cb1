import type { LossStepKey } from "../../model/harvest/losses/index.ts";

/** The steps of a loss chain as the picture and the table show them: one place, one pattern. */
export const STEP_GROUPS = ["mow", "lie", "rain", "pass", "gather", "store", "feed"] as const;
export type StepGroup = (typeof STEP_GROUPS)[number];

export const GROUP_WORDS: Readonly<Record<StepGroup, string>> = {
  mow: "mowing",
  lie: "breathing in the swath",
  rain: "rain",
  pass: "tedding and raking",
  gather: "baling or chopping",
  store: "in store",
  feed: "feeding out, trampling",
};

const GROUP_OF: Readonly<Record<LossStepKey, StepGroup>> = {
  mowing: "mow",
  respiration: "lie",
  rain: "rain",
  ted: "pass",
  rake: "pass",
  invert: "pass",
  baling: "gather",
  chopping: "gather",
  storage: "store",
  "feeding-out": "feed",
  grazing: "feed",
};

export interface Lost {
  readonly group: StepGroup;
  /** Per cent of the dry matter that stood. */
  readonly ofStandingPct: number;
}

/**
 * What each step takes of the crop as it stood, in the order in which it happens. The steps of an answer each take their
 * share of what the one before left; here they add up, so that they can be laid side by side.
 */
export function lostOf(steps: readonly { readonly step: LossStepKey; readonly pct: number }[]): Lost[] {
  const taken = new Map<StepGroup, number>();
  let left = 100;
  for (const { step, pct } of steps) {
    const loss = (left * pct) / 100;
    const group = GROUP_OF[step];
    taken.set(group, (taken.get(group) ?? 0) + loss);
    left -= loss;
  }
  return STEP_GROUPS.flatMap((group) => {
    const ofStandingPct = taken.get(group);
    return ofStandingPct === undefined ? [] : [{ group, ofStandingPct }];
  });
}
