import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  type BuiltCrew,
  buildGrid,
  type CrewFixedRequest,
  type CrewPlanRequest,
  planFaults,
  planReread,
  rulesOf,
  toCrewJob,
} from "../../../model/crew/index.ts";
import { startFaults } from "../../../model/crew/milp/milp.ts";
import { stepModel } from "../../../model/crew/milp/step-model.ts";
import { reread } from "../../../model/crew/reread.ts";
import { gridJobs } from "../../../model/crew/rules-of.ts";
import { withToldWindows } from "../../../model/crew/told-windows.ts";
import { heldCautions } from "../../support/crew/requests.ts";

const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);
const HOURS = { solver: null, elapsedS: () => 0 };

/** How a member differs from the example: damper, warmer, and rain from an hour on for so many hours. */
type Differing = readonly [damperPct: number, warmerC: number, rainFrom: number, rainHours: number];

/** One field of the example alone, with four members that differ; invented. */
function alone(members: readonly Differing[], over: Partial<CrewPlanRequest> = {}): CrewPlanRequest {
  const asked: CrewPlanRequest = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  const [id, site] = Object.entries(asked.sites)[0] ?? [];
  if (id === undefined || site?.series.members === undefined) throw new Error("a site with members");
  const own = site.series.members.map((member, i) => {
    const [damperPct, warmerC, rainFrom, rainHours] = members[i] ?? [0, 0, 0, 0];
    const rains = (h: number) => h >= rainFrom && h < rainFrom + rainHours;
    return {
      ...member,
      airTempC: (member.airTempC ?? []).map((temp) => (temp ?? 0) + warmerC),
      relHumidityPct: (member.relHumidityPct ?? []).map((rh, h) =>
        rains(h) ? 96 : Math.min(100, Math.max(20, (rh ?? 0) + damperPct)),
      ),
      rainMm: (member.rainMm ?? []).map((_, h) => (rains(h) ? 2 : 0)),
    };
  });
  return {
    ...asked,
    sites: { [id]: { ...site, series: { ...site.series, members: own } } },
    fields: asked.fields.filter(({ siteId }) => siteId === id).slice(0, 1),
    travelMin: {},
    timeLimitS: 0,
    horizonDays: 4,
    readyShare: 0.8,
    ...over,
  } as CrewPlanRequest;
}

function builtOf(request: CrewPlanRequest): BuiltCrew {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

const MOWN: readonly CrewFixedRequest[] = [
  { fieldId: "creek", op: "mow", machineId: "mower-1", startUtc: "2026-07-01T12:00:00Z" },
];

const A_DAMP_ONE: readonly Differing[] = [
  [9, 0, 66, 3],
  [14, -1, 82, 2],
  [11, -2, 43, 3],
  [-3, 1, 68, 3],
];
const ALL_DAMP: readonly Differing[] = [
  [14, 0, 62, 1],
  [14, 0, 87, 2],
  [14, -1, 31, 0],
  [14, 1, 25, 3],
];

describe.each([
  ["to be mown, among members of which some are damp", A_DAMP_ONE, []],
  ["mown already, among members of which some are damp", A_DAMP_ONE, MOWN],
  ["to be mown, in damp air", ALL_DAMP, []],
  ["mown already, in damp air", ALL_DAMP, MOWN],
])("a field that windows at usual hours leave none, %s", (_, members, fixed) => {
  const asked = builtOf(alone(members, { fixed }));

  test("is brought in by hours of which the replay finds every member dry", async () => {
    const usual = await planReread(asked, { ...HOURS, brief: true });
    expect(usual.answer.left.map(({ fieldId }) => fieldId)).toEqual(["creek"]);
    const { built, answer } = await planReread(asked, HOURS);
    expect(answer.left).toEqual([]);
    expect(answer.replay[0]?.chanceDry).toBe(1);
    expect(answer.value).toBeLessThanOrEqual(answer.bound + 1e-9);
    expect(built.told).toEqual(["creek"]);
    expect(answer.windowsReread).toEqual(["creek"]);
    expect(answer.assumptions.join(" ")).toContain(
      "With tedding and raking at usual hours no plan was found in which Creek field is dry in 8 in 10, and within its band in half: its windows are those that the replay itself finds",
    );
    expect(planFaults(rulesOf(built), answer.jobs.map(toCrewJob))).toEqual([]);
    const jobs = gridJobs(built, answer.jobs);
    expect(reread(built, jobs)).toBeNull();
    const { milp, pointOf } = stepModel(built.grid);
    expect(startFaults(milp, pointOf(jobs))).toEqual([]);
  });

  test("is asked for hours once, and not at all by who has no time", () => {
    const told = withToldWindows(asked, [], [], () => false);
    expect(told?.told).toEqual(["creek"]);
    expect(told && withToldWindows(told, [], ["creek"], () => false)).toBeNull();
    expect(withToldWindows(asked, [], [], () => true)).toBeNull();
  });
});

describe("work held at hours that no window at usual hours has", () => {
  const planned = async () => (await planReread(builtOf(alone(A_DAMP_ONE)), HOURS)).answer.jobs;
  const heldAt = async (laterH: number) => {
    const fixed = (await planned()).map(({ fieldId, op, machineId, personId, startUtc, endUtc }) => {
      const moved = (utc: string) =>
        op === "bale"
          ? new Date(Date.parse(utc) + laterH * 3_600_000).toISOString().replace(".000Z", "Z")
          : utc;
      return { fieldId, op, machineId, personId, startUtc: moved(startUtc), endUtc: moved(endUtc) };
    });
    return planReread(builtOf(alone(A_DAMP_ONE, { fixed })), { ...HOURS, brief: true });
  };
  const ofBaling = ({ answer }: Awaited<ReturnType<typeof heldAt>>) =>
    heldCautions(answer)
      .filter(({ op }) => op === "bale")
      .map(({ code }) => code);

  test("is not called outside its window where the replay finds the crop dry", async () => {
    const plan = await heldAt(0);
    expect(plan.answer.replay[0]?.chanceDry).toBe(1);
    expect(ofBaling(plan)).toEqual([]);
    // Whoever draws the same plan is told the same; windows alone would refuse it.
    const jobs = plan.answer.jobs.map(toCrewJob);
    const drawn = { ...rulesOf(plan.built, "all"), isFixed: () => false };
    expect(planFaults(drawn, jobs).filter(({ op }) => op === "bale")).toEqual([]);
    const { isDryAllTheSame: _, ...byWindows } = drawn;
    expect(planFaults(byWindows, jobs).map(({ op, code }) => `${op}: ${code}`)).toContain("bale: window");
  });

  test.each([-1, 12])("is called so %d h from there, where it is not dry", async (laterH) => {
    const plan = await heldAt(laterH);
    expect(plan.answer.replay[0]?.chanceDry).toBeLessThan(0.8);
    expect(ofBaling(plan)).toContain("window");
  });
});

test("a field that its windows serve keeps them", async () => {
  const { built, answer } = await planReread(builtOf(alone([])), HOURS);
  expect(answer.replay[0]?.chanceDry).toBeGreaterThanOrEqual(0.8);
  expect(built.told).toEqual([]);
});

test("no hours are told where a work could only be done in the rain", async () => {
  const rain: Differing = [20, -4, 0, 144];
  const { built, answer } = await planReread(builtOf(alone([rain, rain, rain, rain])), HOURS);
  expect(answer.left).toHaveLength(1);
  expect(built.told).toEqual([]);
});
