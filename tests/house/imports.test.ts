import { posix } from "node:path";
import { describe, expect, test } from "vitest";
import { importsOf, sourceFiles, withoutComments } from "./sources.ts";

const MODEL_LIBRARIES = ["suncalc", "simple-statistics", "date-fns", "@date-fns/tz", "papaparse"];

const IMPURE: readonly (readonly [string, RegExp])[] = [
  ["the clock", /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\./],
  ["chance", /\bMath\.random\b|\bcrypto\./],
  ["Node", /\bprocess\.|\bBuffer\b|["']node:/],
  ["the network", /\bfetch\(|\bXMLHttpRequest\b|\bWebSocket\b/],
  [
    "the page",
    /\bdocument\.|\bglobalThis\b|\bwindow\.(document|addEventListener|location|navigator)|\blocalStorage\b/,
  ],
  ["the console", /\bconsole\./],
];

/** The room that a relative import leads to, or null for a package. */
function roomOf(path: string, from: string): string | null {
  if (!from.startsWith(".")) return null;
  return posix.normalize(posix.join(posix.dirname(path), from)).split("/")[0] ?? null;
}

const sources = sourceFiles(/\.(ts|tsx|mjs)$/);
const inRoom = (room: string) => sources.filter(({ path }) => path.startsWith(`${room}/`));

test("the scan sees the rooms and their imports", () => {
  expect(inRoom("model").length).toBeGreaterThan(10);
  expect(inRoom("server").length).toBeGreaterThan(5);
  expect(importsOf('import type { A } from "../a.ts";\nexport * from "./b.ts";\nimport "c";')).toEqual([
    { from: "../a.ts", typeOnly: true, lazy: false },
    { from: "./b.ts", typeOnly: false, lazy: false },
    { from: "c", typeOnly: false, lazy: false },
  ]);
});

test("model/ imports only itself and the small pure libraries", () => {
  const wrong = inRoom("model").flatMap(({ path, text }) =>
    importsOf(text)
      .filter(({ from }) => {
        const room = roomOf(path, from);
        if (room !== null) return room !== "model";
        return !MODEL_LIBRARIES.some((library) => from === library || from.startsWith(`${library}/`));
      })
      .map(({ from }) => `${path} imports ${from}`),
  );
  expect(wrong).toEqual([]);
});

describe("model/ is pure", () => {
  test.each(IMPURE)("no %s", (_what, pattern) => {
    const wrong = inRoom("model").flatMap(({ path, text }) => {
      const found = pattern.exec(withoutComments(text));
      return found === null ? [] : [`${path}: ${found[0]}`];
    });
    expect(wrong).toEqual([]);
  });
});

test("server/ imports nothing of web/ or tests/", () => {
  const wrong = inRoom("server").flatMap(({ path, text }) =>
    importsOf(text)
      .filter(({ from }) => ["web", "tests"].includes(roomOf(path, from) ?? ""))
      .map(({ from }) => `${path} imports ${from}`),
  );
  expect(wrong).toEqual([]);
});

test("web/ takes only types from server/, and nothing from tests/ or Node", () => {
  const wrong = inRoom("web")
    .filter(({ path }) => path !== "web/vite.config.ts")
    .flatMap(({ path, text }) =>
      importsOf(text)
        .filter(({ from, typeOnly }) => {
          const room = roomOf(path, from);
          return (room === "server" && !typeOnly) || room === "tests" || from.startsWith("node:");
        })
        .map(({ from }) => `${path} imports ${from}`),
    );
  expect(wrong).toEqual([]);
});

test("only main.ts listens and serves files", () => {
  const wrong = inRoom("server")
    .filter(({ path, text }) => path !== "server/main.ts" && /@hono\/node-server/.test(text))
    .map(({ path }) => path);
  expect(wrong).toEqual([]);
});

test("named exports only", () => {
  const wrong = [...inRoom("model"), ...inRoom("server"), ...inRoom("web")]
    .filter(({ path, text }) => path !== "web/vite.config.ts" && /^export default\b/m.test(text))
    .map(({ path }) => path);
  expect(wrong).toEqual([]);
});

test("no holes in the types, and nothing left for later", () => {
  const pattern =
    /\bas any\b|: any\b|@ts-(ignore|expect-error|nocheck)|biome-ignore|\b(TODO|FIXME|XXX|HACK)\b/;
  const wrong = sources
    .filter(({ path, text }) => path !== "tests/house/imports.test.ts" && pattern.test(text))
    .map(({ path }) => path);
  expect(wrong).toEqual([]);
});

/** The first circle of imports that a walk from a file comes upon, as the files along it; null where there is none. */
function circleFrom(
  path: string,
  arrows: ReadonlyMap<string, readonly string[]>,
  behind: readonly string[],
  clear: Set<string>,
): readonly string[] | null {
  if (clear.has(path)) return null;
  const met = behind.indexOf(path);
  if (met >= 0) return [...behind.slice(met), path];
  for (const next of arrows.get(path) ?? []) {
    const circle = circleFrom(next, arrows, [...behind, path], clear);
    if (circle) return circle;
  }
  clear.add(path);
  return null;
}

test("no file needs itself by way of others, not even for a type; a part fetched when wanted may name who fetches it", () => {
  const arrows = new Map(
    ["model", "server", "web"].flatMap(inRoom).map(({ path, text }) => [
      path,
      importsOf(text)
        .filter(({ from, lazy }) => from.startsWith(".") && !lazy)
        .map(({ from }) => posix.normalize(posix.join(posix.dirname(path), from))),
    ]),
  );
  const clear = new Set<string>();
  const circles = [...arrows.keys()].flatMap((path) => circleFrom(path, arrows, [], clear) ?? []);
  expect(circles).toEqual([]);
  expect(
    circleFrom(
      "a",
      new Map([
        ["a", ["b"]],
        ["b", ["a"]],
      ]),
      [],
      new Set(),
    ),
  ).toEqual(["a", "b", "a"]);
});
