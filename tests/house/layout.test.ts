import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { ROOT } from "../support/root.ts";
import { sourceFiles } from "./sources.ts";

const TOP_LEVEL = [
  "README.md",
  "DEVELOPERS.md",
  "LICENSE",
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  "server",
  "web",
  "model",
  "tests",
  "weather-samples",
];

test("the top level holds the rooms of the house and dot-files, nothing else", () => {
  const strangers = readdirSync(ROOT).filter(
    (name) =>
      !name.startsWith(".") && name !== "node_modules" && name !== "coverage" && !TOP_LEVEL.includes(name),
  );
  expect(strangers).toEqual([]);
});

test("every test lies under tests/, and no test is switched off or alone", () => {
  const files = sourceFiles(/\.tsx?$/);
  expect(files.filter(({ path }) => /\.test\.tsx?$/.test(path) && !path.startsWith("tests/"))).toEqual([]);
  const switched = files.filter(
    ({ path, text }) =>
      /\.test\.tsx?$/.test(path) && /\b(test|it|describe)\.(only|skip|todo|fails)\b/.test(text),
  );
  expect(switched.map(({ path }) => path)).toEqual([]);
});
