import { fileURLToPath } from "node:url";
import { playwright } from "@vitest/browser-playwright";
import { defineConfig } from "vitest/config";
import { CHROMIUM_FLAGS, findChromium } from "./support/chromium.mjs";
import { runCommand } from "./support/cli.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
const oxc = { jsx: { runtime: "automatic", importSource: "preact" } } as const;
const elsewhere = ["tests/browser/**", "tests/page/**", "node_modules/**"];
/**
 * Tests that are run again where the machine's clock is in another zone: those about time itself, and one of each part
 * that days and hours of the farm pass through. That whole answers do not change, tests/house/any-zone.test.ts proves.
 */
const zoneSensitive = [
  "tests/house/time-zone.test.ts",
  "tests/model/weather/{canonical-csv,clock,csv-questions,join,labels,zone-doubts}.test.ts",
  "tests/model/weather/station/{half-hour-zone,nothing-guessed,sun-and-clock,ways-of-writing}.test.ts",
  "tests/model/harvest/{board,capacity,clock-changes,plan,standing}.test.ts",
  "tests/server/{app,bad-input}.test.ts",
  "tests/server/crew/export.test.ts",
  "tests/web/format/{farm-time,window-times}.test.ts",
  "tests/web/state/clock-text.test.ts",
];

const inZone = (name: string, zone: string, include: string[], more = {}) => ({
  root,
  oxc,
  // Both cores: one worker a core less one would leave half of a small machine idle.
  test: {
    name,
    root,
    include,
    exclude: elsewhere,
    // Modules are read once a worker, not once a file: no test leaves anything behind in them.
    isolate: false,
    env: { TZ: zone },
    testTimeout: 30_000,
    maxWorkers: 2,
    ...more,
  },
});

/** For tests in the browser: what the built command line prints for this request. */
async function commandLine(_context: unknown, verb: string, request: string): Promise<string> {
  const { code, stdout, stderr } = await runCommand([verb], request);
  if (code !== 0) throw new Error(`${verb}: ${stderr}`);
  return stdout;
}

export default defineConfig({
  root,
  test: {
    root,
    projects: [
      inZone("node", "UTC", ["tests/**/*.test.ts"], {
        globalSetup: ["tests/support/built-server.ts", "tests/support/book/postgres-run.ts"],
      }),
      inZone("zone-half-hour", "Asia/Kolkata", zoneSensitive),
      inZone("zone-west", "America/St_Johns", zoneSensitive),
      {
        root,
        oxc,
        optimizeDeps: {
          include: [
            "axe-core",
            "preact",
            "preact/hooks",
            "preact/jsx-runtime",
            "preact/jsx-dev-runtime",
            "chart.js",
            "chartjs-plugin-annotation",
            "axe-core",
            "idb-keyval",
            "papaparse",
            "suncalc",
            "simple-statistics",
            "tz-lookup",
            "date-fns",
            "@date-fns/tz",
          ],
        },
        test: {
          name: "browser",
          root,
          globalSetup: ["tests/support/built-server.ts"],
          include: ["tests/page/**/*.test.{ts,tsx}"],
          testTimeout: 30_000,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            commands: { commandLine },
            provider: playwright({
              launchOptions: { executablePath: findChromium() ?? "chromium", args: CHROMIUM_FLAGS },
            }),
            instances: [{ browser: "chromium" }],
          },
        },
      },
      {
        root,
        test: {
          name: "journey",
          root,
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: ["tests/support/built-server.ts", "tests/support/journey-server.ts"],
          // Each file shares its worker's browser with the next one; every page has a context of its own.
          isolate: false,
          maxWorkers: 2,
          // A slow or busy machine is no fault of the page: these only end what hangs.
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 20_000 } },
        },
      },
    ],
  },
});
