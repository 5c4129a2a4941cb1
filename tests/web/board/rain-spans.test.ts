import { expect, test } from "vitest";
import { rainSpans, thumbSpan } from "../../../web/board/rain-spans.ts";

const days = (count: number, widthPx: number) =>
  Array.from({ length: count }, (_, i) => ({
    dayKey: `d${i}`,
    x0: 100 + i * widthPx,
    x1: 100 + (i + 1) * widthPx,
    sentence: `Day ${i}: no rain.`,
  }));

test("wide days stand alone", () => {
  expect(rainSpans(days(3, 80)).map(({ key }) => key)).toEqual(["d0", "d1", "d2"]);
  expect(thumbSpan(120, 122, days(3, 80))).toEqual({ x0: 117, x1: 125 });
});

test("narrow days share a target that a thumb meets, and no day is left out", () => {
  const narrow = days(9, 25);
  const spans = rainSpans(narrow);
  expect(spans.every(({ x0, x1 }) => x1 - x0 >= 44)).toBe(true);
  expect([spans[0]?.x0, spans.at(-1)?.x1]).toEqual([100, 325]);
  expect(spans.flatMap(({ sentence }) => sentence.match(/Day \d/g))).toHaveLength(9);
  for (const [i, span] of spans.entries()) expect(span.x0).toBe(spans[i - 1]?.x1 ?? 100);
});

test("a mark at the edge of narrow days stays inside them", () => {
  expect(thumbSpan(100, 103, days(9, 25))).toEqual({ x0: 100, x1: 144 });
  expect(thumbSpan(320, 325, days(9, 25))).toEqual({ x0: 281, x1: 325 });
});
