import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { noHelpWords } from "../../../model/crew/help.ts";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { otherRoutes, untriedWords } from "../../../model/crew/left-help.ts";
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
    /^\w+( \w+)* in wrapped bales instead of dry hay, if somebody wraps the bales within 12 h: brought in, dry enough .+, worth \d+ more\.$/,
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
  const fields = Array.from({ length: 24 }, (_, i) => ({ ...first, id: `f${i}`, name: `Piece ${i}` }));
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
  expect(untriedWords(built, untried)).toBe(
    "Other routes were tried for the left fields of most worth, not for Piece a.",
  );
  expect(untriedWords(built, [])).toBeNull();
  const left = ids.map((fieldId) => ({ fieldId }));
  expect(noHelpWords(built, [], left, [0, 1])).toBe(
    "Nothing was found that would help: neither an hour more each evening, a machine nor a person more, nor another route with the same works for Piece c, Piece d, Piece e, Piece f and Piece g. Other routes were tried for the left fields of most worth, not for Piece a and Piece b.",
  );
  // Whoever stops it is told that none was tried.
  expect(otherRoutes(built, [], () => true).untried).toHaveLength(ids.length);
});
