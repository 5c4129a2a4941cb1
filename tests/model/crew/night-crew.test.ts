import { expect, test } from "vitest";
import { buildGridByField, planBuilt, planFaults, rulesOf, toCrewJob } from "../../../model/crew/index.ts";
import { localParts } from "../../../model/weather/clock.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

// A crew that bales in the damp air of the night, planned in half hours.
const REQUEST = crewRequest({
  sites: { s1: { series: spellWithMembers(5, 0) } },
  fields: [crewField("creek", { areaHa: 5 }), crewField("hill", { areaHa: 3, ops: ["mow", "rake", "bale"] })],
  people: [
    { id: "day", from: "08:00", to: "18:00" },
    { id: "night", from: "18:00", to: "06:00" },
  ],
  slotMin: 30,
  horizonDays: 5,
});

test("half hours and a night crew: rules kept, value under the bound, nobody at work outside their hours", async () => {
  const steps = buildGridByField(REQUEST);
  const told: number[] = [];
  let step = steps.next();
  for (; !step.done; step = steps.next()) told.push(step.value.done);
  expect(told).toEqual([0, 1]);
  if (!step.value.ok) throw new Error(JSON.stringify(step.value.issues));
  const built = step.value.value;
  expect(built.grid.slotMs).toBe(30 * 60_000);
  const answer = await planBuilt(built, { solver: null, elapsedS: () => 0, brief: true });
  expect(answer.jobs.length).toBeGreaterThan(0);
  expect(planFaults(rulesOf(built), answer.jobs.map(toCrewJob))).toEqual([]);
  expect(answer.value).toBeLessThanOrEqual(answer.bound + 1e-6);
  const hourOf = (utc: string) => {
    const { hour, minute } = localParts(Date.parse(utc), answer.timeZone);
    return hour + minute / 60;
  };
  for (const { personId, startUtc, endUtc } of answer.jobs) {
    const [from, to] = [hourOf(startUtc), hourOf(endUtc)];
    const inside =
      personId === "day" ? from >= 8 && to <= 18 : (from >= 18 || from < 6) && (to > 18 || to <= 6);
    expect(inside, `${personId} ${startUtc} ${endUtc}`).toBe(true);
  }
});
