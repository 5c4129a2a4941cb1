import { expect, test } from "vitest";
import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import { fitted } from "../../web/crew/crew-chart.ts";
import { readDraft } from "../../web/crew/crew-draft.ts";
import { crewScale } from "../../web/crew/crew-scale.ts";
import { gapSentence } from "../../web/crew/crew-sentences.ts";

const H = 3_600_000;

test("the calendar of the crew rises throughout and gives an hour of the night a fifth of one by day", () => {
  const from = Date.parse("2026-06-20T00:00:00Z");
  const scale = crewScale(from, from + 48 * H, "UTC", 0, 1000);
  const xs = Array.from({ length: 49 }, (_, h) => scale.x(from + h * H));
  expect(xs[0]).toBe(0);
  expect(xs[48]).toBeCloseTo(1000, 6);
  const widths = xs.slice(1).map((x, i) => x - (xs[i] ?? 0));
  expect(Math.min(...widths)).toBeGreaterThan(0);
  expect((widths[2] ?? 0) / (widths[12] ?? 1)).toBeCloseTo(0.2, 6);
});

test("the gap is rounded up, and a weak bound says so", () => {
  const words = (gap: number, boundWeak = false) =>
    gapSentence({ gap, boundWeak } as CrewPlanAnswer, { locale: "en-GB" });
  expect(words(0)).toBe("No plan can be better.");
  expect(words(0.0101)).toBe("No plan can be more than 1.1 % better.");
  expect(words(0.2, true)).toMatch(/rough bound/);
});

test("how much better a plan may be is a share of this plan, though the gap is one of the bound", () => {
  const words = (gap: number) => gapSentence({ gap } as CrewPlanAnswer, { locale: "en-GB" });
  // 80 of at most 100: a better one has a quarter more.
  expect(words(0.2)).toBe("No plan can be more than 25 % better.");
  expect(words(0.5)).toBe("No plan can be worth more than 2 times as much.");
  expect(words(0.601)).toBe("No plan can be worth more than 2.6 times as much.");
  expect(words(1)).toBe("How much better a plan could be is not known.");
});

test("where windows were read again or a field is left, the proof is of these windows alone", () => {
  const words = (gap: number, windowsReread: readonly string[]) =>
    gapSentence({ gap, windowsReread } as CrewPlanAnswer, { locale: "en-GB" });
  expect(words(0, ["a"])).toBe("No plan can be better in these windows (those of 1 field were read again).");
  expect(words(0.0101, ["a", "b"])).toBe(
    "No plan can be more than 1.1 % better in these windows (those of 2 fields were read again).",
  );
  const left = [{ fieldId: "a", why: "rain" }];
  expect(gapSentence({ gap: 0, left } as unknown as CrewPlanAnswer, { locale: "en-GB" })).toBe(
    "No plan can be better in these windows.",
  );
});

test("a name is whole where it fits, else its first word, else a letter", () => {
  expect([100, 60, 15].map((room) => fitted("Creek field", room))).toEqual(["Creek field", "Creek", "C"]);
  // Wide letters take more room.
  expect(["Mow", "Ted"].map((word) => fitted(word, 29))).toEqual(["M", "Ted"]);
});

test("what a device kept is taken only where it is a crew", () => {
  for (const wrong of [null, 3, {}, { siteNames: {}, planId: "p", fields: [], machines: [], people: [] }])
    expect(readDraft(wrong)).toBeNull();
});
