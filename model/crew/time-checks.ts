import type { Issue } from "../limits.ts";
import { DAY_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { HeldWork, PlacedWork } from "./fixed-work.ts";
import { middleSlot } from "./grid.ts";
import { isGather } from "./keys.ts";
import type { CrewPlanRequest } from "./request.ts";
import { bandOfOp } from "./windows/band.ts";
import type { SlotFrame } from "./windows/runs.ts";

/** Whether the weather reaches as far as the question asks, forwards and back. */
export function checkTimes(
  request: CrewPlanRequest,
  fixed: readonly HeldWork[],
  nowUtcMs: number,
  weatherFrom: number,
  weatherTo: number,
): Issue[] {
  const issues: Issue[] = [];
  if (weatherTo <= weatherFrom) {
    const said = `one site's weather begins at ${utcLabel(weatherFrom)} and another's ends at ${utcLabel(weatherTo)}; the sites share no hours, and must share at least 24 h`;
    return [{ path: "sites", code: "outside-weather", message: `sites: ${said}` }];
  }
  const span = `${utcLabel(weatherFrom)} to ${utcLabel(weatherTo)}`;
  if (!(weatherTo - Math.max(nowUtcMs, weatherFrom) >= DAY_MS) || nowUtcMs < weatherFrom) {
    const got = request.nowUtc ? `got ${request.nowUtc}` : "absent, taken as the start of the weather";
    const path = request.nowUtc ? "nowUtc" : "sites";
    issues.push({
      path,
      code: "outside-weather",
      message: `${path}: ${got}; the weather that all sites share runs from ${span}, and at least 24 h of it must follow`,
    });
  }
  for (const { asked, path } of fixed) {
    if (Date.parse(asked.startUtc) < weatherTo) continue;
    const at = `${path}.startUtc`;
    issues.push({
      path: at,
      code: "outside-weather",
      message: `${at}: got ${asked.startUtc} for ${asked.op} of "${asked.fieldId}", must be before the weather that all sites share ends (${span})`,
    });
  }
  return issues;
}

/**
 * Mowings before the weather begins, of fields where something must follow whose hours hang on the mowing. Other work may
 * lie before the weather: it is kept as it was.
 */
export function beforeWeather(
  request: CrewPlanRequest,
  placed: readonly PlacedWork[],
  frame: SlotFrame,
  weatherFrom: number,
): Issue[] {
  return placed.flatMap(({ asked, path, start, end }): Issue[] => {
    const field = request.fields.find(({ id }) => id === asked.fieldId);
    const cutUtcMs = frame.startUtcMs + middleSlot(start, end) * frame.slotMs;
    if (field === undefined || asked.op !== "mow" || cutUtcMs >= weatherFrom) return [];
    const isHeld = (op: string) =>
      placed.some((one) => one.asked.fieldId === field.id && one.asked.op === op);
    const open = field.ops.filter((op) => op !== "mow" && bandOfOp(op, field) !== null && !isHeld(op));
    // Bales that are made need no drying any more.
    if (open.length === 0 || field.ops.some((op) => isGather(op) && isHeld(op))) return [];
    const at = `${path}.startUtc`;
    const text = `got ${asked.startUtc} for mow of "${field.id}", before the weather that all sites share begins (${utcLabel(weatherFrom)}); the hours of ${open.join(", ")} are reckoned from the mowing: give weather that reaches back to it, or take those works out of ops`;
    return [{ path: at, code: "before-weather", message: `${at}: ${text}` }];
  });
}
