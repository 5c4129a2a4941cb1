import { expect, test } from "vitest";
import { drydownAnswer } from "../../server/schemas/drydown-answer.ts";
import { errorSchema } from "../../server/schemas/error.ts";
import { runCommand } from "../support/cli.ts";
import { changed, exampleDrydown } from "../support/requests.ts";

test("a good request: the answer on standard output, nothing else, exit 0", async () => {
  const { code, stdout, stderr } = await runCommand(["drydown"], JSON.stringify(exampleDrydown()));
  expect(stderr).toBe("");
  expect(code).toBe(0);
  drydownAnswer.parse(JSON.parse(stdout));
});

test.each([
  [["drydown"], "", "empty"],
  [["drydown"], "{", "invalid-json"],
  [["windows"], "{}", "missing"],
  [["drydown"], JSON.stringify(changed(exampleDrydown(), "swath.initialMoistureWb", 18)), "out-of-range"],
])(
  "%j with bad input: nothing on standard output, the error JSON on standard error, exit 2",
  async (words, input, issue) => {
    const { code, stdout, stderr } = await runCommand(words, input);
    expect(code).toBe(2);
    expect(stdout).toBe("");
    expect(errorSchema.parse(JSON.parse(stderr)).issues[0]?.code).toBe(issue);
  },
);

test("an unknown verb lists the known ones; help explains and exits 0", async () => {
  const unknown = await runCommand(["dry"], "");
  expect(unknown.code).toBe(2);
  expect(JSON.parse(unknown.stderr).message).toBe(
    'got "dry"; known verbs: drydown, windows, feed-check, crew-plan, record, book, help',
  );
  const help = await runCommand(["--help"], "");
  expect(help.code).toBe(0);
  expect(help.stdout).toContain("drydown");
});
