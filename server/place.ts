import { fileURLToPath } from "node:url";

/** The server runs from its TypeScript sources, or from what `build.mjs` made of them, which lies flat in server/dist. */
const FROM_SOURCES = import.meta.url.endsWith(".ts");

/** The root of the project. */
export const ROOT = fileURLToPath(new URL(FROM_SOURCES ? ".." : "../..", import.meta.url));

/** First file of each kind of thread, among the sources: plain JavaScript, since a thread starts without a TypeScript loader. */
const THREADS = {
  board: "./workers/worker.mjs",
  crew: "./crew/crew-worker.mjs",
  solver: "./crew/solver-worker.mjs",
} as const;

/** The file that a thread begins with. */
export function threadFile(kind: keyof typeof THREADS): URL {
  return new URL(FROM_SOURCES ? THREADS[kind] : `./${kind}-worker.js`, import.meta.url);
}
