import { expect, test } from "vitest";
import {
  buildGrid,
  type CrewJobAnswer,
  type CrewPlanAnswer,
  type PlanFault,
  toCrewJob,
} from "../../../model/crew/index.ts";
import { allFaults } from "../../../web/crew/all-faults.ts";
import { inLanes, toCrewChart, withHits } from "../../../web/crew/crew-chart.ts";
import { daySheets, sheetHead } from "../../../web/crew/day-sheets.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const us: Manner = { units: "us", hour12: true, locale: "en-US", zone: "Asia/Tokyo" };
const series = spellWithMembers(5, 0);
const hill = { ...series, site: { ...series.site, latitude: 44.2, longitude: -98.3 } };
const request = crewRequest({
  sites: { s1: { series, name: "Home farm" }, s2: { series: hill, name: "Hill farm" } },
  fields: [
    crewField("creek", { name: "Creek field", customer: "First customer", ops: ["mow", "bale"] }),
    crewField("hill", { name: "Hilltop", siteId: "s2", ops: ["mow", "bale"] }),
  ],
  travelMin: { "s1|s2": 20 },
});
const job = (fieldId: string, op: "mow" | "bale", fromUtc: string, toUtc: string): CrewJobAnswer => ({
  fieldId,
  op,
  machineId: op === "mow" ? "mower-1" : "baler-1",
  personId: "a",
  startUtc: `2026-07-${fromUtc}:00:00Z`,
  endUtc: `2026-07-${toUtc}:00:00Z`,
});
const jobs = [
  job("creek", "mow", "01T14", "01T16"),
  job("hill", "mow", "01T17", "01T19"),
  job("creek", "bale", "03T18", "03T20"),
];
const plan = {
  jobs,
  left: [{ fieldId: "hill", why: "rain" }],
  windows: [],
  cautions: [
    { fieldId: "creek", op: "mow", code: "before-cutting", path: "", text: "" },
    { fieldId: "creek", op: "bale", code: "feed", path: "", text: "" },
  ],
  names: {
    fields: { creek: "Creek field", hill: "Hilltop" },
    machines: { "mower-1": "Mower", "baler-1": "Baler", "baler-9": "Old baler (no longer in the list)" },
    people: { a: "Driver one" },
  },
  timeZone: "America/Chicago",
  nowUtc: "2026-07-01T12:00:00Z",
  revision: 1,
} as unknown as CrewPlanAnswer;

test("a sheet says when, where, how far, for whom and with whom, and what stands against it", () => {
  const faults: PlanFault[] = [
    { fieldId: "creek", op: "bale", code: "weather", text: "Creek field: baling meets rain at 13:00." },
  ];
  const [mower, baler, ...more] = daySheets(plan, jobs, us, { request, faults });
  expect(more).toEqual([]);
  expect(mower?.machine).toBe("Mower");
  expect(mower?.days.map(({ day, people }) => [day, people])).toEqual([["Wednesday 1 Jul", "Driver one"]]);
  expect(mower?.days[0]?.lines).toMatchObject([
    { from: "9 am", to: "11 am", work: "Mow", area: "19.8 ac", customer: "First customer", drive: null },
    { from: "noon", to: "2 pm", field: "Hilltop", place: "Hill farm", drive: "20 min drive" },
  ]);
  expect(mower?.places).toEqual([
    expect.stringMatching(/^Home farm: [\d.]+° N, [\d.]+° W$/),
    "Hill farm: 44.2000° N, 98.3000° W",
  ]);
  expect(mower?.feed).toEqual([
    "Before cutting: Creek field. Insurer or adjuster told? Harvest intervals on every label read? Nitrate sampled, if the crop was stressed?",
  ]);
  expect(baler?.feed).toEqual([
    "Before baling hay: Creek field. Hay keeps the nitrate it was cut with. Core and test each lot. Probe for heating daily until it is steady.",
  ]);
  // Places that nobody has put apart are not told to lie where another does.
  const sites = { s1: { series, name: "Home farm" }, s2: { series, name: "Hill farm" } };
  const facts = { request: { ...request, sites }, faults };
  expect(daySheets(plan, jobs, us, facts)[0]?.places).toEqual([]);
  expect(baler?.days[0]?.lines[0]?.cautions).toEqual(["baling meets rain at 1 pm"]);
  // Held work says once that it is held; what ends with its day says so, what ends later its day.
  const held = ["too wet", "rain", "too wet"].map((text) => ({
    ...{ fieldId: "creek", op: "bale" as const, code: "weather" as const },
    text: `Creek field: ${text}: it is held there all the same.`,
  }));
  const late = [job("creek", "bale", "04T03", "04T05"), job("hill", "bale", "05T03", "05T06")];
  const [sheet] = daySheets(plan, late, us, { request, faults: held });
  expect(sheet?.days.map(({ lines }) => lines[0]?.to)).toEqual(["midnight", "1 am on Sunday 5 Jul"]);
  expect(sheet?.days[0]?.lines[0]?.cautions).toEqual(["too wet", "rain: it is held there all the same"]);
  // Of the last caution that says so, not of another behind it.
  const vain = { ...{ fieldId: "creek", op: "bale" as const, code: "wet" }, text: "Creek field: free them." };
  const [other] = daySheets(plan, late, us, { request, faults: [...held, vain] });
  expect(other?.days[0]?.lines[0]?.cautions).toEqual([
    "too wet",
    "rain: it is held there all the same",
    "free them",
  ]);
  expect(sheetHead(plan, false, us)).toEqual([
    "Crew plan, day sheets",
    "From Wednesday 1 Jul 7 am, farm time, America/Chicago",
    "Version 2 of the plan",
  ]);
});

