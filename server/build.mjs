// Puts the server, the command line and their threads into a few plain files: reading hundreds of TypeScript ones would
// take longer than all else that a start does.
import { fileURLToPath } from "node:url";
import { build } from "vite";

const root = fileURLToPath(new URL("..", import.meta.url));

await build({
  configFile: false,
  root,
  publicDir: false,
  logLevel: "warn",
  build: {
    ssr: true,
    outDir: "server/dist",
    emptyOutDir: true,
    target: "node20",
    minify: false,
    rolldownOptions: {
      input: {
        main: "server/main.ts",
        cli: "server/cli.ts",
        "board-worker": "server/workers/board-worker.ts",
        "crew-worker": "server/crew/crew-worker.ts",
        "solver-worker": "server/crew/solver-worker.ts",
      },
      output: { entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js" },
    },
  },
  // Packages with parts that are not JavaScript stay where they are installed.
  ssr: { noExternal: true, external: ["libsql", "pg", "highs", "tsx"] },
});
