import { expect, test } from "vitest";
import type { CrewJob, CrewRules } from "../../../model/crew/problem.ts";
import { planFaults } from "../../../model/crew/validity.ts";

const H = 3_600_000;
const day = [{ fromUtcMs: 0, toUtcMs: 20 * H }];
const job = (fieldId: string, op: string, machineId: string, from: number, hours = 1): CrewJob => ({
  fieldId,
  op,
  machineId,
  personId: "p",
  startUtcMs: from * H,
  endUtcMs: (from + hours) * H,
});
const rules: CrewRules = {
  fields: [
    { id: "a", siteId: "s1", ops: ["mow", "bale", "wrap"] },
    { id: "b", siteId: "s2", ops: ["mow"] },
  ],
  machines: ["m", "k", "w"].map((id) => ({ id, available: day })),
  people: [{ id: "p", available: day }],
  travelMin: { "s1|s2": 60 },
  windowsOf: (_field, op, mow) =>
    op === "wrap" ? "any" : { readyUtcMs: mow.startUtcMs + 4 * H, untilUtcMs: mow.startUtcMs + 7 * H },
  mayWork: (_field, _op, { toUtcMs }) => toUtcMs !== 18 * H,
  durationMs: (_field, op, machine) => (op === "bale" && machine !== "k" ? null : H),
  lagMs: (_field, op) => (op === "wrap" ? 3 * H : null),
  isFixed: () => false,
};
const good = [
  job("a", "mow", "m", 0),
  job("b", "mow", "m", 2),
  job("a", "bale", "k", 4),
  job("a", "wrap", "w", 5),
];

test("a plan that can be carried out has no faults", () => {
  expect(planFaults(rules, good)).toEqual([]);
});

test.each([
  ["travel", [0, job("b", "mow", "m", 1)], "travel"],
  ["window", [2, job("a", "bale", "k", 7)], "window"],
  ["the wrap's lag", [3, job("a", "wrap", "w", 9)], "lag"],
  ["order", [3, job("a", "wrap", "w", 3)], "order"],
  ["hours", [1, job("b", "mow", "m", 20)], "hours"],
  ["weather", [1, job("b", "mow", "m", 17)], "weather"],
  ["too short", [1, job("b", "mow", "m", 2, 0.5)], "duration"],
  ["a machine that cannot", [2, job("a", "bale", "m", 4)], "stranger"],
] as const)("%s is found", (_name, [at, changed], code) => {
  const jobs = _name === "travel" ? [good[0] as CrewJob, changed, ...good.slice(2)] : good.with(at, changed);
  expect(planFaults(rules, jobs).map((fault) => fault.code)).toContain(code);
});

test("a fault speaks in the names people gave", () => {
  const named: CrewRules = {
    ...rules,
    fields: rules.fields.map((field) => (field.id === "a" ? { ...field, name: "Creek field" } : field)),
    machines: rules.machines.map((one) => (one.id === "m" ? { ...one, name: "Wide mower" } : one)),
    people: rules.people.map((one) => ({ ...one, name: "Night driver" })),
  };
  const texts = planFaults(named, [job("a", "mow", "m", 0), job("b", "mow", "m", 1), ...good.slice(2)]);
  expect(texts.map(({ text }) => text)).toEqual([
    "Wide mower: cannot reach b for the mowing after Creek field",
    "Night driver: cannot reach b for the mowing after Creek field",
  ]);
});

test("half a field is found, and work that stands fixed may stand alone", () => {
  const mown = [job("a", "mow", "m", 0)];
  expect(planFaults(rules, mown).map(({ code }) => code)).toEqual(["missing", "missing"]);
  expect(planFaults({ ...rules, isFixed: (_f, op) => op === "mow" }, mown)).toEqual([]);
});

test("two works of one field at the same time are told as that, not as a drive", () => {
  const faults = planFaults(rules, [...good.slice(0, 3), job("a", "wrap", "w", 4)]);
  expect(faults.map(({ text }) => text).filter((text) => text.startsWith("p:"))).toEqual([
    "p: baling and wrapping of a are at the same time",
  ]);
});
