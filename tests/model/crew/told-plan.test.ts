import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { CrewPlanRequest } from "../../../model/crew/index.ts";
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
  expect((await planned(asked)).warnings).toEqual([]);
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
