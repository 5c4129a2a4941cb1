import { median } from "simple-statistics";
import { MINUTE_MS } from "../clock.ts";
import type { ProblemList } from "../problems.ts";
import type { WallRow } from "./times.ts";
import type { UtcRow } from "./to-utc.ts";

/** Whether the rows of a file follow each other, and how far apart. */

const LONGEST_STEP_MIN = 60;

/** The usual time between rows, ms; null where rows are not in order or further apart than an hour. */
export function stepOf(rows: readonly WallRow[], problems: ProblemList): number | null {
  const steps = rows.slice(1, 4000).flatMap(({ wallMs }, i) => {
    const step = wallMs - (rows[i]?.wallMs ?? 0);
    return step > 0 ? [step] : [];
  });
  if (steps.length === 0) {
    problems.error("no-rows", "The file needs at least two rows with times in rising order");
    return null;
  }
  const step = median(steps);
  if (step <= LONGEST_STEP_MIN * MINUTE_MS && step >= MINUTE_MS / 2) return step;
  const minutes = step / MINUTE_MS;
  const every = minutes >= 1440 ? `${minutes / 1440} days` : `${minutes} min`;
  problems.error(
    "not-hourly",
    `The rows are ${every} apart; they must be an hour apart or less: drying is followed hour by hour`,
    { value: every, limit: "at most 60 min" },
  );
  return null;
}

/** Rows in rising order. A file that begins with the newest is turned round; single rows out of order are left out and told. */
export function inOrder(rows: readonly UtcRow[], problems: ProblemList): UtcRow[] {
  const out: UtcRow[] = [];
  let wrong = 0;
  for (const row of rows) {
    const before = out.at(-1);
    if (before === undefined || row.utcMs > before.utcMs) out.push(row);
    else {
      wrong += 1;
      const code = row.utcMs === before.utcMs ? "duplicate-time" : "not-increasing";
      const told =
        row.utcMs === before.utcMs ? `the same time as row ${before.row}` : `earlier than row ${before.row}`;
      problems.warn(code, `row ${row.row}: ${told}; left out`, { row: row.row, column: "time" });
    }
  }
  if (wrong > Math.max(5, rows.length * 0.02))
    problems.error(
      "not-increasing",
      `${wrong} of ${rows.length} rows do not come after the row before them: is the file of several stations, or of typical months of different years?`,
    );
  return out;
}
