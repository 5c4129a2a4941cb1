import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { GridJob } from "../../../model/crew/grid.ts";
import {
  type BuiltCrew,
  buildGrid,
  type CrewJobAnswer,
  type CrewPlanRequest,
  planFaults,
  planReread,
  rulesOf,
  toCrewJob,
} from "../../../model/crew/index.ts";
import { doubtedWords } from "../../../model/crew/plan-words.ts";
import { passesOf } from "../../../model/crew/replay.ts";
import { reread } from "../../../model/crew/reread.ts";
import { gridJobs } from "../../../model/crew/rules-of.ts";
import { demoCrew, withInventedMembers } from "../../../web/crew/demo-crew.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

function builtOf(request: CrewPlanRequest, mostMembers?: number): BuiltCrew {
  const built = buildGrid(request, mostMembers);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

const tools = { solver: null, elapsedS: () => 0 };

/** The same task with the windows of its balings opening too early by so many slots, as read from members that dry fast. */
function tooEarly(built: BuiltCrew, slots: number): BuiltCrew {
  const fields = built.grid.fields.map((field) => ({
    ...field,
    tasks: field.tasks.map((task, i) =>
      i !== field.gather || task.ready === null
        ? task
        : {
            ...task,
            ready: task.ready.map((slot) => (slot < 0 ? slot : slot - slots)),
            openUntil: field.tasks[i - 1]?.openUntil ?? task.openUntil,
          },
    ),
  }));
  return { ...built, grid: { ...built.grid, fields } };
}

test("a plan whose replay speaks against its windows is made again on windows that hold", async () => {
  const brief = true;
  const asked = builtOf(
    crewRequest({
      sites: { s1: { series: spellWithMembers(6, 5) } },
      fields: [crewField("creek", { name: "Creek field", ops: ["mow", "rake", "bale"] })],
      horizonDays: 5,
      timeLimitS: 0,
    }),
  );
  const right = await planReread(asked, { ...tools, brief });
  expect([right.built.reread, right.answer.windowsReread]).toEqual([[], undefined]);
  const { built, answer } = await planReread(tooEarly(asked, 4), { ...tools, brief });
  expect([built.reread, answer.windowsReread]).toEqual([["creek"], ["creek"]]);
  expect(answer.assumptions.join(" ")).toContain(
    "In the replay of a first plan Creek field was dry in less than 8 in 10, or drier than its band in most: those windows were read again",
  );
  expect(answer.replay.map(({ chanceDry }) => chanceDry)).toEqual([expect.any(Number)]);
  expect(answer.replay[0]?.chanceDry).toBeGreaterThanOrEqual(0.8);
  // The task that comes back is the one that the plan keeps to, and that it is checked against.
  expect(planFaults(rulesOf(built), answer.jobs.map(toCrewJob))).toEqual([]);
  expect(reread(built, gridJobs(built, answer.jobs))).toBeNull();
});

test("few members are all read for a first picture too, and no field is served that its replay speaks against", async () => {
  const file = new URL("../../../weather-samples/showers-every-other-day.json", import.meta.url);
  const series = withInventedMembers(JSON.parse(readFileSync(file, "utf8")).series);
  const asked = builtOf({ ...demoCrew(series), timeLimitS: 0 }, 4);
  expect(asked.read).toBe("all");
  const { answer } = await planReread(asked, tools);
  expect(answer.replay).toHaveLength(6);
  for (const { chanceDry } of answer.replay) expect(chanceDry).toBeGreaterThanOrEqual(0.8);
});

test("an hour more loses nothing where windows are read again: the plan is kept of which the replay expects most", async () => {
  const file = new URL("../../../server/examples/crew-plan.json", import.meta.url);
  const request: CrewPlanRequest = JSON.parse(readFileSync(file, "utf8"));
  const planOf = async (change: Partial<CrewPlanRequest>) =>
    (await planReread(builtOf({ ...request, ...change }), tools)).answer;
  const previous = await planOf({});
  const [person] = request.people;
  if (person === undefined) throw new Error("a person");
  const from = (clock: string) =>
    planOf({ people: [{ ...person, from: clock }], previous, nowUtc: "2026-07-02T14:00:00Z" });
  const [late, early] = [await from("08:00"), await from("07:00")];
  expect(late.left).toEqual([]);
  expect(early.left).toEqual([]);
  expect(early.value).toBeGreaterThanOrEqual(late.value * (1 - late.gap) - 1e-9);
  // What the plan does not keep to is said.
  const short = early.replay.filter(({ chanceDry }) => chanceDry !== null && chanceDry < 0.8);
  expect(early.warnings.some((text) => text.startsWith("In the replay of this plan"))).toBe(short.length > 0);
});

test("a taking at which most members are past the band speaks against its window, as a wet one does", async () => {
  const asked = builtOf(
    crewRequest({
      sites: { s1: { series: spellWithMembers(6, 5, 5) } },
      fields: [crewField("creek", { route: "wrapped-bales", ops: ["mow", "bale"], bandWb: [0.45, 0.65] })],
      horizonDays: 5,
      timeLimitS: 0,
    }),
  );
  const { built, answer } = await planReread(asked, tools);
  const jobs = gridJobs(built, answer.jobs);
  const members = built.members[0] ?? [];
  const mow = answer.jobs.map(toCrewJob)[0];
  const isPast = (startUtcMs: number) => {
    const cutUtcMs = ((mow?.startUtcMs ?? 0) + (mow?.endUtcMs ?? 0)) / 2;
    const driest = members.map((member) => {
      const course = member.course(cutUtcMs, passesOf(answer.jobs.map(toCrewJob)));
      return course.moistureWb[Math.floor((startUtcMs - course.startUtcMs) / 3_600_000) - 1] ?? 1;
    });
    return driest.filter((wb) => wb < 0.45).length > members.length / 2;
  };
  expect(jobs.length).toBe(2);
  expect(isPast(toCrewJob(answer.jobs[1] as CrewJobAnswer).startUtcMs)).toBe(false);
  const late = Array.from({ length: 24 }, (_, i) => ({
    ...(jobs[1] as GridJob),
    start: (jobs[1]?.start ?? 0) + i,
  }))
    .map((job) => ({ ...job, end: job.start + (jobs[1]?.end ?? 0) - (jobs[1]?.start ?? 0) }))
    .find(({ start }) => isPast(built.grid.startUtcMs + start * built.grid.slotMs));
  expect(late).toBeDefined();
  const moved = jobs.map((job, i) => (i === 1 && late !== undefined ? late : job));
  expect(reread(built, jobs)).toBeNull();
  expect(reread(built, moved)?.doubted).toEqual(["creek"]);
});

test("of a plan whose windows the replay doubts no more is said than is known", () => {
  const request = crewRequest();
  const [first] = request.fields;
  expect(doubtedWords(request, [first?.id ?? ""])).toEqual([
    "In the replay of this plan Creek field is dry in less than the 8 in 10 that its window was asked for, or drier than its band in most: no better plan was found.",
  ]);
  expect(doubtedWords(request, [])).toEqual([]);
});
