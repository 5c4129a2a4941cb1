// Called before `npm start` and `npm test`: installs and builds what is missing, and says so.
// Node built-ins only, because it runs before anything is installed. Compares contents, not file times:
// a fresh clone gives every file the same time.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const STAMP = "build-stamp.txt";
// Not server/: the page takes only types from it, and types leave nothing in the build.
const SOURCES = ["web", "model", "package-lock.json", "tsconfig.json"];

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

/** A fingerprint of everything the built page comes from. */
export function sourcesHash(folder, sources = SOURCES) {
  const hash = createHash("sha256");
  const add = (path) => {
    hash.update(path);
    hash.update(readFileSync(join(folder, path)));
  };
  const walk = (path) => {
    const entries = readdirSync(join(folder, path), { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const below = `${path}/${entry.name}`;
      if (below === "web/dist" || entry.name === "node_modules") continue;
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
  console.log(`swathclock: installing packages (${stale} is missing or not the locked version): npm ci`);
  const npm = process.env.npm_execpath;
  const [command, args] = npm ? [process.execPath, [npm, "ci"]] : ["npm", ["ci"]];
  if (withDevelopment) args.push("--include=dev");
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: "inherit",
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

function build() {
  const stamp = join(root, "web", "dist", STAMP);
  const hash = sourcesHash(root);
  const built = existsSync(stamp) && existsSync(join(root, "web", "dist", "index.html"));
  if (built && readFileSync(stamp, "utf8").trim() === hash) return;
  console.log(
    `swathclock: ${built ? "sources changed, building the page again" : "building the page"}: vite build`,
  );
  const vite = join(root, "node_modules", "vite", "bin", "vite.js");
  const args = [vite, "build", "--config", "web/vite.config.ts", "--logLevel", "warn"];
  const { status, error } = spawnSync(process.execPath, args, { cwd: root, stdio: "inherit" });
  if (error || status !== 0) stop("the page could not be built; the message above says where.");
  writeFileSync(stamp, `${hash}\n`);
}

function main(purpose) {
  if (!nodeIsNewEnough(process.versions.node)) {
    stop(
      `needs Node 20.19 or newer, this is Node ${process.versions.node}. Install a newer Node and try again.`,
    );
  }
  install(purpose === "test");
  build();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main(process.argv[2] ?? "start");
