import { describe, expect, test } from "vitest";
import type { Entry } from "../../../model/book/kinds.ts";
import type { LotDoc } from "../../../model/book/work-docs.ts";
import {
  type Change,
  canMerge,
  chainOf,
  giveUp,
  keepBoth,
  keepMine,
  mended,
  nextToSend,
  type Queue,
  readQueue,
  taken,
  withChange,
  withHeld,
  withWaiting,
} from "../../../web/book/queue.ts";
import { FIELD, LOT, READING } from "../../support/book/docs.ts";

const madeUtc = "2026-07-01T12:00:00Z";
let keys = 0;

function change(part: Partial<Change> & Pick<Change, "act">): Change {
  keys += 1;
  return {
    key: `k${keys}`,
    kind: "fields",
    id: "creek",
    doc: FIELD,
    revision: part.act === "make" ? null : 3,
    madeUtc,
    held: null,
    ...part,
  };
}

const entry = (revision: number, doc = FIELD): Entry<"fields"> => ({
  id: "creek",
  revision,
  createdUtc: madeUtc,
  changedUtc: madeUtc,
  deleted: false,
  doc,
});

const queued = (...changes: readonly Change[]): Queue =>
  changes.reduce<Queue>((queue, one) => withChange(queue, one), []);
const reading = (part: Partial<Change> = {}) =>
  change({ act: "make", kind: "readings", id: "r1", doc: READING, ...part });

describe("in order", () => {
  test("changes of one entry build on one another: each gets the revision that the one before left", () => {
    const queue = queued(change({ act: "change" }), change({ act: "change" }), change({ act: "remove" }));
    expect(queue.map(({ revision }) => revision)).toEqual([3, null, null]);
    const after = taken(queue, queue[0]?.key ?? "", entry(4));
    expect(after.map(({ revision }) => revision)).toEqual([4, null]);
    expect(taken(after, after[0]?.key ?? "", entry(5)).map(({ revision }) => revision)).toEqual([5]);
  });

  test("what follows a creation is sent against its first revision: a change by another meanwhile is not written over", () => {
    const queue = queued(change({ act: "make" }), change({ act: "change", revision: 0 }));
    // The creation was acknowledged late, after somebody else had already changed the entry.
    expect(taken(queue, queue[0]?.key ?? "", entry(2)).map(({ revision }) => revision)).toEqual([1]);
  });

  test("past something held goes only what does not build on it", () => {
    const queue = queued(
      change({ act: "make" }),
      reading(),
      reading({ id: "r2", doc: { ...READING, fieldId: "hill" } }),
    );
    const held = withHeld(queue, queue[0]?.key ?? "", { kind: "refused", message: "no", issues: [] });
    expect(nextToSend(queue)?.id).toBe("creek");
    expect(nextToSend(held)?.id).toBe("r2");
    expect(nextToSend(held.slice(0, 2))).toBeNull();
  });
});

