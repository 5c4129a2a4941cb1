import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { demoCrew, withInventedMembers } from "../../../web/crew/demo-crew.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
/** Hours from the midnight at which the weather begins. */
const utc = (hours: number) =>
  new Date(Date.parse(FROM_UTC) + hours * HOUR_MS).toISOString().replace(".000Z", "Z");
const series = spellWithMembers(4, 0);
const base = crewRequest({
  sites: { s1: { series } },
  fields: [crewField("creek", { ops: ["mow", "rake", "bale"], name: "Creek field", customer: "First" })],
  people: [{ id: "a", from: "07:00", to: "20:00" }],
});
const hours = series.hours;
const rainedFrom = (hour: number, to: number): typeof series => ({
  ...series,
  hours: { ...hours, rainMm: hours.startUtc.map((_, i) => (i >= hour && i < to ? 4 : 0)) },
});
const rained = rainedFrom(36, 42);
const away = (kind: string, from: number, to: number) =>
  base.machines.map((one) =>
    one.kind === kind ? { ...one, offUtc: [{ fromUtc: utc(from), toUtc: utc(to) }] } : one,
  );
const mown = {
  fieldId: "creek",
  op: "mow" as const,
  machineId: "mower-1",
  personId: "a",
  startUtc: utc(10),
  endUtc: utc(12),
};

async function answered(over: Partial<CrewPlanRequest>) {
  const outcome = buildGrid({ ...base, ...over });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
}

const chopped = crewField("creek", { route: "wilted-chop", ops: ["mow", "rake", "chop"] });
const chopper = (haPerH: number) => [...base.machines, { id: "chopper-1", kind: "chopper" as const, haPerH }];
const wrapped = crewField("creek", { route: "wrapped-bales", ops: ["mow", "rake", "bale"] });
/** People who come when crop that is to be taken on the same day should lie already. */
const late = [{ id: "a", from: "15:00", to: "20:00" }];

