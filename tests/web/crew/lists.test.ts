import { expect, test } from "vitest";
import type { CrewPlanAnswer } from "../../../model/crew/index.ts";
import { draftOf, draftOfFile, requestOf } from "../../../web/crew/crew-draft.ts";
import { goneOf, withGone, withGoneFields, withKnownNames } from "../../../web/crew/gone.ts";
import { fresh } from "../../../web/crew/ItemList.tsx";
import { usualWorks, withCrop, withRoute } from "../../../web/crew/with-crop.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const question = crewRequest();

test("who is taken out of a list keeps its name for plans given out, and a new one gets another key", () => {
  const draft = draftOf(
    { ...question, machines: question.machines.map((one) => ({ ...one, name: `The ${one.kind}` })) },
    "plan",
  );
  const without = withGone(draft, { ...draft, machines: draft.machines.slice(1) });
  expect(without.gone?.machines).toEqual({ "mower-1": "The mower" });
  const later = withGone(without, { ...without, machines: without.machines.slice(1) });
  expect(later.gone?.machines).toEqual({ "mower-1": "The mower", "tedder-1": "The tedder" });
  expect(withGone(later, { ...later, machines: draft.machines }).gone).toBeUndefined();
  expect(fresh("machine", ["machine-1", "machine-3"])).toBe("machine-4");
  // What the model is asked knows nothing of it.
  expect(requestOf(later, spellWithMembers(4, 0), null)).not.toHaveProperty("gone");

  const plan = {
    names: {
      fields: { creek: "Creek field" },
      machines: { "mower-1": "mower-1", "rake-1": "The rake" },
      people: { a: "a" },
    },
  } as unknown as CrewPlanAnswer;
  const named = withKnownNames(plan, later);
  expect(named.names.machines).toEqual({
    "mower-1": "The mower (no longer in the list)",
    "rake-1": "The rake",
  });
  expect(goneOf(plan.names.machines, later.machines)).toEqual(["mower-1"]);
  const gone = { fields: { old: "Old piece" }, machines: {}, people: {} };
  expect(withGoneFields(plan, gone).names.fields).toEqual({ creek: "Creek field", old: "Old piece" });
});

test("a file's earlier plan brings the names of those that its question does not list", () => {
  const previous = { jobs: [], revision: 1, names: { machines: { "old-1": "Old mower", "rake-1": "Rake" } } };
  const draft = draftOfFile({ ...question, previous }, "plan");
  expect(draft.gone).toEqual({ fields: {}, machines: { "old-1": "Old mower" }, people: {} });
});

test("visits to come of a field that was taken out stay in what the plan is held against", () => {
  const job = (fieldId: string, startUtc: string) =>
    ({ fieldId, op: "mow", machineId: "m", personId: "a", startUtc, endUtc: startUtc }) as const;
  const jobs = [job("gone", "2026-07-02T15:00:00Z"), job("gone-too", "2026-07-01T08:00:00Z")];
  const draft = { ...draftOf(question, "plan"), promised: { jobs, revision: 3 } };
  const { previous } = requestOf(draft, spellWithMembers(4, 0), "2026-07-01T10:00:00Z");
  expect(previous?.jobs).toEqual([jobs[0]]);
});

test("moisture, stubble and works follow the crop until somebody sets them", () => {
  const grass = crewField("creek");
  const corn = withCrop(grass, "corn");
  expect(corn.swath).toMatchObject({ crop: "corn", initialMoistureWb: 0.75, stubbleCm: 25 });
  // Nothing is tedded or raked over tall, coarse stubble.
  expect(corn).toMatchObject({ route: "dry-hay", ops: ["mow", "bale"] });
  const set = { ...grass, ops: ["mow", "bale"] as const, swath: { ...grass.swath, stubbleCm: 12 } };
  expect(withCrop(set, "corn").swath).toMatchObject({ initialMoistureWb: 0.75, stubbleCm: 12 });
  expect(withCrop(set, "corn").ops).toBeUndefined();
  expect(withCrop({ ...grass, ...corn }, "cool-season-grass")).toEqual({
    swath: grass.swath,
    route: grass.route,
    ops: grass.ops,
  });
});

test("the machine that takes the crop follows the route", () => {
  const grass = crewField("creek");
  expect(usualWorks("dry-hay", grass.swath)).toEqual(["mow", "ted", "rake", "bale"]);
  expect(withRoute(grass, "wilted-chop").ops).toEqual(["mow", "rake", "chop"]);
  const own = { ...grass, ops: ["mow", "ted", "bale", "haul"] as const };
  expect(withRoute(own, "wrapped-bales").ops).toEqual(["mow", "ted", "bale", "wrap", "haul"]);
});
