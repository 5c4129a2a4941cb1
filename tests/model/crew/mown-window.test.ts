import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type BuiltCrew, buildGrid, type CrewPlanRequest } from "../../../model/crew/index.ts";

const HOUR_MS = 3_600_000;
const file = new URL("../../../server/examples/crew-plan.json", import.meta.url);
const request: CrewPlanRequest = { ...JSON.parse(readFileSync(file, "utf8")), timeLimitS: 0 };

function builtOf(over: Partial<CrewPlanRequest> = {}): BuiltCrew {
  const built = buildGrid({ ...request, ...over });
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

const utc = (ms: number) => new Date(ms).toISOString().replace(".000Z", "Z");

/** The preferred windows of every work of a field after a mowing with its middle at a moment, in UTC. */
function windowsAfter({ grid }: BuiltCrew, fieldId: string, middleMs: number) {
  const at = (slot: number | undefined) =>
    slot === undefined || slot < 0 ? null : utc(grid.startUtcMs + slot * grid.slotMs);
  const q = (middleMs - grid.startUtcMs) / grid.slotMs;
  const field = grid.fields.find(({ id }) => id === fieldId);
  return field?.tasks.flatMap(({ op, ready, until }) =>
    ready === null ? [] : [[op, at(ready[q]), at(until?.[q])]],
  );
}

test("crop that is mown keeps the windows that its mowing hour was told, with their deadlines", () => {
  const before = builtOf();
  for (const field of request.fields) {
    for (const hour of ["2026-07-01T12:00:00Z", "2026-07-02T09:00:00Z", "2026-07-02T15:00:00Z"]) {
      const startMs = Date.parse(hour);
      const fixed = [
        {
          fieldId: field.id,
          op: "mow" as const,
          machineId: "mower-1",
          startUtc: hour,
          endUtc: utc(startMs + 2 * HOUR_MS),
        },
      ];
      const after = builtOf({ fixed, nowUtc: utc(startMs + 4 * HOUR_MS) });
      const told = windowsAfter(after, field.id, startMs + HOUR_MS);
      expect([field.id, told]).toEqual([field.id, windowsAfter(before, field.id, startMs + HOUR_MS)]);
    }
  }
});

test("nothing is gathered in a window that goes on through the rain", () => {
  const { grid, members } = builtOf();
  const field = grid.fields[0];
  const task = field?.tasks[field.gather];
  const need = Math.ceil(0.8 * (members[0]?.length ?? 0) - 1e-9);
  for (const [course, ready] of (task?.ready ?? []).entries()) {
    if (ready < 0) continue;
    const [from, to] = [ready, task?.until?.[course] ?? 0].map((slot) => grid.startUtcMs + slot * HOUR_MS);
    const spared = members[0]?.filter(({ weather }) => {
      const hour = (ms = 0) => Math.floor((ms - weather.startUtcMs) / HOUR_MS);
      // The last slot of a window may be one in which it begins to rain.
      return weather.rainMm.slice(hour(from), hour(to) - 1).every((mm) => mm === 0);
    });
    expect([course, (spared?.length ?? 0) >= need]).toEqual([course, true]);
  }
});
