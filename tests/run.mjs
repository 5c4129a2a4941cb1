// The one gate: types, lint, tests. Node built-ins only. The last line is "N passed, N failed, N skipped".
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { findChromium } from "./support/chromium.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const total = { passed: 0, failed: 0, skipped: 0 };
const failures = [];

/** Runs one Node program of node_modules to its end, or to its time limit; resolves to { code, text }. */
function run(program, args, { env = {}, limitS = 900, show = true } = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(root, "node_modules", program), ...args], {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ["ignore", show ? "inherit" : "pipe", show ? "inherit" : "pipe"],
    });
    let text = "";
    child.stdout?.on("data", (part) => (text += part));
    child.stderr?.on("data", (part) => (text += part));
    const timer = setTimeout(() => {
      text += `\nstopped after ${limitS} s`;
      if (show) console.log(`\n${program}: stopped after ${limitS} s`);
      child.kill("SIGKILL");
    }, limitS * 1000);
    child.on("close", (code) => {
      clearTimeout(timer);
      resolve({ code: code ?? 1, text });
    });
    child.on("error", (error) => {
      clearTimeout(timer);
      resolve({ code: 1, text: String(error) });
    });
  });
}

function fail(what) {
  total.failed += 1;
  failures.push(what);
}

function check(name, { code, text }) {
  if (code === 0) {
    total.passed += 1;
    console.log(`${name}: clean`);
    return;
  }
  fail(name);
  console.log(`${name}: FAILED\n${text}`);
}

/** The tests to look at first where the gate has become slow. */
function tellSlowest(files) {
  const all = files.flatMap(({ name, assertionResults }) =>
    assertionResults.map(({ title, duration }) => ({
      title,
      s: (duration ?? 0) / 1000,
      file: name.slice(root.length),
    })),
  );
  const slowest = all.sort((a, b) => b.s - a.s).slice(0, 6);
  console.log(
    slowest.map(({ s, file, title }) => `${s.toFixed(0).padStart(5)} s  ${file}: ${title}`).join("\n"),
  );
}

/** Adds one vitest run's counts. A file that could not be loaded, or an error outside any test, counts as one failure. */
async function tests(title, projects, env = {}) {
  console.log(`\n== ${title}`);
  const folder = mkdtempSync(join(tmpdir(), "swathclock-tests-"));
  const report = join(folder, "report.json");
  const args = ["run", "--config", "tests/vitest.config.ts", "--passWithNoTests"];
  args.push("--reporter=dot", "--reporter=json", `--outputFile.json=${report}`);
  for (const project of projects) args.push("--project", project);
  const { code } = await run("vitest/vitest.mjs", args, { env });
  const before = total.failed;
  if (existsSync(report)) {
    const counts = JSON.parse(readFileSync(report, "utf8"));
    tellSlowest(counts.testResults);
    total.passed += counts.numPassedTests;
    total.failed += counts.numFailedTests;
    total.skipped += counts.numPendingTests + counts.numTodoTests;
    if (counts.numFailedTests > 0) failures.push(`${title}: ${counts.numFailedTests} tests`);
    for (const file of counts.testResults) {
      const failedInside = file.assertionResults.some((one) => one.status === "failed");
      if (file.status === "failed" && !failedInside) fail(`${title}: ${file.name} did not load`);
    }
  }
  if (code !== 0 && total.failed === before) fail(`${title}: ended with code ${code}`);
  rmSync(folder, { recursive: true, force: true });
}

function countBrowserFiles() {
  let files = 0;
  for (const folder of ["tests/page", "tests/browser"]) {
    const path = join(root, folder);
    if (!existsSync(path)) continue;
    for (const name of readdirSync(path, { recursive: true })) if (/\.test\.tsx?$/.test(name)) files += 1;
  }
  return files;
}

const startedMs = Date.now();
const [types, lint] = await Promise.all([
  run("typescript/bin/tsc", [], { show: false }),
  run("@biomejs/biome/bin/biome", ["check", "--error-on-warnings", "."], { show: false }),
]);
check("types", types);
check("lint", lint);

await tests("model, server, command line, house (three time zones)", ["node", "zone-half-hour", "zone-west"]);

const chromium = findChromium();
if (chromium) {
  await tests("page in a real browser", ["browser"], { CHROMIUM: chromium });
  await tests("journeys through the served page", ["journey"], { CHROMIUM: chromium });
} else {
  const files = countBrowserFiles();
  const line = "!".repeat(78);
  console.log(`\n${line}\n!! NO CHROMIUM FOUND: the browser tests did NOT run (${files} test files).`);
  console.log(`!! Install Chromium, or set CHROMIUM to the path of one.\n${line}`);
  total.skipped += files;
  if (process.env.CI === "true") fail("browser tests did not run: no Chromium");
}

if (failures.length > 0) console.log(`\nFailed:\n${failures.map((one) => `  ${one}`).join("\n")}`);
console.log(`\n${((Date.now() - startedMs) / 1000).toFixed(0)} s`);
process.exitCode = total.failed > 0 ? 1 : 0;
console.log(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
