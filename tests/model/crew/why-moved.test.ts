import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { GridJob } from "../../../model/crew/grid.ts";
import { nextWouldNotDo } from "../../../model/crew/in-own-field.ts";
import {
  buildGrid,
  type CrewJobAnswer,
  type CrewOp,
  type CrewPlanRequest,
  wordsOfJobs,
} from "../../../model/crew/index.ts";
import { gridJobs } from "../../../model/crew/rules-of.ts";
import { dayTime, spokenClock } from "../../../model/crew/words.ts";
import { crewField, crewRequest, plannedBriefly, rainedOn } from "../../support/crew/requests.ts";

const planned = (over: Partial<CrewPlanRequest>) => plannedBriefly(crewRequest({ timeLimitS: 0, ...over }));

const H = 3_600_000;
const utc = (ms: number) => new Date(ms).toISOString().replace(".000Z", "Z");
const fields = [crewField("creek", { name: "Creek field", customer: "First customer" })];
const first = await planned({ fields });
const baling = first.jobs.find(({ op }) => op === "bale");
const balingMs = Date.parse(baling?.startUtc ?? "");
const { machines } = crewRequest();

test("a mowing that moves because the baler is away later says so", async () => {
  const off = { fromUtc: utc(balingMs - 40 * H), toUtc: utc(balingMs + 30 * H) };
  const again = await planned({
    fields,
    machines: machines.map((one) => (one.kind === "baler" ? { ...one, offUtc: [off] } : one)),
    previous: first,
  });
  const why = (op: string) => again.changes.find((change) => change.op === op);
  expect(why("mow")?.why).toMatch(
    /^the baler is away when its crop was to be baled, \w{3} \d+ \w{3} \d\d:\d\d to \w{3} \d+ \w{3} \d\d:\d\d$/,
  );
  expect(why("rake")?.why).toBe(why("mow")?.why);
  expect(why("bale")?.why).toBe("the baler is off at that hour");
  const told = again.messages[0]?.text ?? "";
  expect(told).toContain("because the baler is not there when its crop was to be baled.");
  expect(told).toContain("because the baler is not there then.");
});

const OPS = { "mower-1": "mow", "tedder-1": "ted", "baler-1": "bale" } as const;
const by = (machineId: keyof typeof OPS, startUtc: string, endUtc: string) => ({
  fieldId: "creek",
  op: OPS[machineId],
  machineId,
  personId: "a",
  startUtc,
  endUtc,
});

test("a window that closes after a mowing that moved earlier names that mowing", async () => {
  const off = { fromUtc: "2026-07-05T05:00:00Z", toUtc: "2026-07-09T05:00:00Z" };
  const again = await planned({
    fields: [crewField("creek", { name: "Creek field", ops: ["mow", "ted", "bale"] })],
    machines: machines.map((one) => (one.kind === "mower" ? { ...one, offUtc: [off] } : one)),
    previous: {
      jobs: [
        by("mower-1", "2026-07-05T18:00:00Z", "2026-07-05T20:00:00Z"),
        by("tedder-1", "2026-07-06T14:00:00Z", "2026-07-06T16:00:00Z"),
        by("baler-1", "2026-07-07T18:00:00Z", "2026-07-07T20:00:00Z"),
      ],
    },
  });
  expect(again.changes.map(({ why }) => why)).toEqual([
    "the mower is off at that hour",
    "after mowing on Wed 1 Jul 10:00 its window closes on Thu 2 Jul 09:00, when the crop gets too dry",
    "after mowing on Wed 1 Jul 10:00 its window closes on Sun 5 Jul 02:00, when dew falls, it gets dark and the crop gets too wet",
  ]);
});

test("of crop that is ready later than promised it is said why that hour is not taken", async () => {
  const slow = machines.map((one) => (one.kind === "baler" ? { ...one, haPerH: 1.6 } : one));
  const again = await planned({
    fields: [crewField("creek", { name: "Creek field", ops: ["mow", "bale"] })],
    machines: slow,
    nowUtc: "2026-07-04T22:00:00Z",
    previous: {
      jobs: [
        by("mower-1", "2026-07-04T14:00:00Z", "2026-07-04T16:00:00Z"),
        by("baler-1", "2026-07-05T18:00:00Z", "2026-07-05T23:00:00Z"),
      ],
    },
  });
  expect(again.changes.map(({ text }) => text)).toEqual([
    "Creek field: baling moves from Sun 5 Jul 13:00 to Mon 6 Jul 12:00 because the crop is not ready for it before Sun 5 Jul 19:00, and Sun 5 Jul 19:00 to 22:00 is too short for the 5 h it takes.",
  ]);
});

