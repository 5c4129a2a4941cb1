import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { ROOT } from "../support/root.ts";

const DIST = join(ROOT, "web", "dist");
const ASSETS = join(DIST, "assets");
/** kB of 1000 bytes, gzipped as a server does it. */
const LIMIT_KB = 180;
/** What comes by itself once the board is painted. */
const AFTER_BOARD = ["CourseOfRow", "LeversOfRow", "Fields", "Foot"];
const built = existsSync(join(DIST, "index.html"));

function kB(names: readonly string[]): number {
  const bytes = names.map((name) => gzipSync(readFileSync(join(ASSETS, name))).byteLength);
  return bytes.reduce((sum, one) => sum + one, 0) / 1000;
}

function named(start: string): string {
  const name = readdirSync(ASSETS).find((one) => one.startsWith(`${start}-`) && one.endsWith(".js"));
  if (name === undefined) throw new Error(`the build has no script "${start}"`);
  return name;
}

/** These scripts and all that they import to begin with. */
function withImports(names: readonly string[]): string[] {
  const found = new Set<string>();
  const add = (name: string) => {
    if (found.has(name)) return;
    found.add(name);
    const code = readFileSync(join(ASSETS, name), "utf8");
    for (const [, next] of code.matchAll(/\b(?:from|import)\s*["`]\.\/([\w.-]+\.js)["`]/g)) add(next ?? "");
  };
  names.forEach(add);
  return [...found];
}

/** The scripts that index.html names: they come before the board. */
function ofPage(): string[] {
  const html = readFileSync(join(DIST, "index.html"), "utf8");
  return [...html.matchAll(/assets\/([\w.-]+\.js)"/g)].map(([, name]) => name ?? "");
}

test.skipIf(!built)("script of the first view, the model's worker with it, is under 180 kB gzipped", () => {
  const first = ofPage();
  expect(first.length).toBeGreaterThan(0);
  expect(kB(withImports([...first, named("worker")]))).toBeLessThan(LIMIT_KB);
});

test.skipIf(!built)(
  "all that the page itself loads for board, course, levers and fields is under 180 kB gzipped",
  () => {
    expect(kB(withImports([...ofPage(), ...AFTER_BOARD.map(named)]))).toBeLessThan(LIMIT_KB);
  },
);
