import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { noHelpWords } from "../../../model/crew/help.ts";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { otherRoutes, tryOtherWorks, untriedWords } from "../../../model/crew/left-help.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);

async function answered(request: CrewPlanRequest) {
  const outcome = buildGrid(request);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues.slice(0, 3)));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0 });
}

/** The example with a shower at noon of every day but the first. */
function showery(): CrewPlanRequest {
  const asked = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  for (const { series } of Object.values<{ series: CrewPlanRequest["sites"][string]["series"] }>(
    asked.sites,
  )) {
    for (const hours of [series.hours, ...(series.members ?? [])]) {
      for (const day of [1, 2, 3, 4, 5]) {
        (hours.rainMm as number[]).fill(3, 24 * day + 12, 24 * day + 15);
        (hours.relHumidityPct as number[]).fill(95, 24 * day + 12, 24 * day + 15);
      }
    }
  }
  return { ...asked, timeLimitS: 0 };
}

test("a field that no dry day serves is told which route would, with what the replay expects of it", async () => {
  const request = showery();
  const { help, left, value } = await answered(request);
  expect([left.length, value]).toEqual([3, 0]);
  expect(help?.kind).toBe("wrapped-bales");
  expect(help?.text).toMatch(
    /^\w+( \w+)* in wrapped bales instead of dry hay, without tedding, if somebody wraps the bales within 12 h: brought in, dry enough .+, worth \d+ more\.$/,
  );
  // Taken so, the field is brought in, and its replay expects what was told.
  const fields = request.fields.map((field) =>
    field.id === help?.fieldId
      ? { ...field, route: "wrapped-bales" as const, ops: field.ops.filter((op) => op !== "ted") }
      : field,
  );
  const after = await answered({ ...request, fields });
  const field = request.fields.find(({ id }) => id === help?.fieldId);
  const worth = (field?.areaHa ?? 0) * (field?.valuePerHa ?? 0) * (field?.priority ?? 1);
  const told = after.replay.find(({ fieldId }) => fieldId === help?.fieldId);
  expect((help?.gain ?? 0) / (worth * (1 - (told?.expectedLossPct ?? 0) / 100))).toBeCloseTo(1, 1);
});

test("where nothing is served a machine's gain is what the replay expects, and comes true", async () => {
  const asked = crewRequest({ sites: { s1: { series: spellWithMembers(6, 5) } }, timeLimitS: 0 });
  const off = [{ fromUtc: "2026-06-01T00:00:00Z", toUtc: "2026-08-01T00:00:00Z" }];
  const machines = asked.machines.map((one) => (one.kind === "mower" ? { ...one, offUtc: off } : one));
  const { help, left } = await answered({ ...asked, machines });
  expect(left).toHaveLength(2);
  expect(help).toMatchObject({ kind: "machine", machineKind: "mower" });
  const { worth } = await answered(asked);
  // The search behind it is a short one.
  expect((help?.gain ?? 0) / (worth?.expected ?? 1)).toBeGreaterThan(0.85);
  expect((help?.gain ?? 0) / (worth?.expected ?? 1)).toBeLessThan(1.02);
});

test("of a crew with far too much work a gain under a weak bound is told as not proved", {
  timeout: 60_000,
}, async () => {
  const asked: CrewPlanRequest = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  const [first] = asked.fields;
  if (first === undefined) throw new Error("a field");
  const fields = Array.from({ length: 16 }, (_, i) => ({ ...first, id: `f${i}`, name: `Piece ${i}` }));
  const { help, gap } = await answered({ ...asked, fields, timeLimitS: 0 });
  expect(gap).toBeGreaterThan(0.2);
  expect(help).toMatchObject({ proved: false });
  expect(help?.text).toMatch(
    /(brings? \d+ more in value|worth \d+ more) by the same search \(not proved: a longer one might find more without it\)\.$/,
  );
});

