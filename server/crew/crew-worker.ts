import { parentPort } from "node:worker_threads";
import type { CrewPlanRequest } from "../../model/crew/index.ts";
import type { WorkerReply } from "../workers/pool.ts";
import { crewPlanHere } from "./plan-here.ts";

/** The thread that works out crew plans: one question a message, one reply each, in order. */

async function replyTo(question: CrewPlanRequest): Promise<WorkerReply> {
  try {
    const answer = await crewPlanHere(question);
    if (!answer.ok) return { kind: "refused", issues: answer.issues };
    return { kind: "answered", json: new TextEncoder().encode(JSON.stringify(answer.value)) };
  } catch (error) {
    return { kind: "failed", reason: error instanceof Error ? (error.stack ?? error.message) : "unknown" };
  }
}

parentPort?.on("message", async (question: CrewPlanRequest) => {
  const reply = await replyTo(question);
  parentPort?.postMessage(reply, reply.kind === "answered" ? [reply.json.buffer] : []);
});
