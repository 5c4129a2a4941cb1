import { describe, expect, test } from "vitest";
import { cartCautions } from "../../../model/crew/cart-clashes.ts";
import { cartWords, shareCarts } from "../../../model/crew/carts.ts";
import { buildGrid, planBuilt, toCrewJob } from "../../../model/crew/index.ts";
import type { CrewOp } from "../../../model/crew/keys.ts";
import type { CrewFieldRequest, CrewFixedRequest, CrewMachineRequest } from "../../../model/crew/request.ts";
import { slotsFor } from "../../../model/crew/work-slots.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { utcLabel } from "../../../model/weather/labels.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const chopper: CrewMachineRequest = { id: "chopper", kind: "chopper", haPerH: 6 };
const cart = (id: string, haPerH?: number): CrewMachineRequest => ({
  id,
  kind: "cart",
  ...(haPerH === undefined ? {} : { haPerH }),
});
const DAYS = { fromUtcMs: 0, toUtcMs: 10 * 86_400_000 };
const shared = (machines: readonly CrewMachineRequest[], fields: readonly CrewFieldRequest[] = [field]) =>
  shareCarts(machines, fields, ({ ops }, op) => ops.includes(op), DAYS);
const field = crewField("creek", { areaHa: 12, route: "wilted-chop", ops: ["mow", "rake", "chop"] });

