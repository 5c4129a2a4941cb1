import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { runCli } from "../../server/run-cli.ts";
import { drydownAnswer } from "../../server/schemas/drydown-answer.ts";
import { errorSchema } from "../../server/schemas/error.ts";
import { recordResult } from "../../server/schemas/record.ts";
import { theModel } from "../../server/the-model.ts";
import { runCommand } from "../support/cli.ts";
import { changed, exampleDrydown } from "../support/requests.ts";

test("a good request: the answer on standard output, nothing else, exit 0", async () => {
  const { code, stdout, stderr } = await runCommand(["drydown"], JSON.stringify(exampleDrydown()));
  expect(stderr).toBe("");
  expect(code).toBe(0);
  drydownAnswer.parse(JSON.parse(stdout));
});

test("bad input: nothing on standard output, the error JSON on standard error, exit 2", async () => {
  const input = JSON.stringify(changed(exampleDrydown(), "swath.initialMoistureWb", 18));
  const { code, stdout, stderr } = await runCommand(["drydown"], input);
  expect(code).toBe(2);
  expect(stdout).toBe("");
  expect(errorSchema.parse(JSON.parse(stderr)).issues[0]?.code).toBe("out-of-range");
});

/** What the program prints, and ends with, without starting one. */
function called(words: readonly string[], input: string) {
  return runCli(words, async () => new TextEncoder().encode(input), theModel);
}

test.each([
  ["drydown", "", "empty"],
  ["drydown", "{", "invalid-json"],
  ["windows", "{}", "missing"],
])("%s of %j: %s", async (verb, input, issue) => {
  const { exitCode, stdout, stderr } = await called([verb], input);
  expect(exitCode).toBe(2);
  expect(stdout).toBe("");
  expect(errorSchema.parse(JSON.parse(stderr)).issues[0]?.code).toBe(issue);
});

test("help names a request of each verb to start from; that of the record has days enough for its chances", async () => {
  const named = (await called(["help"], "")).stdout.match(/[a-z-]+\.json(?=[,.])/g) ?? [];
  expect(named).toEqual(
    ["drydown", "windows", "feed-check", "crew-plan", "record"].map((verb) => `${verb}.json`),
  );
  const example = (name: string) =>
    readFileSync(new URL(`../../server/examples/${name}`, import.meta.url), "utf8");
  for (const name of named) expect(JSON.parse(example(name))).toBeTypeOf("object");
  const { exitCode, stdout, stderr } = await called(["record"], example("record.json"));
  expect([exitCode, stderr]).toEqual([0, ""]);
  const { counts, moisture, chances } = recordResult.parse(JSON.parse(stdout));
  expect(counts).toEqual({ moisture: 3, chances: 22, days: 22 });
  expect(moisture[0]?.bias).toMatchObject({ enough: false, days: 3 });
  expect(chances[0]?.brier).toMatchObject({ enough: true, days: 22 });
});

test("an unknown verb lists the known ones; help explains and exits 0", async () => {
  const unknown = await runCommand(["dry"], "");
  expect(unknown.code).toBe(2);
  expect(JSON.parse(unknown.stderr).message).toBe(
    'got "dry"; known verbs: drydown, windows, feed-check, crew-plan, record, book, help',
  );
  const help = await called(["--help"], "");
  expect(help.exitCode).toBe(0);
  expect(help.stdout).toContain("drydown");
});
