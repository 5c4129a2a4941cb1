// A worker that works without an end on a question that may take long, and answers any other at once.
import { parentPort } from "node:worker_threads";

parentPort.on("message", (question) => {
  while (question.timeLimitS === 120);
  const issues = [{ path: "", code: "told", message: "answered" }];
  parentPort.postMessage({ kind: "refused", issues });
});
