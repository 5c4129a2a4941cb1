import { OPERATION_KINDS } from "../drying/keys.ts";
import { type Issue, limitIssue } from "../limits.ts";
import { ROUTES } from "./keys.ts";
import { HARVEST_COUNTS, HARVEST_LIMITS } from "./limits.ts";
import type { PlanStep } from "./request.ts";

const UTC_TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,9})?)?Z$/;

/** The issue for a text that is not a real UTC time, or null. */
export function timeIssue(path: string, value: string): Issue | null {
  const ms = UTC_TIME.test(value) ? Date.parse(value) : Number.NaN;
  // A day such as 30 February is rolled over by some engines and refused by others: the day must come back as given.
  if (Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === value.slice(0, 10)) return null;
  const message = `${path}: got ${JSON.stringify(value)}, must be a time in ISO 8601 UTC ending in Z, as 2026-07-01T15:00:00Z`;
  return { path, code: "bad-time", message };
}

function stepIssues(step: PlanStep, path: string): (Issue | null)[] {
  const issues: (Issue | null)[] = [];
  if (!OPERATION_KINDS.includes(step.kind)) {
    const message = `${path}.kind: got ${JSON.stringify(step.kind)}, must be one of ${OPERATION_KINDS.join(", ")}`;
    issues.push({ path: `${path}.kind`, code: "unknown-value", message });
  }
  if (step.coveredFraction !== undefined) {
    issues.push(limitIssue(`${path}.coveredFraction`, step.coveredFraction, HARVEST_LIMITS.coveredFraction));
  }
  for (const [i, route] of (step.routes ?? []).entries()) {
    if (ROUTES.includes(route)) continue;
    const message = `${path}.routes[${i}]: got ${JSON.stringify(route)}, must be one of ${ROUTES.join(", ")}`;
    issues.push({ path: `${path}.routes[${i}]`, code: "unknown-value", message });
  }
  if (step.rule === "morning-after") {
    const found = limitIssue(`${path}.hour`, step.hour, HARVEST_LIMITS.planHour);
    const whole = {
      path: `${path}.hour`,
      code: "not-whole",
      message: `${path}.hour: got ${step.hour}, must be a whole number`,
    };
    issues.push(found ?? (Number.isInteger(step.hour) ? null : whole));
  } else if (step.rule === "after-cut" || step.rule === "before-window") {
    issues.push(limitIssue(`${path}.hours`, step.hours, HARVEST_LIMITS.planHours));
  } else if (step.rule === undefined) {
    issues.push(timeIssue(`${path}.atUtc`, step.atUtc));
  } else {
    const { rule } = step as { readonly rule: string };
    const message = `${path}.rule: got ${JSON.stringify(rule)}, must be one of morning-after, after-cut, before-window`;
    issues.push({ path: `${path}.rule`, code: "unknown-value", message });
  }
  return issues;
}

/** Everything that is wrong with a plan. An empty plan is a plan: nothing is done. */
export function planIssues(plan: readonly PlanStep[], path: string): (Issue | null)[] {
  const most = HARVEST_COUNTS.planSteps;
  if (plan.length > most) {
    return [
      { path, code: "too-many", message: `${path}: got a list of ${plan.length}, must have at most ${most}` },
    ];
  }
  return plan.flatMap((step, i) => stepIssues(step, `${path}[${i}]`));
}
