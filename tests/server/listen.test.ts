import { request } from "node:http";
import { afterAll, beforeAll, expect, test } from "vitest";
import { errorSchema } from "../../server/schemas/error.ts";
import { type RunningServer, startServer } from "../support/server.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await startServer();
});
afterAll(async () => {
  await server?.stop();
});

interface Upload {
  readonly status: number;
  readonly text: string;
  readonly sentBytes: number;
}

/** Sends up to 500 MB to the server, as fast as it takes them, until it answers. */
function upload(headers: Record<string, string>): Promise<Upload> {
  const part = Buffer.alloc(1024 * 1024, 32);
  return new Promise((resolve, reject) => {
    let sentBytes = 0;
    let answered = false;
    const outgoing = request(`${server.url}/api/drydown`, { method: "POST", headers }, (response) => {
      answered = true;
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (more: string) => {
        text += more;
      });
      response.on("end", () => {
        outgoing.destroy();
        resolve({ status: response.statusCode ?? 0, text, sentBytes });
      });
    });
    outgoing.on("error", (error) => {
      if (!answered) reject(error);
    });
    const send = () => {
      while (!answered && sentBytes < 500 * part.length) {
        sentBytes += part.length;
        if (!outgoing.write(part)) {
          outgoing.once("drain", send);
          return;
        }
      }
    };
    send();
  });
}

test("a real server answers on loopback", async () => {
  const response = await fetch(`${server.url}/healthz`);
  expect(response.status).toBe(200);
  expect(await response.json()).toMatchObject({ status: "ok" });
});

test.each([
  ["announced", { "content-length": String(500 * 1024 * 1024) }],
  ["unannounced", { "transfer-encoding": "chunked" }],
])(
  "an %s upload of 500 MB is cut off early with the limit named",
  {
    // The server drains a refused upload for half a second and then closes. A client held up for longer than that by
    // other work of the machine can find the connection reset before it has read the answer.
    retry: 2,
  },
  async (how, headers) => {
    const { status, text, sentBytes } = await upload(headers);
    expect(status).toBe(413);
    const { message } = errorSchema.parse(JSON.parse(text));
    expect(message).toContain("at most 16 MB");
    expect(message).toContain(how === "announced" ? "got 524288000 bytes" : "got more than 16 MB");
    expect(sentBytes).toBeLessThan(100 * 1024 * 1024);
    expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
  },
);

test("a port in use, a bad port and an open host without a key each stop the start with a reason", async () => {
  const port = new URL(server.url).port;
  await expect(startServer({ PORT: port })).rejects.toThrow(`port ${port} on 127.0.0.1 is in use`);
  const wrong = startServer({ PORT: "eighty", SWATHCLOCK_HOST: "0.0.0.0" });
  await expect(wrong).rejects.toThrow(/PORT: got "eighty".*set SWATHCLOCK_KEYS/s);
});

test("it stops cleanly when asked", async () => {
  expect(await server.stop()).toBe(0);
});
