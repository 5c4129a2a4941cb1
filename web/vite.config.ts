import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname ?? "web",
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: { outDir: "dist", emptyOutDir: true, target: "es2022" },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:8787" } },
});