describe("a conflict", () => {
  const theirs = entry(7, { ...FIELD, areaHa: 20 });
  const mine = { ...FIELD, areaHa: 9 };
  const conflict = () => {
    const queue = queued(change({ act: "change" }), reading(), change({ act: "change", doc: mine }));
    return withHeld(queue, queue[0]?.key ?? "", { kind: "conflict", entry: theirs });
  };

  test("mine: one change, the last, against what stands there; the others keep their place", () => {
    const queue = keepMine(conflict(), conflict()[0]?.key ?? "");
    const held = conflict();
    const kept = keepMine(held, held[0]?.key ?? "");
    expect(queue).toHaveLength(3);
    expect(kept.map(({ id, revision }) => [id, revision])).toEqual([
      ["creek", 7],
      ["r1", null],
    ]);
    expect(kept[0]?.doc).toEqual(mine);
    expect(kept[0]?.held).toBeNull();
  });

  test("both: what I changed goes into what somebody else changed, key by key", () => {
    const noted = { ...theirs, doc: { ...theirs.doc, notes: "wet corner", stage: null } };
    const queue = queued(
      change({ act: "change", before: { ...FIELD, stage: "bud" }, doc: { ...mine, stage: "bud" } }),
      change({ act: "change", doc: { ...mine, stage: "bloom" } }),
    );
    const key = queue[0]?.key ?? "";
    const held = withHeld(queue, key, { kind: "conflict", entry: noted });
    expect(canMerge(held, key)).toBe(true);
    expect(keepBoth(held, key)).toMatchObject([
      { act: "change", revision: 7, held: null, doc: { areaHa: 9, notes: "wet corner", stage: "bloom" } },
    ]);
    expect(canMerge(conflict(), conflict()[0]?.key ?? "")).toBe(false);
  });

  describe("of lists", () => {
    const at = (hour: number) => `2026-07-01T${hour}:00:00Z`;
    const probe = (hour: number, tempC: number, place?: string) => ({
      atUtc: at(hour),
      tempC,
      ...(place ? { place } : {}),
    });
    const began = { ...LOT, heating: [probe(10, 72)], tests: [{ id: "a", what: "nitrate" } as const] };
    const both = (before: LotDoc, doc: LotDoc, now: LotDoc) => {
      const queue = queued(change({ act: "change", kind: "lots", before, doc }));
      const key = queue[0]?.key ?? "";
      const held = withHeld(queue, key, { kind: "conflict", entry: { ...entry(7), doc: now } as Entry });
      return canMerge(held, key) ? (keepBoth(held, key)[0]?.doc as LotDoc) : null;
    };

    test("two readings of one heating log stay both, and so do results, tests and what one took away", () => {
      const mine = { ...began, heating: [probe(10, 72), probe(12, 80)], results: [{ atUtc: at(11), ph: 4 }] };
      const theirs = {
        ...began,
        heating: [probe(10, 72), probe(12, 85, "deep middle")],
        results: [{ ph: 5, atUtc: at(11) }],
        tests: [{ id: "a", what: "nitrate", sentUtc: at(12) } as const],
      };
      const joined = both(began, mine, theirs);
      expect(joined?.heating?.map(({ tempC }) => tempC)).toEqual([72, 85, 80]);
      expect(joined?.results?.map(({ ph }) => ph)).toEqual([5, 4]);
      expect(joined?.tests?.[0]?.sentUtc).toBe(at(12));
      expect(both(began, { ...began, heating: [] }, theirs)?.heating).toHaveLength(1);
      // The same entered twice is one; keys in another order are the same.
      expect(both(began, { ...began, results: [{ atUtc: at(11), ph: 5 }] }, theirs)?.results).toHaveLength(1);
    });

    test("where both changed one item, nothing is put together: a person has to say which is right", () => {
      const corrected = (tempC: number) => ({ ...began, heating: [probe(10, tempC)] });
      expect(both(began, corrected(70), corrected(75))).toBeNull();
      const sent = (hour: number) =>
        ({ ...began, tests: [{ ...began.tests[0], sentUtc: at(hour) }] }) as LotDoc;
      expect(both(began, sent(11), sent(12))).toBeNull();
      const paper = (ph: number): LotDoc => ({ ...began, results: [{ atUtc: at(9), ph }] });
      expect(both(paper(4), paper(5), paper(6))).toBeNull();
      expect(both(paper(4), paper(5), paper(5))?.results).toHaveLength(1);
    });
  });

  test("theirs: every change of that entry goes, and no other", () => {
    const held = conflict();
    expect(giveUp(held, held[0]?.key ?? "").map(({ id }) => id)).toEqual(["r1"]);
  });

  test("a removal of mine is sent as a removal; one that the server's book never had is made anew", () => {
    const queue = queued(change({ act: "change" }), change({ act: "remove" }));
    const held = withHeld(queue, queue[0]?.key ?? "", { kind: "conflict", entry: theirs });
    expect(keepMine(held, queue[0]?.key ?? "")).toMatchObject([{ act: "remove", revision: 7 }]);
    const other = queued(change({ act: "change" }));
    const missing = withHeld(other, other[0]?.key ?? "", { kind: "missing" });
    expect(keepMine(missing, other[0]?.key ?? "")).toMatchObject([
      { act: "make", revision: null, held: null },
    ]);
  });
});

test("a refused change is mended in its place: a creation stays one, a change keeps the revision that it saw", () => {
  const queue = queued(change({ act: "make" }), reading());
  const held = withHeld(queue, queue[0]?.key ?? "", { kind: "refused", message: "no", issues: [] });
  const next = mended(held, held[0]?.key ?? "", { ...FIELD, areaHa: 1 });
  expect(next).toMatchObject([{ act: "make", doc: { areaHa: 1 }, held: null }, { id: "r1" }]);
  expect(chainOf(next, next[0]?.key ?? "")).toHaveLength(1);
});

test("the lists show what waits: made, changed, removed", () => {
  const queue = queued(
    change({ act: "make", id: "new", doc: { ...FIELD, name: "New" } }),
    change({ act: "change", doc: { ...FIELD, areaHa: 9 } }),
    change({ act: "remove", id: "gone" }),
  );
  const entries = [entry(3), { ...entry(1), id: "gone" }];
  expect(withWaiting("fields", entries, queue)).toMatchObject([
    { id: "creek", revision: 3, waits: 1, doc: { areaHa: 9 } },
    { id: "new", revision: 0, waits: 1, doc: { name: "New" } },
  ]);
});

test("what a device held is read with suspicion, and what cannot be read is handed back to be laid aside", () => {
  const good = change({ act: "change", held: { kind: "missing" } });
  const strange = { kind: "harvests", id: "x", act: "make", doc: {} };
  const read = readQueue([JSON.parse(JSON.stringify(good)), strange, null]);
  expect(read.queue).toEqual([good]);
  expect(read.unread).toEqual([strange, null]);
  expect(readQueue(undefined)).toEqual({ queue: [], unread: [] });
  expect(readQueue({ version: 9 }).unread).toHaveLength(1);
});
