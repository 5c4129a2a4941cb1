import { describe, expect, test } from "vitest";
import {
  buildGrid,
  type CrewJobAnswer,
  type CrewPlanRequest,
  planReread,
} from "../../../model/crew/index.ts";
import { gainIn, partsOf, usualWindows } from "../../../model/crew/windows/usual.ts";
import { differingCrew } from "../../support/crew/differing.ts";

async function planOf(request: CrewPlanRequest) {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return planReread(built.value, { solver: null, elapsedS: () => 0 });
}

const HOLDINGS: readonly (readonly [string, (job: CrewJobAnswer, at: number) => boolean])[] = [
  ["all of them", () => true],
  ["the mowings", ({ op }) => op === "mow"],
  ["all but what takes the crop", ({ op }) => !["bale", "wrap"].includes(op)],
  ["every second one", (_, at) => at % 2 === 0],
];

const hoursOf = (jobs: readonly CrewJobAnswer[]) =>
  jobs.map(({ fieldId, op, startUtc }) => `${fieldId} ${op} ${startUtc}`).sort();

// Fields of the first three are served in windows of the replay, those of the last in usual ones alone.
describe.each([15, 49, 119, 5])("crew of chance %i: what a plan counts", (seed) => {
  const asked = differingCrew(seed);
  const free = planOf(asked);

  test.each(HOLDINGS)(
    "is the same when these of its works are held: %s",
    { timeout: 60_000 },
    async (_, holds) => {
      const { answer } = await free;
      const fixed = answer.jobs
        .filter(holds)
        .map(({ fieldId, op, machineId, personId, startUtc, endUtc }) => ({
          fieldId,
          op,
          machineId,
          personId,
          startUtc,
          endUtc,
        }));
      const held = (await planOf({ ...asked, fixed })).answer;
      expect(answer.value).toBeGreaterThan(0);
      expect(held.value).toBeLessThanOrEqual(held.bound + 1e-6);
      // Where less is held there may be other hours for the rest.
      if (fixed.length === answer.jobs.length) expect(hoursOf(held.jobs)).toEqual(hoursOf(answer.jobs));
      if (hoursOf(held.jobs).join() === hoursOf(answer.jobs).join())
        expect(held.value).toBeCloseTo(answer.value, 6);
    },
  );

  test("is the same when it stands as the plan before", { timeout: 60_000 }, async () => {
    const { answer } = await free;
    const again = (await planOf({ ...asked, previous: answer })).answer;
    expect(hoursOf(again.jobs)).toEqual(hoursOf(answer.jobs));
    expect(again.value).toBeCloseTo(answer.value, 6);
  });
});

describe("hours in usual windows and others", () => {
  // Six slots; crop mown in slot 0 lies ready from slot 2, in slots 2 and 3, crop mown in slot 1 from slot 5; rain takes 2 %
  // in slot 3, and lying takes 1 % a slot.
  const count = 6;
  const kept = {
    gatherCost: Float64Array.of(0, 0, 0, 0, 0.02, 0.02),
    until: (q: number, slot: number) => 1 - 0.01 * (slot - q) - (slot > 3 ? 0.02 : 0),
  };
  const windows = {
    ready: Int32Array.of(2, 5, -1, -1, -1, -1),
    until: Int32Array.of(4, 6, -1, -1, -1, -1),
    rained: Int32Array.of(4, 6, -1, -1, -1, -1),
  };
  const usual = usualWindows(windows, kept, count, 5);
  const gainAt = gainIn(usual, kept, count);
  const shareAt = (q: number, slot: number) => gainAt(q, slot) - (kept.gatherCost[slot] as number);

  test("the worst usual hour is that of the later mowing, after the rain; in the days that are planned", () => {
    expect(usual.least).toBeCloseTo(0.94, 12);
    expect(usualWindows(windows, kept, count, 4).least).toBeCloseTo(0.98, 12);
  });

  test.each([
    ["as it opens", 0, 2, 0.98],
    ["later in it: what lies ready loses to rain alone", 0, 3, 0.98],
    ["in one after the rain", 1, 5, 0.94],
    ["before it: no more than in the worst hour", 0, 1, 0.94],
    ["after it, where less is left than in the worst hour", 0, 5, 0.93],
    ["after a mowing that opens none", 2, 3, 0.94],
  ])("taken in its usual window, or not: %s", (_, q, slot, share) => {
    expect(shareAt(q, slot)).toBeCloseTo(share, 12);
  });

  test("where there are no usual windows all hours count what they keep", () => {
    const none = { ready: Int32Array.of(-1), until: Int32Array.of(-1), rained: Int32Array.of(-1) };
    expect(gainIn(usualWindows(none, kept, count, 5), kept, count)(2, 3)).toBeCloseTo(0.99, 12);
  });

  test("a window has one more beginning wherever the gain changes, and keeps its end", () => {
    expect(partsOf({ ready: 1, until: 6 }, (slot) => gainAt(0, slot))).toEqual([
      { ready: 1, until: 6 },
      { ready: 2, until: 6 },
      { ready: 4, until: 6 },
      { ready: 5, until: 6 },
    ]);
    expect(partsOf({ ready: 2, until: 4 }, (slot) => gainAt(0, slot))).toEqual([{ ready: 2, until: 4 }]);
  });
});
