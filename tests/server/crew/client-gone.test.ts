import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import { afterAll, beforeAll, expect, test } from "vitest";
import { withCrewIn } from "../../../server/crew/crew-pool.ts";
import { crewPlanHere } from "../../../server/crew/plan-here.ts";
import { theModel } from "../../../server/the-model.ts";
import { workerPool } from "../../../server/workers/pool.ts";
import { fakeApp } from "../../support/app.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

const entry = new URL("./endless-worker.mjs", import.meta.url);
const pool = workerPool({ entry, threads: 1, mostWaiting: 4 });
let arrived = () => {};
const app = fakeApp({
  model: withCrewIn(
    {
      ask: (question, signal) => {
        const answer = pool.ask(question, signal);
        arrived();
        return answer;
      },
    },
    theModel,
  ),
});
const request = crewRequest({ sites: { s1: { series: spellWithMembers(2, 0) } } });
let server: ReturnType<typeof serve>;
let url = "";

beforeAll(async () => {
  await new Promise<void>((ready) => {
    server = serve({ fetch: app.fetch, hostname: "127.0.0.1", port: 0 }, () => ready());
  });
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api/crew-plan`;
});
afterAll(() => new Promise<void>((ended) => void server.close(() => ended())));

const send = (timeLimitS: number, signal: AbortSignal) =>
  fetch(url, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...request, timeLimitS }),
    signal,
  });

test("whoever goes away frees the thread that works for them, and their place in the queue", async () => {
  const allThere = new Promise<void>((there) => {
    let missing = 3;
    arrived = () => {
      missing -= 1;
      if (missing === 0) there();
    };
  });
  const [working, waiting] = [new AbortController(), new AbortController()];
  const left = [send(120, working.signal), send(120, waiting.signal)].map((sent) =>
    sent.then(
      () => "answered",
      ({ name }: Error) => name,
    ),
  );
  const answered = send(1, AbortSignal.timeout(20_000));
  await allThere;
  waiting.abort();
  working.abort();
  expect(await Promise.all(left)).toEqual(["AbortError", "AbortError"]);
  const response = await answered;
  expect(response.status).toBe(400);
  expect(await response.json()).toMatchObject({ issues: [{ code: "told" }] });
}, 30_000);

test("a plan worked out here ends early when its signal says so", async () => {
  const fields = Array.from({ length: 8 }, (_, i) =>
    crewField(`f${i}`, { areaHa: 20, ops: ["mow", "rake", "bale"] }),
  );
  const stop = AbortSignal.abort();
  const beganMs = performance.now();
  const answer = await crewPlanHere({ ...request, fields, timeLimitS: 60 }, stop);
  expect(answer.ok).toBe(true);
  expect(performance.now() - beganMs).toBeLessThan(20_000);
});
