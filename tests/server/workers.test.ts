import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { answerWindows, BOARD_DRAWS, type WindowsRequest } from "../../model/harvest/index.ts";
import { errorSchema } from "../../server/schemas/error.ts";
import { boardSwathHours } from "../../server/schemas/windows.ts";
import { windowsAnswer } from "../../server/schemas/windows-answer.ts";
import { theModel } from "../../server/the-model.ts";
import { LARGE_SWATH_HOURS, withLargeBoardsIn } from "../../server/workers/large-boards.ts";
import { type Pool, workerPool } from "../../server/workers/pool.ts";
import { fakeApp, post, SILENT_MODEL } from "../support/app.ts";
import { MOCKED_SERVICES } from "../support/mocked-services.ts";
import { exampleWindows } from "../support/requests.ts";
import { type RunningServer, startServer } from "../support/server.ts";
import { inventedSpell, PLACES } from "../support/weather.ts";

function board(hours: number, cutHours: number[]): WindowsRequest {
  const weather = inventedSpell(PLACES.southDakota, "2026-01-01T06:00:00Z", hours, { dewPointC: 4 });
  const plain = exampleWindows();
  return { ...plain, weather, nowUtc: null, cutHours, treatments: plain.treatments?.slice(0, 1) };
}

describe("a real server", () => {
  let server: RunningServer;
  beforeAll(async () => {
    // As the journeys start theirs: its threads answer too.
    server = await startServer(MOCKED_SERVICES);
  }, 60_000);
  afterAll(async () => {
    await server?.stop();
  });

  const send = (request: WindowsRequest) =>
    fetch(`${server.url}/api/windows`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(request),
    });

  test("says that it is alive while it works out the board of a year", async () => {
    const year = board(365 * 24, [9]);
    expect(boardSwathHours(year)).toBeGreaterThan(1_000_000);
    let answered = false;
    const fromMs = performance.now();
    const asked = send(year).then(async (response) => {
      const text = await response.text();
      answered = true;
      return { status: response.status, text };
    });
    const waitsMs: number[] = [];
    while (!answered && performance.now() - fromMs < 50_000) {
      const beforeMs = performance.now();
      expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
      waitsMs.push(performance.now() - beforeMs);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    const { status, text } = await asked;
    expect(status).toBe(200);
    expect(windowsAnswer.parse(JSON.parse(text)).options.length).toBeGreaterThan(300);
    expect(waitsMs.length).toBeGreaterThan(5);
    // Reading the question's numbers is still done where it arrives: that is the longest wait there may be.
    expect(Math.max(...waitsMs)).toBeLessThan(1500);
  }, 60_000);

  test("answers a large board as the model itself does, and a faulty one with its issues", async () => {
    const large = board(20 * 24, [9, 15]);
    expect(boardSwathHours(large) * BOARD_DRAWS).toBeGreaterThan(LARGE_SWATH_HOURS);
    const response = await send(large);
    expect(response.headers.get("content-type")).toContain("application/json");
    const plain = answerWindows(large);
    expect(plain.ok).toBe(true);
    if (plain.ok) expect(await response.json()).toEqual(JSON.parse(JSON.stringify(plain.value)));
    const late = await send({ ...large, nowUtc: "2027-01-01T00:00:00Z" });
    expect(late.status).toBe(400);
    expect(errorSchema.parse(await late.json()).issues).toMatchObject([{ path: "nowUtc" }]);
  }, 60_000);
});

describe("which boards go to a thread", () => {
  test("large ones alone", async () => {
    const asked: object[] = [];
    const pool: Pool = {
      ask: async (question) => {
        asked.push(question);
        return { ok: false, issues: [] };
      },
    };
    const model = withLargeBoardsIn(pool, SILENT_MODEL);
    await model.findWindows(board(10 * 24, [9, 13, 17]));
    await model.findWindows({ ...board(20 * 24, [9, 13, 17]), draws: 0 });
    expect(asked).toEqual([]);
    await model.findWindows(board(20 * 24, [9, 13, 17]));
    expect(asked).toHaveLength(1);
  });
});

describe("threads that fail", () => {
  const entry = new URL("./failing-worker.mjs", import.meta.url);
  const pool = workerPool({ entry, threads: 1, mostWaiting: 2 });
  const model = { ...theModel, findWindows: (request: WindowsRequest) => pool.ask(request.field) };
  const app = fakeApp({ model });
  const askFor = (areaHa: number) => post(app, "/api/windows", { ...exampleWindows(), field: { areaHa } });

  test.each([
    ["dies", 13, "a worker ended with code 3"],
    ["throws", 14, "thrown on purpose"],
    ["says that it could not", 15, "said on purpose"],
  ])(
    "a thread that %s is a 500 in the one error shape, and the next request is answered",
    async (_how, areaHa, reason) => {
      const log = vi.spyOn(console, "error").mockImplementation(() => {});
      const response = await askFor(areaHa);
      expect(response.status).toBe(500);
      const body = errorSchema.parse(await response.json());
      expect(body.error).toBe("internal");
      expect(body.message).not.toContain(reason);
      expect(String(log.mock.calls[0]?.[0])).toContain(reason);
      log.mockRestore();
      const next = await askFor(12);
      expect([next.status, await next.json()]).toEqual([200, { areaHa: 12 }]);
    },
  );

  test("what waits behind a thread that dies is answered all the same", async () => {
    const log = vi.spyOn(console, "error").mockImplementation(() => {});
    const answers = await Promise.all([askFor(13), askFor(12)]);
    expect(answers.map(({ status }) => status)).toEqual([500, 200]);
    log.mockRestore();
  });

  test("a full queue turns the next question away in words, and answers those in it", async () => {
    const slow = workerPool({ entry, threads: 1, mostWaiting: 2 });
    const busyApp = fakeApp({
      model: { ...theModel, findWindows: () => slow.ask({ waitMs: 300 }) },
    });
    const all = await Promise.all([1, 2, 3, 4].map(() => post(busyApp, "/api/windows", exampleWindows())));
    expect(all.map(({ status }) => status)).toEqual([200, 200, 200, 503]);
    const refused = all[3] as Response;
    expect(refused.headers.get("retry-after")).toBe("60");
    expect(errorSchema.parse(await refused.json())).toMatchObject({ error: "busy" });
  });
});
