import { describe, expect, test } from "vitest";
import {
  keepPreferences,
  readPreferences,
  type TextStore,
  unitsOfLocale,
} from "../../../web/theme/preferences.ts";

function store(text: string | null = null): TextStore & { text: string | null } {
  return {
    text,
    getItem() {
      return this.text;
    },
    setItem(_key, value) {
      this.text = value;
    },
  };
}

const denied: TextStore = {
  getItem: () => {
    throw new DOMException("denied", "SecurityError");
  },
  setItem: () => {
    throw new DOMException("full", "QuotaExceededError");
  },
};

test.each([
  ["en-US", "us"],
  ["es-US", "us"],
  ["en-Latn-US", "us"],
  ["en-GB", "metric"],
  ["de-DE", "metric"],
  ["en", "metric"],
  ["", "metric"],
])("units by the language %j: %s", (locale, units) => {
  expect(unitsOfLocale(locale)).toBe(units);
});

describe("kept on the device", () => {
  test("what was kept comes back, whatever the language", () => {
    const device = store();
    expect(keepPreferences({ units: "metric", theme: "night" }, device)).toBe(true);
    expect(readPreferences("en-US", device)).toEqual({ units: "metric", theme: "night" });
  });

  test("a slow device may be set to few draws of the chances; any other number is as none", () => {
    const device = store(JSON.stringify({ draws: 12 }));
    const few = readPreferences("en-GB", device);
    expect(few).toEqual({ units: "metric", theme: "system", draws: 12 });
    keepPreferences({ ...few, theme: "day" }, device);
    expect(readPreferences("en-GB", device).draws).toBe(12);
    for (const draws of [0, 4, 12.5, 51, 1e9, "12", null])
      expect(readPreferences("en-GB", store(JSON.stringify({ draws })))).not.toHaveProperty("draws");
  });

  test.each([
    null,
    "",
    "{",
    "null",
    "[]",
    '"us"',
    '{"units":"stone","theme":7}',
    '{"__proto__":{"units":"us"}}',
  ])("kept as %j: the language decides, and the device the light", (text) => {
    expect(readPreferences("de-DE", store(text))).toEqual({ units: "metric", theme: "system" });
  });

  test("a storage that is denied or lacking is no hindrance", () => {
    expect(readPreferences("en-US", denied)).toEqual({ units: "us", theme: "system" });
    expect(readPreferences("en-US", null)).toEqual({ units: "us", theme: "system" });
    expect(keepPreferences({ units: "us", theme: "day" }, denied)).toBe(false);
    expect(keepPreferences({ units: "us", theme: "day" }, null)).toBe(false);
  });
});
