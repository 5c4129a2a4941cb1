import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

/**
 * One PostgreSQL for a whole run of the tests. Nothing is started here: the first test that asks for it does that, in
 * this folder; when the run is over it is ended by its process id.
 */

declare module "vitest" {
  interface ProvidedContext {
    readonly postgresFolder: string;
  }
}

let folder = "";

export function setup(project: TestProject): void {
  folder = mkdtempSync(join(tmpdir(), "swathclock-postgres-"));
  // A root user cannot run PostgreSQL: another one does, and must get in.
  chmodSync(folder, 0o755);
  project.provide("postgresFolder", folder);
}

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

async function end(pid: number): Promise<void> {
  // Interrupt: sessions are cut off and the server ends at once, in order.
  for (const [signal, waitMs] of [
    ["SIGINT", 4000],
    ["SIGKILL", 1000],
  ] as const) {
    if (!alive(pid)) return;
    process.kill(pid, signal);
    for (let ms = 0; ms < waitMs && alive(pid); ms += 50) await new Promise((go) => setTimeout(go, 50));
  }
}

export async function teardown(): Promise<void> {
  const pidFile = join(folder, "server", "data", "postmaster.pid");
  if (existsSync(pidFile)) {
    const pid = Number(readFileSync(pidFile, "utf8").split("\n")[0]);
    if (pid > 1) await end(pid);
  }
  rmSync(folder, { recursive: true, force: true });
}
