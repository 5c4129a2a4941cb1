import { expect, test } from "vitest";
import { cameOf, recordOfBook, type ToldWindow, WINDOW_EVENT } from "../../../model/odds/index.ts";

// All invented: a window told for 10:00 to 18:00 UTC of 3 July, of a cut at 14:00 of the 1st.
const TOLD: ToldWindow = {
  route: "dry-hay",
  issuedUtc: "2026-07-01T12:00:00Z",
  fromUtc: "2026-07-03T10:00:00Z",
  toUtc: "2026-07-03T18:00:00Z",
  cutUtc: "2026-07-01T14:00:00Z",
  bandWb: [0.12, 0.16],
};
const CUT = { id: "c", route: "dry-hay", plannedUtc: "2026-07-01T14:00:00Z" };
const done = (kind: string, doneUtc: string, doneEndUtc?: string) => ({ kind, doneUtc, doneEndUtc });
const baled = (doneUtc: string, doneEndUtc?: string) => ({
  ...CUT,
  operations: [done("bale", doneUtc, doneEndUtc)],
});
const read = (atUtc: string, moistureWb: number) => ({ atUtc, moistureWb });

test.each([
  ["baled in the told hours", baled("2026-07-03T13:00:00Z"), true],
  ["baling that began before them and went on", baled("2026-07-03T08:00:00Z", "2026-07-03T12:00:00Z"), true],
  ["written down an hour after their end", baled("2026-07-03T19:00:00Z"), true],
  ["baled only the next day", baled("2026-07-04T13:00:00Z"), false],
  ["baled the day before: nobody knows of the told hours", baled("2026-07-02T15:00:00Z"), null],
  ["planned and not done", { ...CUT, operations: [{ kind: "bale" }] }, null],
  ["chopped: another route's work", { ...CUT, operations: [done("chop", "2026-07-03T13:00:00Z")] }, null],
  ["baled, of a cut whose route is not kept", { ...baled("2026-07-03T13:00:00Z"), route: null }, null],
  ["mown a day later than told", { ...baled("2026-07-03T13:00:00Z"), cutUtc: "2026-07-02T14:00:00Z" }, null],
  [
    "mown by the mower's own time, a day later",
    { ...CUT, operations: [done("mow", "2026-07-02T14:00:00Z"), done("bale", "2026-07-03T13:00:00Z")] },
    null,
  ],
  ["a cut that is gone", undefined, null],
] as const)("by its work: %s", (_name, cut, came) => {
  expect(cameOf(TOLD, cut, [])).toBe(came);
});

test("bales with a film on are wrapped ones, whatever was planned", () => {
  const operations = [done("bale", "2026-07-03T13:00:00Z"), done("wrap", "2026-07-03T15:00:00Z")];
  const cut = { ...CUT, operations };
  expect(cameOf(TOLD, cut, [])).toBeNull();
  expect(cameOf({ ...TOLD, route: "wrapped-bales", bandWb: [0.4, 0.55] }, cut, [])).toBe(true);
});

test("a chance that was told when the work had begun already is no test", () => {
  const late = { ...TOLD, issuedUtc: "2026-07-03T13:30:00Z" };
  expect(cameOf(late, baled("2026-07-03T13:00:00Z"), [])).toBeNull();
});

test.each([
  ["above the band at the end", [read("2026-07-03T17:30:00Z", 0.19)], false],
  ["in the band at the end", [read("2026-07-03T18:20:00Z", 0.15)], true],
  ["below the band: it may have passed through it before", [read("2026-07-03T17:30:00Z", 0.1)], null],
  ["above it in the morning: it dried on", [read("2026-07-03T11:00:00Z", 0.19)], null],
  ["an interval is no number", [{ atUtc: "2026-07-03T17:30:00Z" }], null],
  ["the nearest counts", [read("2026-07-03T17:05:00Z", 0.17), read("2026-07-03T17:50:00Z", 0.155)], true],
] as const)("by its reading: %s", (_name, readings, came) => {
  expect(cameOf(TOLD, CUT, readings)).toBe(came);
  // Where the work was done, it tells.
  expect(cameOf(TOLD, baled("2026-07-04T13:00:00Z"), readings)).toBe(false);
});

test("the book's told windows are found by cut and route; what somebody said stands; what is not known is counted", () => {
  const { route: _, issuedUtc, ...window } = TOLD;
  const one = { ...window, what: WINDOW_EVENT, chance: 0.7, route: "dry-hay" };
  const chances = [
    one,
    { ...one, route: "wrapped-bales", bandWb: [0.4, 0.55] as const, chance: 0.9 },
    { ...one, what: "frost", chance: 0.1 },
    { ...one, what: "frost", chance: 0.2, came: false },
  ];
  const forecast = { cutId: "c", issuedUtc, chances };
  const readings = [{ ...read("2026-07-03T17:30:00Z", 0.15), cutId: "another" }];
  const record = recordOfBook("UTC", [forecast], readings, { cuts: [baled("2026-07-03T13:00:00Z")] });
  expect(record.chances?.map(({ chance, came }) => [chance, came])).toEqual([
    [0.7, true],
    [0.2, false],
  ]);
  expect(record.chances?.[0]?.atUtc).toBe(TOLD.toUtc);
  expect(record.notKnown).toBe(2);
});
