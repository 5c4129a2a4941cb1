import { expect, test } from "vitest";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { buildGrid, planBuilt } from "../../../model/crew/index.ts";
import { startFaults } from "../../../model/crew/milp/milp.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { crewField, crewRequest, heldCautions, spellWithMembers } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const request = crewRequest({ sites: { s1: { series: spellWithMembers(5, 0) } }, horizonDays: 5 });

function builtOf(asked: typeof request) {
  const outcome = buildGrid(asked);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

test.each([-3, -1, 1])(
  "a baling held %d h from its hour, in its window or not: the plan found is a point of the step model",
  async (hours) => {
    const plan = await planBuilt(builtOf(request), { solver: null, elapsedS: () => 0, brief: true });
    const baling = plan.jobs.find(({ op }) => op === "bale");
    if (baling === undefined) throw new Error("no baling");
    const { fieldId, op, machineId, personId, startUtc } = baling;
    const held = new Date(Date.parse(startUtc) + hours * HOUR_MS).toISOString().replace(".000Z", "Z");
    const { grid } = builtOf({ ...request, fixed: [{ fieldId, op, machineId, personId, startUtc: held }] });
    const found = searchPlan(grid, { rounds: 40, random: seededRandom(1), stop: () => false });
    const { milp, pointOf } = stepModel(grid);
    expect(startFaults(milp, pointOf(found.jobs))).toEqual([]);
  },
);

test("a field of the plan before that meets held work of another is planned afresh, whichever of the two comes first", async () => {
  const machines = [...request.machines, { id: "mower-2", kind: "mower" as const }];
  const before = await planBuilt(builtOf({ ...request, machines }), {
    solver: null,
    elapsedS: () => 0,
    brief: true,
  });
  const mowing = before.jobs.find(({ fieldId, op }) => fieldId === "hill" && op === "mow");
  if (mowing === undefined) throw new Error("no mowing");
  const { machineId, personId, startUtc } = mowing;
  const other = machineId === "mower-1" ? "mower-2" : "mower-1";
  const fixed = [{ fieldId: "creek", op: "mow" as const, machineId: other, personId, startUtc }];
  const again = await planBuilt(builtOf({ ...request, machines, fixed, previous: before }), {
    solver: null,
    elapsedS: () => 0,
    brief: true,
  });
  expect(again.jobs.find(({ fieldId, op }) => fieldId === "creek" && op === "mow")).toMatchObject({
    machineId: other,
    personId,
    startUtc,
  });
});

test("a raking that is held or done, and a baling that comes too late after it: said with its code", async () => {
  const solver = { solver: null, elapsedS: () => 0, brief: true };
  const fields = [crewField("creek", { name: "Creek field", ops: ["mow", "rake", "bale"] })];
  const plan = await planBuilt(builtOf({ ...request, fields }), solver);
  expect(heldCautions(plan)).toEqual([]);
  const [mowing, raking, baling] = plan.jobs;
  if (mowing === undefined || raking === undefined || baling === undefined) throw new Error("three works");
  const at = (utc: string, hours: number) =>
    new Date(Date.parse(utc) + hours * HOUR_MS).toISOString().replace(".000Z", "Z");
  const rakedUtc = at(mowing.endUtc, 1);
  const fixed = [
    mowing,
    { ...raking, startUtc: mowing.endUtc, endUtc: rakedUtc },
    { ...baling, startUtc: at(rakedUtc, 26), endUtc: at(rakedUtc, 28) },
  ];
  const again = await planBuilt(builtOf({ ...request, fields, fixed }), solver);
  const caution = again.cautions.find(({ code }) => code === "windrow");
  expect(caution).toMatchObject({ fieldId: "creek", op: "bale", path: "fixed[1]" });
  expect(caution?.text).toMatch(
    /^Creek field: baling .* comes 26 h after the raking of .*, more than 24 h: /,
  );
});
