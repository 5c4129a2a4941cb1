// A worker that answers with what it was asked, or dies, or throws, as the question says.
import { parentPort } from "node:worker_threads";

parentPort.on("message", async (question) => {
  if (question.areaHa === 13) process.exit(3);
  if (question.areaHa === 14) throw new Error("thrown on purpose");
  if (question.areaHa === 15) {
    parentPort.postMessage({ kind: "failed", reason: "said on purpose" });
    return;
  }
  if (question.waitMs) await new Promise((resolve) => setTimeout(resolve, question.waitMs));
  parentPort.postMessage({ kind: "answered", json: new TextEncoder().encode(JSON.stringify(question)) });
});
