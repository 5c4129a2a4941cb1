import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ROOT } from "./root.ts";

export interface RunningServer {
  readonly url: string;
  /** Asks it to stop as Ctrl+C does; resolves to its exit code. */
  readonly stop: () => Promise<number | null>;
}

const START_LIMIT_MS = 60_000;

/** Starts the real server on a free loopback port and waits until it prints its address. */
export function startServer(env: Readonly<Record<string, string>> = {}): Promise<RunningServer> {
  // A book of its own: never the user's.
  const folder = mkdtempSync(join(tmpdir(), "swathclock-server-"));
  const child = spawn(process.execPath, ["server/dist/main.js"], {
    cwd: ROOT,
    env: {
      ...process.env,
      PORT: "0",
      HOST: "127.0.0.1",
      SWATHCLOCK_BOOK: join(folder, "book.sqlite"),
      DATABASE_URL: "",
      ...env,
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const ended = new Promise<number | null>((resolve) =>
    child.once("exit", (code) => {
      rmSync(folder, { recursive: true, force: true });
      resolve(code);
    }),
  );
  const stop = async () => {
    child.kill("SIGTERM");
    const timer = setTimeout(() => child.kill("SIGKILL"), 5000);
    const code = await ended;
    clearTimeout(timer);
    return code;
  };
  return new Promise((resolve, reject) => {
    let text = "";
    const timer = setTimeout(() => {
      child.kill("SIGKILL");
      reject(new Error(`the server did not start in ${START_LIMIT_MS} ms: ${text}`));
    }, START_LIMIT_MS);
    const read = (part: Buffer) => {
      text += part;
      const url = /is at (http:\/\/\S+?)\/ /.exec(text)?.[1];
      if (url === undefined) return;
      clearTimeout(timer);
      resolve({ url, stop });
    };
    child.stdout.on("data", read);
    child.stderr.on("data", (part: Buffer) => {
      text += part;
    });
    void ended.then((code) => {
      clearTimeout(timer);
      reject(new Error(`the server ended with code ${code}: ${text}`));
    });
  });
}
