import { expect, test } from "vitest";
import type { CrewPlanRequest } from "../../../model/crew/index.ts";
import { crewField, crewRequest, plannedBriefly } from "../../support/crew/requests.ts";

const planned = (over: Partial<CrewPlanRequest>) => plannedBriefly(crewRequest({ timeLimitS: 0, ...over }));

const field = (areaHa: number) =>
  crewField("creek", { name: "Creek field", customer: "First customer", areaHa });
const first = await planned({
  fields: [field(8)],
  people: [{ id: "a", name: "Ann", from: "07:00", to: "20:00" }],
});
const previous = { jobs: first.jobs, names: first.names, revision: 0 };
const people = [
  { id: "b", name: "Bo", from: "07:00", to: "20:00" },
  { id: "a", name: "Ann", from: "07:00", to: "20:00" },
];

test("whoever was to come still comes, though somebody else could", async () => {
  const again = await planned({ fields: [field(8)], people, previous });
  expect(again.jobs.map(({ personId }) => personId)).toEqual(first.jobs.map(() => "a"));
  expect(again.changes).toEqual([]);
});

test("a visit at its hour that another does is a change, with its reason, and none for the customer", async () => {
  const { changes, messages } = await planned({ fields: [field(8)], people: people.slice(0, 1), previous });
  expect(changes).toHaveLength(4);
  expect(changes[0]).toMatchObject({
    op: "mow",
    fromUtc: first.jobs[0]?.startUtc,
    toUtc: first.jobs[0]?.startUtc,
    who: "by Bo instead of Ann",
    why: "Ann is not in the crew any more",
  });
  expect(changes[0]?.text).toMatch(
    /^Creek field: mowing on \w+ \d+ \w+ \d\d:\d\d is done by Bo instead of Ann because Ann is not in the crew any more\.$/,
  );
  expect(messages[0]?.text).not.toContain("Changed");
});

test("a visit at its hour that takes longer is a change, told to the customer too", async () => {
  const { changes, messages } = await planned({
    fields: [field(12)],
    people: people.slice(1),
    previous,
  });
  const mow = changes.find(({ op }) => op === "mow");
  expect(mow).toMatchObject({ takes: "3 h instead of 2 h" });
  expect(messages[0]?.text).toContain("3 h instead of 2 h");
});
