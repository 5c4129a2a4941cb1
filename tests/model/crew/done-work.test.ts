import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { planCalendar } from "../../../server/crew/export.ts";
import {
  crewField,
  crewRequest,
  FROM_UTC,
  heldCautions,
  spellWithMembers,
} from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const utc = (hours: number) =>
  new Date(Date.parse(FROM_UTC) + hours * HOUR_MS).toISOString().replace(".000Z", "Z");
/** Local hours of the first day: the weather begins at midnight. */
const series = spellWithMembers(4, 0);
const OPS = ["mow", "rake", "bale"] as const;
const base = crewRequest({
  sites: { s1: { series } },
  fields: [crewField("creek", { ops: OPS, name: "Creek field" })],
  people: [{ id: "a", from: "07:00", to: "20:00" }],
  horizonDays: 3,
});
const MACHINES = { mow: "mower-1", rake: "rake-1", bale: "baler-1", wrap: "wrapper-1" } as const;
const done = (op: keyof typeof MACHINES, from: number, to: number) => ({
  fieldId: "creek",
  op,
  machineId: MACHINES[op],
  personId: "a",
  startUtc: utc(from),
  endUtc: utc(to),
});

async function answered(over: Partial<CrewPlanRequest>) {
  const outcome = buildGrid({ ...base, ...over });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
}
const refused = (over: Partial<CrewPlanRequest>) => {
  const outcome = buildGrid({ ...base, ...over });
  return outcome.ok ? [] : outcome.issues.map(({ path, message }) => [path, message]);
};
const without = (kind: string) => base.machines.filter((one) => one.kind !== kind);

test("fixed and done work keeps its hours to the minute, in the answer and in the calendar, whatever slot or rate", async () => {
  const mowing = done("mow", 9.5, 11);
  const slow = [...without("mower"), { id: "mower-1", kind: "mower" as const, haPerH: 0.5 }];
  const answer = await answered({ machines: slow, nowUtc: utc(12), previous: { jobs: [mowing] } });
  expect(answer.jobs.find(({ op }) => op === "mow")).toEqual(mowing);
  expect(answer.changes.filter(({ op }) => op === "mow")).toEqual([]);
  expect(answer.left).toEqual([]);
  expect(planCalendar(answer, 0)).toContain(
    "DTSTART;TZID=America/Chicago:20260701T093000\r\nDTEND;TZID=America/Chicago:20260701T110000",
  );
  const promised = await answered({
    fixed: [{ fieldId: "creek", op: "mow", machineId: "mower-1", startUtc: utc(9 + 2 / 3) }],
  });
  expect(promised.jobs.find(({ op }) => op === "mow")).toMatchObject({
    startUtc: "2026-07-01T14:40:00Z",
    endUtc: "2026-07-01T16:40:00Z",
  });
});

test("works done close upon another, or said to overlap, end in a plan", async () => {
  for (const [mown, raked] of [
    [10.5, 10.5],
    [11, 10.75],
  ] as const) {
    const jobs = [done("mow", 9.5, mown), done("rake", raked, 11.5)];
    const { jobs: planned, left } = await answered({ nowUtc: utc(12), previous: { jobs } });
    expect(left).toEqual([]);
    expect(planned).toEqual(expect.arrayContaining(jobs));
    expect(planned.map(({ op }) => op)).toContain("bale");
  }
});

test("all of a field held, in its windows or not: it counts as served, with a value", async () => {
  const jobs = [done("mow", 9, 11), done("rake", 11, 12), done("bale", 12, 14)];
  const answer = await answered({ nowUtc: utc(15), previous: { jobs } });
  expect(answer.left).toEqual([]);
  expect(answer.value).toBeGreaterThan(0);
  expect(answer.valueParts.kept).toBeCloseTo(answer.value, 6);
  expect(answer.bound).toBeGreaterThanOrEqual(answer.value);
});

test("windows are told of the works still to come: none of what is done, of held work what the mowing opens", async () => {
  const told = async (over: Partial<CrewPlanRequest>) =>
    (await answered(over)).windows.map(({ op, readyUtc }) => [op, readyUtc === null ? "none" : "window"]);
  const jobs = [done("mow", 9, 11)];
  const baling = { ...done("bale", 58, 60), endUtc: null };
  expect(await told({})).toEqual([
    ["mow", "none"],
    ["rake", "window"],
    ["bale", "window"],
  ]);
  expect(await told({ nowUtc: utc(12), previous: { jobs } })).toEqual([
    ["rake", "window"],
    ["bale", "window"],
  ]);
  // What the windrow will be that it takes is not known before the raking is planned.
  expect(await told({ nowUtc: utc(12), previous: { jobs }, fixed: [baling] })).toEqual([
    ["rake", "window"],
    ["bale", "none"],
  ]);
  const raked = { jobs: [...jobs, done("rake", 34, 35)] };
  expect(await told({ nowUtc: utc(36), previous: raked, fixed: [baling] })).toEqual([["bale", "window"]]);
  expect(await told({ nowUtc: utc(59), previous: raked, fixed: [baling] })).toEqual([]);
});

