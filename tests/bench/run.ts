import { existsSync, readdirSync, readFileSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { buildServer } from "../../server/prepare.mjs";
import { ROOT } from "../support/root.ts";
import { startServer } from "../support/server.ts";
import { crewTimes } from "./crew.ts";
import { interleaved, ms, sink, timingOf } from "./measure.ts";
import { pageTimes } from "./page.ts";
import { memberWorkers } from "./workers.ts";
import {
  exponentials,
  MEMBERS,
  memberCourses,
  oddsBoard,
  oneForecastBoard,
  oneForecastCourses,
} from "./workloads.ts";

const ROUNDS = 7;

function line(name: string, workload: string, result: string, aim: string) {
  console.log(`${name}\n  workload  ${workload}\n  measured  ${result}\n  aim       ${aim}\n`);
}

async function sweep() {
  const exps = exponentials();
  const courses = oneForecastCourses();
  const [expTiming, courseTiming] = await interleaved(ROUNDS, [exps.run, courses.run]);
  if (expTiming === undefined || courseTiming === undefined) return;
  const expNs = (expTiming.medianMs * 1e6) / exps.calls;
  const hourNs = (courseTiming.medianMs * 1e6) / courses.hours;
  line(
    "swath-hour against Math.exp",
    `${courses.hours} swath-hours (10 days x 10 cuts x 2 swaths to the end of 11 days), ${exps.calls} exps, in turn, ${ROUNDS} rounds`,
    `${hourNs.toFixed(0)} ns a swath-hour, ${expNs.toFixed(1)} ns an exp: ${(hourNs / expNs).toFixed(1)} exps (medians); courses ${ms(courseTiming)}`,
    "at most 40 exps",
  );
}

async function board() {
  const work = oneForecastBoard();
  const [timing] = await interleaved(ROUNDS, [work.run]);
  if (timing === undefined) return;
  line(
    "single-forecast board",
    `10 days x 10 cut hours x 2 treatments, 3 routes: ${work.options} options offered`,
    ms(timing),
    "under 60 ms",
  );
}

async function members() {
  const work = memberCourses();
  const [timing] = await interleaved(3, [work.run]);
  if (timing === undefined) return;
  line(
    "members, courses only",
    `${MEMBERS} members x 10 days x 10 cuts x 2 swaths: ${work.hours} swath-hours, one core`,
    ms(timing),
    "the full board with all routes under 1 s",
  );
}

async function odds() {
  const work = oddsBoard();
  const [timing] = await interleaved(3, [work.run]);
  if (timing === undefined) return;
  line(
    "full board with odds",
    `${MEMBERS} members with one draw each, ${work.options} options, 3 routes, one core`,
    ms(timing),
    "under 1 s",
  );
}

async function twoWorkers() {
  const work = memberCourses();
  const workers = memberWorkers(2);
  const before = loadavg()[0] ?? 0;
  const [one, two] = await interleaved(5, [work.run, workers.run]);
  await workers.stop();
  if (one === undefined || two === undefined) return;
  line(
    "two workers against one thread",
    `the same ${work.hours} swath-hours on one thread, then split over two worker threads by member, in turn, 5 rounds`,
    `${(one.minMs / two.minMs).toFixed(2)}x (minima), ${(one.medianMs / two.medianMs).toFixed(2)}x (medians); one ${ms(one)}; two ${ms(two)}; ${cpus().length} cores, load before ${before.toFixed(1)}`,
    "at least 1.7x on two idle cores: a load near 0 before",
  );
}

async function serverStart() {
  buildServer();
  const times: number[] = [];
  for (let round = 0; round < 3; round += 1) {
    const startMs = performance.now();
    const server = await startServer();
    const response = await fetch(`${server.url}/healthz`);
    sink.sum += response.status;
    times.push(performance.now() - startMs);
    await server.stop();
  }
  line(
    "server, warm start",
    "from starting Node to the first answer of /healthz",
    ms(timingOf(times)),
    "under 1 s",
  );
}

/** Scripts that the page's index.html names, and what they import before anything is drawn. */
function pageScript() {
  const dist = join(ROOT, "web", "dist");
  const index = join(dist, "index.html");
  if (!existsSync(index)) {
    console.log("page script\n  not built: run npm run build first\n");
    return;
  }
  const html = readFileSync(index, "utf8");
  const first = [...html.matchAll(/(?:src|href)="\/?([^"]+\.js)"/g)].flatMap(([, path]) => path ?? []);
  const gzipKb = (path: string) => gzipSync(readFileSync(join(dist, path))).length / 1000;
  const sum = (paths: readonly string[]) => paths.reduce((kb, path) => kb + gzipKb(path), 0);
  const kb = sum(first);
  const all = readdirSync(dist, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".js"));
  const worker = sum(all.filter((path) => /assets\/worker-/.test(path)));
  const course = sum(all.filter((path) => /assets\/CourseOfRow-/.test(path)));
  line(
    "page script, gzipped",
    `first view: ${first.join(", ")}; all: ${all.length} files`,
    `first view ${kb.toFixed(1)} kB, with the model's worker ${(kb + worker).toFixed(1)} kB; the course, which comes once the board is painted, ${course.toFixed(1)} kB more; all scripts ${sum(all).toFixed(1)} kB`,
    "under 180 kB in the first view, its worker counted",
  );
}

/** The built page in a real browser. */
async function page() {
  const times = await pageTimes();
  if (times === null) {
    console.log("page in a browser\n  no Chromium was found: not measured\n");
    return;
  }
  line(
    "page, first board",
    "390 px, cold load from the local server, CPU slowed 4 times, 9 loads, to the frame after the board",
    ms(times.firstBoard),
    "under 1.5 s",
  );
  line(
    "page, lever",
    `1280 px, soil, swath width, conditioning and tedding clicked in turn, ${times.rounds} times in all, to the frame after board and course are drawn`,
    `${ms(times.lever)}, worst ${times.leverWorstMs.toFixed(0)} ms`,
    "under 100 ms",
  );
}

async function crew() {
  for (const { name, workload, result, aim } of await crewTimes()) line(name, workload, result, aim);
}

await sweep();
await board();
await members();
await odds();
await twoWorkers();
await crew();
await serverStart();
pageScript();
await page();
console.log(`sink ${sink.sum.toFixed(3)}`);
