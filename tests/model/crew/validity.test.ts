import { expect, test } from "vitest";
import { type PlanToCheck, planFaults } from "../../../model/crew/validity.ts";

const H = 3_600_000;
const day = [{ fromUtcMs: 0, toUtcMs: 20 * H }];
const job = (fieldId: string, op: string, machineId: string, from: number) => ({
  fieldId,
  op,
  machineId,
  personId: "p",
  startUtcMs: from * H,
  endUtcMs: (from + 1) * H,
});
const good: PlanToCheck = {
  fields: [
    { id: "a", siteId: "s1", ops: ["mow", "bale"] },
    { id: "b", siteId: "s2", ops: ["mow"] },
  ],
  machines: [
    { id: "m", available: day },
    { id: "k", available: day },
  ],
  people: [{ id: "p", available: day }],
  travelMin: { "s1|s2": 60 },
  windowsOf: (_field, _op, mow) => ({
    readyUtcMs: mow + 4 * H,
    deadlineUtcMs: mow + 6 * H,
    chance: null,
    valueLoss: 0,
  }),
  jobs: [job("a", "mow", "m", 0), job("b", "mow", "m", 2), job("a", "bale", "k", 4)],
};

test("a plan that can be carried out has no faults", () => {
  expect(planFaults(good)).toEqual([]);
});

test.each([
  ["travel", [job("a", "mow", "m", 0), job("b", "mow", "m", 1), job("a", "bale", "k", 4)], "cannot reach b"],
  ["window", [job("a", "mow", "m", 0), job("a", "bale", "k", 7)], "outside its window"],
  ["half a field", [job("a", "mow", "m", 0)], "bale is planned 0 times"],
  ["hours", [job("b", "mow", "m", 20)], "outside the working hours"],
])("%s is found", (_name, jobs, fault) => {
  expect(planFaults({ ...good, jobs }).join("\n")).toContain(fault);
});
