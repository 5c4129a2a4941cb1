import { parentPort } from "node:worker_threads";
import { answerWindows, type WindowsRequest } from "../../model/harvest/index.ts";
import type { WorkerReply } from "./pool.ts";

/** The thread that works out large boards: one question a message, one reply each, in order. */

function replyTo(question: WindowsRequest): WorkerReply {
  try {
    const answer = answerWindows(question);
    if (!answer.ok) return { kind: "refused", issues: answer.issues };
    // Written as JSON here: a board of a year is many megabytes, and writing it would hold up the main thread again.
    return { kind: "answered", json: new TextEncoder().encode(JSON.stringify(answer.value)) };
  } catch (error) {
    return { kind: "failed", reason: error instanceof Error ? (error.stack ?? error.message) : "unknown" };
  }
}

parentPort?.on("message", (question: WindowsRequest) => {
  const reply = replyTo(question);
  parentPort?.postMessage(reply, reply.kind === "answered" ? [reply.json.buffer] : []);
});
