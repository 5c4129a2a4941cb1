import { expect, test } from "vitest";
import { cancelledVisits } from "../../../model/crew/changes.ts";
import type { CrewChange } from "../../../model/crew/index.ts";

const at = (day: number) => `2026-07-0${day}T15:00:00Z`;
const out = (fieldId: string, day: number): CrewChange => ({
  fieldId,
  op: "bale",
  fromUtc: at(day),
  toUtc: null,
  why: "",
  text: "",
});
type Cancelled = {
  readonly fieldId: string;
  readonly op: "bale";
  readonly startUtc: string;
  readonly endUtc?: string;
};
const built = (nowDay: number, cancelled: readonly Cancelled[]) =>
  ({
    request: { previous: { jobs: [], cancelled } },
    nowUtcMs: Date.parse(at(nowDay)),
  }) as unknown as Parameters<typeof cancelledVisits>[0];

test("a visit that fell out stays cancelled through all revisions until its time has passed, or it comes back", () => {
  const first = cancelledVisits(built(1, []), [], [out("creek", 4), out("hill", 6)]);
  expect(first.map(({ fieldId, startUtc }) => `${fieldId} ${startUtc}`)).toEqual([
    `creek ${at(4)}`,
    `hill ${at(6)}`,
  ]);
  const known = first.map(({ fieldId, startUtc }) => ({ fieldId, op: "bale" as const, startUtc }));
  const fieldsAt = (day: number, jobs: Parameters<typeof cancelledVisits>[1] = []) =>
    cancelledVisits(built(day, known), jobs, []).map(({ fieldId }) => fieldId);
  expect(fieldsAt(3)).toEqual(["creek", "hill"]);
  expect(fieldsAt(5)).toEqual(["hill"]);
  const back = { op: "bale" as const, machineId: "b", personId: "p", startUtc: at(5), endUtc: at(6) };
  expect(fieldsAt(3, [{ fieldId: "creek", ...back }])).toEqual(["hill"]);
});

test("a visit that fell out keeps the end it was promised with, through later revisions too", () => {
  const promised = { fieldId: "creek", op: "bale" as const, startUtc: at(4), endUtc: "2026-07-04T18:00:00Z" };
  const job = { ...promised, machineId: "b", personId: "p" };
  const now = { request: { previous: { jobs: [job] } }, nowUtcMs: Date.parse(at(1)) };
  const first = cancelledVisits(
    now as unknown as Parameters<typeof cancelledVisits>[0],
    [],
    [out("creek", 4)],
  );
  expect(first).toEqual([promised]);
  expect(cancelledVisits(built(2, [promised]), [], [])).toEqual([promised]);
});
