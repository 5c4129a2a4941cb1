import { expect, test } from "vitest";
import { type CrewPlanAnswer, type CrewPlanRequest, planCrew } from "../../../model/crew/index.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { warmDays } from "../../support/crew/warm-days.ts";

async function planned(request: CrewPlanRequest): Promise<CrewPlanAnswer> {
  const answer = await planCrew(request, { solver: null, elapsedS: () => 0 });
  if (!answer.ok) throw new Error(answer.issues[0]?.message);
  return answer.value;
}

/** Two hayfields, one mower, one baler, one person; mowings of 1 July are held at these local hours. */
function twoFields(held: Readonly<Record<string, number>>): CrewPlanRequest {
  const series = warmDays();
  const field = {
    swath: {
      crop: "cool-season-grass",
      dryMatterTHa: 2,
      initialMoistureWb: 0.78,
      conditioning: "roll",
      coveredFraction: 0.8,
      stubbleCm: 8,
      soil: "moist",
    },
    route: "dry-hay",
    ops: ["mow", "bale"],
    valuePerHa: 400,
  } as const;
  return {
    sites: { s1: { series }, s2: { series } },
    fields: [
      { id: "a", siteId: "s1", areaHa: 4, ...field },
      { id: "b", siteId: "s2", areaHa: 5, ...field },
    ],
    machines: [
      { id: "mower", kind: "mower", haPerH: 3 },
      { id: "baler", kind: "baler", haPerH: 3 },
    ],
    people: [{ id: "p", from: "07:00", to: "19:00" }],
    travelMin: { "s1|s2": 25 },
    fixed: Object.entries(held).map(([fieldId, h]) => ({
      fieldId,
      op: "mow" as const,
      machineId: "mower",
      startUtc: `2026-07-01T${h + 5}:00:00Z`,
    })),
    timeLimitS: 0,
  } as CrewPlanRequest;
}

// With both mowings held the windows of both come from the replay; with one of them the other was left for want of an hour.
test("a field is not left for want of an hour that the replay calls dry, whatever is held beside it", async () => {
  const both = await planned(twoFields({ a: 11, b: 8 }));
  expect(both.left).toEqual([]);
  const one = await planned(twoFields({ b: 8 }));
  expect(one.left).toEqual([]);
  expect(one.value).toBeGreaterThan(0.99 * both.value);
  for (const { chanceDry } of one.replay) expect(chanceDry).toBeGreaterThanOrEqual(0.8);
});

test("planned again from a plan whose hours the replay calls dry, nobody is dropped", async () => {
  const before = await planned(twoFields({ a: 11, b: 8 }));
  const again = await planned({ ...twoFields({ b: 8 }), previous: before });
  expect(again.left).toEqual([]);
  expect(again.cancelled).toEqual([]);
});

// In dry heat the crop is fit for wrapping an hour at most, but for dry hay through afternoons.
test("a field that dries too fast to be wrapped is told to be taken as dry hay", async () => {
  const asked = twoFields({});
  const [, field] = asked.fields;
  if (field === undefined) throw new Error("a field");
  const { left, help } = await planned({
    ...asked,
    fields: [{ ...field, areaHa: 8, route: "wrapped-bales", ops: ["mow", "bale", "wrap"] }],
    machines: [
      ...asked.machines,
      { id: "rake", kind: "rake", haPerH: 5 },
      { id: "wrapper", kind: "wrapper" },
    ],
  });
  expect(left).toHaveLength(1);
  expect(help).toMatchObject({ kind: "dry-hay", fieldId: "b" });
  expect(help?.text).toMatch(/^b as dry hay instead of wrapped bales, with raking: brought in/);
});

// A working day too short for the windows read at usual hours: what an hour more opens, the replay finds.
test.each([7, 11])(
  "crew %i of which nothing can be brought in is told of the hour that would help",
  async (seed) => {
    const asked = differingCrew(seed);
    const until = (to: string) => ({
      ...asked,
      people: asked.people.map((one) => ({ ...one, from: "09:00", to })),
    });
    const { value, help } = await planned(until("16:00"));
    const { worth } = await planned(until("17:00"));
    expect(value).toBe(0);
    expect(help?.kind).toBe("hour");
    expect((help?.gain ?? 0) / (worth?.expected ?? 1)).toBeGreaterThan(0.9);
    expect((help?.gain ?? 0) / (worth?.expected ?? 1)).toBeLessThan(1.1);
  },
);
