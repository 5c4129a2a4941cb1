import { describe, expect, test } from "vitest";
import { courseOf, coursesAt, waysOf } from "../../../model/crew/grid.ts";
import { type BuiltCrew, buildGrid, type CrewPlanRequest } from "../../../model/crew/index.ts";
import { startFaults } from "../../../model/crew/milp/milp.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { crewJob, rulesOf } from "../../../model/crew/rules-of.ts";
import { solveGrid } from "../../../model/crew/solve-grid.ts";
import { planFaults } from "../../../model/crew/validity.ts";
import { bandOfOp } from "../../../model/crew/windows/band.ts";
import { type Choices, coursesOf } from "../../../model/crew/windows/courses.ts";
import { windowsOf } from "../../../model/crew/windows/runs.ts";
import { fitStretches } from "../../../model/harvest/spans.ts";
import { bruteForce } from "../../support/crew/brute-force.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";
import { solverHere } from "../../support/crew/solver-here.ts";

const solver = await solverHere();
const FRAME = { startUtcMs: Date.parse(FROM_UTC), slotMs: 3_600_000, count: 168 };
const flags = (text: string) => Uint8Array.from(text, (one) => (one === "1" ? 1 : 0));

test("stretches: the long ones as they come, then the short ones; hours that nobody could use part none", () => {
  const open = flags("1111111111000111111111");
  expect(windowsOf(flags("1100000111000111011110"), open, 3)).toMatchObject([
    { ready: 7, until: 16 },
    { ready: 17, until: 21 },
    { ready: 0, until: 2 },
  ]);
});

const span = (ready: number, until: number) => ({ ready, until });

function choices(over: Partial<Choices>): Choices {
  return { stretches: [], isHeld: [false, false], windrows: null, rake: -1, gather: 1, ...over };
}

test("courses: first with the preferred stretch of each work, then with later ones, five in all", () => {
  const tedding = [span(2, 8), span(26, 30)];
  const baling = [span(30, 40), span(54, 60), span(78, 84), span(100, 110)];
  expect(coursesOf(choices({ stretches: [tedding, baling] }), FRAME)).toEqual([
    [tedding[0], baling[0]],
    [tedding[0], baling[1]],
    [tedding[1], baling[0]],
    [tedding[0], baling[2]],
    [tedding[1], baling[1]],
  ]);
});

test("courses: a work that is held needs no stretch, another without one leaves none", () => {
  const baling = [span(30, 40)];
  expect(coursesOf(choices({ stretches: [[], baling] }), FRAME)).toEqual([]);
  expect(coursesOf(choices({ stretches: [[], baling], isHeld: [true, false] }), FRAME)).toEqual([
    [null, baling[0]],
  ]);
});

test("courses: a windrow has the later stretches alone that are within reach of its raking", () => {
  const raking = { ready: 28, until: 31, fit: new Uint8Array(0), stretch: 0 };
  const taken = [span(32, 36), span(54, 58), span(78, 84)];
  const found = coursesOf(
    choices({ stretches: [[], []], windrows: [{ raking, taken }], rake: 0, gather: 1 }),
    FRAME,
  );
  expect(found.map(([, gather]) => gather)).toEqual([taken[0], taken[1]]);
});

function builtOf(request: CrewPlanRequest): BuiltCrew {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return built.value;
}

/** Two fields, one machine of each kind and one person, in days with a shower that parts the hours of each work. */
function small(ops: readonly ("mow" | "ted" | "rake" | "bale")[], over: Partial<CrewPlanRequest> = {}) {
  return builtOf(
    crewRequest({
      sites: { s1: { series: spellWithMembers(6, 5, 3) } },
      fields: [crewField("creek", { ops, areaHa: 7 })],
      people: [{ id: "a", from: "09:00", to: "18:00" }],
      ...over,
    }),
  );
}

/** The baler is away until the n-th day: the first stretch of hours is of no use. */
const balerFrom = (day: number): Partial<CrewPlanRequest> => ({
  machines: crewRequest().machines.map((machine) => {
    if (machine.kind !== "baler") return machine;
    const toUtc = new Date(Date.parse(FROM_UTC) + day * 86_400_000).toISOString();
    return { ...machine, offUtc: [{ fromUtc: FROM_UTC, toUtc }] };
  }),
});