test.each<[string, Partial<CrewPlanRequest>, RegExp]>([
  [
    "the machine that is away, and until when",
    { machines: away("baler", -24, 70), horizonDays: 3 },
    /^the only baler is away until Fri 3 Jul 22:00, too late for baling$/,
  ],
  [
    "on a clock of 12 hours",
    { machines: away("baler", -24, 70), horizonDays: 3, hour12: true },
    /^the only baler is away until Fri 3 Jul 10 pm, too late for baling$/,
  ],
  [
    "times off that follow each other as one",
    {
      machines: away("baler", -24, 40).map((one) =>
        one.kind === "baler"
          ? { ...one, offUtc: [...(one.offUtc ?? []), { fromUtc: utc(40), toUtc: utc(70) }] }
          : one,
      ),
      horizonDays: 3,
    },
    /^the only baler is away until Fri 3 Jul 22:00, too late for baling$/,
  ],
  [
    "away, and held elsewhere when it is back",
    {
      fields: [...base.fields, crewField("hill", { ops: ["mow", "rake", "bale"] })],
      machines: away("baler", -24, 56),
      fixed: [
        { fieldId: "hill", op: "mow", machineId: "mower-1", personId: "a", startUtc: utc(7) },
        {
          fieldId: "hill",
          op: "bale",
          machineId: "baler-1",
          personId: "a",
          startUtc: utc(56),
          endUtc: utc(70),
        },
      ],
      people: [...base.people, { id: "b", from: "07:00", to: "20:00" }],
      horizonDays: 3,
    },
    /the only baler is away until Fri 3 Jul 08:00, and held at hill Fri 3 Jul 08:00 to 22:00/,
  ],
  ["or for good", { machines: away("rake", -24, 200) }, /^the only rake is away through all of these days$/],
  [
    "the first of two machines that are away",
    {
      machines: away("rake", -24, 200).map((one) => ({
        ...one,
        offUtc: one.kind === "mower" ? [] : [{ fromUtc: utc(-24), toUtc: utc(200) }],
      })),
    },
    /^the only rake is away/,
  ],
  [
    "away in all hours of a field, and there at others",
    {
      sites: { s1: { series: rainedFrom(64, 96) } },
      machines: away("baler", 24, 64),
    },
    /^the only baler is away from Thu 2 Jul 00:00 to Fri 3 Jul 16:00, when baling is possible$/,
  ],
  [
    "the days looked at",
    { horizonDays: 1 },
    /^the plan looks no further than Thu 2 Jul 00:00, before it is dry enough for baling \(\d\d % by then, \d\d % is needed\)$/,
  ],
  [
    "the end of the weather",
    { sites: { s1: { series: spellWithMembers(1.25, 0, 9) } } },
    /^the weather ends Thu 2 Jul 06:00, before it is dry enough for baling \(/,
  ],
  [
    "rain",
    { sites: { s1: { series: rained } }, horizonDays: 2 },
    /^rain comes Thu 2 Jul 12:00, before it is dry enough for baling$/,
  ],
  [
    "a window shorter than the work",
    { fields: [chopped], machines: chopper(0.8) },
    /^chopping takes 10 h, but its longest window for it is \d h$/,
  ],
  [
    "hours at which nobody works",
    { people: [{ id: "a", from: "05:00", to: "10:00" }], daylightOnly: false },
    /^(whenever it is mown, )?nobody is at work when baling is possible \(nearest.* \w{3} \d Jul \d\d:\d\d to \d\d:\d\d\)$/,
  ],
  [
    "somebody who leaves before the end of a work, of a field that is mown",
    {
      machines: base.machines.map((one) => (one.kind === "baler" ? { ...one, haPerH: 1.6 } : one)),
      people: [{ id: "a", from: "07:00", to: "15:00" }],
      nowUtc: utc(13),
      previous: { jobs: [mown] },
    },
    /^left lying, mown Wed 1 Jul 10:00, because nobody stays to the end of baling when it is possible \(nearest \w{3} \d Jul \d\d:\d\d to \d\d:\d\d\)$/,
  ],
  [
    "hours of mowing that leave time for nothing after it",
    { sites: { s1: { series: rainedFrom(22, 48) } }, fields: [wrapped], horizonDays: 2, people: late },
    /^whenever it is mown within working hours, its later works do not fit \(nearest mowing that would do: Wed 1 Jul \d\d:\d\d to \d\d:\d\d\)$/,
  ],
  [
    "a crop that lies already does not stand",
    { machines: away("baler", 20, 200), nowUtc: utc(13), previous: { jobs: [mown] } },
    /^left lying, mown Wed 1 Jul 10:00, because the only baler is away from Wed 1 Jul 20:00 on$/,
  ],
])("a field that is left is told the true cause: %s", async (_name, over, why) => {
  const answer = await answered(over);
  expect(answer.left.find(({ fieldId }) => fieldId === "creek")?.why).toMatch(why);
  expect(answer.left[0]?.mownUtc).toBe(over.previous ? mown.startUtc : null);
});

test("of a machine that is away and busy, what binds in the hours of the field comes first", async () => {
  const dry = spellWithMembers(6, 0, 9);
  const rainMm = dry.hours.startUtc.map((_, i) => (i >= 56 ? 4 : 0));
  const wet = { ...dry, hours: { ...dry.hours, rainMm } };
  const ops = ["mow", "rake", "bale"] as const;
  const machines = crewRequest().machines.map((one) =>
    one.kind === "baler" ? { ...one, haPerH: 2, offUtc: [{ fromUtc: utc(48), toUtc: utc(200) }] } : one,
  );
  const { jobs, left } = await answered({
    sites: { s1: { series: dry }, s2: { series: wet } },
    fields: [
      crewField("creek", { ops, siteId: "s2" }),
      crewField("hill", { ops, valuePerHa: 800 }),
      crewField("mill", { ops, valuePerHa: 800 }),
    ],
    machines,
    people: crewRequest().people,
  });
  expect(jobs.filter(({ op }) => op === "bale").map(({ fieldId }) => fieldId)).toEqual(["hill"]);
  const off = "away from Fri 3 Jul 00:00 on";
  expect(left.map(({ fieldId, why, customerWhy }) => [fieldId, why, customerWhy])).toEqual([
    [
      "creek",
      `the only baler is at fields that bring more when baling is possible, and ${off}`,
      "no machine is free in its window",
    ],
    [
      "mill",
      `the only baler is ${off}, and at fields that bring more before that`,
      `the only baler is ${off}, and not free before that`,
    ],
  ]);
});

test("where nobody is there at all it is not told to split the field", async () => {
  const people = [{ id: "a", from: "07:00", to: "20:00", offUtc: [{ fromUtc: utc(-24), toUtc: utc(400) }] }];
  const { left } = await answered({ people });
  expect(left.map(({ why, customerWhy }) => [why, customerWhy])).toEqual([
    ["nobody is at work in these days", "nobody is free in its window"],
  ]);
});

test("a baler is taken in all hours at which a field could be baled, and they are named", async () => {
  const dry = spellWithMembers(4, 0, 9);
  const rainMm = dry.hours.startUtc.map((_, i) => (i >= 62 ? 4 : 0));
  const { jobs, left } = await answered({
    sites: { s1: { series: { ...dry, hours: { ...dry.hours, rainMm } } } },
    fields: ["creek", "hill", "mill"].map((id) => crewField(id, { ops: ["mow", "rake", "bale"] })),
    machines: crewRequest().machines.map((one) => ({ ...one, haPerH: one.kind === "baler" ? 1.6 : 8 })),
    people: crewRequest().people.concat({ id: "c", from: "07:00", to: "20:00" }),
    nowUtc: utc(7),
  });
  const why =
    "the baler is taken by fields that bring more when baling is possible (Thu 2 Jul 15:00 to 20:00)";
  expect(left.map((one) => one.why)).toEqual([why, why]);
  const baled = jobs.filter(({ op }) => op === "bale").map(({ startUtc, endUtc }) => [startUtc, endUtc]);
  expect(baled).toEqual([[utc(39), utc(44)]]);
});

test("of a crop that is fit by day too briefly no window of 0 min is told, least of all to a customer", async () => {
  const file = new URL("../../../weather-samples/drought-heat.json", import.meta.url);
  const series = withInventedMembers(JSON.parse(readFileSync(file, "utf8")).series);
  const outcome = buildGrid(demoCrew(series));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const answer = await planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
  const why = answer.left.find(({ fieldId }) => fieldId === "mill-lane")?.why;
  expect(why).toBe(
    "whenever it is mown, raking and baling are not both possible by day for as long as they take",
  );
  const text = answer.messages.map((one) => one.text).join("\n");
  expect(text).toContain(`Mill lane: not in this plan, ${why}.`);
  expect(text + JSON.stringify(answer.left)).not.toContain("0 min");
});

test("a customer reads the reason once", async () => {
  const { jobs } = await answered({});
  const answer = await answered({ machines: away("baler", -24, 200), previous: { jobs } });
  expect(answer.changes).toHaveLength(3);
  const text = answer.messages.find(({ customer }) => customer === "First")?.text ?? "";
  expect(text.split("the only baler is away")).toHaveLength(2);
});
