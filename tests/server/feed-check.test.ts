import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { runCli } from "../../server/run-cli.ts";
import { feedCheckAnswer } from "../../server/schemas/feed-check.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post } from "../support/app.ts";

const EXAMPLE = readFileSync(new URL("../../server/examples/feed-check.json", import.meta.url), "utf8");
const app = () => fakeApp({ model: theModel });

test("the example, by the API and by the command line, is one answer", async () => {
  const response = await post(app(), "/api/feed-check", EXAMPLE);
  expect(response.status).toBe(200);
  const answer = feedCheckAnswer.parse(await response.json());
  expect(answer.feeds[0]?.ppm).toBeCloseTo(2710.86, 1);
  expect(answer.feeds[0]?.classes).toHaveLength(14);
  const input = new TextEncoder().encode(EXAMPLE);
  const { exitCode, stdout } = await runCli(["feed-check"], async () => input, theModel);
  expect(exitCode).toBe(0);
  expect(JSON.parse(stdout)).toEqual(answer);
});

test("an unlabelled result is 200 with a refusal, a malformed one 400 with field, value and limit", async () => {
  const question = JSON.parse(EXAMPLE);
  delete question.feeds[0].nitrate.ion;
  const unlabelled = await post(app(), "/api/feed-check", question);
  expect(unlabelled.status).toBe(200);
  expect((await unlabelled.json()).refusals).toEqual([{ feedId: "oat hay", missing: ["ion"] }]);
  question.feeds[0].dmFrac = 88;
  question.animal.class = "unicorn";
  const malformed = await post(app(), "/api/feed-check", question);
  expect(malformed.status).toBe(400);
  const paths = (await malformed.json()).issues.map(({ path }: { path: string }) => path);
  expect(paths).toEqual(
    expect.arrayContaining(
      ["animal.class", "feeds.0.dmFrac"].map((path) =>
        expect.stringMatching(path.replace(".0.", ".?\\[?0\\]?.")),
      ),
    ),
  );
});
