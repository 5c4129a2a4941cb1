import { expect, test } from "vitest";
import type { Coefficient } from "../../../../model/coefficient.ts";
import * as hazards from "../../../../model/harvest/hazards/index.ts";
import * as losses from "../../../../model/harvest/losses/index.ts";
import * as details from "../../../../model/harvest/route-details/index.ts";
import * as value from "../../../../model/harvest/value/index.ts";

function isRecord(one: object): one is Coefficient {
  return "value" in one && "origin" in one && "source" in one;
}

function recordsOf(tree: object, name: string): (readonly [string, Coefficient])[] {
  return Object.entries(tree).flatMap(([key, one]) => {
    if (typeof one !== "object" || one === null) return [];
    return isRecord(one) ? [[`${name}.${key}`, one] as const] : recordsOf(one, `${name}.${key}`);
  });
}

const RECORDS = Object.entries({ losses, value, hazards, details }).flatMap(([room, face]) =>
  recordsOf(face, room),
);

test("every number of the four rooms is a record with unit, origin, source and a range that rises", () => {
  expect(RECORDS.length).toBeGreaterThan(120);
  for (const [name, { value: number, unit, source, validRange }] of RECORDS) {
    expect(Number.isFinite(number), name).toBe(true);
    expect(unit.length, name).toBeGreaterThan(0);
    expect(source.length, name).toBeGreaterThan(3);
    if (validRange) expect(validRange[0], name).toBeLessThanOrEqual(validRange[1]);
  }
});

test("what is constructed says that it is assumed, and no source is without a word", () => {
  for (const [name, { origin, source }] of RECORDS)
    if (/constructed/.test(source)) expect(origin, name).toBe("assumed");
});
