import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type CrewPlanRequest, feedWarnings } from "../../../model/crew/index.ts";
import {
  crewField,
  crewRequest,
  plannedBriefly as planned,
  spellWithMembers,
} from "../../support/crew/requests.ts";

const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);
const example = (): CrewPlanRequest => JSON.parse(readFileSync(EXAMPLE, "utf8"));

test("what is doubtful in the weather is told in words, by the name of its site", async () => {
  const series = spellWithMembers(4, 0);
  const airTempC = series.hours.airTempC.map((temp, i) => (i >= 90 ? null : temp));
  const { warnings } = await planned(
    crewRequest({
      sites: { s1: { name: "Home", series: { ...series, hours: { ...series.hours, airTempC } } } },
    }),
  );
  expect(warnings.some((text) => text.startsWith("Home: The weather is used until "))).toBe(true);
  expect(warnings.join()).not.toContain("[object");
});

test("sites that keep another clock than the plan are named, with the clock that all times are told by", async () => {
  const asked = crewRequest();
  const { series } = asked.sites.s1 ?? { series: spellWithMembers(7, 0) };
  const west = { ...series, site: { ...series.site, timeZone: "America/Denver" } };
  const sites = { ...asked.sites, s2: { name: "West", series: west } };
  const { warnings, timeZone } = await planned({
    ...asked,
    sites,
    fields: [crewField("creek"), crewField("far", { siteId: "s2" })],
  });
  expect(warnings).toContain(
    `West (America/Denver) keeps another clock: working hours and all times told here are those of ${timeZone}, the zone of the first field.`,
  );
  const alone = await planned(asked);
  expect(alone.warnings).toEqual(feedWarnings(alone));
});

test("a field whose lateness costs more than it brings is left for that, not for its windows", async () => {
  const asked = example();
  const [first, ...rest] = asked.fields;
  if (first === undefined) throw new Error("a field");
  const fields = [{ ...first, dueUtc: "2026-04-01T00:00:00Z" }, ...rest];
  const { left } = await planned({ ...asked, fields });
  expect(left).toEqual([
    {
      fieldId: first.id,
      why: "serving it would cost more in lateness (due Tue 31 Mar 19:00) than it brings",
      customerWhy: "no time was found for it in these days",
      mownUtc: null,
    },
  ]);
});

test("a field that nothing takes counts whole, and that is said", async () => {
  const mown = crewField("mown", { name: "Mown only", ops: ["mow"] });
  const { replay, warnings, value } = await planned(crewRequest({ fields: [mown], timeLimitS: 0 }));
  expect([replay, value]).toEqual([[], mown.areaHa * mown.valuePerHa]);
  expect(warnings).toContain(
    "Mown only: no baling or chopping is asked for, so it counts at full value, whatever weather follows the last work, and no chance is told.",
  );
});

test("sites with unlike numbers of members: of how many the whole plan is told", async () => {
  const sites = {
    s1: { name: "Home", series: spellWithMembers(5, 4) },
    s2: { name: "Hill", series: spellWithMembers(5, 2) },
  };
  const fields = [crewField("creek"), crewField("far", { siteId: "s2" })];
  const uneven = (await planned(crewRequest({ sites, fields }))).assumptions;
  expect(uneven).toContain(
    "The sites have unlike numbers of weathers (Home 4 and Hill 2): what the plan is worth, and the chance that all fields are dry, are of the first 2 of each; the chance of a field is of all its site has.",
  );
  const even = await planned(crewRequest({ sites: { s1: sites.s1 } }));
  expect(even.assumptions.join()).not.toContain("unlike numbers");
});