test("a machine that goes away in the middle of its work leaves it unfinished, and the answer says so", async () => {
  const off = [{ fromUtc: utc(39), toUtc: utc(90) }];
  const machines = [...without("baler"), { id: "baler-1", kind: "baler" as const, offUtc: off }];
  const jobs = [done("mow", 9, 11), done("rake", 34, 35), done("bale", 38, 41)];
  const answer = await answered({ machines, nowUtc: utc(40), previous: { jobs } });
  expect(answer.jobs.find(({ op }) => op === "bale")).toMatchObject({ startUtc: utc(38), endUtc: utc(39) });
  expect(answer.left).toEqual([
    {
      fieldId: "creek",
      why: "left lying, mown Wed 1 Jul 09:00, because baling broke off Thu 2 Jul 15:00 with 2 h to do, when baler-1 went away",
      mownUtc: utc(9),
    },
  ]);
  expect(answer.value).toBe(0);
  expect(heldCautions(answer)).toEqual([
    {
      fieldId: "creek",
      op: "bale",
      code: "broken-off",
      path: "previous.jobs[2]",
      text: "Creek field: baling is not finished, baler-1 was away from Thu 2 Jul 15:00 with 2 h of it to do. Plan the rest as a field of its own, and hold there what is done.",
    },
  ]);
});

test("tedding that was missed before a baling that is done is not needed any more: the field is served, what follows is planned", async () => {
  const asked = crewField("creek", {
    name: "Creek field",
    route: "wrapped-bales",
    ops: ["mow", "ted", "rake", "bale", "wrap"],
  });
  const machines = [...base.machines, { id: "wrapper-1", kind: "wrapper" as const, haPerH: 4 }];
  const fixed = [done("mow", 9, 11), done("rake", 34, 35), done("bale", 36, 38)];
  const text =
    "Creek field: tedding was not told as done before its baling, and counts as not needed any more: if it was done, hold it at the hours at which it was done.";
  const nowUtc = utc(39);
  const answer = await answered({ fields: [asked], machines, fixed, nowUtc });
  expect(answer.left).toEqual([]);
  expect(answer.value).toBeGreaterThan(0);
  expect(answer.jobs.map(({ op }) => op)).toEqual(["mow", "rake", "bale", "wrap"]);
  expect(answer.assumptions).toContain(text);
  // The same where the plan before had it and its tedder was away, or has it still to come.
  const tedding = (from: number) => ({
    ...done("mow", from, from + 1),
    op: "ted" as const,
    machineId: "tedder-1",
  });
  const off = [{ fromUtc: utc(11), toUtc: utc(60) }];
  const away = machines.map((one) => (one.kind === "tedder" ? { ...one, offUtc: off } : one));
  for (const [from, changes] of [
    [12, []],
    [40, ["Creek field: tedding on Thu 2 Jul 16:00 falls out because its crop is gathered without it."]],
  ] as const) {
    const previous = { jobs: [...fixed, tedding(from)] };
    const again = await answered({ fields: [asked], machines: away, nowUtc, previous });
    expect(again.left).toEqual([]);
    expect(again.value).toBeCloseTo(answer.value, 6);
    expect(heldCautions(again)).toEqual([]);
    expect(again.changes.filter(({ op }) => op === "ted").map((change) => change.text)).toEqual(changes);
  }
  // Before a gathering that is still to come it is waited for as before.
  const raked = await answered({ fields: [asked], machines, fixed: fixed.slice(0, 2), nowUtc });
  expect(raked.left).toHaveLength(1);
});

test("a visit whose machine was away when it was due never began: it is planned anew", async () => {
  const off = [{ fromUtc: utc(8), toUtc: utc(10) }];
  const machines = [...without("mower"), { id: "mower-1", kind: "mower" as const, haPerH: 4, offUtc: off }];
  const answer = await answered({ machines, nowUtc: utc(10), previous: { jobs: [done("mow", 9, 11)] } });
  const mowing = answer.jobs.find(({ op }) => op === "mow");
  expect(Date.parse(mowing?.startUtc ?? "")).toBeGreaterThanOrEqual(Date.parse(utc(10)));
  expect(heldCautions(answer).map(({ code, path }) => [code, path])).toEqual([
    ["not-begun", "previous.jobs[0]"],
  ]);
  expect(answer.changes[0]?.why).toBe("the mower was away when it was due");
});

test("done work before the weather stays; what hangs on its mowing asks for weather back to it, the rest is planned", async () => {
  const mowing = done("mow", -20, -18);
  expect(refused({ nowUtc: utc(1), previous: { jobs: [mowing] } })).toEqual([
    [
      "previous.jobs[0].startUtc",
      `previous.jobs[0].startUtc: got ${mowing.startUtc} for mow of "creek", before the weather that all sites share begins (${FROM_UTC}); the hours of rake, bale are reckoned from the mowing: give weather that reaches back to it, or take those works out of ops`,
    ],
  ]);
  const jobs = [mowing, done("rake", -8, -7), done("bale", -6, -2)];
  const wrapped = crewField("creek", { route: "wrapped-bales", ops: [...OPS, "wrap"] });
  const machines = [...base.machines, { id: "wrapper-1", kind: "wrapper" as const, haPerH: 4 }];
  const answer = await answered({
    fields: [wrapped, crewField("hill", { ops: OPS })],
    machines,
    nowUtc: utc(1),
    previous: { jobs },
  });
  expect(answer.left).toEqual([]);
  expect(answer.jobs).toEqual(expect.arrayContaining(jobs));
  const wrap = answer.jobs.find(({ op }) => op === "wrap");
  expect(Date.parse(wrap?.startUtc ?? "")).toBeLessThanOrEqual(Date.parse(utc(10)));
  expect(answer.replay.map(({ fieldId }) => fieldId)).toEqual(["hill"]);
  expect(answer.warnings.join()).toContain("creek was mown before the weather begins");
});

test("a promise beyond the weather is named where it stands", () => {
  const startUtc = utc(200);
  const fixed = [{ fieldId: "creek", op: "mow" as const, machineId: "mower-1", startUtc }];
  const [issue] = refused({ fixed });
  expect(issue?.[0]).toBe("fixed[0].startUtc");
  expect(issue?.[1]).toContain(`got ${startUtc} for mow of "creek", must be before`);
});
