import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ROOT } from "../../support/root.ts";

const css = readFileSync(join(ROOT, "web/style/tokens.css"), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");

type Tokens = Readonly<Record<string, string>>;

/** The custom properties of the block that a selector opens, searched from a mark in the text on. */
function block(from: string, selector: string): Tokens {
  const start = css.indexOf(from);
  expect(start, from).toBeGreaterThanOrEqual(0);
  const open = css.indexOf("{", css.indexOf(selector, start));
  const body = css.slice(open + 1, css.indexOf("}", open));
  return Object.fromEntries(
    [...body.matchAll(/--([\w-]+):\s*([^;]+);/g)].map(([, name, value]) => [name, value]),
  );
}

const day = block(":root {", ":root {");
const nightOfDevice = block("prefers-color-scheme: dark", ":root:not");
const nightChosen = block("@media screen {", ":root[data-theme");
const night = { ...day, ...nightChosen };
const print = { ...day, ...block("@media print", ":root") };

/** Relative luminance of sRGB, WCAG 2.2. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio, WCAG 2.2: (lighter + 0.05) / (darker + 0.05). */
function contrast(tokens: Tokens, a: string, b: string): number {
  const hexes = [tokens[a], tokens[b]];
  for (const hex of hexes) expect(hex, `${a} on ${b}`).toMatch(/^#[0-9a-f]{6}$/);
  const [light = 0, dark = 0] = hexes.map((hex) => luminance(hex ?? "")).sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const TEXT: readonly (readonly [string, string])[] = [
  ["ink", "ground"],
  ["ink", "day"],
  ["ink", "night"],
  ["ink-2", "ground"],
  ["ink-2", "day"],
  ["ink-2", "night"],
  ["ground", "ink"],
  ["rain", "day"],
  ["ink", "caution-ground"],
  ["caution-text", "caution-ground"],
  ["caution-text", "ground"],
  ["caution-text", "day"],
  ["leaf", "day"],
  ["stem", "day"],
];
const MARKS: readonly (readonly [string, string])[] = [
  ["rain", "night"],
  ["field-edge", "ground"],
  ["field-edge", "day"],
  ["caution-mark", "ground"],
  ["caution-mark", "caution-ground"],
  ["ribbon-edge", "day"],
  ["ribbon-edge", "night"],
  ["chance-band", "day"],
  ["leaf", "night"],
  ["stem", "night"],
];
const ROUTES = ["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop", "green-chop", "grazing"];

test("the figures of contrast are those of black, white and a published grey", () => {
  // WCAG 2.2, understanding 1.4.3: #767676 on white is 4.54.
  expect(contrast({ a: "#000000", b: "#ffffff" }, "a", "b")).toBeCloseTo(21, 9);
  expect(contrast({ a: "#767676", b: "#ffffff" }, "a", "b")).toBeCloseTo(4.54, 2);
});

test("night is the same where the device asks for it and where it is chosen", () => {
  expect(Object.keys(nightChosen).length).toBeGreaterThan(10);
  expect(nightChosen).toEqual(nightOfDevice);
});

describe.each([
  ["day", day],
  ["night", night],
  ["print", print],
])("%s", (_name, tokens) => {
  test.each(TEXT)("text: %s on %s has at least 4.5", (a, b) => {
    expect(contrast(tokens, a, b)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(MARKS)("marks: %s on %s have at least 3", (a, b) => {
    expect(contrast(tokens, a, b)).toBeGreaterThanOrEqual(3);
  });

  test.each(ROUTES)("a window of %s stands in an outline that is seen, by day and by night", (route) => {
    expect(tokens[route]).toMatch(/^#/);
    // The outline is ink; by night light ink would vanish in a pale fill, so the chart's ground parts the two.
    const outline = Math.max(contrast(tokens, "ink", route), contrast(tokens, "day", route));
    expect(outline).toBeGreaterThanOrEqual(3);
    expect(contrast(tokens, "ink", "night")).toBeGreaterThanOrEqual(3);
  });

  test("the day's columns are lighter than the night's", () => {
    expect(luminance(tokens.day ?? "")).toBeGreaterThan(luminance(tokens.night ?? ""));
  });
});

test("no style sheet but the tokens' has a colour of its own", () => {
  const all = readdirSync(join(ROOT, "web"), { recursive: true, encoding: "utf8" });
  const sheets = all
    .filter((path) => path.endsWith(".css") && !path.startsWith("dist"))
    .map((path) => `web/${path}`);
  expect(sheets.length).toBeGreaterThan(15);
  for (const sheet of sheets.filter((path) => path !== "web/style/tokens.css")) {
    const text = readFileSync(join(ROOT, sheet), "utf8");
    // What stands in url() is a pattern of the page and no colour.
    const colours = text.replace(/url\([^)]*\)/g, "");
    expect(colours.match(/#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|oklch)a?\(/gi) ?? [], sheet).toEqual([]);
  }
});
