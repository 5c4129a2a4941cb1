import {
  type BuiltCrew,
  type CrewJob,
  type CrewRules,
  type PlanFault,
  planFaults,
  rulesOf,
} from "../../model/crew/index.ts";

/** What is said of held work: where it stands alone nothing is missing, and who does it was asked for. */
const HELD_CODES: readonly PlanFault["code"][] = [
  "window",
  "weather",
  "lag",
  "hours",
  "order",
  "duration",
  "travel",
];

/** Only work that has begun is past asking; work held for a later hour is looked at as any other. */
function beforeNow(rules: CrewRules, jobs: readonly CrewJob[], nowUtcMs: number): CrewRules {
  const begun = new Set(
    jobs.filter(({ startUtcMs }) => startUtcMs < nowUtcMs).map(({ fieldId, op }) => `${fieldId}/${op}`),
  );
  return { ...rules, isFixed: (fieldId, op) => begun.has(`${fieldId}/${op}`) && rules.isFixed(fieldId, op) };
}

const keyOf = ({ fieldId, op, code, text }: PlanFault) => `${fieldId}/${op}/${code}/${text}`;

/**
 * What speaks against a plan as it stands: all that makes it impossible, and of works that somebody holds at their hour
 * what the plan itself would not do there.
 */
export function allFaults(
  built: Pick<BuiltCrew, "nowUtcMs"> & Parameters<typeof rulesOf>[0],
  jobs: readonly CrewJob[],
): readonly PlanFault[] {
  const rules = rulesOf(built);
  return faultsUnder(rules, jobs, built.nowUtcMs);
}

/** The same under given rules. */
export function faultsUnder(
  rules: CrewRules,
  jobs: readonly CrewJob[],
  nowUtcMs: number,
): readonly PlanFault[] {
  const plain = planFaults(rules, jobs);
  const known = new Set(plain.map(keyOf));
  const held = planFaults(beforeNow(rules, jobs, nowUtcMs), jobs).filter(
    (fault) =>
      !known.has(keyOf(fault)) &&
      fault.op !== null &&
      rules.isFixed(fault.fieldId, fault.op) &&
      HELD_CODES.includes(fault.code),
  );
  return [...plain, ...held];
}
