import { describe, expect, test } from "vitest";
import { buildGrid } from "../../../model/crew/index.ts";
import { slotsFor } from "../../../model/crew/rates.ts";
import type { CrewMachineRequest } from "../../../model/crew/request.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const chopper: CrewMachineRequest = { id: "chopper", kind: "chopper", haPerH: 6 };
const cart = (id: string, haPerH?: number): CrewMachineRequest => ({
  id,
  kind: "cart",
  ...(haPerH === undefined ? {} : { haPerH }),
});
const field = crewField("creek", { areaHa: 12, route: "wilted-chop", ops: ["mow", "rake", "chop"] });

describe("carts behind a chopper", () => {
  test.each([
    ["none: the chopper's own rate", [], 2],
    ["enough of them: the same", [cart("a", 3), cart("b", 3)], 2],
    ["too few: what they carry", [cart("a", 2), cart("b", 1)], 4],
    ["one without a rate: nothing is known of them", [cart("a", 1), cart("b")], 2],
  ])("%s", (_name, carts, hours) => {
    expect(slotsFor("chop", field, chopper, 0.65, 60, [chopper, ...carts])).toBe(hours);
  });

  test("one that has left after its work carries nothing: those that are there still hold the chopper up", () => {
    const request = crewRequest({
      sites: { s1: { series: spellWithMembers(3, 0) } },
      fields: [field, crewField("hill", { areaHa: 12, route: "wilted-chop", ops: ["mow", "chop", "haul"] })],
      machines: [
        ...crewRequest().machines,
        { id: "chopper", kind: "chopper", haPerH: 6 },
        { id: "cart-1", kind: "cart", haPerH: 2 },
      ],
      nowUtc: "2026-07-01T22:00:00Z",
      previous: {
        jobs: (["mow", "chop", "haul"] as const).map((op, i) => ({
          fieldId: "hill",
          op,
          machineId: op === "mow" ? "mower-1" : op === "chop" ? "chopper" : "sold-cart",
          personId: "a",
          startUtc: `2026-07-01T${14 + 2 * i}:00:00Z`,
          endUtc: `2026-07-01T${16 + 2 * i}:00:00Z`,
        })),
      },
    });
    const outcome = buildGrid(request);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    const { grid } = outcome.value;
    const at = grid.machines.findIndex(({ id }) => id === "chopper");
    expect(grid.machines.map(({ id }) => id)).toContain("sold-cart");
    expect(grid.fields[0]?.tasks[2]?.slotsOf[at]).toBe(6);
  });

  test("they hold up nothing else", () => {
    const mower: CrewMachineRequest = { id: "mower", kind: "mower", haPerH: 6 };
    expect(slotsFor("mow", field, mower, 0.65, 60, [mower, cart("a", 1)])).toBe(2);
  });
});
