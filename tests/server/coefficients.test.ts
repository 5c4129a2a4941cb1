import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import type { Coefficient } from "../../model/coefficient.ts";
import { allCoefficients } from "../../server/coefficient-rooms.ts";

/** Every record that any file of the model gives out, found by walking all of them, stands in /api/model, and says what it is. */

const MODEL = new URL("../../model/", import.meta.url);

function isRecord(one: object): one is Coefficient {
  return "value" in one && "origin" in one && "source" in one && "validRange" in one;
}

function recordsIn(tree: unknown, name: string): (readonly [string, Coefficient])[] {
  if (typeof tree !== "object" || tree === null || ArrayBuffer.isView(tree)) return [];
  if (isRecord(tree)) return [[name, tree]];
  return Object.entries(tree).flatMap(([key, one]) => recordsIn(one, `${name}.${key}`));
}

const FILES = readdirSync(MODEL, { recursive: true, encoding: "utf8" }).filter(
  (path) => path.endsWith(".ts") && !path.endsWith("index.ts"),
);
const WALKED = (
  await Promise.all(
    FILES.map(async (path) => {
      const face: object = await import(new URL(path, MODEL).pathname);
      return recordsIn({ ...face }, path);
    }),
  )
).flat();

const TOLD = allCoefficients();

test("the walk finds the rooms, and the catalogue leaves out none of their records", () => {
  for (const room of [
    "drying/",
    "feed/",
    "harvest/losses/",
    "harvest/value/",
    "harvest/hazards/",
    "odds/",
    "crew/",
  ])
    expect(
      WALKED.some(([name]) => name.startsWith(room)),
      room,
    ).toBe(true);
  const told = new Set(Object.values(TOLD).map((one) => JSON.stringify(one)));
  const missing = WALKED.filter(([, one]) => !told.has(JSON.stringify(one)));
  expect(missing.map(([name]) => name)).toEqual([]);
});

test("every record has a unit, an origin, a source and a range that rises", () => {
  expect(Object.keys(TOLD).length).toBeGreaterThan(300);
  for (const [name, { value, unit, source, validRange }] of [...WALKED, ...Object.entries(TOLD)]) {
    expect(Number.isFinite(value), name).toBe(true);
    expect(unit.length, name).toBeGreaterThan(0);
    expect(source.length, name).toBeGreaterThan(3);
    if (validRange) expect(validRange[0], name).toBeLessThanOrEqual(validRange[1]);
  }
});

test("what is constructed says that it is assumed", () => {
  const wrong = Object.entries(TOLD).filter(
    ([, { origin, source }]) => /^constructed/.test(source) && origin !== "assumed",
  );
  expect(wrong.map(([name]) => name)).toEqual([]);
});
