import { expect, test } from "vitest";
import type { CrewPlanAnswer } from "../../../model/crew/index.ts";
import { draftOf, draftOfFile, requestOf } from "../../../web/crew/crew-draft.ts";
import { goneOf, withGone, withGoneFields, withKnownNames } from "../../../web/crew/gone.ts";
import { fresh } from "../../../web/crew/ItemList.tsx";
import { coordinates, fieldLine, machineLine, personLine } from "../../../web/crew/item-lines.ts";
import { shortNames } from "../../../web/crew/short-names.ts";
import { usualWorks, withCrop, withRoute } from "../../../web/crew/with-crop.ts";
import type { Manner } from "../../../web/format/manner.ts";
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

test("whose a field was that left the list is kept, and the plan is held against it by name", () => {
  const jobs = [
    {
      fieldId: "creek",
      op: "mow",
      machineId: "m",
      personId: "a",
      startUtc: "2026-07-02T15:00:00Z",
      endUtc: "2026-07-02T17:00:00Z",
    },
  ] as const;
  const draft = { ...draftOf(question, "plan"), promised: { jobs, revision: 3 } };
  const without = withGone(draft, { ...draft, fields: draft.fields.slice(1) });
  expect(without.gone?.customers).toEqual({ creek: "First customer" });
  const { previous } = requestOf(without, spellWithMembers(4, 0), null);
  expect(previous?.names).toEqual({
    fields: { creek: "Creek field" },
    customers: { creek: "First customer" },
  });
});

test("folded, each of a list is told in a line, in the reader's units and on their clock", () => {
  const us: Manner = { units: "us", hour12: true, locale: "en-US", zone: "America/Chicago" };
  const field = crewField("creek", { customer: "First customer", dueUtc: "2026-07-02T23:00:00Z" });
  expect(fieldLine(field, { s1: "Home farm" }, us)).toBe(
    "19.8 ac, dry hay, First customer, Home farm, due Thu 2 Jul 6 pm",
  );
  const off = { fromUtc: "2026-07-02T12:00:00Z", toUtc: "2026-07-02T22:00:00Z" };
  expect(machineLine({ id: "b", kind: "baler", haPerH: 4, offUtc: [off] }, us)).toMatch(
    /^baler, 9.9 ac.*, away once$/,
  );
  expect(machineLine({ id: "b", kind: "baler" }, us)).toBe("baler, typical rate");
  expect(personLine({ id: "a", from: "07:00", to: "20:00" }, us)).toBe("7 am to 8 pm");
  expect(coordinates({ latitude: 44.3, longitude: -98.2 }, us)).toBe("44.3000° N, 98.2000° W");
});

test("where a field's name has no room stands what tells it from the others", () => {
  const shorts = (...names: readonly string[]) =>
    Object.values(shortNames(Object.fromEntries(names.map((name, i) => [`f${i}`, name]))));
  expect(shorts("Creek field", "Long acre", "Lane end")).toEqual(["C", "Lo", "La"]);
  expect(shorts("Field 1", "Field 2", "Field 12")).toEqual(["1", "2", "12"]);
  expect(shorts("Hill", "Hilltop", "Same", "Same")).toEqual(["H", "Ht", "S", "S"]);
});

test("a file's earlier plan brings the names of those that its question does not list", () => {
  const previous = { jobs: [], revision: 1, names: { machines: { "old-1": "Old mower", "rake-1": "Rake" } } };
  const draft = draftOfFile({ ...question, previous }, "plan");
  expect(draft.gone).toEqual({ fields: {}, machines: { "old-1": "Old mower" }, people: {}, customers: {} });
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
