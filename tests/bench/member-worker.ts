import { parentPort, workerData } from "node:worker_threads";
import { memberCourses } from "./workloads.ts";

/** Runs its part of the members at each message and answers with the sum of its courses. */
const { part, parts } = workerData as { part: number; parts: number };
const work = memberCourses(part, parts);
parentPort?.on("message", () => parentPort?.postMessage(work.run()));
