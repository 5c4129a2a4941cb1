// Called before `npm start`, `npm test` and `npm run cli`: installs and builds what is missing, and says so.
// Node built-ins only, because it runs before anything is installed. Compares contents, not file times:
// a fresh clone gives every file the same time.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const STAMP = "build-stamp.txt";
/** Standard output is what a command answers, and nothing else. */
const OUT_OF_THE_ANSWER = ["inherit", process.stderr, "inherit"];
/** What is built, and from what. */
const PAGE = {
  what: "the page",
  with: ["node_modules/vite/bin/vite.js", "build", "--config", "web/vite.config.ts", "--logLevel", "warn"],
  dist: "web/dist",
  first: "index.html",
  // Not server/: the page takes only types from it, and types leave nothing in the build.
  sources: ["web", "model", "package-lock.json", "tsconfig.json"],
};
const SERVER = {
  what: "the server",
  with: ["server/build.mjs"],
  dist: "server/dist",
  first: "main.js",
  sources: ["server", "model", "package-lock.json", "tsconfig.json"],
};

function stop(message) {
  console.error(`\nswathclock: ${message}\n`);
  process.exit(1);
}

/** Node 20.19 is the oldest that Vite 8 runs on. */
export function nodeIsNewEnough(version) {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  return major > 20 || (major === 20 && minor >= 19);
}

function readJson(path) {
  try {
    return JSON.parse(readFileSync(path, "utf8"));
  } catch {
    return null;
  }
}

/**
 * The first package that node_modules lacks or has in another version than the lock, or null when all are there.
 * Optional packages are those of other platforms; development packages matter to the tests alone.
 */
export function firstStalePackage(lock, installed, withDevelopment) {
  if (!installed?.packages) return "node_modules";
  for (const [path, entry] of Object.entries(lock.packages)) {
    if (path === "" || entry.optional || entry.devOptional || (entry.dev && !withDevelopment)) continue;
    if (installed.packages[path]?.version !== entry.version) return `${path} ${entry.version}`;
  }
  return null;
}

/** A fingerprint of everything that a build comes from. */
export function sourcesHash(folder, sources = PAGE.sources) {
  const hash = createHash("sha256");
  const add = (path) => {
    hash.update(path);
    hash.update(readFileSync(join(folder, path)));
  };
  const walk = (path) => {
    const entries = readdirSync(join(folder, path), { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const below = `${path}/${entry.name}`;
      if (entry.name === "dist" || entry.name === "node_modules") continue;
      if (entry.isDirectory()) walk(below);
      else if (entry.isFile()) add(below);
    }
  };
  for (const source of sources) {
    if (!existsSync(join(folder, source))) continue;
    if (source.includes(".")) add(source);
    else walk(source);
  }
  return hash.digest("hex");
}

function install(withDevelopment) {
  const lock = readJson(join(root, "package-lock.json"));
  if (!lock) stop("package-lock.json is missing or not readable; restore it from the repository.");
  const installed = readJson(join(root, "node_modules", ".package-lock.json"));
  const stale = firstStalePackage(lock, installed, withDevelopment);
  if (stale === null) return;
  console.error(`swathclock: installing packages (${stale} is missing or not the locked version): npm ci`);
  const npm = process.env.npm_execpath;
  const [command, args] = npm ? [process.execPath, [npm, "ci"]] : ["npm", ["ci"]];
  if (withDevelopment) args.push("--include=dev");
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: OUT_OF_THE_ANSWER,
    shell: !npm && process.platform === "win32",
  });
  if (error || status !== 0) {
    stop(
      `the packages could not be installed (npm ci ${error ? error.message : `ended with code ${status}`}). ` +
        "The first start needs a package registry that npm can reach; after it, none is needed. " +
        "Check the network or npm's registry and proxy settings (npm config list), then start again.",
    );
  }
}

function build({ what, with: args, dist, first, sources }) {
  const stamp = join(root, dist, STAMP);
  const hash = sourcesHash(root, sources);
  const built = existsSync(stamp) && existsSync(join(root, dist, first));
  if (built && readFileSync(stamp, "utf8").trim() === hash) return;
  console.error(`swathclock: ${built ? `sources changed, building ${what} again` : `building ${what}`}`);
  const { status, error } = spawnSync(process.execPath, args, { cwd: root, stdio: OUT_OF_THE_ANSWER });
  if (error || status !== 0) stop(`${what} could not be built; the message above says where.`);
  writeFileSync(stamp, `${hash}\n`);
}

/** Builds the server and the command line where their sources changed since. */
export function buildServer() {
  build(SERVER);
}

function main(purpose) {
  if (!nodeIsNewEnough(process.versions.node)) {
    stop(
      `needs Node 20.19 or newer, this is Node ${process.versions.node}. Install a newer Node and try again.`,
    );
  }
  install(purpose === "test");
  buildServer();
  if (purpose !== "cli") build(PAGE);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main(process.argv[2] ?? "start");