test("other routes are tried for the fields of most worth, as many as are counted, and the others are named", () => {
  const ids = ["a", "b", "c", "d", "e", "f", "g"];
  const fields = ids.map((id, i) => crewField(id, { areaHa: 4 + i / 10, name: `Piece ${id}` }));
  const outcome = buildGrid(crewRequest({ fields }));
  if (!outcome.ok) throw new Error("a task");
  const built = outcome.value;
  const { routes, untried } = otherRoutes(built, [], () => false);
  expect(routes.map(({ f }) => ids[f])).toEqual(["g", "f", "e", "d", "c", "b"]);
  expect(untried.map((f) => ids[f])).toEqual(["a"]);
  expect(untriedWords(built, { routes: untried, works: [] })).toBe(
    "Other routes were tried for the left fields of most worth, not for Piece a.",
  );
  expect(untriedWords(built, { routes: [], works: [] })).toBeNull();
  const left = ids.map((fieldId) => ({ fieldId }));
  expect(noHelpWords(built, [], left, { routes: [0, 1], works: [0, 1, 2] }, [])).toBe(
    "Nothing was found that would help: neither an hour more each evening, a machine nor a person more, nor another route or other works for Piece d, Piece e, Piece f and Piece g, nor another route with the same works for Piece c. Other routes were tried for the left fields of most worth, not for Piece a and Piece b. Not all other works (with tedding or raking, or without) were tried for Piece c.",
  );
  // Whoever stops it is told that none was tried.
  expect(otherRoutes(built, [], () => true).untried).toHaveLength(ids.length);
});

// No route with the works as they are asked for brings these fields in: the crop is fit for an hour, or hands are short.
test.each([
  [
    232,
    ["mow", "bale", "wrap"],
    /^b in wrapped bales instead of dry hay, without raking: brought in, dry enough .+, worth \d+ more\.$/,
  ],
  [
    293,
    ["mow", "ted", "rake", "bale", "wrap"],
    /^b in wrapped bales instead of dry hay, with tedding: brought in, dry enough .+, worth \d+ more\.$/,
  ],
  [
    297,
    ["mow", "bale", "wrap"],
    /^b, without tedding and raking: brought in, dry enough .+, worth \d+ more\.$/,
  ],
])(
  "crew %i is told of the other works that bring a field in, and taken so it brings that",
  async (seed, ops, text) => {
    const asked = differingCrew(seed);
    const people = asked.people.map((one) => ({ ...one, from: "09:00", to: "17:00" }));
    const request = { ...asked, people };
    const before = await answered(request);
    const { help } = before;
    expect(help?.ops).toEqual(ops);
    expect(help?.text).toMatch(text);
    const fields = request.fields.map((field) =>
      field.id === help?.fieldId
        ? { ...field, route: help.kind as typeof field.route, ops: help.ops ?? [] }
        : field,
    );
    const after = await answered({ ...request, fields });
    expect(after.left.map(({ fieldId }) => fieldId)).not.toContain(help?.fieldId);
    const more = (after.worth?.expected ?? 0) - (before.worth?.expected ?? 0);
    expect((help?.gain ?? 0) / more).toBeGreaterThan(0.9);
    expect((help?.gain ?? 0) / more).toBeLessThan(1.1);
  },
);

test("other works are tried as far as they are counted and could bring more, and what is not tried is named", () => {
  const ids = ["a", "b", "c", "d", "e", "f", "g"];
  const fields = ids.map((id, i) => crewField(id, { areaHa: 4 + i / 10 }));
  const outcome = buildGrid(crewRequest({ fields }));
  if (!outcome.ok) throw new Error("a task");
  const built = outcome.value;
  const tried: string[] = [];
  const named = (isWorth: (f: number) => boolean, stop = false) =>
    tryOtherWorks(
      built,
      [],
      "as-it-lies",
      ({ words }) => tried.push(words),
      isWorth,
      () => stop,
    ).map((f) => ids[f]);
  expect(named(() => true)).toEqual(["a"]);
  expect(tried.slice(0, 2)).toEqual([
    "g, without tedding and raking",
    "g in wrapped bales instead of dry hay, without tedding and raking, if somebody wraps the bales within 12 h",
  ]);
  expect(tried).toHaveLength(12);
  tried.length = 0;
  // Of a field that would not bring more nothing is said.
  expect(named((f) => ids[f] === "b")).toEqual([]);
  expect(tried.every((words) => words.startsWith("b"))).toBe(true);
  expect(named(() => true, true)).toHaveLength(ids.length);
});