test("beside each work that takes or wraps the crop stands the moisture of its route, by the reader's locale", () => {
  const fields = [
    crewField("creek", { name: "Creek field", bandWb: [0.12, 0.165] }),
    crewField("hill", {
      name: "Hilltop",
      route: "wrapped-bales",
      ops: ["mow", "bale", "wrap"],
      bandWb: [0.45, 0.55],
    }),
  ];
  const wrapping = { ...job("hill", "bale", "03T21", "03T22"), op: "wrap" as const, machineId: "wrapper-1" };
  const names = { ...plan.names, machines: { ...plan.names.machines, "wrapper-1": "Wrapper" } };
  const machines = [...request.machines, { id: "wrapper-1", kind: "wrapper" as const }];
  const sheets = daySheets(
    { ...plan, names },
    [...jobs, wrapping],
    { ...us, locale: "de-DE" },
    {
      request: { ...request, fields, machines },
      faults: [],
    },
  );
  const said = sheets.map(({ machine, days }) => [
    machine,
    days.flatMap(({ lines }) => lines.map((one) => one.moisture)),
  ]);
  expect(said).toEqual([
    ["Mower", [null, null]],
    ["Baler", ["12–16,5 %"]],
    ["Wrapper", ["45–55 %"]],
  ]);
  // The wrapper's hours are an order to whoever wraps.
  const cautions = [{ fieldId: "hill", op: "bale", code: "feed", path: "", text: "" }];
  const told = { ...plan, names, cautions } as CrewPlanAnswer;
  const sheetsTold = daySheets(told, [...jobs, wrapping], us, {
    request: { ...request, fields, machines },
    faults: [],
  });
  expect(sheetsTold.find(({ machine }) => machine === "Wrapper")?.feed).toEqual([
    expect.stringMatching(/^Before wrapping: Hilltop\. Wrap within 12 h of baling\. Wait \d+ weeks/),
  ]);
  // What no band was asked for has that of its route: dry hay of grass in round bales.
  const usual = {
    ...request,
    fields: [crewField("creek", { bandWb: undefined }), fields[1] ?? crewField("hill")],
  };
  const [, baler] = daySheets(plan, jobs, us, { request: usual, faults: [] });
  expect(baler?.days[0]?.lines[0]?.moisture).toBe("8–16 %");
});

test("a cart has its own sheet and row where it follows a chopper, with its own driver", () => {
  const fields = [
    crewField("creek", { name: "Creek field", route: "wilted-chop", ops: ["mow", "chop"] }),
    crewField("hill", { name: "Hilltop", ops: ["mow", "bale", "haul"] }),
  ];
  const chopping = { ...job("creek", "bale", "03T18", "03T20"), op: "chop" as const, machineId: "chopper-1" };
  const hauling = { ...job("hill", "bale", "03T21", "03T22"), op: "haul" as const, machineId: "cart-1" };
  const machines = { "chopper-1": "Chopper", "cart-1": "Old cart" };
  const names = { ...plan.names, machines };
  const asked = {
    ...request,
    fields,
    machines: [
      { id: "chopper-1", kind: "chopper" as const },
      { id: "cart-1", kind: "cart" as const },
    ],
  };
  const carts = { "chopper-1": ["cart-1"] };
  const [chopper, cart] = daySheets({ ...plan, names, carts }, [chopping, hauling], us, {
    request: asked,
    faults: [],
  });
  expect(chopper?.days[0]?.lines.map(({ work }) => work)).toEqual(["Chop"]);
  expect(
    cart?.days[0]?.lines.map(({ work, field, person, moisture }) => [work, field, person, moisture]),
  ).toEqual([
    ["Behind Chopper", "Creek field", "its own driver", null],
    ["Haul", "Hilltop", "Driver one", null],
  ]);
  // Its driver goes to the silo.
  const silo = "Before chopping: Creek field. Silo gas: stay out of the silo for 3 weeks.";
  for (const sheet of [chopper, cart]) expect(sheet?.feed).toEqual([expect.stringContaining(silo)]);
  const chart = toCrewChart({ ...plan, names, carts }, [chopping, hauling], series, 800);
  expect(chart.machines.map(({ name, blocks }) => [name, blocks.length])).toEqual([
    ["Chopper", 1],
    ["Old cart", 2],
  ]);
});

