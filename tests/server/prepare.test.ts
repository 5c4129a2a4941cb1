import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { firstStalePackage, nodeIsNewEnough, sourcesHash } from "../../server/prepare.mjs";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "swathclock-prepare-"));
  mkdirSync(join(folder, "web/dist"), { recursive: true });
  writeFileSync(join(folder, "web/a.ts"), "1");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ["20.19.0", true],
  ["20.18.3", false],
  ["18.20.0", false],
  ["22.0.0", true],
])("Node %s: new enough %s", (version, expected) => {
  expect(nodeIsNewEnough(version)).toBe(expected);
});

test("a package that is missing or of another version is named; other platforms' and, for a start, tests' are not", () => {
  const lock = {
    packages: {
      "": { version: "0.1.0" },
      "node_modules/a": { version: "1.0.0" },
      "node_modules/other-platform": { version: "1.0.0", optional: true },
      "node_modules/test-tool": { version: "2.0.0", dev: true },
    },
  };
  const start = { packages: { "node_modules/a": { version: "1.0.0" } } };
  expect(firstStalePackage(lock, null, false)).toBe("node_modules");
  expect(firstStalePackage(lock, start, false)).toBe(null);
  expect(firstStalePackage(lock, start, true)).toBe("node_modules/test-tool 2.0.0");
  expect(firstStalePackage(lock, { packages: { "node_modules/a": { version: "0.9.0" } } }, false)).toBe(
    "node_modules/a 1.0.0",
  );
});

test("the fingerprint follows contents, not file times, and leaves the build itself out", () => {
  const before = sourcesHash(folder);
  utimesSync(join(folder, "web/a.ts"), 0, 0);
  writeFileSync(join(folder, "web/dist/index.html"), "built");
  expect(sourcesHash(folder)).toBe(before);
  writeFileSync(join(folder, "web/a.ts"), "2");
  expect(sourcesHash(folder)).not.toBe(before);
});
