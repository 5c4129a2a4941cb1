import { describe, expect, test } from "vitest";
import { slotsFor } from "../../../model/crew/rates.ts";
import type { CrewMachineRequest } from "../../../model/crew/request.ts";
import { crewField } from "../../support/crew/requests.ts";

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

  test("they hold up nothing else", () => {
    const mower: CrewMachineRequest = { id: "mower", kind: "mower", haPerH: 6 };
    expect(slotsFor("mow", field, mower, 0.65, 60, [mower, cart("a", 1)])).toBe(2);
  });
});
