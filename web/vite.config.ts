import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const WORKER = "sw.js";
const MANIFEST = "manifest.webmanifest";
const ICON = "icon.svg";

/** The letters that every page needs; those of the extended set are fetched where a text has them. */
const LETTERS = /-latin-wght-normal-.*\.woff2$/;

/** The model is pure, and so are the libraries it counts with: what of them is not used stays out, whoever imports it by a room's face. */
const treeshake = {
  moduleSideEffects: [
    { test: /[\\/]model[\\/]/, sideEffects: false },
    {
      test: /[\\/]node_modules[\\/](papaparse|simple-statistics|suncalc|@date-fns|date-fns)[\\/]/,
      sideEffects: false,
    },
  ],
};

const manifest = {
  name: "Swathclock: when to cut",
  short_name: "Swathclock",
  description: "When to cut a forage crop, by which route to bring it in, and when the machines can work.",
  start_url: "./",
  scope: "./",
  display: "minimal-ui",
  background_color: "#f6f5ef",
  theme_color: "#f6f5ef",
  icons: [{ src: ICON, sizes: "any", type: "image/svg+xml", purpose: "any" }],
};

/** Fetched by itself once the board is painted, and the odds of the row with it. */
const AFTER_BOARD: ReadonlySet<string> = new Set([
  "CourseOfRow",
  "LeversOfRow",
  "Fields",
  "Foot",
  "RowOdds",
  "keep-told",
]);

/** Opened where the crop lies, often without a network: kept at a first visit too, though the page fetches them only when asked. */
const IN_FIELD: ReadonlySet<string> = new Set(["TakeReading", "read-reading", "MowingBegan"]);

type Bundle = Parameters<Extract<NonNullable<Plugin["generateBundle"]>, (...args: never) => unknown>>[1];

/**
 * The files that a first visit keeps: what the page imports to begin with, what it fetches by itself, its styles, letters
 * and worker, and what is opened in the field.
 */
function firstView(bundle: Bundle): string[] {
  const found = new Set<string>();
  const add = (name: string) => {
    const file = bundle[name];
    if (file === undefined || found.has(name)) return;
    found.add(name);
    if (file.type !== "chunk") return;
    for (const css of file.viteMetadata?.importedCss ?? []) found.add(css);
    file.imports.forEach(add);
  };
  for (const [name, file] of Object.entries(bundle)) {
    if (
      file.type === "chunk"
        ? file.name !== "sw" && (file.isEntry || AFTER_BOARD.has(file.name) || IN_FIELD.has(file.name))
        : isOfPage(name)
    )
      add(name);
  }
  return [...found].sort();
}

/** Page, manifest and icon, the letters that every page needs, and the worker of the board. */
function isOfPage(name: string): boolean {
  return !name.startsWith("assets/") || LETTERS.test(name) || /^assets\/(worker|icon)-/.test(name);
}

/** Tells the service worker what the built page consists of, and lets the page be put on a home screen. */
function shell(): Plugin {
  return {
    name: "shell",
    apply: "build",
    transformIndexHtml: (_html, { bundle }) => [
      { tag: "link", attrs: { rel: "manifest", href: `./${MANIFEST}` }, injectTo: "head" },
      // Ahead of the page's scripts, of which it waits for none.
      ...Object.values(bundle ?? {})
        .filter((file) => file.type === "chunk" && file.isEntry && file.name === "start")
        .map(({ fileName }) => ({
          tag: "script",
          attrs: { type: "module", async: true, crossorigin: true, src: `./${fileName}` },
          injectTo: "head-prepend" as const,
        })),
      // Else the letters are fetched only once text is laid out, and all of it is laid out again when they come.
      ...Object.keys(bundle ?? {})
        .filter((name) => LETTERS.test(name))
        .map((name) => ({
          tag: "link",
          attrs: { rel: "preload", href: `./${name}`, as: "font", type: "font/woff2", crossorigin: true },
          injectTo: "head" as const,
        })),
    ],
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        this.emitFile({ type: "asset", fileName: MANIFEST, source: JSON.stringify(manifest, null, 2) });
        this.emitFile({ type: "asset", fileName: ICON, source: readFileSync(here(ICON)) });
        const worker = bundle[WORKER];
        if (worker?.type !== "chunk") throw new Error(`${WORKER} was not built`);
        if (worker.imports.length > 0)
          throw new Error(`${WORKER} must stand alone, but imports ${worker.imports.join(", ")}`);
        const files = Object.keys(bundle)
          // The solver's engine is large and few ask for it: it is fetched when the crew plan is to be proved.
          .filter((name) => name !== WORKER && !name.endsWith(".map") && !name.endsWith(".wasm"))
          .sort();
        const first = firstView(bundle).filter((name) => files.includes(name));
        const hash = createHash("sha256");
        for (const name of files) {
          const file = bundle[name];
          if (file) hash.update(name).update(file.type === "chunk" ? file.code : file.source);
        }
        const version = hash.update(worker.code).digest("hex").slice(0, 12);
        worker.code = `const SHELL=${JSON.stringify({ version, files, first })};\n${worker.code}`;
      },
    },
  };
}

export default defineConfig({
  root: here("."),
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [shell()],
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    // Every asset is a file of its own, so that the server can forbid what stands inline.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      treeshake,
      input: { index: here("index.html"), start: here("start.ts"), sw: here("offline/sw.ts") },
      output: {
        // One script for all that the first view shares with other parts: a dozen small ones cost the browser more than
        // their bytes. What only folds share stays out of it: the first view would wait for it.
        codeSplitting: {
          groups: [{ name: "shared", tags: ["$initial"], minShareCount: 2 }],
        },
        entryFileNames: ({ name }) => (name === "sw" ? WORKER : "assets/[name]-[hash].js"),
      },
    },
  },
  worker: { format: "es", rolldownOptions: { treeshake } },
  server: { proxy: { "/api": "http://127.0.0.1:8787" } },
});