describe.each([
  ["mown and baled", ["mow", "bale"], {}],
  ["mown and baled, the baler away at first", ["mow", "bale"], balerFrom(4)],
  ["raked", ["mow", "rake", "bale"], {}],
  ["raked, the baler away at first", ["mow", "rake", "bale"], balerFrom(4)],
  ["tedded", ["mow", "ted", "bale"], balerFrom(4)],
  ["tedded and raked", ["mow", "ted", "rake", "bale"], balerFrom(4)],
] as const)("in showery days, %s", (_, ops, over) => {
  const built = small(ops, over);
  const { grid } = built;

  test("every combination of hours and courses tried gives what the plan is worth, and the model has it", async () => {
    const began = performance.now();
    const elapsedS = () => (performance.now() - began) / 1000;
    const plan = await solveGrid(grid, { timeLimitS: 20, seed: 1, solver, elapsedS });
    const best = bruteForce(grid);
    expect(best).toBeGreaterThan(0);
    expect(plan.value).toBeCloseTo(best, 4);
    expect(plan.bound).toBeGreaterThanOrEqual(best - 1e-6);
    const { milp, pointOf } = stepModel(grid);
    expect(startFaults(milp, pointOf(plan.jobs))).toEqual([]);
    const jobs = plan.jobs.map((job) => crewJob(built, job));
    expect(planFaults(rulesOf(built), jobs)).toEqual([]);
  });

  test("works that stand in the windows of a course are found to be of a course with those windows", () => {
    const [field] = grid.fields;
    if (field === undefined) throw new Error("no field");
    let several = 0;
    for (let q = 0; q < grid.count; q++) {
      const courses = coursesAt(field, q).filter((course) => Number.isFinite(field.mowGain[course]));
      if (courses.length > 1) several++;
      for (const course of courses) {
        const jobs = field.tasks.map(({ ready }, i) => {
          const start = i === 0 ? q : (ready?.[course] ?? 0);
          return { start, end: start + 1 };
        });
        const found = courseOf(field, jobs);
        const windows = (of: number) => field.tasks.map(({ ready, until }) => [ready?.[of], until?.[of]]);
        expect(windows(found)).toEqual(windows(course));
      }
    }
    expect(waysOf(field)).toBeGreaterThan(1);
    expect(several).toBeGreaterThan(0);
  });
});

test("every hour in which crop that is not raked may be baled lies in a window of its mowing", () => {
  const { grid, request, members } = small(["mow", "bale"]);
  const [field, asked] = [grid.fields[0], request.fields[0]];
  const bale = field?.tasks[1];
  const band = asked === undefined ? null : bandOfOp("bale", asked);
  if (field === undefined || bale == null || band === null) throw new Error("no field");
  const own = members[0] ?? [];
  let fit = 0;
  let later = 0;
  for (let q = grid.nowSlot; q < grid.count; q++) {
    const courses = coursesAt(field, q).filter((course) => Number.isFinite(field.mowGain[course]));
    if (courses.length === 0) continue;
    const cutUtcMs = grid.startUtcMs + q * grid.slotMs;
    const tracks = own.map((member) => member.track(member.course(cutUtcMs, [])));
    const holds = (t: number, driest: number) =>
      tracks.filter((track) =>
        fitStretches(track, [driest, band.bandWb[1]], band.conditions).some(
          ({ startMs, endMs }) =>
            startMs <= grid.startUtcMs + t * grid.slotMs && endMs >= grid.startUtcMs + (t + 1) * grid.slotMs,
        ),
      ).length;
    for (let t = q + 1; t < grid.count; t++) {
      if ((bale.openUntil[t] as number) === t) continue;
      const isFit = holds(t, 0) >= 4 && holds(t, band.bandWb[0]) >= 3;
      const at = courses.findIndex(
        (course) => (bale.ready?.[course] ?? -1) <= t && t < (bale.until?.[course] ?? -1),
      );
      expect([q, t, at >= 0]).toEqual([q, t, isFit]);
      if (isFit) fit++;
      if (at > 0) later++;
    }
  }
  expect(fit).toBeGreaterThan(100);
  expect(later).toBeGreaterThan(20);
});
