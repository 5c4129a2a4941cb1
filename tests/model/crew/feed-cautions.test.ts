import { expect, test } from "vitest";
import { type CrewFieldRequest, feedWarnings, isOfFeed } from "../../../model/crew/index.ts";
import {
  crewField,
  crewRequest,
  FROM_UTC,
  plannedBriefly,
  spellWithMembers,
} from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const utc = (hours: number) => new Date(Date.parse(FROM_UTC) + hours * HOUR_MS).toISOString();
const grass = crewField("creek").swath;
const chopped = (id: string, crop: CrewFieldRequest["swath"]["crop"], over: Partial<CrewFieldRequest> = {}) =>
  crewField(id, {
    route: "wilted-chop",
    ops: ["mow", "chop"],
    bandWb: [0.3, 0.75],
    swath: { ...grass, crop },
    ...over,
  });
const machines = [...crewRequest().machines, { id: "chopper-1", kind: "chopper" as const, haPerH: 4 }];
const planned = (fields: readonly CrewFieldRequest[], over = {}) =>
  plannedBriefly(crewRequest({ fields, machines, timeLimitS: 0, ...over }));
const told = (
  { cautions }: { readonly cautions: Awaited<ReturnType<typeof planned>>["cautions"] },
  id: string,
) =>
  Object.fromEntries(
    cautions
      .filter(({ fieldId, code }) => fieldId === id && code !== "hazard")
      .map(({ code, op, text }) => [code, `${op} ${text}`]),
  );

test("corn as wilted chop: insurer, labels, nitrate, silo gas and who decides, field by field and once a plan", async () => {
  const fields = ["a", "b"].map((id) => chopped(id, "corn", { name: `Field ${id}` }));
  const plan = await planned([...fields, crewField("hay")]);
  const of = told(plan, "a");
  expect(Object.keys(of).sort()).toEqual(["before-cutting", "feed", "test"]);
  expect(of["before-cutting"]).toMatch(/^mow Field a: before mowing: .*insurer or adjuster.*labels/);
  expect(of.test).toMatch(/^mow Field a: before mowing: .*sampled for nitrate/);
  expect(of.feed).toMatch(
    /^chop Field a: wilted chop\. Test for nitrate before feeding\. Silo gas: stay out/,
  );
  expect(of.feed).toMatch(
    /Let it ferment for \d+ weeks.*laboratory, your veterinarian, the label and your extension/,
  );
  const hay = told(plan, "hay");
  expect(hay.test).toContain("if drought, frost, cloud or much nitrogen stressed it");
  expect(hay.feed).toMatch(/^bale hay: dry hay\. Hay keeps the nitrate/);
  const once = feedWarnings(plan).filter((text) => !text.includes("Rain has"));
  expect(plan.warnings).toEqual(expect.arrayContaining(once));
  const heads = once.map((text) => text.split(": ")[0]);
  expect(heads).toEqual(["Every field", "Field a and Field b", "Field a and Field b", "hay", "hay"]);
  expect([...plan.warnings, ...plan.cautions.map(({ text }) => text)].join()).not.toMatch(/\bsafe/i);
});

test("sorghum types are told of prussic acid too; crop that is mown needs no gate any more", async () => {
  const fixed = [{ fieldId: "s", op: "mow" as const, machineId: "mower-1", startUtc: utc(10) }];
  const over = { fixed, nowUtc: utc(13) };
  const plan = await planned([chopped("s", "sorghum-sudan"), chopped("t", "sorghum-sudan")], over);
  expect(Object.keys(told(plan, "s"))).toEqual(["feed"]);
  expect(told(plan, "t").test).toMatch(/sampled for nitrate.*sampled for prussic acid/);
  expect(told(plan, "t").feed).toContain("Test for nitrate and prussic acid before feeding.");
});

test("a mowing within the wait after rain says so, if the crop was short of water; grass has no such wait", async () => {
  const sites = { s1: { series: spellWithMembers(7, 0, 0) } };
  const over = { sites, nowUtc: utc(24) };
  const { cautions, warnings } = await planned([chopped("c", "drought-corn"), crewField("hay")], over);
  const hazards = cautions.filter(({ code }) => code === "hazard");
  expect(hazards.map(({ fieldId, op, path }) => `${fieldId} ${op} ${path}`)).toEqual([
    "c mow fields[0].swath.crop",
  ]);
  expect(hazards[0]?.text).toMatch(
    /^c: its mowing lies in a wait (until \w{3} \d Jul \d\d:\d\d|that lasts past this weather)\. Rain has restarted growth, if the crop was short of water before\. Wait 5 days at least, then test for nitrate\. Sample the standing crop before mowing\.$/,
  );
  expect(warnings).toContain(hazards[0]?.text);
});

test("whose animals eat it is asked to have it tested, in one sentence; of grass nothing is said", async () => {
  const fields = [
    chopped("c", "corn", { name: "Corn piece", customer: "Invented one" }),
    crewField("hay", { customer: "Invented two" }),
  ];
  const { messages } = await planned(fields);
  const of = (customer: string) => messages.find((one) => one.customer === customer)?.text ?? "";
  expect(of("Invented one").split("\n")).toContain("Have Corn piece tested for nitrate before feeding.");
  expect(of("Invented two")).not.toMatch(/tested/);
});

test("a mowing within the wait after a frost: until when, and to sample the standing crop first, for the customer too", async () => {
  const spell = spellWithMembers(9, 0, 8);
  const airTempC = spell.hours.airTempC.map((temp, h) => (h < 5 ? -3 : temp));
  const sites = { s1: { series: { ...spell, hours: { ...spell.hours, airTempC } } } };
  const fields = [chopped("s", "sorghum-sudan", { name: "Far piece", customer: "Invented one" })];
  const { cautions, messages } = await planned(fields, { sites });
  // Five days from the last hour of frost, 1 July 05:00 by the clock there.
  const frost = cautions.find(({ wait }) => wait?.why === "prussic acid after frost");
  expect(frost?.wait?.untilUtc).toBe("2026-07-06T10:00:00Z");
  expect(frost?.text).toMatch(/^Far piece: its mowing lies in a wait until Mon 6 Jul 05:00\. Frost frees/);
  expect(frost?.text).toContain("Sample the standing crop before mowing.");
  expect(messages[0]?.text.split("\n")).toContain(
    "Far piece is to be mown within a wait: prussic acid after frost, until Mon 6 Jul 05:00. Have the standing crop sampled before it is mown.",
  );
});

test("what is said of feed is told apart from what is said of held work", () => {
  expect(["feed", "test", "before-cutting", "hazard"].every((code) => isOfFeed({ code }))).toBe(true);
  expect(["wet", "window", "would-lie"].some((code) => isOfFeed({ code }))).toBe(false);
});