const example: CrewPlanRequest = JSON.parse(
  readFileSync(new URL("../../../server/examples/crew-plan.json", import.meta.url), "utf8"),
);

/** A visit of the example's first crew by day of July and hour of its clock. */
function visit(fieldId: string, op: CrewOp, day: number, hour: number, hours: number): CrewJobAnswer {
  const startMs = Date.parse("2026-07-01T05:00:00Z") + ((day - 1) * 24 + hour) * H;
  const machineId = { mow: "mower-1", ted: "tedder-1", rake: "rake-1", bale: "baler-1" }[op as "mow"];
  return { fieldId, op, machineId, personId: "a", startUtc: utc(startMs), endUtc: utc(startMs + hours * H) };
}

test("of two fields that change places one has the cause, the other the exchange, and neither what the plan denies", () => {
  const { creek, acre } = { creek: "creek", acre: "long-acre" };
  const done = [
    visit(creek, "mow", 1, 8, 2),
    visit(creek, "ted", 1, 11, 2),
    visit(acre, "mow", 1, 10, 2),
    visit(acre, "ted", 1, 13, 1),
  ];
  const before = [
    visit(acre, "rake", 2, 12, 2),
    visit(creek, "rake", 2, 14, 2),
    visit(creek, "bale", 2, 17, 2),
    visit(acre, "bale", 3, 14, 2),
  ];
  const now = [
    visit(acre, "rake", 2, 15, 2),
    visit(acre, "bale", 2, 17, 2),
    visit(creek, "rake", 3, 10, 2),
    visit(creek, "bale", 3, 12, 2),
  ];
  // Rain comes on the third day, from 14:00 to 18:00.
  const built = buildGrid({
    ...example,
    sites: rainedOn(example.sites, [62, 66], 3),
    fields: example.fields.filter(({ id }) => id === creek || id === acre),
    nowUtc: "2026-07-02T14:30:00Z",
    previous: { jobs: [...done, ...before] },
  });
  if (!built.ok) throw new Error(built.issues[0]?.message);
  const { changes } = wordsOfJobs(built.value, [...done, ...now], []);
  const why = (fieldId: string, op: CrewOp) =>
    changes.find((change) => change.fieldId === fieldId && change.op === op);
  expect(why(acre, "rake")?.why).toBe("the crop is not ready for it before Thu 2 Jul 15:00");
  expect(why(acre, "bale")?.why).toMatch(
    /^no hours are fit for it between Fri 3 Jul 14:00 and .* \(rain\b.*\)$/,
  );
  expect(why(creek, "rake")?.why).toBe("the rake is at Long acre then");
  expect(why(creek, "bale")).toMatchObject({
    why: "the baler is at Long acre then: the two have changed places",
    customerWhy: "the baler is needed elsewhere then",
  });
});

test("a mowing that moves with the baler away, but for the tedding that keeps its hour, says so", () => {
  const outcome = buildGrid(crewRequest({ fields, previous: first }));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const built = outcome.value;
  const jobs = gridJobs(built, first.jobs);
  const mow = jobs.find(({ task }) => task === 0) as GridJob;
  const ted = first.jobs.find(({ op }) => op === "ted");
  const at = dayTime(Date.parse(ted?.startUtc ?? ""), spokenClock(built));
  const moved = (slots: number) => ({ ...mow, start: mow.start + slots, end: mow.end + slots });
  expect(nextWouldNotDo(built, jobs, mow)).toBeNull();
  const why = `mown as promised, tedding on ${at} would lie outside its window`;
  expect(nextWouldNotDo(built, jobs, moved(24))).toEqual({ why });
  // One that moves too has a cause of its own.
  const later = jobs.map((job) => (job.task === 1 ? { ...job, start: job.start + 1 } : job));
  expect(nextWouldNotDo(built, later, moved(24))).toBeNull();
});