describe("carts behind a chopper", () => {
  test.each([
    ["none: the chopper's own rate", [], 2],
    ["enough of them: the same", [cart("a", 3), cart("b", 3)], 2],
    ["too few: what they carry", [cart("a", 2), cart("b", 1)], 4],
    ["one without a rate: nothing is known of them", [cart("a", 1), cart("b")], 2],
  ])("%s", (_name, carts, hours) => {
    expect(slotsFor("chop", field, chopper, 0.65, 60, shared([chopper, ...carts]))).toBe(hours);
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

  const second: CrewMachineRequest = { id: "second", kind: "chopper", haPerH: 4 };
  const baled = crewField("hill", { areaHa: 12, ops: ["mow", "bale", "haul"] });
  const slots = (
    machines: readonly CrewMachineRequest[],
    fields: readonly CrewFieldRequest[] = [field],
    op: "chop" | "haul" = "chop",
  ) =>
    Object.fromEntries(
      machines
        .filter(({ kind }) => kind === (op === "chop" ? "chopper" : "cart"))
        .map((one) => [one.id, slotsFor(op, field, one, 0.65, 60, shared(machines, fields))]),
    );

  test("none is behind two choppers: the faster takes what it needs, the other the rest", () => {
    expect(slots([second, chopper, cart("a", 3), cart("b", 3), cart("c", 2)])).toEqual({
      second: 6,
      chopper: 2,
    });
  });

  test("choppers for which too few are left work in turn, and one more chopper takes nothing from the first", () => {
    const carts = [cart("a", 2), cart("b", 2)];
    expect(slots([chopper, ...carts])).toEqual({ chopper: 3 });
    expect(slots([chopper, second, ...carts])).toEqual({ chopper: 3, second: 3 });
    expect(shared([chopper, second, ...carts]).behind?.get("second")).toEqual(carts);
  });

  test("what a chopper needs that is away for some of the days another has in turn", () => {
    const broken = {
      ...chopper,
      offUtc: [{ fromUtc: "1970-01-01T00:00:00Z", toUtc: "1970-01-03T00:00:00Z" }],
    };
    const fast = { ...broken, haPerH: 12 };
    expect(slots([broken, second, cart("a", 4)])).toEqual({ chopper: 3, second: 3 });
    expect(slots([fast, second, cart("a", 4), cart("b", 3), cart("c", 5)])).toEqual({
      chopper: 1,
      second: 3,
    });
  });

  const away = (fromDay: number, toDay: number) => ({
    offUtc: [{ fromUtc: `1970-01-0${fromDay}T00:00:00Z`, toUtc: `1970-01-0${toDay}T00:00:00Z` }],
  });

  test("one with times off is relied on only where all have some", () => {
    const soon = { ...cart("b", 3), ...away(1, 2) };
    const late = { ...cart("c", 3), ...away(1, 9) };
    const behind = (carts: readonly CrewMachineRequest[]) =>
      shared([chopper, ...carts])
        .behind?.get("chopper")
        ?.map(({ id }) => id);
    expect(behind([cart("a", 3), soon])).toEqual(["a"]);
    expect(behind([late, soon])).toEqual(["b", "c"]);
  });

  test("what follows a chopper hauls bales while that does not work, and so it is said", () => {
    const machines = [chopper, cart("a", 6), cart("b", 3)];
    const words = (list: readonly CrewMachineRequest[]) =>
      cartWords({ ...crewRequest(), fields: [field, baled], machines: list }, shared(list, [field, baled]));
    expect(slots(machines, [field, baled], "haul")).toEqual({ a: 2, b: 4 });
    expect(words(machines).at(-1)).toBe(
      "a hauls bales only while the chopper does not work; b hauls at any time.",
    );
    expect(words([chopper, { ...cart("a", 3), ...away(1, 2) }])).toEqual([
      "a follows the chopper: it works no faster than that carries.",
      "chopper chops only while a is there.",
      "Who drives a cart behind a chopper is not counted among the people.",
      "a hauls bales only while the chopper does not work.",
    ]);
  });

  test("it is said which follow which, and what stands still", () => {
    const machines = [chopper, second, cart("a", 6), cart("b", 3), { ...cart("c", 1), name: "Old cart" }];
    const third: CrewMachineRequest = { id: "third", kind: "chopper", haPerH: 1 };
    const request = { ...crewRequest(), fields: [field], machines: [...machines, third] };
    expect(cartWords(request, shared(request.machines))).toEqual([
      "a follows chopper, b and Old cart follow second and a follows third. A chopper works no faster than its own carts carry. Choppers that share a cart work in turn.",
      "Who drives a cart behind a chopper is not counted among the people.",
    ]);
  });

  test("no two fields are chopped at once with one cart", async () => {
    const chop = (id: string) => crewField(id, { areaHa: 4, route: "wilted-chop", ops: ["mow", "chop"] });
    const outcome = buildGrid(
      crewRequest({
        sites: { s1: { series: spellWithMembers(3, 0) } },
        fields: [chop("creek"), chop("hill")],
        machines: [
          { id: "mower", kind: "mower" },
          chopper,
          { ...chopper, id: "twin" },
          { id: "cart-1", kind: "cart", haPerH: 2 },
        ],
      }),
    );
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    const { grid } = outcome.value;
    expect(grid.fields.map(({ tasks }) => [...(tasks[1]?.slotsOf ?? [])])).toEqual([
      [0, 2, 2, 0],
      [0, 2, 2, 0],
    ]);
    const { jobs, assumptions } = await planBuilt(outcome.value, { solver: null, elapsedS: () => 0 });
    expect(assumptions.join(" ")).toContain("Choppers that share a cart work in turn.");
    const [one, other] = jobs.filter(({ op }) => op === "chop").map(toCrewJob);
    if (one === undefined || other === undefined) throw new Error("two choppings");
    expect(one.endUtcMs <= other.startUtcMs || other.endUtcMs <= one.startUtcMs).toBe(true);
  });

  describe("carts of works that are held", () => {
    const carted = [chopper, { ...chopper, id: "twin" }, cart("cart-1", 3)];
    const utc = (hour: number) => utcLabel(Date.parse("2026-07-02T15:00:00Z") + hour * HOUR_MS);
    const held = (fieldId: string, op: CrewOp, machineId: string, hour: number): CrewFixedRequest => ({
      fieldId,
      op,
      machineId,
      personId: op === "haul" ? "b" : "a",
      startUtc: utc(hour),
      endUtc: utc(hour + 2),
    });
    const here = spellWithMembers(3, 0);
    const told = (fixed: readonly CrewFixedRequest[], hillSite = "s1") => {
      const request = crewRequest({
        sites: { s1: { series: here }, s2: { series: here } },
        fields: [
          {
            ...crewField("creek", { areaHa: 6, route: "wilted-chop", ops: ["mow", "chop"] }),
            name: "Creek field",
          },
          crewField("hill", { areaHa: 6, siteId: hillSite, ops: ["mow", "bale", "haul"] }),
        ],
        machines: [...crewRequest().machines, ...carted],
        travelMin: { "s1|s2": 60 },
        fixed,
      });
      const outcome = buildGrid(request);
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
      const jobs = fixed.map((one) =>
        toCrewJob({ ...one, personId: one.personId ?? "", endUtc: one.endUtc ?? "" }),
      );
      return cartCautions(outcome.value, jobs).map(({ fieldId, op, code, path, text }) => [
        `${fieldId} ${op} ${code} ${path}`,
        text,
      ]);
    };
    const chop = held("creek", "chop", "chopper", 0);

    test("one cart at two places at once is told of its hauling, with the field where the chopper is", () => {
      expect(told([chop, held("hill", "haul", "cart-1", 1)])).toEqual([
        [
          "hill haul travel fixed[1]",
          "hill: cart-1 hauls Thu 2 Jul 11:00 to 13:00, and is reckoned behind the chopper at Creek field then: move one of them, or see to another cart.",
        ],
      ]);
      expect(told([chop, held("hill", "haul", "cart-1", 2)])).toEqual([]);
    });

    test("so is a cart that would have no time for the drive between the two, before or after", () => {
      const why =
        "is reckoned behind the chopper at Creek field Thu 2 Jul 10:00 to 12:00, a drive of 1 h away";
      for (const [hour, from, to] of [
        [2, "12:00", "14:00"],
        [-2, "08:00", "10:00"],
      ] as const) {
        expect(told([chop, held("hill", "haul", "cart-1", hour)], "s2")).toEqual([
          [
            "hill haul travel fixed[1]",
            `hill: cart-1 hauls Thu 2 Jul ${from} to ${to}, and ${why}: move one of them, or see to another cart.`,
          ],
        ]);
      }
      expect(told([chop, held("hill", "haul", "cart-1", 3)], "s2")).toEqual([]);
    });

    test("two choppers at once that share a cart are told, of the later work", () => {
      const chopped = (id: string) =>
        crewField(id, { areaHa: 6, route: "wilted-chop", ops: ["mow", "chop"] });
      const fixed = [chop, { ...held("hill", "chop", "twin", 1), personId: "b" }];
      const outcome = buildGrid(
        crewRequest({
          sites: { s1: { series: here } },
          fields: [chopped("creek"), chopped("hill")],
          machines: [...crewRequest().machines, ...carted],
          fixed,
        }),
      );
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
      const jobs = fixed.map((one) =>
        toCrewJob({ ...one, personId: one.personId ?? "", endUtc: one.endUtc ?? "" }),
      );
      expect(cartCautions(outcome.value, jobs).map(({ text }) => text)).toEqual([
        "hill: chopping Thu 2 Jul 11:00 to 13:00 needs cart-1, also behind chopper at creek Thu 2 Jul 10:00 to 12:00: move one of them, or see to another cart.",
      ]);
    });
  });

  test("they hold up nothing else", () => {
    const mower: CrewMachineRequest = { id: "mower", kind: "mower", haPerH: 6 };
    expect(slotsFor("mow", field, mower, 0.65, 60, shared([mower, cart("a", 1)]))).toBe(2);
  });
});
