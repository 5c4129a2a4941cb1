import fc from "fast-check";
import { expect, test } from "vitest";
import { firstPlan, type HeuristicQuestion } from "../../../model/crew/heuristic.ts";
import { planFaults } from "../../../model/crew/validity.ts";

const H = 3_600_000;

const questions = fc
  .record({
    worths: fc.array(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 6 }),
    hours: fc.integer({ min: 4, max: 20 }),
    ready: fc.integer({ min: 1, max: 6 }),
    driveMin: fc.integer({ min: 0, max: 120 }),
    work: fc.integer({ min: 1, max: 3 }),
  })
  .map(({ worths, hours, ready, driveMin, work }): HeuristicQuestion => {
    const available = [{ fromUtcMs: 0, toUtcMs: hours * H }];
    return {
      fields: worths.map((worth, i) => ({ id: `f${i}`, siteId: `s${i % 2}`, ops: ["mow", "bale"], worth })),
      machines: [
        { id: "m", op: "mow", available },
        { id: "b", op: "bale", available },
      ],
      people: [
        { id: "p", available },
        { id: "q", available },
      ],
      travelMin: { "s0|s1": driveMin },
      windowsOf: (_f, _op, mow) => ({
        readyUtcMs: mow + ready * H,
        deadlineUtcMs: mow + (ready + 3) * H,
        chance: null,
        valueLoss: 0.1,
      }),
      durationMs: () => work * H,
      slotsUtcMs: Array.from({ length: hours }, (_, i) => i * H),
    };
  });

test("every first plan can be carried out, and each field is planned or named as left", () => {
  fc.assert(
    fc.property(questions, (question) => {
      const plan = firstPlan(question);
      expect(planFaults({ ...question, jobs: plan.jobs })).toEqual([]);
      const served = new Set(plan.jobs.map((job) => job.fieldId));
      expect(served.size + plan.leftFieldIds.length).toBe(question.fields.length);
    }),
    { numRuns: 200, seed: 7 },
  );
});
