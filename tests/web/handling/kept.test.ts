import { describe, expect, test } from "vitest";
import { isDay, keepHandling, MOST_PROBES, NOTHING_KEPT, readHandling } from "../../../web/handling/kept.ts";
import { degreesText, inLocale, pctLimit, pointsText, readOwn } from "../../../web/handling/own.ts";

const metric = { units: "metric", locale: "en-GB" } as const;
const us = { units: "us", locale: "en-US" } as const;

/** A storage of one visit. */
function storage(text: string | null) {
  let kept = text;
  return {
    getItem: () => kept,
    setItem: (_key: string, next: string) => {
      kept = next;
    },
  };
}

describe("what the device keeps", () => {
  test("comes back over a reload as it was", () => {
    const store = storage(null);
    const handling = {
      texts: { ...NOTHING_KEPT.texts, wrapDelayH: { text: "7,5", units: "us", marks: ",." } as const },
      probes: [{ day: "2026-07-16", tempC: 41.5 }],
    };
    expect(keepHandling(handling, store)).toBe(true);
    expect(readHandling(store)).toEqual(handling);
  });

  test.each([
    null,
    "",
    "{",
    "[]",
    "7",
    '{"texts":7,"probes":{}}',
    '{"texts":{"wrapDelayH":{"text":7,"units":"metric"},"storedWeeks":{"text":"9","units":"stone"}}}',
    '{"probes":[null,{"day":"2026-02-30","tempC":40},{"day":"2026-07-16","tempC":9000},{"day":7,"tempC":"hot"}]}',
  ])("%j is as nothing", (text) => {
    expect(readHandling(storage(text))).toEqual(NOTHING_KEPT);
  });

  test("no more probes than anyone makes; a storage that is denied is said", () => {
    const many = Array.from({ length: MOST_PROBES + 5 }, () => ({ day: "2026-07-16", tempC: 40 }));
    expect(readHandling(storage(JSON.stringify({ probes: many }))).probes).toHaveLength(MOST_PROBES);
    expect(readHandling(null)).toEqual(NOTHING_KEPT);
    expect(keepHandling(NOTHING_KEPT, null)).toBe(false);
    const full = {
      getItem: () => null,
      setItem: () => {
        throw new Error("full");
      },
    };
    expect(keepHandling(NOTHING_KEPT, full)).toBe(false);
  });

  test("days of the calendar", () => {
    expect(["2026-07-16", "2024-02-29", "2026-02-29", "16.07.2026", ""].map(isDay)).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
  });
});

describe("typed numbers", () => {
  const limit = { min: 0, max: 1000, unit: "t/h" };

  test("empty is no error; what is wrong names value and limit in the reader's units", () => {
    expect(readOwn({ text: " ", units: "metric" }, "delivery", limit, metric)).toEqual({
      value: null,
      error: undefined,
    });
    expect(readOwn({ text: "5000", units: "metric" }, "delivery", limit, metric).error).toBe(
      "Got 5,000, must be at least 0 and at most 1,000 t/h.",
    );
    expect(readOwn({ text: "5000", units: "us" }, "delivery", limit, us).error).toMatch(
      /^Got 5,000, must be at least 0 and at most 1,?100 ton\/h\.$/,
    );
    expect(readOwn({ text: "-1", units: "metric" }, null, limit, metric).value).toBeNull();
    expect(readOwn({ text: "many", units: "metric" }, null, limit, metric).error).toContain(
      "must be a number",
    );
    expect(readOwn({ text: "100", units: "us" }, "delivery", limit, us).value).toBeCloseTo(90.718474, 6);
    expect(pctLimit({ min: 0, max: 1, unit: "" })).toEqual({ min: 0, max: 100, unit: "%" });
  });

  test("a difference of degrees has no offset; decimal marks and points as people write them", () => {
    expect(degreesText(10, us)).toBe("18 °F");
    expect(degreesText(10, metric)).toBe("10 °C");
    expect(inLocale("0.5 % of 3.25", { locale: "de-DE" })).toBe("0,5 % of 3,25");
    expect([1, 1.04, 2].map((points) => pointsText(points, 1, metric))).toEqual([
      "a point",
      "a point",
      "2 points",
    ]);
  });
});
