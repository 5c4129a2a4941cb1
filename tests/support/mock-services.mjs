// Loaded before a server by NODE_OPTIONS, which its worker threads take over: they have no TypeScript loader at that moment,
// ask no weather service, and so get no mock.
import { isMainThread } from "node:worker_threads";
import { tsImport } from "tsx/esm/api";

if (isMainThread) await tsImport("./mock-services.ts", import.meta.url);
