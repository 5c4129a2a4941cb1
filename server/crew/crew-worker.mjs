// Node 20 gives a worker thread no loader of its main thread: register TypeScript here, then run the worker itself.
import { register } from "tsx/esm/api";

register();
await import("./crew-worker.ts");
