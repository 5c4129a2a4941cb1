import { expect, test } from "vitest";
import type { CrewPlanRequest } from "../../../model/crew/index.ts";
import { planIdOf, shortHash } from "../../../model/crew/plan-id.ts";
import { planCalendar } from "../../../server/crew/export.ts";
import { fieldOf, readCalendar } from "../../support/crew/read-calendar.ts";
import { crewField, crewRequest, FROM_UTC, plannedBriefly } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const at = (hours: number) => Date.parse(FROM_UTC) + hours * HOUR_MS;
const uids = (text: string) =>
  readCalendar(text)
    .parts.filter(({ name }) => name === "VEVENT")
    .map((event) => fieldOf(event, "UID"))
    .sort();

test("the visits of two revisions are the same in a calendar, those of two farms are not", async () => {
  const request = crewRequest({ timeLimitS: 0 });
  const first = await plannedBriefly(request);
  const later = { ...request, previous: first, nowUtc: new Date(at(5)).toISOString() };
  const second = await plannedBriefly({ ...later, fields: [...request.fields, crewField("new")] });
  expect(second.planId).toBe(first.planId);
  expect(second.assumptions.join()).not.toContain("planId");
  const bare = await plannedBriefly({ ...later, previous: { jobs: first.jobs } });
  expect(bare.assumptions.join()).toContain("The plan before was given without its planId");
  const [before, after] = [uids(planCalendar(first, at(0))), uids(planCalendar(second, at(5)))];
  expect(before.filter((uid) => !after.includes(uid))).toEqual([]);
  const other = await plannedBriefly({ ...request, people: [{ id: "a", from: "07:00", to: "20:00" }] });
  expect(uids(planCalendar(other, at(0))).filter((uid) => before.includes(uid))).toEqual([]);
});

test("a plan's id: the same for the same question, another for the next cut, another place or other fields", () => {
  const request = crewRequest();
  const own = planIdOf(request, at(0));
  expect(planIdOf(crewRequest(), at(0))).toBe(own);
  const series = request.sites.s1?.series;
  if (series === undefined) throw new Error("a site");
  const moved = { s1: { series: { ...series, site: { ...series.site, latitude: 44.5 } } } };
  const others: [CrewPlanRequest, number][] = [
    [request, at(24 * 40)],
    [{ ...request, sites: moved }, at(0)],
    [{ ...request, fields: request.fields.slice(1) }, at(0)],
  ];
  expect(new Set([own, ...others.map(([asked, nowMs]) => planIdOf(asked, nowMs))]).size).toBe(4);
  expect(planIdOf({ ...request, previous: { jobs: [], planId: "mine" } }, at(0))).toBe("mine");
  const nameless = { ...request, previous: { jobs: [] } };
  expect(planIdOf(nameless, at(9))).toBe(planIdOf(nameless, at(0)));
});

test("two texts seldom have one hash: none of 20 000 that differ little", () => {
  const hashes = Array.from({ length: 20_000 }, (_, i) => shortHash(`["field",${i},"a"]`));
  expect(new Set(hashes).size).toBe(hashes.length);
});
