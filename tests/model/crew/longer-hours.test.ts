import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { searchPlan } from "../../../model/crew/heuristic/improve.ts";
import { type BuiltCrew, buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { startFaults } from "../../../model/crew/milp/milp.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { demoCrew, withInventedMembers } from "../../../web/crew/demo-crew.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const OPS = [
  ["mow", "ted", "rake", "bale"],
  ["mow", "rake", "bale", "wrap"],
  ["mow", "bale"],
] as const;

function invented(sample: string): CrewPlanRequest {
  const file = new URL(`../../../weather-samples/${sample}.json`, import.meta.url);
  return demoCrew(withInventedMembers(JSON.parse(readFileSync(file, "utf8")).series));
}

/** A crew of chance: hours, areas, works and the day of rain. */
function ofChance(seed: number): CrewPlanRequest {
  const random = seededRandom(seed);
  const pick = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const hour = (h: number) => `${String(h).padStart(2, "0")}:00`;
  const fields = ["creek", "hill", "mill"].map((id) => {
    const ops = OPS[pick(0, 2)] ?? OPS[2];
    const route = ops.includes("wrap" as never) ? "wrapped-bales" : "dry-hay";
    return crewField(id, { areaHa: pick(3, 12), ops, route });
  });
  return crewRequest({
    sites: { s1: { series: spellWithMembers(6, 5, pick(2, 4)) } },
    fields,
    machines: [...crewRequest().machines, { id: "wrapper-1", kind: "wrapper" }],
    people: ["a", "b"].map((id) => ({ id, from: hour(pick(6, 10)), to: hour(pick(16, 20)) })),
    horizonDays: 6,
  });
}

const CASES: readonly (readonly [string, () => CrewPlanRequest])[] = [
  ["the invented crew among showers", () => invented("showers-every-other-day")],
  ["the invented crew in damp days", () => invented("humid-cloudy-dew")],
  ...[1, 2, 3, 4].map((seed) => [`a crew of chance ${seed}`, () => ofChance(seed)] as const),
];

/** Everybody stays an hour longer. */
function longer(request: CrewPlanRequest): CrewPlanRequest {
  const people = request.people.map((one) => ({
    ...one,
    to: `${String(Number(one.to.slice(0, 2)) + 1).padStart(2, "0")}:00`,
  }));
  return { ...request, people };
}

function builtOf(request: CrewPlanRequest): BuiltCrew {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

const planOf = (built: BuiltCrew) =>
  planBuilt({ ...built, request: { ...built.request, timeLimitS: 0 } }, { solver: null, elapsedS: () => 0 });

describe.each(CASES)("%s", (_, asked) => {
  const [short, long] = [builtOf(asked()), builtOf(longer(asked()))];

  test("with an hour more each evening every mowing hour keeps its windows", () => {
    short.grid.fields.forEach((field, f) => {
      const other = long.grid.fields[f];
      expect(other?.mowGain).toEqual(field.mowGain);
      field.tasks.forEach((task, i) => {
        const { ready, until, openUntil } = other?.tasks[i] ?? {};
        expect([ready, until, openUntil]).toEqual([task.ready, task.until, task.openUntil]);
      });
    });
  });

  test("the plan loses nothing by it, and what was told of the hour is what it brings", async () => {
    const [before, after] = [await planOf(short), await planOf(long)];
    const slack = after.gap * after.bound + 1e-6;
    expect(after.value).toBeGreaterThanOrEqual(before.value - slack);
    if (before.help?.kind === "hour")
      expect(after.value).toBeGreaterThanOrEqual(before.value + before.help.gain - slack);
  });

  test("a plan that was found is a point of the step model, whatever the order of the windows", () => {
    const found = searchPlan(long.grid, { rounds: 20, random: seededRandom(1), stop: () => false });
    const { milp, pointOf } = stepModel(long.grid);
    expect(startFaults(milp, pointOf(found.jobs))).toEqual([]);
  });
});
