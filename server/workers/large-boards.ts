import { availableParallelism } from "node:os";
import { BOARD_DRAWS, type WindowsRequest } from "../../model/harvest/index.ts";
import type { AppModel } from "../app.ts";
import { threadFile } from "../place.ts";
import { boardSwathHours } from "../schemas/windows.ts";
import { type Pool, workerPool } from "./pool.ts";

/**
 * A board of fewer swath-hours than this, its draws counted, is answered where it arrives: it takes a tenth or two of a
 * second, of which sending it to a thread would save half. A single course never goes to a thread.
 */
export const LARGE_SWATH_HOURS = 200_000;

/** One core is left to the server itself. */
const THREADS = Math.max(1, Math.min(2, availableParallelism() - 1));
const MOST_WAITING = 8;

/** Swath-hours of a board: those of its odds count one for each draw. */
function swathHoursOf(request: WindowsRequest): number {
  const members = request.weather.members?.length ?? 0;
  const draws = request.draws === 0 ? 0 : members > 0 ? members : (request.draws ?? BOARD_DRAWS);
  return boardSwathHours(request) * (1 + draws);
}

/** The pool that the server uses. Nothing is started before the first large board. */
export function boardPool(): Pool {
  return workerPool({ entry: threadFile("board"), threads: THREADS, mostWaiting: MOST_WAITING });
}

/** The model with its large boards worked out in other threads, so that all else is answered meanwhile. */
export function withLargeBoardsIn(pool: Pool, model: AppModel): AppModel {
  return {
    ...model,
    findWindows: (request) =>
      swathHoursOf(request) < LARGE_SWATH_HOURS ? model.findWindows(request) : pool.ask(request),
  };
}
