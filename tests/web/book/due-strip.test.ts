import { expect, test } from "vitest";
import { dueWork } from "../../../model/book/due/due-work.ts";
import { daysInWords, dueSentence, dueStrip, dueTime } from "../../../web/book/due-strip.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { CUT, FIELD, LOT, SITE } from "../../support/book/docs.ts";

const manner: Manner = { units: "metric", locale: "en", hour12: false, zone: "America/Chicago" };
const nowMs = Date.parse("2026-07-03T12:00:00Z");
const head = { revision: 1, createdUtc: "", changedUtc: "", deleted: false };
const items = dueWork({
  nowUtcMs: nowMs,
  days: 14,
  sites: [{ ...head, id: "home", doc: SITE }],
  fields: [
    {
      ...head,
      id: "creek",
      doc: {
        ...FIELD,
        sprays: [{ product: "A", appliedUtc: "2026-07-01T12:00:00Z", intervalDays: 5, before: "cutting" }],
      },
    },
  ],
  cuts: [{ ...head, id: "cut", doc: CUT }],
  lots: [],
});

test("what is overdue comes first and stands at today, what comes stands at its day", () => {
  expect(items.map(({ work, overdue }) => [work, overdue])).toEqual([
    ["mow", true],
    ["spray-over", false],
  ]);
  expect(dueSentence(items, 14, manner)).toBe(
    "Overdue: Creek field: mow, Thursday 2 Jul 09:00. Next: Creek field: A, interval over, Monday 6 Jul. 2 things in the coming 14 days, 1 overdue.",
  );
  expect(dueSentence([], 14, manner)).toBe("Nothing is due in the coming 14 days.");
  const strip = dueStrip(items, nowMs, 14, 700, manner);
  expect(strip.days[0]).toEqual({ x: 0, label: "Fri", number: "3" });
  expect(strip.marks.map(({ x, date, overdue }) => [x, date, overdue])).toEqual([
    [25, false, true],
    [175, true, false],
  ]);
  expect(dueTime(items[0] ?? never(), manner)).toBe("Thursday 2 Jul 09:00");
});

test("days and hours in a text are told as the page tells them", () => {
  const text = "Film on by 2026-07-06 17:00, open on 2026-08-17.";
  const of = { text, timeZone: "America/Chicago" };
  expect(daysInWords(of, manner)).toBe("Film on by Monday 6 Jul, 17:00, open on Monday 17 Aug.");
  expect(daysInWords(of, { ...manner, hour12: true })).toContain("Monday 6 Jul, 5 pm");
});

test("what may kill is said first, the worst with what to do", () => {
  const lot = (id: string, doc: object) => ({ ...head, id, doc: { ...LOT, fieldId: null, ...doc } });
  const silo = { name: "Bunker", route: "wilted-chop", storedUtc: "2026-07-02T12:00:00Z" };
  const heating = [{ atUtc: "2026-07-03T02:00:00Z", tempC: 72 }];
  const dangers = dueWork({
    nowUtcMs: nowMs,
    days: 14,
    sites: [{ ...head, id: "home", doc: SITE }],
    fields: [],
    cuts: [],
    lots: [lot("a", silo), lot("b", { name: "Stack", heating })],
  });
  expect(dueSentence(dangers, 14, manner)).toMatch(
    /^Danger: Stack: probe the stack, it is hot\. .*fire service.* Also: Bunker: silo gas, keep out\./,
  );
  const gas = dangers.find(({ work }) => work === "keep-out") ?? never();
  expect(dueTime(gas, manner)).toBe("Until Thursday 23 Jul");
  expect(dueStrip([gas], nowMs, 14, 700, manner).marks).toMatchObject([{ x: 25, overdue: true }]);
});

function never(): never {
  throw new Error("nothing is due");
}
