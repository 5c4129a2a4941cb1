import { spawn } from "node:child_process";
import { ROOT } from "./root.ts";

export interface CliRun {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

const LIMIT_MS = 25_000;

/** Runs the real command line with this input, to its end. */
export function runCommand(words: readonly string[], input: string): Promise<CliRun> {
  const child = spawn(process.execPath, ["server/dist/cli.js", ...words], { cwd: ROOT });
  const timer = setTimeout(() => child.kill("SIGKILL"), LIMIT_MS);
  let stdout = "";
  let stderr = "";
  child.stdout.setEncoding("utf8").on("data", (part: string) => {
    stdout += part;
  });
  child.stderr.setEncoding("utf8").on("data", (part: string) => {
    stderr += part;
  });
  // A command that refuses before reading closes its input: that is not this test's failure.
  child.stdin.on("error", () => {});
  child.stdin.end(input);
  return new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("close", (code) => {
      clearTimeout(timer);
      resolve({ code, stdout, stderr });
    });
  });
}