test("work that overlaps stands in lanes, in the order it came in", () => {
  const at = (x0: number, x1: number) => ({ x0, x1 });
  const lanes = (blocks: readonly { x0: number; x1: number }[]) =>
    inLanes(blocks).map(({ lane, lanes: of }) => [lane, of]);
  expect(lanes([at(0, 10), at(10, 20)])).toEqual([
    [0, 1],
    [0, 1],
  ]);
  expect(lanes([at(5, 15), at(0, 10), at(12, 20), at(30, 40)])).toEqual([
    [1, 2],
    [0, 2],
    [0, 2],
    [0, 1],
  ]);
});

test("the chart has a machine's time away, tells a mown field from a standing one, and drops idle machines that left", () => {
  const chart = toCrewChart(plan, jobs, series, 800, {
    away: { "baler-1": [{ fromUtc: "2026-07-02T12:00:00Z", toUtc: "2026-07-02T22:00:00Z" }] },
    gone: new Set(["baler-9"]),
  });
  expect(chart.machines.map(({ name, away }) => [name, away.length])).toEqual([
    ["Mower", 0],
    ["Baler", 1],
  ]);
  const away = chart.machines[1]?.away[0];
  expect(away?.x0).toBeCloseTo(chart.scale.x("2026-07-02T12:00:00Z"), 6);
  expect(chart.fields.map(({ left }) => left)).toEqual([null, "Would lie mown: do not mow"]);
  const begun = [{ ...(jobs[0] as CrewJobAnswer), machineId: "baler-9" }];
  const gone = toCrewChart(plan, begun, series, 800, { gone: new Set(["baler-9"]) });
  expect(gone.machines.at(-1)).toMatchObject({ name: "Old baler", gone: true });
});

test("the chart counts people at work against those there, names the idle, and stripes what lies outside its window", () => {
  const window = { fieldId: "creek", op: "bale", openUtc: [] };
  const windows = [{ ...window, readyUtc: "2026-07-03T19:00:00Z", untilUtc: "2026-07-03T23:00:00Z" }];
  const people = [
    { id: "a", name: "Driver one", from: "07:00", to: "20:00" },
    { id: "b", name: "Driver two", from: "09:00", to: "12:00" },
  ];
  const chart = toCrewChart({ ...plan, windows } as CrewPlanAnswer, jobs, series, 800, { people });
  const { idle, most, bars } = chart.people;
  expect(idle).toEqual(["Driver two"]);
  expect(most.map(({ busy, there }) => [busy, there])).toEqual([
    [1, 2],
    [0, 2],
    [1, 2],
  ]);
  // 7-9 one there, 9-11 mows with the other there, 11-12 both idle, 12-14 mows alone.
  expect(bars.slice(0, 4).map(({ there, busy }) => [there, busy])).toEqual([
    [0.5, 0],
    [1, 0.5],
    [1, 0],
    [0.5, 0.5],
  ]);
  expect(bars[1]?.x0).toBeCloseTo(chart.scale.x("2026-07-01T14:00:00Z"), 6);
  const [mow, bale] = chart.fields[0]?.blocks ?? [];
  expect([mow?.home, bale?.home, mow?.outside]).toEqual([false, true, []]);
  expect(bale?.outside).toHaveLength(1);
  expect(bale?.outside[0]?.x1).toBeCloseTo(chart.scale.x("2026-07-03T19:00:00Z"), 6);
});

test("work that is held against its window keeps its caution, work that has begun is past asking", () => {
  const asked = crewRequest({
    sites: { s1: { series } },
    fields: [crewField("creek", { ops: ["mow", "bale"] })],
    horizonDays: 3,
    fixed: [
      { fieldId: "creek", op: "mow", machineId: "mower-1", personId: "a", startUtc: "2026-07-01T14:00:00Z" },
      { fieldId: "creek", op: "bale", machineId: "baler-1", personId: "a", startUtc: "2026-07-01T18:00:00Z" },
    ],
  });
  const held = [job("creek", "mow", "01T14", "01T16"), job("creek", "bale", "01T18", "01T20")];
  const codes = (nowUtc: string) => {
    const outcome = buildGrid({ ...asked, nowUtc });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    return allFaults(outcome.value, held.map(toCrewJob)).map(({ op, code }) => `${op} ${code}`);
  };
  expect(codes("2026-07-01T06:00:00Z")).toContain("bale window");
  expect(codes("2026-07-01T19:00:00Z")).toEqual([]);
});

test("an hour of work can be hit with a thumb, no further than halfway to its neighbour", () => {
  const at = (x0: number, x1: number) => ({ x0, x1 });
  const hits = withHits([at(100, 112), at(120, 132), at(300, 360)]).map(({ hit }) => hit);
  expect(hits).toEqual([at(84, 116), at(116, 148), at(300, 360)]);
});

test("where nothing is served the chart shows all days that were looked at", () => {
  const left = ["creek", "hill"].map((fieldId) => ({ fieldId, why: "rain" }));
  const none = { ...plan, jobs: [], left, untilUtc: "2026-07-06T05:00:00Z" } as CrewPlanAnswer;
  const days = (of: CrewPlanAnswer) => toCrewChart(of, of.jobs, series, 800).days.map(({ label }) => label);
  expect(days(none)).toHaveLength(5);
  expect(days({ ...none, left: left.slice(1) })).toHaveLength(3);
});
