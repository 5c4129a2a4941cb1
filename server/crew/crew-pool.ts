import type { AppModel } from "../app.ts";
import { threadFile } from "../place.ts";
import { type Pool, workerPool } from "../workers/pool.ts";

const THREADS = 1;
const MOST_WAITING = 4;

/** Threads for crew plans, apart from those of boards: a plan takes seconds. Nothing is started before the first. */
export function crewPool(): Pool {
  return workerPool({ entry: threadFile("crew"), threads: THREADS, mostWaiting: MOST_WAITING });
}

/** The model with its crew plans worked out in another thread. */
export function withCrewIn(pool: Pool, model: AppModel): AppModel {
  return { ...model, crewPlan: (request, signal) => pool.ask(request, signal) };
}
