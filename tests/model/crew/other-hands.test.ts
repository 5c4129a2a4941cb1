import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewPlanRequest } from "../../../model/crew/index.ts";
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
  expect(mow).toMatchObject({
    takes: "3 h instead of 2 h",
    why: "it is reckoned by its area and the machine's rate as they are now",
  });
  expect(messages[0]?.text).toContain("3 h instead of 2 h");
});

test("neither area nor rate is blamed where the same work is reckoned in other slots", async () => {
  const odd = { fields: [field(5.5)], people: people.slice(1) };
  const { jobs, names } = await planned(odd);
  const { changes } = await planned({ ...odd, slotMin: 30, previous: { jobs, names, revision: 0 } });
  const mow = changes.find(({ op }) => op === "mow");
  expect(mow).toMatchObject({ takes: "1.5 h instead of 2 h" });
  const stays = changes.filter(({ fromUtc, toUtc }) => fromUtc === toUtc);
  expect(stays.length).toBeGreaterThan(0);
  for (const { why } of stays) expect(why).toBe("it is reckoned in half hours now");
});

test("a visit that is held with somebody else, or to another end, is done so because it is held so", async () => {
  const mown = first.jobs.find(({ op }) => op === "mow") as CrewJobAnswer;
  const held = (over: Partial<CrewJobAnswer>) =>
    planned({ fields: [field(8)], people, previous, fixed: [{ ...mown, ...over }] });
  const byBo = (await held({ personId: "b" })).changes.find(({ op }) => op === "mow");
  expect(byBo).toMatchObject({ who: "by Bo instead of Ann", why: "it is held so" });
  const endUtc = new Date(Date.parse(mown.endUtc) + 3_600_000).toISOString();
  const longer = (await held({ endUtc })).changes.find(({ op }) => op === "mow");
  expect(longer).toMatchObject({ takes: "3 h instead of 2 h", why: "it is held so" });
});

test("a work that is new to a field in the plan is said to be, to the customer too; a field of no hours had none", async () => {
  const hauled = { ...field(8), ops: [...field(8).ops, "haul"] } as const;
  const machines = [...crewRequest().machines, { id: "cart-1", kind: "cart" } as const];
  const more = await planned({ fields: [hauled], machines, people: people.slice(1), previous });
  const haul = more.changes.find(({ op }) => op === "haul");
  expect(haul?.why).toBe("this work was not in the plan before");
  expect(more.messages[0]?.text).toMatch(/Changed:\n(.*\n)*.*hauling is new/);
  const fresh = await planned({ people, previous: { ...previous, jobs: [] } });
  expect(fresh.changes[0]?.why).toBe("the field had no hours in the plan before");
  expect(fresh.messages[0]?.text).not.toContain("Changed");
});
